#include "reader/decode.h"

#include <gtest/gtest.h>

#include "support/zxing.h"
#include "symbol/matrix.h"

namespace counterfoil {
namespace {

constexpr int kLeft = 90, kTop = 60, kModule = 6;

GreyPicture paper(int width, int height) {
  return {width, height,
          std::vector<std::uint8_t>(static_cast<std::size_t>(width) * static_cast<std::size_t>(height), 235)};
}

void ink(GreyPicture& picture, int left, int top, int side) {
  for (int y = top; y < top + side; ++y) {
    for (int x = left; x < left + side; ++x)
      picture.pixels[static_cast<std::size_t>(y * picture.width + x)] = 20;
  }
}

SymbolMatrix matrix_of(std::string_view text) { return *encode_symbol(text, CorrectionLevel::quartile); }

GreyPicture photo_of(std::string_view text) {
  const auto matrix = matrix_of(text);
  GreyPicture picture = paper(400, 360);
  for (int y = 0; y < matrix.modules; ++y) {
    for (int x = 0; x < matrix.modules; ++x) {
      if (matrix.at(x, y)) ink(picture, kLeft + x * kModule, kTop + y * kModule, kModule);
    }
  }
  return picture;
}

GreyPicture other_symbol(ForeignFormat format, const std::string& text, int module) {
  const auto code = foreign_code(format, text);
  const int rows = code.height == 1 ? 120 / module : code.height;  // bars are drawn out to some length
  GreyPicture picture = paper(code.width * module + 120, rows * module + 120);
  for (int y = 0; y < rows; ++y) {
    for (int x = 0; x < code.width; ++x) {
      if (code.at(x, y % code.height)) ink(picture, 60 + x * module, 60 + y * module, module);
    }
  }
  return picture;
}

TEST(DecodeTest, SymbolHasTextNameAndCorners) {
  const auto codes = decode_symbols(photo_of("CF1.K74Q2M8X61.BAG1"), Tones::grey, Symbologies::qr);
  ASSERT_EQ(codes.size(), 1u);
  EXPECT_EQ(codes[0].text, "CF1.K74Q2M8X61.BAG1");
  EXPECT_EQ(codes[0].symbology, "QR Code");
  EXPECT_FALSE(codes[0].identified);
  const double side = matrix_of("CF1.K74Q2M8X61.BAG1").modules * kModule;
  const std::array<PicturePoint, 4> outer{
      {{kLeft, kTop}, {kLeft + side, kTop}, {kLeft + side, kTop + side}, {kLeft, kTop + side}}};
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(codes[0].corners[i].x, outer[i].x, 2) << i;
    EXPECT_NEAR(codes[0].corners[i].y, outer[i].y, 2) << i;
  }
}

TEST(DecodeTest, TextComesInUtf8) {
  const auto codes =
      decode_symbols(photo_of("V\u00e1lvula 7 \u2013 \u6c14\u9600"), Tones::grey, Symbologies::qr);
  ASSERT_EQ(codes.size(), 1u);
  EXPECT_EQ(codes[0].text, "V\u00e1lvula 7 \u2013 \u6c14\u9600");
}

TEST(DecodeTest, BlackAndWhiteIsReadAsItStands) {
  auto picture = photo_of("CF1.K74Q2M8X61.BAG1");
  for (auto& pixel : picture.pixels) pixel = pixel > 128 ? 255 : 0;
  EXPECT_EQ(decode_symbols(picture, Tones::black_and_white, Symbologies::qr).size(), 1u);
  // One threshold for all of the picture: what lies above it is white.
  for (auto& pixel : picture.pixels) pixel = pixel > 0 ? 255 : 200;
  EXPECT_EQ(decode_symbols(picture, Tones::black_and_white, Symbologies::qr).size(), 0u);
}

TEST(DecodeTest, OtherSymbologiesOnRequestOnly) {
  const auto bars = other_symbol(ForeignFormat::code_128, "KVW-20417", 2);
  const auto squares = other_symbol(ForeignFormat::data_matrix, "KVW 20417", 10);
  EXPECT_TRUE(decode_symbols(bars, Tones::grey, Symbologies::qr).empty());
  EXPECT_TRUE(decode_symbols(squares, Tones::grey, Symbologies::qr).empty());
  const auto read_bars = decode_symbols(bars, Tones::grey, Symbologies::any);
  ASSERT_EQ(read_bars.size(), 1u);
  EXPECT_EQ(read_bars[0].text, "KVW-20417");
  EXPECT_EQ(read_bars[0].symbology, "Code 128");
  const auto read_squares = decode_symbols(squares, Tones::grey, Symbologies::any);
  ASSERT_EQ(read_squares.size(), 1u);
  EXPECT_EQ(read_squares[0].text, "KVW 20417");
  EXPECT_EQ(read_squares[0].symbology, "Data Matrix");
}

// A GS1 element string: versions from 2.0 on would print it with brackets unless they are told not to.
TEST(DecodeTest, TextIsAsTheSymbolHoldsIt) {
  const auto bars = other_symbol(ForeignFormat::gs1_128, "[01]12345678901231", 3);
  const auto codes = decode_symbols(bars, Tones::grey, Symbologies::any);
  ASSERT_EQ(codes.size(), 1u);
  EXPECT_EQ(codes[0].text, "0112345678901231");
}

TEST(DecodeTest, NoPictureHasNoSymbols) {
  EXPECT_TRUE(decode_symbols(GreyView(), Tones::grey, Symbologies::any).empty());
  EXPECT_TRUE(decode_symbols(paper(1, 1), Tones::grey, Symbologies::any).empty());
  EXPECT_TRUE(decode_symbols(paper(300, 200), Tones::grey, Symbologies::any).empty());
}

TEST(DecodeTest, MatrixIsDecoded) {
  const auto matrix = matrix_of("CF1.K74Q2M8X61.BOX2");
  EXPECT_EQ(decode_matrix(matrix.dark, matrix.modules), "CF1.K74Q2M8X61.BOX2");
}

TEST(DecodeTest, MatrixThatIsNoSymbolIsNothing) {
  auto matrix = matrix_of("CF1.K74Q2M8X61.BOX2");
  const auto half = matrix.dark.size() / 2;
  for (std::size_t i = half; i < matrix.dark.size(); i += 2) matrix.dark[i] ^= 1;  // more than level Q mends
  EXPECT_EQ(decode_matrix(matrix.dark, matrix.modules), std::nullopt);
  EXPECT_EQ(decode_matrix(std::vector<std::uint8_t>(21 * 21, 0), 21), std::nullopt);
}

}  // namespace
}  // namespace counterfoil
