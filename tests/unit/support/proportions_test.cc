#include "support/proportions.h"

#include <gtest/gtest.h>

namespace counterfoil {
namespace {

// R. G. Newcombe, Statistics in Medicine 17 (1998) 857, table I, method 3 (from memory).
TEST(ProportionsTest, WilsonIntervalsAreThePublishedOnes) {
  const struct {
    std::size_t part, whole;
    double low, high;
  } published[] = {
      {81, 263, 0.2553, 0.3662}, {15, 148, 0.0624, 0.1605}, {0, 20, 0, 0.1611}, {1, 29, 0.0061, 0.1718}};
  for (const auto& row : published) {
    const auto [low, high] = wilson_interval(row.part, row.whole);
    EXPECT_NEAR(low, row.low, 5e-5) << row.part;
    EXPECT_NEAR(high, row.high, 5e-5) << row.part;
  }
}

// Sums of binomial coefficients, by hand.
TEST(ProportionsTest, SignTestCountsUnevenSplits) {
  EXPECT_NEAR(sign_test(1, 9), 2 * (1 + 10) / 1024.0, 1e-12);
  EXPECT_NEAR(sign_test(9, 1), sign_test(1, 9), 1e-12);
  EXPECT_NEAR(sign_test(0, 6), 2 / 64.0, 1e-12);
  EXPECT_DOUBLE_EQ(sign_test(5, 5), 1);
  EXPECT_DOUBLE_EQ(sign_test(0, 0), 1);
}

}  // namespace
}  // namespace counterfoil
