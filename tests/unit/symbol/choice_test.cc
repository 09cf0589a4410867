#include "symbol/choice.h"

#include <gtest/gtest.h>

namespace counterfoil {
namespace {

constexpr double kDpi = 203.2;  // 8 dots a mm
constexpr std::string_view kBare = "CF1.K74Q2M8X61.BAG1";
constexpr std::string_view kLink = "HTTPS://TAGS.EXAMPLE.COM/CF1/K74Q2M8X61/BAG1";  // 44 characters

TEST(SymbolChoice, NumberAloneIsVersion2AtTheHighestLevel) {
  const auto symbol = choose_symbol(kBare, 31, kDpi, 0.5);
  ASSERT_TRUE(symbol) << symbol.error().message;
  EXPECT_EQ(symbol->matrix.version, 2);
  EXPECT_EQ(symbol->matrix.level, CorrectionLevel::high);
  EXPECT_EQ(symbol->dots, 7);  // 248 dots over 33 modules
}

// Numbers of characters: ISO/IEC 18004:2015, table 7 (from memory): 2-L 47, 3-H 35, 4-H 50, 3-Q 47.
TEST(SymbolChoice, LinkGivesUpASeventhOfTheModuleForTheHighestLevel) {
  ASSERT_EQ(encode_strongest(kLink, 2)->level, CorrectionLevel::low);
  const auto symbol = choose_symbol(kLink, 31, kDpi, 0.5);
  ASSERT_TRUE(symbol) << symbol.error().message;
  EXPECT_EQ(symbol->matrix.version, 4);
  EXPECT_EQ(symbol->matrix.level, CorrectionLevel::high);
  EXPECT_EQ(symbol->dots, 6);  // 248 dots over 41 modules; 7 over 33
}

TEST(SymbolChoice, ModulesAreNotMadeSmallerThanTheLeast) {
  const auto symbol = choose_symbol(kLink, 17, kDpi, 0.5);  // 136 dots: 4 over 33 modules, 3 over 37
  ASSERT_TRUE(symbol) << symbol.error().message;
  EXPECT_EQ(symbol->matrix.version, 2);
  EXPECT_EQ(symbol->dots, 4);
  const auto small = choose_symbol(kLink, 16, kDpi, 0.5);
  ASSERT_FALSE(small);
  EXPECT_EQ(small.error().kind, ErrorKind::refused);
  EXPECT_FALSE(choose_symbol(kBare, 16, kDpi, 0.5));
  EXPECT_EQ(choose_symbol("", 31, kDpi, 0.5).error().kind, ErrorKind::malformed);
}

TEST(SymbolChoice, NoHigherLevelWouldHaveHadItsShareOfTheModule) {
  for (const double side : {17.0, 23.2, 31.0, 44.0}) {
    for (std::size_t length = 1; length <= 110; length += 3) {
      const std::string text(length, 'K');
      const auto symbol = choose_symbol(text, side, kDpi, 0.4);
      const auto coarse = encode_strongest(text, 2);
      const auto most = dots_per_module(coarse->modules, side, kDpi, 0.4);
      ASSERT_EQ(bool(symbol), bool(most)) << side << " " << length;
      if (!symbol) continue;
      EXPECT_GE(symbol->dots, 0.8 * *most) << side << " " << length;
      EXPECT_GE(symbol->matrix.level, coarse->level) << side << " " << length;
      for (int level = static_cast<int>(symbol->matrix.level) + 1; level < 4; ++level) {
        const auto stronger = encode_symbol(text, static_cast<CorrectionLevel>(level), 2);
        const auto dots = dots_per_module(stronger->modules, side, kDpi, 0.4);
        EXPECT_TRUE(!dots || *dots < 0.8 * *most) << side << " " << length << " level " << level;
      }
    }
  }
}

}  // namespace
}  // namespace counterfoil
