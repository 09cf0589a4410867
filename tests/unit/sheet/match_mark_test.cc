#include "sheet/match_mark.h"

#include <gtest/gtest.h>

#include <random>

namespace counterfoil {
namespace {

using Span = std::pair<double, double>;

// Ink along the axis, as a length behind the edge's own beginning.
std::vector<Span> ink_of(const MatchBars& bars, double begin_mm) {
  std::vector<Span> spans;
  double at = bars.from_mm - begin_mm;
  for (std::size_t i = 0; i < bars.lengths_mm.size(); ++i) {
    if (i % 2 == 0) spans.emplace_back(at, at + bars.lengths_mm[i]);
    at += bars.lengths_mm[i];
  }
  return spans;
}

void expect_same(const std::vector<Span>& a, const std::vector<Span>& b) {
  ASSERT_EQ(a.size(), b.size());
  for (std::size_t i = 0; i < a.size(); ++i) {
    EXPECT_NEAR(a[i].first, b[i].first, 1e-9);
    EXPECT_NEAR(a[i].second, b[i].second, 1e-9);
  }
}

TEST(MatchMark, EveryBitChangesExactlyOneBar) {
  const CutLine cut = cut_between({0, 0, 99.1, 67.7}, {101.6, 0, 99.1, 67.7});
  EXPECT_TRUE(cut.upright);
  EXPECT_NEAR(cut.at_mm, 100.35, 1e-9);
  const auto widths = [&](std::uint32_t mark) {
    std::vector<double> out;
    const auto bars = bars_across(mark, cut);
    for (std::size_t i = 0; i < bars.lengths_mm.size(); i += 2) out.push_back(bars.lengths_mm[i]);
    return out;
  };
  const auto none = widths(0);
  ASSERT_EQ(none.size(), 16u);
  for (int bit = 0; bit < 32; ++bit) {
    const auto some = widths(1u << bit);
    int changed = 0;
    for (std::size_t i = 0; i < 16; ++i) changed += std::abs(some[i] - none[i]) > 0.4;
    EXPECT_EQ(changed, 1) << bit;
  }
}

TEST(MatchMark, ReachesThreeMillimetresIntoBothHalves) {
  const auto bars = bars_across(0xffffffff, cut_between({0, 0, 99.1, 67.7}, {101.6, 0, 99.1, 67.7}));
  EXPECT_GE(bars.reach_mm, 2.5 / 2 + 3);
  EXPECT_GT(bars.from_mm, 0);
  EXPECT_LT(bars.to_mm, 67.7);
}

TEST(MatchMark, BarsInsideTwoEdgesMeetWhenTheEdgesArePutTogether) {
  std::mt19937 random(11);
  const Box half{0, 0, 60, 120};
  for (int i = 0; i < 100; ++i) {
    const auto mark = static_cast<std::uint32_t>(random());
    const auto foot = ink_of(bars_inside(mark, half, Stock::Edge::bottom, 5, false), 0);
    expect_same(foot, ink_of(bars_inside(mark, half, Stock::Edge::top, 5, false), 0));
    // Foot to foot, the other half lies turned by 180 degrees: what was at x is at 60 - x.
    std::vector<Span> turned;
    for (const auto& [from, to] : ink_of(bars_inside(mark, half, Stock::Edge::bottom, 5, true), 0))
      turned.insert(turned.begin(), {60 - to, 60 - from});
    expect_same(foot, turned);
    EXPECT_GE(foot.front().first, 5);
    EXPECT_LE(foot.back().second, 55);
  }
}

TEST(MatchMark, BarsInsideAnEdgeStayInTheHalfAndReach3_2Millimetres) {
  const Box half{10, 20, 60, 120};
  const auto bars = bars_inside(0x12345678, half, Stock::Edge::bottom, 0, false);
  EXPECT_FALSE(bars.upright);
  EXPECT_DOUBLE_EQ(bars.at_mm + bars.reach_mm, 140);
  EXPECT_DOUBLE_EQ(2 * bars.reach_mm, 3.2);
  EXPECT_DOUBLE_EQ(bars_inside(1, half, Stock::Edge::top, 0, false).at_mm, 21.6);
  EXPECT_DOUBLE_EQ(bars_inside(1, half, Stock::Edge::left, 0, false).at_mm, 11.6);
  const auto right = bars_inside(1, half, Stock::Edge::right, 0, false);
  EXPECT_TRUE(right.upright);
  EXPECT_DOUBLE_EQ(right.at_mm, 68.4);
}

TEST(MatchMark, OtherMarksDoNotMeet) {
  const Box half{0, 0, 60, 120};
  const auto one = ink_of(bars_inside(0x12345678, half, Stock::Edge::bottom, 0, false), 0);
  const auto other = ink_of(bars_inside(0x12345679, half, Stock::Edge::top, 0, false), 0);
  EXPECT_NE(one, other);
}

}  // namespace
}  // namespace counterfoil
