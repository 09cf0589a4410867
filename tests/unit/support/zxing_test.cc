#include "support/zxing.h"

#include <gtest/gtest.h>

#include "symbol/matrix.h"

namespace counterfoil {
namespace {

constexpr int kModule = 4, kBorder = 40, kBarHeight = 80;

// Of any height: rows of the code, or its one row all the way down.
template <typename IsDark>
GreyPicture picture_of(int columns, int height, IsDark is_dark) {
  const int width = columns * kModule + 2 * kBorder;
  GreyPicture out{width, height + 2 * kBorder, {}};
  out.pixels.assign(static_cast<std::size_t>(out.width) * static_cast<std::size_t>(out.height), 240);
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < columns * kModule; ++x) {
      if (is_dark(x / kModule, y / kModule))
        out.pixels[static_cast<std::size_t>((y + kBorder) * width + x + kBorder)] = 15;
    }
  }
  return out;
}

GreyPicture picture_of(const ForeignCode& code) {
  const bool bars = code.height == 1;
  return picture_of(code.width, bars ? kBarHeight : code.height * kModule,
                    [&](int x, int y) { return code.at(x, bars ? 0 : y); });
}

void expect_read(ForeignFormat format, const std::string& text, const std::string& holds) {
  const auto codes = plain_read(picture_of(foreign_code(format, text)), PlainSearch::any_format);
  ASSERT_EQ(codes.size(), 1u) << text;
  EXPECT_EQ(codes[0].text, holds);
}

TEST(Zxing, WhatItWritesItReads) {
  expect_read(ForeignFormat::code_128, "KVW-20417", "KVW-20417");
  expect_read(ForeignFormat::data_matrix, "KVW 20417", "KVW 20417");
}

// The brackets set the identifier off for the writer; the symbol holds none.
TEST(Zxing, Gs1ElementIsReadWithoutBrackets) {
  expect_read(ForeignFormat::gs1_128, "[01]12345678901231", "0112345678901231");
}

TEST(Zxing, BarsAreOneRowAndSquaresAsManyAsColumns) {
  EXPECT_EQ(foreign_code(ForeignFormat::code_128, "KVW-20417").height, 1);
  const auto squares = foreign_code(ForeignFormat::data_matrix, "KVW 20417");
  EXPECT_EQ(squares.height, squares.width);
}

TEST(Zxing, SearchForQrOnlyLeavesOtherSymbolsOut) {
  const auto bars = picture_of(foreign_code(ForeignFormat::code_128, "KVW-20417"));
  EXPECT_TRUE(plain_read(bars, PlainSearch::qr_only).empty());
  const auto symbol = *encode_symbol("KVW 20417", CorrectionLevel::medium);
  const auto picture =
      picture_of(symbol.modules, symbol.modules * kModule, [&](int x, int y) { return symbol.at(x, y); });
  const auto codes = plain_read(picture, PlainSearch::qr_only);
  ASSERT_EQ(codes.size(), 1u);
  EXPECT_EQ(codes[0].text, "KVW 20417");
  const double side = symbol.modules * kModule;
  EXPECT_NEAR(codes[0].corners[0].x, kBorder, 2);
  EXPECT_NEAR(codes[0].corners[2].y, kBorder + side, 2);
}

TEST(Zxing, EmptyPictureHasNoCodes) { EXPECT_TRUE(plain_read(GreyView(), PlainSearch::any_format).empty()); }

}  // namespace
}  // namespace counterfoil
