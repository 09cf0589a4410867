// Values by numpy 1.24 stand beside what gave them; they owe nothing to the code.
#include "recovery/projective.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "unit/recovery/drawn_symbol.h"

namespace counterfoil {
namespace {

const std::vector<Anchor> kCorners = {
    {0, 0, {60, 50}, 1}, {25, 0, {330, 80}, 1}, {25, 25, {300, 340}, 1}, {0, 25, {80, 300}, 1}};

void expect_place(const Projective& map, double u, double v, PicturePoint at, double within) {
  EXPECT_LT(distance(map(u, v), at), within)
      << u << ", " << v << " came to " << map(u, v).x << ", " << map(u, v).y;
}

// numpy: H = linalg.lstsq of the equations that drawn_symbol.h names; H @ [u, v, 1], divided by its third element.
// The fit holds perspective back a little, for which some hundredths of a pixel are allowed.
TEST(ProjectiveTest, FourCornersGiveTheMapOfNumpy) {
  const auto map = fit_projective(kCorners);
  ASSERT_TRUE(map);
  expect_place(*map, 12.5, 12.5, {188.1404628891, 204.8363926576}, 0.1);
  expect_place(*map, 6.5, 12.5, {130.9390807126, 196.2543592321}, 0.1);
  expect_place(*map, 3.5, 21.5, {107.5991503477, 275.712747694}, 0.1);
  expect_place(*map, 24, 7, {309.4095711622, 162.8713486637}, 0.1);
  EXPECT_EQ(map->m[8], 1);
  EXPECT_TRUE(map->is_sane(25));
}

TEST(ProjectiveTest, ManyAnchorsOfOneMapGiveIt) {
  std::vector<Anchor> anchors;
  for (double u = 0; u <= 25; u += 5)
    for (double v = 0; v <= 25; v += 5) anchors.push_back({u, v, kSlanted(u, v), 0.5 + u});
  const auto map = fit_projective(anchors);
  ASSERT_TRUE(map);
  for (std::size_t i = 0; i < 9; ++i)
    EXPECT_NEAR(map->m[i], kSlanted.h[i], 1e-3 * (1 + std::abs(kSlanted.h[i])));
}

TEST(ProjectiveTest, FlatMapStaysFlat) {
  const KnownMap flat{{3, -4, 100, 4, 3, 200, 0, 0, 1}};  // turned, five pixels a module
  std::vector<Anchor> anchors;
  for (const double u : {0.0, 21.0})
    for (const double v : {0.0, 21.0}) anchors.push_back({u, v, flat(u, v), 1});
  const auto map = fit_projective(anchors);
  ASSERT_TRUE(map);
  for (std::size_t i = 0; i < 9; ++i) EXPECT_NEAR(map->m[i], flat.h[i], 1e-9);
}

// Anchors that contradict one another, one of them by 8 pixels: a heavy one is followed, a light one is not.
TEST(ProjectiveTest, WeightSaysWhichAnchorIsFollowed) {
  std::vector<Anchor> anchors;
  for (double u = 0; u <= 24; u += 6)
    for (double v = 0; v <= 24; v += 6) anchors.push_back({u, v, kSlanted(u, v), 1});
  Anchor& astray = anchors[12];
  ASSERT_EQ(astray.u, 12);
  ASSERT_EQ(astray.v, 12);
  const PicturePoint truth = astray.at;
  astray.at.x += 8;
  astray.weight = 1e-6;
  expect_place(*fit_projective(anchors), 12, 12, truth, 0.05);
  astray.weight = 1e6;
  expect_place(*fit_projective(anchors), 12, 12, astray.at, 0.05);
}

TEST(ProjectiveTest, DegenerateAnchorsAreRefused) {
  EXPECT_FALSE(fit_projective({}));
  EXPECT_FALSE(fit_projective(std::vector<Anchor>(kCorners.begin(), kCorners.begin() + 3)));
  EXPECT_FALSE(fit_projective(std::vector<Anchor>(4, kCorners[1]))) << "all in one place";
  std::vector<Anchor> line;
  for (int i = 0; i < 6; ++i) line.push_back({2.0 * i, 3.0 * i, {10.0 + 20 * i, 5.0 + 7 * i}, 1});
  EXPECT_FALSE(fit_projective(line)) << "all on one line";
  auto weightless = kCorners;
  for (Anchor& anchor : weightless) anchor.weight = 0;
  EXPECT_FALSE(fit_projective(weightless)) << "none counts";
}

TEST(ProjectiveTest, SaneMapsAreThoseThatACameraSees) {
  const auto sane = [](std::array<double, 9> m, double side) { return Projective{m}.is_sane(side); };
  EXPECT_TRUE(sane({1, 0, 0, 0, 1, 0, 0, 0, 1}, 21));
  EXPECT_TRUE(sane({0, -4, 90, 4, 0, 10, 0, 0, 1}, 21)) << "turned";
  EXPECT_TRUE(sane(kSlanted.h, 25));
  EXPECT_FALSE(sane({-4, 0, 90, 0, 4, 10, 0, 0, 1}, 21)) << "seen from behind";
  EXPECT_FALSE(sane({4, 8, 10, 2, 4, 10, 0, 0, 1}, 21)) << "folded to a line";
  EXPECT_FALSE(sane({4, 0, 10, 0, 4, 10, -0.06, 0, 1}, 21)) << "the horizon goes through it";
  EXPECT_FALSE(sane({4, 0, 10, 0, 4, 10, 0.2, 0, 1}, 21)) << "more than five times as far at one side";
  EXPECT_FALSE(sane({4, 0, 10, 0, 4, 10, 0, 0, NAN}, 21));
}

}  // namespace
}  // namespace counterfoil
