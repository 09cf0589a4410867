#include "reader/photo.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <set>
#include <string>

#include "base/file.h"
#include "made_picture.h"
#include "reader/passes.h"
#include "support/temp_folder.h"
#include "support/zxing.h"

namespace counterfoil {
namespace {

constexpr Rgb kPaper{235, 235, 230}, kInk{30, 30, 30};

bool is_ours(std::string_view text) { return text.starts_with("CF1:"); }

class PhotoTest : public ::testing::Test {
 protected:
  Photo read(const MadePicture& picture, bool any = false, const std::string& name = "a.png") const {
    save(picture, folder_ / name);
    return read_file(name.substr(0, name.find('[')), any);
  }
  Photo read_file(const std::string& name, bool any = false) const {
    auto photo = read_photo(folder_ / name, {is_ours, any});
    EXPECT_TRUE(photo) << photo.error().message;
    return photo ? *photo : Photo{};
  }
  static std::vector<std::string> texts(const Photo& photo) {
    std::vector<std::string> out;
    for (const auto& code : photo.codes) out.push_back(code.text);
    return out;
  }
  using Texts = std::vector<std::string>;

  TempFolder folder_;
};

void expect_corners(const PhotoCode& code, double left, double top, double side, double tolerance) {
  const PicturePoint expected[] = {
      {left, top}, {left + side, top}, {left + side, top + side}, {left, top + side}};
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(code.corners[i].x, expected[i].x, tolerance) << "corner " << i;
    EXPECT_NEAR(code.corners[i].y, expected[i].y, tolerance) << "corner " << i;
  }
}

TEST_F(PhotoTest, CornersAreTheOuterOnesOfTheSymbol) {
  MadePicture picture(500, 400, kPaper);
  const int side = picture.draw("CF1:7KWP-M4XE-3N", 120, 80, 6, kInk, kPaper);
  const Photo photo = read(picture);
  ASSERT_EQ(texts(photo), Texts{"CF1:7KWP-M4XE-3N"});
  EXPECT_EQ(photo.width, 500);
  EXPECT_EQ(photo.height, 400);
  EXPECT_EQ(photo.codes[0].symbology, "QR Code");
  EXPECT_EQ(photo.codes[0].pass, "plain");
  expect_corners(photo.codes[0], 120, 80, side, 1.5);
}

TEST_F(PhotoTest, CornersFollowTheTurnedSymbolAndTheUprightPicture) {
  MadePicture picture(500, 400, kPaper);
  const int side = picture.draw("CF1:7KWP-M4XE-3N", 120, 80, 6, kInk, kPaper);
  // The camera lay on its side, and says so: 6 is to be turned clockwise by a quarter.
  VipsImage* image = after(picture.image(), vips_copy);
  vips_image_set_int(image, VIPS_META_ORIENTATION, 6);
  save(image, folder_ / "a.jpg");
  const Photo photo = read_file("a.jpg");
  ASSERT_EQ(texts(photo), Texts{"CF1:7KWP-M4XE-3N"});
  EXPECT_EQ(photo.width, 400);
  // (x, y) has gone to (400 - y, x), and the symbol's own top left corner with it.
  const auto& corners = photo.codes[0].corners;
  EXPECT_NEAR(corners[0].x, 400 - 80, 1.5);
  EXPECT_NEAR(corners[0].y, 120, 1.5);
  EXPECT_NEAR(corners[2].x, 400 - 80 - side, 1.5);
  EXPECT_NEAR(corners[2].y, 120 + side, 1.5);
}

TEST_F(PhotoTest, SeveralTagsComeInReadingOrder) {
  MadePicture picture(900, 700, kPaper);
  picture.draw("CF1:LOWER-RIGHT", 600, 420, 5);
  picture.draw("CF1:UPPER-RIGHT", 600, 60, 5);
  picture.draw("CF1:LOWER-LEFT", 80, 400, 5);
  picture.draw("CF1:UPPER-LEFT", 80, 90, 5);  // a little lower than its neighbour
  EXPECT_EQ(texts(read(picture)),
            (Texts{"CF1:UPPER-LEFT", "CF1:UPPER-RIGHT", "CF1:LOWER-LEFT", "CF1:LOWER-RIGHT"}));
}

TEST_F(PhotoTest, OneTextAtTwoPlacesIsTwoTags) {
  MadePicture picture(900, 400, kPaper);
  picture.draw("CF1:7KWP-M4XE-3N", 100, 100, 5);
  picture.draw("CF1:7KWP-M4XE-3N", 600, 100, 5);
  EXPECT_EQ(texts(read(picture)), (Texts{"CF1:7KWP-M4XE-3N", "CF1:7KWP-M4XE-3N"}));
}

TEST_F(PhotoTest, GoodTagDoesNotHideAFaintOne) {
  MadePicture picture(900, 400, kPaper);
  picture.draw("CF1:GOOD", 100, 100, 6);
  const Photo good_only = read(picture);
  ASSERT_EQ(texts(good_only), Texts{"CF1:GOOD"});
  picture.draw("CF1:FAINT", 600, 100, 6, {225, 225, 220}, kPaper);
  const Photo photo = read(picture);
  ASSERT_EQ(texts(photo), (Texts{"CF1:GOOD", "CF1:FAINT"}));
  EXPECT_NE(photo.codes[1].pass, "plain");
}

TEST_F(PhotoTest, LightOnDarkIsRead) {
  MadePicture picture(500, 400, {20, 20, 25});
  const int side = picture.draw("CF1:7KWP-M4XE-3N", 120, 80, 6, {240, 240, 240}, {20, 20, 25});
  const Photo photo = read(picture);
  ASSERT_EQ(texts(photo), Texts{"CF1:7KWP-M4XE-3N"});
  expect_corners(photo.codes[0], 120, 80, side, 6);  // found in a reduced picture: within a module
}

TEST_F(PhotoTest, ForeignSymbolIsLeftOutAndDoesNotEndTheSearch) {
  MadePicture picture(900, 400, {90, 90, 90});
  picture.draw("https://example.org/pump", 80, 80, 6);
  picture.draw("CF1:7KWP-M4XE-3N", 560, 80, 6, {240, 240, 240}, {20, 20, 25});  // not seen by the first pass
  EXPECT_EQ(texts(read(picture)), Texts{"CF1:7KWP-M4XE-3N"});
  EXPECT_EQ(texts(read(picture, true)), (Texts{"https://example.org/pump", "CF1:7KWP-M4XE-3N"}));
}

TEST_F(PhotoTest, WithoutAWishEveryTextIsWanted) {
  MadePicture picture(400, 400, kPaper);
  picture.draw("https://example.org/pump", 80, 80, 6);
  save(picture, folder_ / "a.png");
  const auto photo = read_photo(folder_ / "a.png", {});
  ASSERT_TRUE(photo);
  EXPECT_EQ(texts(*photo), Texts{"https://example.org/pump"});
}

void draw_other(MadePicture& picture, ForeignFormat format, const std::string& text, int left, int top,
                int module) {
  const auto code = foreign_code(format, text);
  const int row_height = code.height == 1 ? 120 : module;
  for (int y = 0; y < code.height; ++y) {
    for (int x = 0; x < code.width; ++x) {
      if (code.at(x, y)) picture.fill(left + x * module, top + y * row_height, module, row_height, kInk);
    }
  }
}

TEST_F(PhotoTest, MakersSymbolsAreReadOnlyOnRequest) {
  MadePicture picture(900, 400, kPaper);
  draw_other(picture, ForeignFormat::code_128, "KVW-20417", 60, 100, 2);
  draw_other(picture, ForeignFormat::data_matrix, "KVW 20417", 600, 100, 10);
  EXPECT_EQ(texts(read(picture)), Texts{});
  const Photo photo = read(picture, true);
  ASSERT_EQ(texts(photo), (Texts{"KVW-20417", "KVW 20417"}));
  EXPECT_EQ(photo.codes[0].symbology, "Code 128");
  EXPECT_EQ(photo.codes[1].symbology, "Data Matrix");
}

TEST_F(PhotoTest, PictureWithoutSymbolHasNoCodes) {
  MadePicture picture(300, 200, kPaper);
  picture.fill(50, 50, 100, 60, kInk);
  EXPECT_EQ(texts(read(picture, true)), Texts{});
  EXPECT_EQ(texts(read(MadePicture(1, 1), true)), Texts{});
  EXPECT_EQ(texts(read(MadePicture(3, 900), true)), Texts{});
}

TEST_F(PhotoTest, TruncatedPhotoIsReadWhereItIsWhole) {
  MadePicture picture(600, 1200, kPaper);
  const int side = picture.draw("CF1:7KWP-M4XE-3N", 120, 80, 6, kInk, kPaper);
  save(picture, folder_ / "a.jpg");
  const auto size = std::filesystem::file_size(folder_ / "a.jpg");
  std::filesystem::resize_file(folder_ / "a.jpg", size * 9 / 10);
  const Photo photo = read_file("a.jpg");
  ASSERT_EQ(texts(photo), Texts{"CF1:7KWP-M4XE-3N"});
  expect_corners(photo.codes[0], 120, 80, side, 1.5);

  std::filesystem::resize_file(folder_ / "a.jpg", size / 4);  // ends within the symbol
  const auto broken = read_photo(folder_ / "a.jpg", {is_ours});
  ASSERT_FALSE(broken);
  EXPECT_EQ(broken.error().kind, ErrorKind::unreadable);
}

TEST_F(PhotoTest, CornersInAVeryLargePictureAreItsOwn) {
  VipsImage* ground = nullptr;
  ASSERT_EQ(vips_black(&ground, 10'000, 8'000, nullptr), 0);
  MadePicture tag(600, 600);
  const int side = tag.draw("CF1:7KWP-M4XE-3N", 100, 100, 12);
  VipsImage* grey = after(tag.image(), vips_colourspace, VIPS_INTERPRETATION_B_W);
  VipsImage* whole = nullptr;
  ASSERT_EQ(vips_insert(ground, grey, &whole, 8'000, 6'000, nullptr), 0);
  g_object_unref(ground);
  g_object_unref(grey);
  save(whole, folder_ / "a.png[compression=1]");
  const Photo photo = read_file("a.png");
  EXPECT_EQ(photo.width, 10'000);
  ASSERT_EQ(texts(photo), Texts{"CF1:7KWP-M4XE-3N"});
  expect_corners(photo.codes[0], 8'100, 6'100, side, 6);
}

TEST_F(PhotoTest, FileInMemoryReadsTheSame) {
  MadePicture picture(500, 400, kPaper);
  picture.draw("CF1:7KWP-M4XE-3N", 120, 80, 6);
  const Photo from_file = read(picture, false, "a.webp[lossless=true]");
  const auto photo = read_photo_bytes(*counterfoil::read_file(folder_ / "a.webp", 1'000'000), {is_ours});
  ASSERT_TRUE(photo) << photo.error().message;
  ASSERT_EQ(texts(*photo), Texts{"CF1:7KWP-M4XE-3N"});
  EXPECT_EQ(photo->codes[0].corners[0].x, from_file.codes[0].corners[0].x);
}

TEST(Passes, EachHasANameOfItsOwnAndTheCheapOnesComeFirst) {
  std::set<std::string_view> names;
  bool cheap = true;
  for (const Pass& pass : passes()) {
    EXPECT_TRUE(names.insert(pass.name).second) << pass.name;
    EXPECT_TRUE(cheap || !pass.cheap) << pass.name;
    cheap = pass.cheap;
  }
  EXPECT_EQ(passes().front().name, "plain");
}

// A tag as cameras and scanners keep it, in every form: 8 and 16 bits, grey, CMYK, palette, with alpha.
TEST_F(PhotoTest, TagIsReadFromEveryFormOfPixels) {
  MadePicture picture(400, 300, kPaper);
  picture.draw("CF1:7KWP-M4XE-3N", 80, 60, 6, kInk, kPaper);
  const auto in = [&](VipsInterpretation space) { return after(picture.image(), vips_colourspace, space); };
  save(in(VIPS_INTERPRETATION_RGB16), folder_ / "rgb16.png");
  save(in(VIPS_INTERPRETATION_RGB16), folder_ / "rgb16.tif");
  save(in(VIPS_INTERPRETATION_GREY16), folder_ / "grey16.png");
  save(in(VIPS_INTERPRETATION_GREY16), folder_ / "grey16.tif");
  save(in(VIPS_INTERPRETATION_B_W), folder_ / "grey.jpg");
  save(in(VIPS_INTERPRETATION_CMYK), folder_ / "cmyk.jpg");
  save(in(VIPS_INTERPRETATION_CMYK), folder_ / "cmyk.tif");
  save(after(in(VIPS_INTERPRETATION_B_W), vips_addalpha), folder_ / "grey-alpha.png");
  save(after(in(VIPS_INTERPRETATION_GREY16), vips_addalpha), folder_ / "grey16-alpha.png");
  save(after(picture.image(), vips_addalpha), folder_ / "alpha.tif");
  save(picture, folder_ / "palette.png[palette=true]");
  save(picture, folder_ / "lossy.webp");
  save(picture, folder_ / "jpeg-in.tif[compression=jpeg]");
  save(in(VIPS_INTERPRETATION_B_W), folder_ / "fax.tif[bitdepth=1,compression=ccittfax4]");
  for (const char* name : {"rgb16.png", "rgb16.tif", "grey16.png", "grey16.tif", "grey.jpg", "cmyk.jpg",
                           "cmyk.tif", "grey-alpha.png", "grey16-alpha.png", "alpha.tif", "palette.png",
                           "lossy.webp", "jpeg-in.tif", "fax.tif"}) {
    SCOPED_TRACE(name);
    EXPECT_EQ(texts(read_file(name)), Texts{"CF1:7KWP-M4XE-3N"});
  }
}

TEST_F(PhotoTest, TagIsReadInEveryOrientationAndTheCornersAreUpright) {
  MadePicture picture(400, 300, kPaper);
  picture.draw("CF1:7KWP-M4XE-3N", 80, 60, 6, kInk, kPaper);
  // Where the symbol's corner at (80, 60) comes to lie: EXIF (CIPA DC-008) orientations, from memory.
  const PicturePoint corner[] = {{80, 60}, {320, 60}, {320, 240}, {80, 240},
                                 {60, 80}, {240, 80}, {240, 320}, {60, 320}};
  for (int orientation = 1; orientation <= 8; ++orientation) {
    SCOPED_TRACE(orientation);
    VipsImage* image = after(picture.image(), vips_copy);
    vips_image_set_int(image, VIPS_META_ORIENTATION, orientation);
    save(image, folder_ / "turned.jpg");
    const Photo photo = read_file("turned.jpg");
    EXPECT_EQ(photo.width, orientation < 5 ? 400 : 300);
    ASSERT_EQ(texts(photo), Texts{"CF1:7KWP-M4XE-3N"});
    const auto& corners = photo.codes[0].corners;
    const PicturePoint at = corner[orientation - 1];
    EXPECT_TRUE(std::any_of(corners.begin(), corners.end(), [&](const PicturePoint& found) {
      return std::hypot(found.x - at.x, found.y - at.y) < 2;
    }));
  }
}

TEST_F(PhotoTest, PagesOfATiffComeInTheirOrder) {
  MadePicture pages(400, 600, kPaper);
  pages.draw("CF1:LOWER", 200, 120, 5, kInk, kPaper);
  pages.draw("CF1:UPPER", 20, 20, 5, kInk, kPaper);
  pages.draw("CF1:SECOND", 40, 330, 5, kInk, kPaper);
  VipsImage* image = after(pages.image(), vips_copy);
  vips_image_set_int(image, VIPS_META_PAGE_HEIGHT, 300);
  save(image, folder_ / "pages.tif");
  const Photo photo = read_file("pages.tif");
  EXPECT_EQ(photo.pages, 2);
  EXPECT_EQ(photo.height, 300);
  ASSERT_EQ(texts(photo), (Texts{"CF1:UPPER", "CF1:LOWER", "CF1:SECOND"}));
  EXPECT_EQ(photo.codes[1].page, 1);
  EXPECT_EQ(photo.codes[2].page, 2);
}

TEST_F(PhotoTest, TagOnAFileThatIsCutOffIsReadAndTheDamageTold) {
  MadePicture picture(400, 900, kPaper);
  picture.draw("CF1:7KWP-M4XE-3N", 80, 60, 6, kInk, kPaper);
  for (int i = 0; i < 400; i += 2) picture.fill(i, 500 + i % 300, 3, 9, {90, 80, 200});
  save(picture, folder_ / "cut.jpg");
  std::filesystem::resize_file(folder_ / "cut.jpg", std::filesystem::file_size(folder_ / "cut.jpg") * 3 / 4);
  const Photo photo = read_file("cut.jpg");
  EXPECT_EQ(texts(photo), Texts{"CF1:7KWP-M4XE-3N"});
  EXPECT_NE(photo.damage.find("cut.jpg can be read in part only: "), std::string::npos) << photo.damage;
}

}  // namespace
}  // namespace counterfoil
