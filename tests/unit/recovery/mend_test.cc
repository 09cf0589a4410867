#include "recovery/mend.h"

#include <gtest/gtest.h>

#include <cstdio>

#include "recovery/data_bits.h"
#include "recovery/layout.h"
#include "unit/recovery/made_sample.h"

namespace counterfoil {
namespace {

struct Shape {
  CorrectionLevel level;
  int version;
};
constexpr std::array<Shape, 6> kShapes{{{CorrectionLevel::medium, 1},
                                        {CorrectionLevel::high, 2},
                                        {CorrectionLevel::low, 1},
                                        {CorrectionLevel::quartile, 3},
                                        {CorrectionLevel::medium, 4},
                                        {CorrectionLevel::high, 7}}};

SymbolMatrix symbol_of(Random& random, Shape shape) {
  return *encode_symbol(tag_text(random), shape.level, shape.version);
}

TEST(MendTest, UndamagedSymbolsOfAllVersionsComeBackAsTheyWereDrawn) {
  Random random(1);
  for (int version = 1; version <= kMostVersion; ++version) {
    for (const auto level :
         {CorrectionLevel::low, CorrectionLevel::medium, CorrectionLevel::quartile, CorrectionLevel::high}) {
      if (version > 10 && (version + static_cast<int>(level)) % 4 != 0) continue;  // the others cost time
      const auto symbol = *encode_symbol("12345", level, version);
      const auto mended = mend_symbol(sample_of(symbol));
      ASSERT_TRUE(mended) << version;
      EXPECT_EQ(mended->dark, symbol.dark);
      EXPECT_EQ(static_cast<int>(mended->format.level), static_cast<int>(level));
      EXPECT_EQ(mended->errors, 0);
      EXPECT_FALSE(mended->mirrored);
      EXPECT_DOUBLE_EQ(mended->agreement, 1);
    }
  }
}

TEST(MendTest, MirroredSymbolIsMendedAndSaidToBe) {
  Random random(2);
  for (const Shape shape : kShapes) {
    const auto symbol = symbol_of(random, shape);
    const auto sample = sample_of(symbol);
    auto turned = sample;
    for (int y = 0; y < sample.modules; ++y)
      for (int x = 0; x < sample.modules; ++x)
        turned.darkness[static_cast<std::size_t>(x * sample.modules + y)] = sample.at(x, y);
    const auto mended = mend_symbol(turned);
    ASSERT_TRUE(mended);
    EXPECT_TRUE(mended->mirrored);
    EXPECT_EQ(mended->dark, symbol.dark);
  }
}

// A decoder of hard values corrects 14 codewords of a 2-H symbol that are wrong anywhere. Of 44 codewords 24 may be
// unknown: 160 bits are left to bear out the 118 of a text of 19 characters, 6 of the format and the 30 beyond.
TEST(MendTest, UnknownModulesCountHalfOfWrongOnes) {
  Random random(3);
  const auto symbol = symbol_of(random, {CorrectionLevel::high, 2});
  const Layout& layout = layout_of(2);
  for (const int unknown : {14, 20, 24, 25}) {
    auto sample = sample_of(symbol);
    for (int i = 0; i < unknown * 8; ++i)
      sample.darkness[static_cast<std::size_t>(layout.bits[static_cast<std::size_t>(i)])] = 0;
    const auto mended = mend_symbol(sample);
    ASSERT_EQ(mended.has_value(), unknown <= 24) << unknown;
    if (mended) {
      EXPECT_EQ(mended->dark, symbol.dark);
    }
  }
}

TEST(MendTest, FormatInformationThatIsGoneIsTriedOut) {
  Random random(4);
  int mended = 0;
  for (int trial = 0; trial < 40; ++trial) {
    const auto symbol = symbol_of(random, kShapes[1]);
    auto sample = sample_of(symbol);
    const Layout& layout = layout_of(symbol.version);
    for (std::size_t i = 0; i < 15; ++i) {
      sample.darkness[static_cast<std::size_t>(layout.format[0][i])] = 0;
      if (i % 3 == 0) sample.darkness[static_cast<std::size_t>(layout.format[1][i])] *= -0.5F;
    }
    const auto found = mend_symbol(sample);
    if (!found) continue;
    ++mended;
    EXPECT_EQ(found->dark, symbol.dark);
  }
  EXPECT_GE(mended, 38);
}

TEST(MendTest, WhatIsNoSampleOfASymbolGivesNothing) {
  EXPECT_FALSE(mend_symbol({}));
  EXPECT_FALSE(mend_symbol({21, std::vector<float>(440)}));
  EXPECT_FALSE(mend_symbol({22, std::vector<float>(484)}));
  EXPECT_FALSE(mend_symbol({181, std::vector<float>(181 * 181)}));
  EXPECT_FALSE(mend_symbol({-17, {}}));
  EXPECT_FALSE(mend_symbol({21, std::vector<float>(441, std::nanf(""))}));
  for (const float flat : {-1.0F, 0.0F, 1.0F}) EXPECT_FALSE(mend_symbol({25, std::vector<float>(625, flat)}));
}

// The shares are printed so that they can be seen; what is required of them leaves room for another seed.
TEST(MendTest, DamagedSymbolsAreMendedAndNeverIntoOthers) {
  Random random(5);
  const int count = trials(12);
  int wrong = 0;
  const auto row = [&](const char* what, double amount, const auto& damage) {
    std::printf("%-22s %4.2f:", what, amount);
    std::vector<double> shares;
    for (const Shape shape : kShapes) {
      int mended = 0;
      for (int trial = 0; trial < count; ++trial) {
        const auto symbol = symbol_of(random, shape);
        auto sample = sample_of(symbol);
        damage(sample, amount);
        const auto found = mend_symbol(sample);
        if (!found) continue;
        if (found->dark == symbol.dark)
          ++mended;
        else
          ++wrong;
      }
      shares.push_back(static_cast<double>(mended) / count);
      std::printf("  %d-%c %3.0f %%", shape.version, "LMQH"[static_cast<int>(shape.level)],
                  100 * shares.back());
    }
    std::printf("\n");
    return shares;
  };
  const auto errors = [&](SampledSymbol& sample, double share) { add_errors(sample, random, share); };
  const auto noise = [&](SampledSymbol& sample, double sigma) { add_noise(sample, random, sigma); };
  const auto unknown = [&](SampledSymbol& sample, double share) {
    cover(sample, random, share, [](int, int) { return 0.0; });
  };
  const auto light = [&](SampledSymbol& sample, double share) {
    cover(sample, random, share, [](int, int) { return -1.0; });
  };
  for (const double share : {0.01, 0.02, 0.04, 0.07, 0.10}) {
    const auto shares = row("modules wrong", share, errors);
    if (share == 0.02) {
      EXPECT_GT(shares[1], 0.95);
    }
  }
  for (const double sigma : {0.3, 0.4, 0.5}) row("noise", sigma, noise);
  for (const double share : {0.05, 0.1, 0.2, 0.3, 0.4}) {
    const auto shares = row("rectangle unknown", share, unknown);
    if (share == 0.2) {
      EXPECT_GT(shares[1], 0.9);
    }
  }
  for (const double share : {0.05, 0.1, 0.2}) row("rectangle blank", share, light);
  std::printf("%d symbols mended into others\n", wrong);
  EXPECT_EQ(wrong, 0);
}

// Finders, timing and format are as they should be, the rest is not of that symbol.
TEST(MendTest, PicturesThatAreNoSymbolGiveNone) {
  Random random(6);
  const int count = trials(500);
  int given = 0;
  for (int trial = 0; trial < count; ++trial) {
    const Shape shape = kShapes[static_cast<std::size_t>(trial) % kShapes.size()];
    const auto symbol = symbol_of(random, shape);
    const Layout& layout = layout_of(symbol.version);
    const int modules = symbol.modules;
    auto sample = trial % 5 < 2 ? random_grid(random, modules) : texture(random, modules);
    if (trial % 5 == 2) cover(sample, random, 4, stripes(random));
    if (trial % 5 == 3) cover(sample, random, 0.5, [](int, int) { return -1.0; });
    if (trial % 5 == 4) {  // another symbol, out of step
      const auto other = sample_of(symbol_of(random, shape));
      const int dx = 1 + below(random, modules - 1), dy = below(random, modules);
      for (int y = 0; y < modules; ++y)
        for (int x = 0; x < modules; ++x)
          sample.darkness[static_cast<std::size_t>(y * modules + x)] =
              other.at((x + dx) % modules, (y + dy) % modules);
    }
    if (trial % 7 != 0) {
      for (std::size_t i = 0; i < layout.colour.size(); ++i)
        if (layout.colour[i] != 0) sample.darkness[i] = layout.colour[i];
      for (const auto& copy : layout.format)
        for (const int module : copy)
          sample.darkness[static_cast<std::size_t>(module)] =
              symbol.dark[static_cast<std::size_t>(module)] ? 1 : -1;
    }
    if (mend_symbol(sample)) ++given;
  }
  std::printf("%d symbols out of %d pictures that are none\n", given, count);
  EXPECT_EQ(given, 0);
}

TEST(MendTest, SymbolUnderPartOfAnotherIsItselfOrTheOtherOrNone) {
  Random random(7);
  const int count = trials(500);
  int itself = 0, other_one = 0, none = 0, wrong = 0;
  for (int trial = 0; trial < count; ++trial) {
    const Shape shape = kShapes[static_cast<std::size_t>(trial) % kShapes.size()];
    const auto symbol = symbol_of(random, shape), other = symbol_of(random, shape);
    auto sample = sample_of(symbol);
    const bool in_step = trial % 2 == 0;
    const int dx = in_step ? 0 : below(random, 9), dy = in_step ? 0 : below(random, 9);
    cover(sample, random, unit(random), [&](int x, int y) {
      return other.at((x + dx) % other.modules, (y + dy) % other.modules) ? 1.0 : -1.0;
    });
    if (trial % 3 == 0) add_noise(sample, random, 0.3);
    const auto found = mend_symbol(sample);
    ++(!found ? none : found->dark == symbol.dark ? itself : found->dark == other.dark ? other_one : wrong);
  }
  std::printf("of %d symbols under part of another: %d itself, %d the other, %d none, %d neither\n", count,
              itself, other_one, none, wrong);
  EXPECT_EQ(wrong, 0);
  EXPECT_GT(itself, count / 20);
}

}  // namespace
}  // namespace counterfoil
