#include "reader/image.h"

#include <gtest/gtest.h>

#include <cstdint>
#include <filesystem>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/file.h"
#include "made_exif.h"
#include "made_picture.h"
#include "support/temp_folder.h"

namespace counterfoil {
namespace {

constexpr Rgb kBlack{0, 0, 0}, kWhite{255, 255, 255}, kGrey{128, 128, 128};

int grey_at(const Picture& picture, int x, int y) {
  return picture.grey.pixels[static_cast<std::size_t>(y * picture.grey.width + x)];
}

// White, 60 x 40, with the top left quarter black and a grey stripe at the right edge: no two of its eight
// orientations look alike.
MadePicture lopsided() {
  MadePicture picture(60, 40);
  picture.fill(0, 0, 30, 20, kBlack);
  picture.fill(56, 0, 4, 40, kGrey);
  return picture;
}

void expect_lopsided(const Result<Picture>& picture, int tolerance) {
  ASSERT_TRUE(picture) << picture.error().message;
  EXPECT_EQ(picture->width, 60);
  EXPECT_EQ(picture->height, 40);
  ASSERT_EQ(picture->grey.width, 60);
  ASSERT_EQ(picture->grey.height, 40);
  ASSERT_EQ(picture->grey.pixels.size(), 2400U);
  EXPECT_NEAR(grey_at(*picture, 10, 10), 0, tolerance);
  EXPECT_NEAR(grey_at(*picture, 40, 10), 255, tolerance);
  EXPECT_NEAR(grey_at(*picture, 10, 30), 255, tolerance);
  EXPECT_NEAR(grey_at(*picture, 58, 5), 128, tolerance);
  EXPECT_NEAR(grey_at(*picture, 58, 35), 128, tolerance);
  EXPECT_EQ(picture->damage, "");
  EXPECT_EQ(picture->shrink, 1);
}

std::string without_options(const std::string& name) { return name.substr(0, name.find('[')); }

class Image : public ::testing::Test {
 protected:
  std::string file(const std::string& name) const { return folder_ / name; }
  Result<Picture> load(const std::string& name) const { return load_picture(file(name), Channel::luma); }
  CameraWords words(const std::string& name) const {
    const auto opened = open_picture(file(name));
    return opened ? (*opened)->words() : CameraWords{};
  }

  TempFolder folder_;
};

TEST_F(Image, EveryFormatGivesTheSamePicture) {
  const MadePicture picture = lopsided();
  for (const char* name : {"a.jpg[Q=95]", "b.png", "c.tif", "d.webp[lossless=true]", "e.png[interlace=true]",
                           "f.jpg[Q=95,interlace=true]", "g.tif[tile=true,compression=deflate]",
                           "h.png[palette=true]", "i.tif[bigtiff=true]"}) {
    SCOPED_TRACE(name);
    save(picture, file(name));
    expect_lopsided(load(without_options(name)), 12);
  }
}

TEST_F(Image, UnusualPixelsAreBroughtToGrey) {
  const MadePicture picture = lopsided();
  save(after(picture.image(), vips_colourspace, VIPS_INTERPRETATION_RGB16), file("16.png"));
  save(after(picture.image(), vips_colourspace, VIPS_INTERPRETATION_GREY16), file("grey16.tif"));
  save(after(picture.image(), vips_colourspace, VIPS_INTERPRETATION_CMYK), file("cmyk.jpg[Q=95]"));
  save(after(picture.image(), vips_colourspace, VIPS_INTERPRETATION_LAB), file("lab.tif"));
  save(after(picture.image(), vips_colourspace, VIPS_INTERPRETATION_scRGB), file("float.tif"));
  save(after(picture.image(), vips_addalpha), file("alpha.webp[lossless=true]"));
  for (const char* name : {"16.png", "grey16.tif", "cmyk.jpg", "lab.tif", "float.tif", "alpha.webp"}) {
    SCOPED_TRACE(name);
    expect_lopsided(load(name), 40);  // press black is lighter than black
  }
}

TEST_F(Image, OneBitTiffIsBlackAndWhite) {
  MadePicture picture(64, 40);
  picture.fill(0, 0, 30, 20, kBlack);
  save(after(picture.image(), vips_colourspace, VIPS_INTERPRETATION_B_W), file("bits.tif[bitdepth=1]"));
  const auto loaded = load("bits.tif");
  ASSERT_TRUE(loaded) << loaded.error().message;
  EXPECT_EQ(grey_at(*loaded, 10, 10), 0);
  EXPECT_EQ(grey_at(*loaded, 50, 30), 255);
  EXPECT_FALSE(loaded->colour);
}

TEST_F(Image, WhatIsTransparentBecomesWhite) {
  const MadePicture picture(30, 30, kBlack);
  VipsImage* clear = after(picture.image(), vips_addalpha);
  const double keep_colour_only[] = {1, 1, 1, 0}, add_nothing[] = {0, 0, 0, 0};
  VipsImage* out = nullptr;
  ASSERT_EQ(vips_linear(clear, &out, keep_colour_only, add_nothing, 4, "uchar", TRUE, nullptr), 0);
  g_object_unref(clear);
  save(out, file("clear.png"));
  const auto loaded = load("clear.png");
  ASSERT_TRUE(loaded) << loaded.error().message;
  EXPECT_EQ(grey_at(*loaded, 15, 15), 255);
}

TEST_F(Image, EveryOrientationComesOutUpright) {
  const MadePicture picture = lopsided();
  // What a camera writes for each orientation: the upright picture turned by the inverse. EXIF (CIPA DC-008)
  // orientations 1 to 8; 6 and 8 are each other's inverse, the rest their own.
  for (int orientation = 1; orientation <= 8; ++orientation) {
    SCOPED_TRACE(orientation);
    const int inverse = orientation == 6 ? 8 : orientation == 8 ? 6 : orientation;
    VipsImage* image = picture.image();
    switch (inverse) {
      case 2:
        image = after(image, vips_flip, VIPS_DIRECTION_HORIZONTAL);
        break;
      case 3:
        image = after(image, vips_rot, VIPS_ANGLE_D180);
        break;
      case 4:
        image = after(image, vips_flip, VIPS_DIRECTION_VERTICAL);
        break;
      case 5:
        image = after(after(image, vips_rot, VIPS_ANGLE_D90), vips_flip, VIPS_DIRECTION_HORIZONTAL);
        break;
      case 6:
        image = after(image, vips_rot, VIPS_ANGLE_D90);
        break;
      case 7:
        image = after(after(image, vips_rot, VIPS_ANGLE_D270), vips_flip, VIPS_DIRECTION_HORIZONTAL);
        break;
      case 8:
        image = after(image, vips_rot, VIPS_ANGLE_D270);
        break;
      default:
        break;
    }
    image = after(image, vips_copy);
    vips_image_set_int(image, VIPS_META_ORIENTATION, orientation);
    const std::string name = "turned" + std::to_string(orientation) + ".jpg";
    save(image, file(name + "[Q=95]"));
    expect_lopsided(load(name), 12);
  }
}

TEST_F(Image, ContentAndNotTheNameSaysWhatItIs) {
  save(lopsided(), file("a.png"));
  std::filesystem::rename(file("a.png"), file("a.jpg"));
  expect_lopsided(load("a.jpg"), 0);
}

TEST_F(Image, LightestChannelSeesThroughBrownOil) {
  save(MadePicture(30, 30, {200, 120, 40}), file("oil.png"));
  const auto luma = load("oil.png");
  const auto lightest = load_picture(file("oil.png"), Channel::lightest);
  ASSERT_TRUE(luma && lightest);
  EXPECT_TRUE(luma->colour);
  EXPECT_NEAR(grey_at(*luma, 5, 5), 0.299 * 200 + 0.587 * 120 + 0.114 * 40, 1);
  EXPECT_EQ(grey_at(*lightest, 5, 5), 200);
}

const Moment kMorning{2026, 11, 25, 9, 30, 15, 60};

std::string big_endian(std::uint32_t n) {
  return {static_cast<char>(n >> 24), static_cast<char>(n >> 16), static_cast<char>(n >> 8),
          static_cast<char>(n)};
}

// A chunk of a PNG from its name and data: length before, the CRC-32 of ISO 3309 behind.
std::string png_chunk(const std::string& name_and_data) {
  std::uint32_t crc = 0xFFFFFFFF;
  for (const char c : name_and_data) {
    crc ^= static_cast<std::uint8_t>(c);
    for (int i = 0; i < 8; ++i) crc = crc & 1 ? 0xEDB88320 ^ crc >> 1 : crc >> 1;
  }
  return big_endian(static_cast<std::uint32_t>(name_and_data.size() - 4)) + name_and_data + big_endian(~crc);
}

TEST_F(Image, CamerasWordsComeFromThePngChunk) {
  save(lopsided(), file("a.png"));
  std::string png = *read_file(file("a.png"), 1'000'000);
  MadeExif exif(false);
  exif.add_text(ExifDirectory::first, 0x0110, "T4");
  exif.add_text(ExifDirectory::exif, 0x9003, "2026:11:25 09:30:15");
  exif.add_text(ExifDirectory::exif, 0x9011, "+01:00");
  png.insert(33, png_chunk("eXIf" + exif.bytes()));  // behind signature and header
  const auto opened = open_picture_bytes(png);
  ASSERT_TRUE(opened) << opened.error().message;
  EXPECT_EQ((*opened)->words().taken, kMorning);
  EXPECT_EQ((*opened)->words().camera.model, "T4");
  expect_lopsided((*opened)->load(1, Channel::luma), 0);
}

TEST_F(Image, TimeComesFromExif) {
  const MadePicture picture = lopsided();
  for (const char* name : {"a.jpg", "b.webp"}) {
    VipsImage* image = after(picture.image(), vips_copy);
    vips_image_set_string(image, "exif-ifd2-DateTimeOriginal", "2026:11:25 09:30:15");
    vips_image_set_string(image, "exif-ifd2-OffsetTimeOriginal", "+01:00");
    save(image, file(name));
    const auto loaded = load(name);
    ASSERT_TRUE(loaded) << loaded.error().message;
    EXPECT_EQ(words(name).taken, kMorning) << name;
  }
  save(picture, file("none.jpg"));
  EXPECT_EQ(words("none.jpg").taken, std::nullopt);
}

std::string little_endian(std::size_t n, int bytes) {
  std::string out;
  for (int i = 0; i < bytes; ++i) out += static_cast<char>(n >> 8 * i & 0xFF);
  return out;
}

TEST_F(Image, TimeComesFromTheExifDirectoryOfATiff) {
  save(lopsided(), file("a.tif"));
  std::string tiff = *read_file(file("a.tif"), 1'000'000);
  ASSERT_TRUE(tiff.starts_with("II"));
  const auto number = [&](std::size_t at, int bytes) {
    std::size_t n = 0;
    for (int i = bytes; i-- > 0;)
      n = n << 8 | static_cast<std::uint8_t>(tiff[at + static_cast<std::size_t>(i)]);
    return n;
  };
  const auto text_entry = [](std::size_t tag, std::size_t count, std::size_t at) {
    return little_endian(tag, 2) + little_endian(2, 2) + little_endian(count, 4) + little_endian(at, 4);
  };
  // The first directory once more at the end of the file, with a pointer to an EXIF directory behind its
  // entries.
  const std::size_t old = number(4, 4), entries = number(old, 2), directory = tiff.size();
  const std::size_t exif = directory + 2 + 12 * (entries + 1) + 4, texts = exif + 2 + 24 + 4;
  tiff += little_endian(entries + 1, 2) + tiff.substr(old + 2, 12 * entries);
  tiff += little_endian(0x8769, 2) + little_endian(4, 2) + little_endian(1, 4) + little_endian(exif, 4);
  tiff += little_endian(0, 4) + little_endian(2, 2) + text_entry(0x9003, 20, texts);
  tiff += text_entry(0x9011, 7, texts + 20) + little_endian(0, 4);
  tiff += std::string("2026:11:25 09:30:15\0+01:00\0", 27);
  tiff.replace(4, 4, little_endian(directory, 4));
  const auto loaded = load_picture_bytes(tiff, Channel::luma);
  expect_lopsided(loaded, 0);
  EXPECT_EQ((*open_picture_bytes(tiff))->words().taken, kMorning);
}

TEST_F(Image, FirstFrameOfAnAnimationIsRead) {
  MadePicture frames(60, 80);
  frames.fill(0, 0, 30, 20, kBlack);
  frames.fill(56, 0, 4, 40, kGrey);
  VipsImage* image = after(frames.image(), vips_copy);
  vips_image_set_int(image, VIPS_META_PAGE_HEIGHT, 40);
  save(image, file("moving.webp[lossless=true]"));
  expect_lopsided(load("moving.webp"), 12);
}

void expect_unreadable(const Result<Picture>& picture, const std::string& part) {
  ASSERT_FALSE(picture);
  EXPECT_EQ(picture.error().kind, ErrorKind::unreadable);
  EXPECT_NE(picture.error().message.find(part), std::string::npos) << picture.error().message;
}

TEST_F(Image, WhatIsNoPictureSaysSo) {
  ASSERT_TRUE(write_file(file("text.jpg"), "a valve, removed at 09:30, Žďár"));
  ASSERT_TRUE(write_file(file("empty.jpg"), ""));
  ASSERT_TRUE(write_file(file("short.png"), "\x89PNG\r\n"));
  expect_unreadable(load("text.jpg"), "no picture");
  expect_unreadable(load("empty.jpg"), "no picture");
  expect_unreadable(load("short.png"), "no picture");
  expect_unreadable(load("missing.jpg"), "No such file");
  expect_unreadable(load_picture(folder_.path(), Channel::luma), "not a file");
  expect_unreadable(load_picture_bytes("", Channel::luma), "no picture");
}

TEST_F(Image, OtherFormatsAreNotTouched) {
  save(lopsided(), file("a.ppm"));
  save(lopsided(), file("a.v"));
  ASSERT_TRUE(write_file(file("a.svg"), "<svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'/>"));
  ASSERT_TRUE(write_file(file("a.gif"), std::string_view("GIF89a\1\0\1\0\0\0\0;", 14)));
  for (const char* name : {"a.ppm", "a.v", "a.svg", "a.gif"}) expect_unreadable(load(name), "no picture");
}

// libvips' loaders that may run, by the names of their classes.
std::set<std::string> loaders_not_blocked() {
  std::set<std::string> names;
  vips_class_map_all(
      g_type_from_name("VipsForeignLoad"),
      [](VipsObjectClass* object, void* to) -> void* {
        const bool blocked = (VIPS_OPERATION_CLASS(object)->flags & VIPS_OPERATION_BLOCKED) != 0;
        if (!blocked && !G_TYPE_IS_ABSTRACT(G_OBJECT_CLASS_TYPE(object)))
          static_cast<std::set<std::string>*>(to)->insert(G_OBJECT_CLASS_NAME(object));
        return nullptr;
      },
      &names);
  return names;
}

TEST_F(Image, OnlyTheLoadersThatAreMeantCanRun) {
  save(lopsided(), file("a.png"));
  ASSERT_TRUE(load("a.png"));  // starts the library
  const auto loaders = loaders_not_blocked();
  ASSERT_FALSE(loaders.empty());
  for (const auto& name : loaders) {
    const bool meant = name.starts_with("VipsForeignLoadJpeg") || name.starts_with("VipsForeignLoadPng") ||
                       name.starts_with("VipsForeignLoadTiff") || name.starts_with("VipsForeignLoadWebp");
    EXPECT_TRUE(meant) << name;
  }
  // The others are there and do not answer.
  ASSERT_TRUE(write_file(file("a.gif"), std::string_view("GIF89a\1\0\1\0\0\0\0;", 14)));
  VipsImage* image = nullptr;
  EXPECT_NE(vips_gifload(file("a.gif").c_str(), &image, nullptr), 0);
  EXPECT_NE(std::string(vips_error_buffer()).find("blocked"), std::string::npos) << vips_error_buffer();
  vips_error_clear();
}

TEST_F(Image, OtherFormatsUnderAPicturesNameAreRefused) {
  const std::pair<const char*, std::string> kOthers[] = {
      {"svg",
       "<svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'><rect width='9' height='9'/></svg>"},
      {"gif", std::string("GIF89a\1\0\1\0\0\0\0;", 14)},
      {"fits", "SIMPLE  =                    T" + std::string(2850, ' ')},
      {"ppm", "P5 1 1 255 x"},
      {"bmp", std::string("BM\x3A\0\0\0\0\0\0\0\x36\0\0\0", 14) + std::string(44, '\0')},
      {"jp2", std::string("\0\0\0\x0CjP  \r\n\x87\n", 12) + std::string(64, '\0')},
      {"avif", std::string("\0\0\0\x1C"
                           "ftypavif\0\0\0\0avifmif1miaf",
                           28)},
      {"mov", std::string("\0\0\0\x14"
                          "ftypqt  \0\0\0\0qt  ",
                          20)},
      {"ps", "%!PS-Adobe-3.0\nshowpage\n"}};
  for (const auto& [name, bytes] : kOthers) {
    SCOPED_TRACE(name);
    const std::string renamed = std::string(name) + ".jpg";
    ASSERT_TRUE(write_file(file(renamed), bytes));
    expect_unreadable(load(renamed), "no picture");
    EXPECT_FALSE(is_picture(file(renamed)));
  }
}

TEST_F(Image, PagesOfATiffAreLoadedOneByOne) {
  // Two pages one above the other; the second is all black.
  MadePicture pages(60, 80);
  pages.fill(0, 0, 30, 20, kBlack);
  pages.fill(56, 0, 4, 40, kGrey);
  pages.fill(0, 40, 60, 40, kBlack);
  VipsImage* image = after(pages.image(), vips_copy);
  vips_image_set_int(image, VIPS_META_PAGE_HEIGHT, 40);
  save(image, file("pages.tif[compression=deflate]"));
  const auto opened = open_picture(file("pages.tif"));
  ASSERT_TRUE(opened) << opened.error().message;
  EXPECT_EQ((*opened)->pages(), 2);
  expect_lopsided((*opened)->load(1, Channel::luma), 0);
  const auto second = (*opened)->load(2, Channel::luma);
  ASSERT_TRUE(second) << second.error().message;
  EXPECT_EQ(second->height, 40);
  EXPECT_EQ(grey_at(*second, 45, 30), 0);
  const auto third = (*opened)->load(3, Channel::luma);
  expect_unreadable(third, "page 3");
}

TEST_F(Image, PictureIsToldByItsContent) {
  save(lopsided(), file("a.png"));
  std::filesystem::rename(file("a.png"), file("a.txt"));
  EXPECT_TRUE(is_picture(file("a.txt")));
  ASSERT_TRUE(write_file(file("b.png"), "a list"));
  EXPECT_FALSE(is_picture(file("b.png")));
  EXPECT_FALSE(is_picture(file("absent.png")));
  EXPECT_FALSE(is_picture(folder_.path()));
}

TEST_F(Image, SignatureWithoutPictureIsUnreadable) {
  for (const std::string& head :
       {std::string("\xFF\xD8\xFF\xE0"), std::string("\x89PNG\r\n\x1A\n"), std::string("II\x2A\0", 4),
        std::string("MM\0\x2B", 4), std::string("RIFF\x20\0\0\0WEBP", 12)}) {
    const auto picture = load_picture_bytes(head + std::string(64, '\0'), Channel::luma);
    ASSERT_FALSE(picture);
    EXPECT_EQ(picture.error().kind, ErrorKind::unreadable);
  }
}

// A PNG of that size whose pixels never come.
std::string png_header(std::uint32_t width, std::uint32_t height, char interlace) {
  // A data chunk must begin for the header to count as read.
  return "\x89PNG\r\n\x1A\n" +
         png_chunk("IHDR" + big_endian(width) + big_endian(height) + std::string{8, 2, 0, 0, interlace}) +
         big_endian(4096) + "IDAT" + std::string(64, '\0');
}

TEST_F(Image, TooLargeIsRefusedFromTheHeader) {
  expect_unreadable(load_picture_bytes(png_header(100'000, 100'000, 0), Channel::luma), "10000 megapixels");
  // An interlaced one cannot be taken row by row.
  expect_unreadable(load_picture_bytes(png_header(15'000, 10'000, 1), Channel::luma), "150 megapixels");
}

TEST_F(Image, VeryLargePictureIsShrunkOnTheWay) {
  VipsImage* image = nullptr;
  ASSERT_EQ(vips_black(&image, 10'000, 8'000, nullptr), 0);
  save(after(image, vips_invert), file("large.png[compression=1]"));
  const auto loaded = load("large.png");
  ASSERT_TRUE(loaded) << loaded.error().message;
  EXPECT_EQ(loaded->width, 10'000);
  EXPECT_EQ(loaded->height, 8'000);
  EXPECT_EQ(loaded->shrink, 2);
  EXPECT_EQ(loaded->grey.width, 5'000);
  EXPECT_EQ(loaded->grey.height, 4'000);
  EXPECT_EQ(grey_at(*loaded, 4'999, 3'999), 255);
}

TEST_F(Image, TruncatedFileGivesWhatIsThereAndSaysSo) {
  MadePicture picture(400, 400, kGrey);
  picture.fill(0, 0, 400, 100, kBlack);
  for (int i = 0; i < 400; i += 2) picture.fill(i, i, 1, 1, kWhite);
  for (const char* name : {"a.jpg", "a.png", "a.tif[compression=deflate,tile=false]"}) {
    SCOPED_TRACE(name);
    save(picture, file(name));
    const std::string plain = without_options(name);
    std::filesystem::resize_file(file(plain), std::filesystem::file_size(file(plain)) / 2);
    const auto loaded = load(plain);
    if (!loaded) {  // a TIFF's directory may stand at the end
      EXPECT_EQ(loaded.error().kind, ErrorKind::unreadable);
      EXPECT_EQ(plain, "a.tif");
      continue;
    }
    EXPECT_NE(loaded->damage, "");
    EXPECT_EQ(loaded->grey.height, 400);
    EXPECT_NEAR(grey_at(*loaded, 200, 50), 0, 12);
  }
}

}  // namespace
}  // namespace counterfoil
