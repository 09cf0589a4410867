#include "recovery/evidence.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <random>
#include <vector>

namespace counterfoil {
namespace {

TEST(EvidenceTest, BitsThatAllAgreeAreWorthLn2Each) {
  for (const float weight : {1.0F, 0.01F}) {
    EXPECT_NEAR(evidence_nats(std::vector<float>(80, weight)), 80 * std::log(2.0), 1e-3);
  }
}

TEST(EvidenceTest, NothingOrMoreAgainstThanForIsNoEvidence) {
  EXPECT_EQ(evidence_nats({}), 0);
  EXPECT_EQ(evidence_nats(std::vector<float>(10, 0.0F)), 0);
  EXPECT_EQ(evidence_nats(std::vector<float>{1, -1}), 0);
  EXPECT_EQ(evidence_nats(std::vector<float>{0.2F, -1}), 0);
}

// Of 80 bits with the same weight k disagree: the bound is 80 (ln 2 - H(k / 80)).
TEST(EvidenceTest, EqualWeightsGiveTheEntropyBound) {
  for (const int against : {1, 8, 20, 30}) {
    std::vector<float> agreement(80, 0.7F);
    for (int i = 0; i < against; ++i) agreement[static_cast<std::size_t>(i)] = -0.7F;
    const double share = against / 80.0;
    const double entropy = -share * std::log(share) - (1 - share) * std::log(1 - share);
    EXPECT_NEAR(evidence_nats(agreement), 80 * (std::log(2.0) - entropy), 0.01) << against;
  }
}

TEST(EvidenceTest, NeverLessThanHoeffdingsBound) {
  std::mt19937 random(1);
  std::uniform_real_distribution<float> value(-0.3F, 1.0F);
  for (int trial = 0; trial < 200; ++trial) {
    std::vector<float> agreement(1 + random() % 200);
    double sum = 0, squares = 0;
    for (auto& one : agreement) {
      one = value(random);
      sum += one;
      squares += static_cast<double>(one) * one;
    }
    if (sum > 0) {
      EXPECT_GE(evidence_nats(agreement), sum * sum / (2 * squares) - 1e-9);
    }
  }
}

TEST(EvidenceTest, ChanceReachesItNoOftenerThanTheBoundSays) {
  std::mt19937 random(2);
  std::vector<float> weights(60);
  for (auto& weight : weights) weight = static_cast<float>(random() % 100) / 100;
  constexpr int kTrials = 20000;
  std::array<int, 4> reached{};  // 2, 4, 6, 8 nats
  for (int trial = 0; trial < kTrials; ++trial) {
    auto agreement = weights;
    for (auto& one : agreement)
      if (random() % 2) one = -one;
    const double nats = evidence_nats(agreement);
    for (std::size_t i = 0; i < reached.size(); ++i) reached[i] += nats >= 2.0 * static_cast<double>(i + 1);
  }
  for (std::size_t i = 0; i < reached.size(); ++i)
    EXPECT_LE(reached[i], kTrials * std::exp(-2.0 * static_cast<double>(i + 1))) << i;
  EXPECT_GT(reached[0], kTrials / 200);  // nor is it far below
}

}  // namespace
}  // namespace counterfoil
