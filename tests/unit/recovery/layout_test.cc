#include "recovery/layout.h"

#include <gtest/gtest.h>

#include <random>

#include "recovery/reed_solomon.h"
#include "symbol/matrix.h"

namespace counterfoil {
namespace {

std::string random_text(std::mt19937& random, int length) {
  std::string text;
  for (int i = 0; i < length; ++i) text += static_cast<char>('a' + random() % 26);
  return text;
}

// The format that stands in a matrix, and that both copies agree on.
std::optional<SymbolFormat> format_in(const SymbolMatrix& symbol) {
  const Layout& layout = layout_of(symbol.version);
  for (const auto level : kSymbolLevels) {
    for (int mask = 0; mask < kMasks; ++mask) {
      const int word = format_word({level, mask});
      bool same = true;
      for (const auto& copy : layout.format)
        for (std::size_t i = 0; i < 15; ++i)
          same = same && symbol.dark[static_cast<std::size_t>(copy[i])] == (word >> (14 - i) & 1);
      if (same) return SymbolFormat{level, mask};
    }
  }
  return std::nullopt;
}

std::vector<std::uint8_t> codewords_in(const SymbolMatrix& symbol, int mask) {
  const Layout& layout = layout_of(symbol.version);
  std::vector<std::uint8_t> codewords(static_cast<std::size_t>(layout.codewords()));
  for (std::size_t i = 0; i < layout.bits.size(); ++i) {
    const int module = layout.bits[i];
    const bool bit = symbol.dark[static_cast<std::size_t>(module)] !=
                     mask_turns(mask, module % layout.modules, module / layout.modules);
    codewords[i / 8] = static_cast<std::uint8_t>(codewords[i / 8] << 1 | bit);
  }
  return codewords;
}

// ISO/IEC 18004:2015, 7.9 and annex C: level M, mask 101 is 100000011001110 after masking (from memory).
TEST(LayoutTest, FormatWordOfTheStandardsExample) {
  EXPECT_EQ(format_word({SymbolLevel::medium, 5}), 0b100000011001110);
}

// ISO/IEC 18004:2015, annex D: version 7 is 000111110010010100 (from memory).
TEST(LayoutTest, VersionWordOfTheStandardsExample) { EXPECT_EQ(version_word(7), 0b000111110010010100); }

// ISO/IEC 18004:2015, table 1 (from memory): codewords and remainder bits.
TEST(LayoutTest, CodewordsAreAsManyAsInTheStandard) {
  for (const auto& [version, codewords, remainder] : std::vector<std::array<int, 3>>{{1, 26, 0},
                                                                                     {2, 44, 7},
                                                                                     {3, 70, 7},
                                                                                     {7, 196, 0},
                                                                                     {10, 346, 0},
                                                                                     {14, 581, 3},
                                                                                     {21, 1156, 4},
                                                                                     {40, 3706, 0}}) {
    EXPECT_EQ(layout_of(version).codewords(), codewords) << version;
    EXPECT_EQ(layout_of(version).remainder.size(), static_cast<std::size_t>(remainder)) << version;
  }
}

TEST(LayoutTest, EveryVersionAndLevelIsTakenApartAndDrawnAgainAsTheEncoderDrewIt) {
  std::mt19937 random(1);
  for (int version = 1; version <= kMostVersion; ++version) {
    const Layout& layout = layout_of(version);
    for (const auto level : kSymbolLevels) {
      SCOPED_TRACE("version " + std::to_string(version) + ", level " +
                   std::to_string(static_cast<int>(level)));
      const BlockPlan& plan = blocks_of(version, level);
      // Filled to the brim, so that every codeword counts: mode and length take 12 or 20 bits.
      const int length = plan.data - (version < 10 ? 2 : 3);
      const auto symbol =
          encode_symbol(random_text(random, length), static_cast<CorrectionLevel>(level), version);
      ASSERT_TRUE(symbol);
      ASSERT_EQ(symbol->version, version);
      ASSERT_EQ(symbol->modules, layout.modules);
      for (std::size_t i = 0; i < layout.colour.size(); ++i)
        ASSERT_TRUE(layout.colour[i] == 0 || symbol->dark[i] == (layout.colour[i] > 0)) << "module " << i;
      const auto format = format_in(*symbol);
      ASSERT_TRUE(format);
      EXPECT_EQ(format->level, level);
      const auto codewords = codewords_in(*symbol, format->mask);
      int data = 0;
      for (const Block& block : plan.blocks) {
        data += block.data;
        std::vector<std::uint8_t> word;
        for (const int place : block.places) word.push_back(codewords[static_cast<std::size_t>(place)]);
        ASSERT_EQ(word.size(), static_cast<std::size_t>(block.data + block.parity));
        const auto parity =
            parity_of(std::span(word).first(static_cast<std::size_t>(block.data)), block.parity);
        ASSERT_TRUE(std::equal(parity.begin(), parity.end(), word.begin() + block.data));
      }
      EXPECT_EQ(data, plan.data);
      ASSERT_EQ(draw_symbol(version, *format, codewords), symbol->dark);
    }
  }
}

TEST(LayoutTest, EachModuleHasOneRole) {
  for (int version = 1; version <= kMostVersion; ++version) {
    const Layout& layout = layout_of(version);
    std::vector<int> roles(layout.colour.size());
    for (std::size_t i = 0; i < roles.size(); ++i) roles[i] = layout.colour[i] != 0;
    for (const int module : layout.bits) ++roles[static_cast<std::size_t>(module)];
    for (const int module : layout.remainder) ++roles[static_cast<std::size_t>(module)];
    for (const auto& copy : layout.format)
      for (const int module : copy) ++roles[static_cast<std::size_t>(module)];
    EXPECT_EQ(std::count(roles.begin(), roles.end(), 1), static_cast<std::ptrdiff_t>(roles.size()))
        << version;
  }
}

}  // namespace
}  // namespace counterfoil
