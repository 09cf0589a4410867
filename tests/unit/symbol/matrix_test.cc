#include "symbol/matrix.h"

#include <gtest/gtest.h>

#include <array>

namespace counterfoil {
namespace {

// A reader of version 1 symbols of the test's own, by the placement rules of ISO/IEC 18004:2015, 7.7 to 7.9
// (from memory): the codewords as they lie in the matrix, the mask taken off.
std::vector<int> codewords_of_version_1(const SymbolMatrix& symbol, int* level, int* mask) {
  int format = 0;  // bit 14 first
  for (int x = 0; x <= 5; ++x) format = format << 1 | symbol.at(x, 8);
  format = format << 1 | symbol.at(7, 8);
  format = format << 1 | symbol.at(8, 8);
  format = format << 1 | symbol.at(8, 7);
  for (int y = 5; y >= 0; --y) format = format << 1 | symbol.at(8, y);
  format ^= 0b101010000010010;
  *level = format >> 13;
  *mask = format >> 10 & 7;
  const auto inverted = [&](int i, int j) {  // row, column
    switch (*mask) {
      case 0:
        return (i + j) % 2 == 0;
      case 1:
        return i % 2 == 0;
      case 2:
        return j % 3 == 0;
      case 3:
        return (i + j) % 3 == 0;
      case 4:
        return (i / 2 + j / 3) % 2 == 0;
      case 5:
        return i * j % 2 + i * j % 3 == 0;
      case 6:
        return (i * j % 2 + i * j % 3) % 2 == 0;
      default:
        return ((i + j) % 2 + i * j % 3) % 2 == 0;
    }
  };
  const auto is_function = [](int x, int y) {
    return x == 6 || y == 6 || (x < 9 && y < 9) || (x > 12 && y < 9) || (x < 9 && y > 12);
  };
  std::vector<int> codewords;
  int bits = 0;
  bool upwards = true;
  for (int right = 20; right > 0; right -= 2, upwards = !upwards) {
    if (right == 6) right = 5;
    for (int step = 0; step < 21; ++step)
      for (const int x : {right, right - 1}) {
        const int y = upwards ? 20 - step : step;
        if (is_function(x, y)) continue;
        if (bits % 8 == 0) codewords.push_back(0);
        codewords.back() = codewords.back() << 1 | (symbol.at(x, y) != inverted(y, x));
        ++bits;
      }
  }
  return codewords;
}

TEST(Symbol, WorkedExampleOfTheStandardHasItsCodewords) {
  // ISO/IEC 18004, annex I: "01234567" in a version 1-M symbol (from memory).
  const std::vector<int> published = {0x10, 0x20, 0x0c, 0x56, 0x61, 0x80, 0xec, 0x11, 0xec,
                                      0x11, 0xec, 0x11, 0xec, 0x11, 0xec, 0x11, 0xa5, 0x24,
                                      0xd4, 0xc1, 0xed, 0x36, 0xc7, 0x87, 0x2c, 0x55};
  const auto symbol = encode_symbol("01234567", CorrectionLevel::medium);
  ASSERT_TRUE(symbol);
  ASSERT_EQ(symbol->version, 1);
  ASSERT_EQ(symbol->modules, 21);
  int level = -1, mask = -1;
  EXPECT_EQ(codewords_of_version_1(*symbol, &level, &mask), published);
  EXPECT_EQ(level, 0b00);  // M
}

TEST(Symbol, FinderPatternsStandInThreeCornersOnly) {
  const auto symbol = encode_symbol("CF1.K74Q2M8X61.BAG1", CorrectionLevel::high, 2);
  ASSERT_TRUE(symbol);
  const auto finder_at = [&](int left, int top) {
    for (int y = 0; y < 7; ++y)
      for (int x = 0; x < 7; ++x) {
        const int ring = std::max(std::abs(x - 3), std::abs(y - 3));
        if (symbol->at(left + x, top + y) != (ring != 2)) return false;
      }
    return true;
  };
  const int far = symbol->modules - 7;
  EXPECT_TRUE(finder_at(0, 0));
  EXPECT_TRUE(finder_at(far, 0));
  EXPECT_TRUE(finder_at(0, far));
  EXPECT_FALSE(finder_at(far, far));
}

TEST(Symbol, TwentyCharactersFitVersion2AtTheHighestLevel) {
  // ISO/IEC 18004:2015, table 7: version 2-H holds 20 alphanumeric characters.
  const auto twenty = encode_strongest("CF1.K74Q2M8X61.BAG12", 2);
  ASSERT_TRUE(twenty);
  EXPECT_EQ(twenty->version, 2);
  EXPECT_EQ(twenty->modules, 25);
  EXPECT_EQ(twenty->level, CorrectionLevel::high);
  const auto more = encode_strongest("CF1.K74Q2M8X61.BAG123", 2);
  ASSERT_TRUE(more);
  EXPECT_EQ(more->version, 2);
  EXPECT_EQ(more->level, CorrectionLevel::quartile);
}

TEST(Symbol, StrongestNeverTakesAModuleMoreThanTheWeakestLevel) {
  for (std::size_t length = 1; length <= 150; ++length) {
    const std::string text(length, 'K');
    const auto strongest = encode_strongest(text);
    const auto weakest = encode_symbol(text, CorrectionLevel::low);
    ASSERT_TRUE(strongest && weakest) << length;
    EXPECT_EQ(strongest->modules, weakest->modules) << length;
    if (strongest->level == CorrectionLevel::high) continue;
    const auto next = static_cast<CorrectionLevel>(static_cast<int>(strongest->level) + 1);
    const auto stronger = encode_symbol(text, next);
    ASSERT_TRUE(stronger) << length;
    EXPECT_GT(stronger->modules, weakest->modules) << length << ": a higher level would have cost nothing";
  }
}

TEST(Symbol, EmptyNulAndTooLongTextsAreRefused) {
  EXPECT_FALSE(encode_symbol("", CorrectionLevel::low));
  EXPECT_FALSE(encode_symbol(std::string_view("CF1\0.K", 6), CorrectionLevel::low));
  EXPECT_TRUE(encode_symbol(std::string(4296, 'K'), CorrectionLevel::low));  // table 7: version 40-L
  const auto long_one = encode_symbol(std::string(4297, 'K'), CorrectionLevel::low);
  ASSERT_FALSE(long_one);
  EXPECT_EQ(long_one.error().kind, ErrorKind::malformed);
  EXPECT_FALSE(encode_strongest(std::string(4297, 'K')));
}

TEST(ModuleSize, IsTheMostWholeDotsThatFitWithBothQuietZones) {
  // 25 modules and 8 of quiet zone; 203.2 dpi is 8 dots a mm. By hand.
  EXPECT_EQ(*dots_per_module(25, 33.0, 203.2, 0.5), 8);
  EXPECT_EQ(*dots_per_module(25, 32.999, 203.2, 0.5), 7);
  EXPECT_EQ(*dots_per_module(25, 31.0, 300, 0.5), 11);  // 11.095
  EXPECT_EQ(*dots_per_module(25, 31.0, 600, 0.5), 22);  // 22.19
}

TEST(ModuleSize, BelowTheLeastIsRefusedAndSaysBothSizes) {
  EXPECT_EQ(*dots_per_module(25, 16.5, 203.2, 0.5), 4);  // exactly 0.5 mm
  const auto small = dots_per_module(25, 16.4, 203.2, 0.5);
  ASSERT_FALSE(small);
  EXPECT_EQ(small.error().kind, ErrorKind::refused);
  EXPECT_NE(small.error().message.find("0.375 mm"), std::string::npos) << small.error().message;
  EXPECT_NE(small.error().message.find("0.5 mm is the least"), std::string::npos) << small.error().message;
  EXPECT_FALSE(dots_per_module(25, 1, 203.2, 0));
  EXPECT_FALSE(dots_per_module(25, -5, 203.2, 0.5));
}

// Common practice: never under 0.38 mm, whatever the slot says.
TEST(ModuleSize, Below0_38MillimetresIsRefusedAlways) {
  // 203.2 dpi: 3 dots are 0.375 mm. 600 dpi: 9 dots are 0.381 mm, 8 are 0.339 mm.
  const auto small = dots_per_module(25, 33 * 0.375, 203.2, 0.1);
  ASSERT_FALSE(small);
  EXPECT_NE(small.error().message.find("0.38 mm is the least"), std::string::npos) << small.error().message;
  EXPECT_EQ(*dots_per_module(25, 33 * 0.3811, 600, 0.1), 9);
  EXPECT_FALSE(dots_per_module(25, 33 * 0.3809, 600, 0.1));
}

}  // namespace
}  // namespace counterfoil
