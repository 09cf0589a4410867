#include "recovery/soft_symbol.h"

#include <gtest/gtest.h>

#include "unit/recovery/made_sample.h"

namespace counterfoil {
namespace {

SampledSymbol drawn(int version, SymbolFormat format) {
  const std::vector<std::uint8_t> codewords(static_cast<std::size_t>(layout_of(version).codewords()));
  SampledSymbol sample{layout_of(version).modules, {}};
  for (const auto dark : draw_symbol(version, format, codewords))
    sample.darkness.push_back(dark ? 1.0F : -1.0F);
  return sample;
}

TEST(SoftSymbolTest, FormatIsFoundWithOneCopyGoneAndThreeModulesOfTheOtherWrong) {
  Random random(1);
  for (const auto level : kSymbolLevels) {
    for (int mask = 0; mask < kMasks; ++mask) {
      auto sample = drawn(2, {level, mask});
      ASSERT_EQ(likely_formats(sample, 8).front().format, (SymbolFormat{level, mask}));
      EXPECT_DOUBLE_EQ(likely_formats(sample, 8).front().score, 1);
      const auto& copies = layout_of(2).format;
      for (const int module : copies[0]) sample.darkness[static_cast<std::size_t>(module)] = 0;
      for (const std::size_t i : {1U, 7U, 12U}) {
        auto& value = sample.darkness[static_cast<std::size_t>(copies[1][i])];
        value *= -0.5F;
      }
      ASSERT_EQ(likely_formats(sample, 8).front().format, (SymbolFormat{level, mask}));
    }
  }
}

TEST(SoftSymbolTest, FormatThatIsUnknownLeavesAllAlike) {
  SampledSymbol sample{21, std::vector<float>(441)};
  EXPECT_EQ(likely_formats(sample, 32).size(), 32U);
  EXPECT_EQ(likely_formats(sample, 4).size(), 4U);
  EXPECT_EQ(likely_formats(sample, 4).front().score, 0);
}

TEST(SoftSymbolTest, BitsAreTheCodewordsWithTheMaskUndone) {
  for (int mask = 0; mask < kMasks; ++mask)
    for (const float bit : soft_bits(drawn(7, {SymbolLevel::low, mask}), mask)) ASSERT_EQ(bit, -1);
}

TEST(SoftSymbolTest, FunctionModulesAgreeWhollyOrAreUnknown) {
  auto sample = drawn(7, {SymbolLevel::low, 0});
  EXPECT_DOUBLE_EQ(function_agreement(sample), 1);
  for (auto& value : sample.darkness) value = -value;
  EXPECT_DOUBLE_EQ(function_agreement(sample), -1);
  EXPECT_EQ(function_agreement({21, std::vector<float>(441)}), 0);
}

TEST(SoftSymbolTest, SoundSampleHasNothingBeyondItsBounds) {
  SampledSymbol sample{21, std::vector<float>(441, 5.0F)};
  sample.darkness[0] = std::nanf("");
  sample.darkness[1] = -INFINITY;
  const auto sound = sound_sample(sample);
  ASSERT_TRUE(sound);
  EXPECT_EQ(sound->darkness[0], 0);
  EXPECT_EQ(sound->darkness[1], 0);
  EXPECT_EQ(sound->darkness[2], 1);
}

}  // namespace
}  // namespace counterfoil
