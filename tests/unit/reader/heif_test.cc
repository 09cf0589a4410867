#include "reader/heif.h"

#include <gtest/gtest.h>

#include <string>

#include "made_exif.h"
#include "made_heif.h"
#include "made_picture.h"
#include "reader/photo.h"

namespace counterfoil {
namespace {

constexpr Rgb kBlack{0, 0, 0}, kPaper{235, 235, 230};

class HeifTest : public ::testing::Test {
 protected:
  void SetUp() override {
    if (!can_make_heif()) GTEST_SKIP() << "libheif has no HEVC encoder here";
  }
};

// 128 x 96 with a black top left quarter: the corner tells how it was turned.
MadePicture cornered() {
  MadePicture picture(128, 96);
  picture.fill(0, 0, 64, 48, kBlack);
  return picture;
}

int grey_at(const Picture& picture, int x, int y) {
  return picture.grey.pixels[static_cast<std::size_t>(y * picture.grey.width + x)];
}

TEST_F(HeifTest, PixelsOfEveryKindAreBroughtToGrey) {
  for (const auto kind : {HeifPixels::rgb, HeifPixels::grey, HeifPixels::ten_bits}) {
    for (const auto channel : {Channel::luma, Channel::lightest}) {
      const auto picture = load_picture_bytes(heif_of(cornered(), kind), channel);
      ASSERT_TRUE(picture) << picture.error().message;
      EXPECT_EQ(picture->width, 128);
      EXPECT_EQ(picture->height, 96);
      EXPECT_EQ(picture->colour, kind != HeifPixels::grey);
      EXPECT_EQ(picture->damage, "");
      EXPECT_NEAR(grey_at(*picture, 30, 20), 0, 12);
      EXPECT_NEAR(grey_at(*picture, 100, 20), 255, 12);
      EXPECT_NEAR(grey_at(*picture, 30, 80), 255, 12);
    }
  }
}

TEST_F(HeifTest, LightestChannelSeesThroughBrownOil) {
  const std::string bytes = heif_of(MadePicture(64, 64, {200, 120, 40}));
  const auto luma = load_picture_bytes(bytes, Channel::luma);
  const auto lightest = load_picture_bytes(bytes, Channel::lightest);
  ASSERT_TRUE(luma && lightest);
  EXPECT_NEAR(grey_at(*luma, 30, 30), 0.299 * 200 + 0.587 * 120 + 0.114 * 40, 5);
  EXPECT_NEAR(grey_at(*lightest, 30, 30), 200, 8);
}

TEST_F(HeifTest, TagIsReadInEveryOrientationWhichIsAppliedOnce) {
  MadePicture picture(400, 300, kPaper);
  picture.draw("CF1:7KWP-M4XE-3N", 80, 60, 6, kBlack, kPaper);
  for (int orientation = 1; orientation <= 8; ++orientation) {
    SCOPED_TRACE(orientation);
    // Cameras state it twice: by the file's own properties, and in EXIF.
    MadeExif exif;
    exif.add_short(ExifDirectory::first, 0x0112, static_cast<std::uint16_t>(orientation));
    const auto photo = read_photo_bytes(heif_of(picture, HeifPixels::rgb, exif.bytes(), orientation), {});
    ASSERT_TRUE(photo) << photo.error().message;
    EXPECT_EQ(photo->width, orientation < 5 ? 400 : 300);
    EXPECT_EQ(photo->height, orientation < 5 ? 300 : 400);
    ASSERT_EQ(photo->codes.size(), 1U);
    EXPECT_EQ(photo->codes[0].text, "CF1:7KWP-M4XE-3N");
  }
}

TEST_F(HeifTest, CornerGoesWhereTheOrientationSays) {
  // 6: to be turned clockwise by a quarter, so that the top left corner becomes the top right one. 3: by a half.
  const auto quarter = load_picture_bytes(heif_of(cornered(), HeifPixels::rgb, {}, 6), Channel::luma);
  ASSERT_TRUE(quarter);
  EXPECT_EQ(quarter->width, 96);
  EXPECT_NEAR(grey_at(*quarter, 80, 20), 0, 12);
  EXPECT_NEAR(grey_at(*quarter, 20, 20), 255, 12);
  const auto half = load_picture_bytes(heif_of(cornered(), HeifPixels::rgb, {}, 3), Channel::luma);
  ASSERT_TRUE(half);
  EXPECT_NEAR(grey_at(*half, 100, 80), 0, 12);
  EXPECT_NEAR(grey_at(*half, 20, 20), 255, 12);
}

TEST_F(HeifTest, CamerasWordsAreRead) {
  MadeExif exif;
  exif.add_text(ExifDirectory::first, 0x010F, "Brass Lens");
  exif.add_text(ExifDirectory::exif, 0x9003, "2026:11:25 09:30:15");
  exif.add_text(ExifDirectory::exif, 0x9011, "+01:00");
  exif.add_text(ExifDirectory::exif, 0x9291, "25");
  exif.add_position("N", {{49, 1}, {33, 1}, {0, 1}}, "E", {{15, 1}, {56, 1}, {0, 1}});
  const auto photo = read_photo_bytes(heif_of(cornered(), HeifPixels::rgb, exif.bytes()), {});
  ASSERT_TRUE(photo) << photo.error().message;
  EXPECT_EQ(photo->words.taken, (Moment{2026, 11, 25, 9, 30, 15, 60}));
  EXPECT_EQ(photo->words.milliseconds, 250);
  EXPECT_EQ(photo->words.camera.make, "Brass Lens");
  ASSERT_TRUE(photo->words.position);
  EXPECT_NEAR(photo->words.position->north, 49.55, 1e-9);
}

TEST_F(HeifTest, TruncatedOrGarbledFileIsUnreadableAndNothingWorse) {
  const std::string bytes = heif_of(cornered());
  for (std::size_t n = 0; n < bytes.size(); n += 41) {
    const auto picture = load_picture_bytes(bytes.substr(0, n), Channel::luma);
    if (!picture) {
      EXPECT_EQ(picture.error().kind, ErrorKind::unreadable) << n;
    }
  }
  EXPECT_FALSE(load_picture_bytes(bytes.substr(0, bytes.size() / 2), Channel::luma));
  const auto garbage = load_picture_bytes(bytes.substr(0, 32) + std::string(4000, '\x5A'), Channel::luma);
  ASSERT_FALSE(garbage);
  EXPECT_EQ(garbage.error().kind, ErrorKind::unreadable);
}

TEST_F(HeifTest, OtherCodingUnderItsNameDoesNotReachADecoder) {
  std::string bytes = heif_of(cornered());
  const auto item = bytes.find("hvc1");
  ASSERT_NE(item, std::string::npos);
  bytes.replace(item, 4, "av01");
  const auto picture = load_picture_bytes(bytes, Channel::luma);
  ASSERT_FALSE(picture);
  EXPECT_NE(picture.error().message.find("AVIF"), std::string::npos) << picture.error().message;
}

// The image's spatial extents (ispe), which follow the box's name and four bytes of version and flags.
std::string with_declared_size(std::string bytes, std::uint32_t width, std::uint32_t height) {
  for (auto at = bytes.find("ispe"); at != std::string::npos; at = bytes.find("ispe", at + 1)) {
    for (std::size_t i = 0; i < 4; ++i) {
      bytes[at + 8 + i] = static_cast<char>(width >> (24 - 8 * i));
      bytes[at + 12 + i] = static_cast<char>(height >> (24 - 8 * i));
    }
  }
  return bytes;
}

TEST_F(HeifTest, TooLargeIsRefusedFromTheHeader) {
  const std::string bytes = heif_of(cornered());
  ASSERT_TRUE(load_picture_bytes(with_declared_size(bytes, 128, 96), Channel::luma));
  const auto large = load_picture_bytes(with_declared_size(bytes, 20'000, 10'000), Channel::luma);
  ASSERT_FALSE(large);
  EXPECT_NE(large.error().message.find("200 megapixels"), std::string::npos) << large.error().message;
  EXPECT_FALSE(load_picture_bytes(with_declared_size(bytes, 0xFFFFFFFF, 0xFFFFFFFF), Channel::luma));
  EXPECT_FALSE(load_picture_bytes(with_declared_size(bytes, 0, 0), Channel::luma));
}

}  // namespace
}  // namespace counterfoil
