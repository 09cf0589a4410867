// One finder pattern, drawn as ISO/IEC 18004:2015, 6.3.3 has it, under maps that are known.
#include "recovery/finder_pattern.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "unit/recovery/drawn_symbol.h"

namespace counterfoil {
namespace {

constexpr double kMiddle = 3.5;  // of a pattern, in modules from its corner

// Rings around (3.5, 3.5): 3 x 3 dark, light, dark.
double ring_shade(double u, double v) {
  const double from_middle = std::max(std::abs(u - kMiddle), std::abs(v - kMiddle));
  return from_middle < 1.5 || (from_middle >= 2.5 && from_middle < 3.5) ? kInk : kPaper;
}
GreyPicture ring_under(const KnownMap& map, int side = 200) {
  return picture_of(side, side, map.inverse(), ring_shade);
}
// Turned by that many degrees, `module` pixels wide, its middle at (100, 100).
KnownMap turned(double degrees, double module) {
  const double c = module * std::cos(degrees * std::acos(-1) / 180),
               s = module * std::sin(degrees * std::acos(-1) / 180);
  return {{c, -s, 100 - kMiddle * (c - s), s, c, 100 - kMiddle * (c + s), 0, 0, 1}};
}

std::vector<FinderPattern> found_in(const GreyPicture& picture, Proposed proposed = Proposed::crossed,
                                    std::size_t most = 32) {
  std::vector<FinderPattern> out;
  std::vector<TriedPlace> tried;
  add_finder_patterns(
      out, tried, black_and_white(picture), picture, proposed, [](PicturePoint) { return false; }, most);
  return out;
}

// The pattern's own square, by its middle and axes, whichever way its axes are named.
double outline_error(const FinderPattern& p, const KnownMap& truth) {
  double worst = 0;
  for (const double a : {-kMiddle, kMiddle}) {
    for (const double b : {-kMiddle, kMiddle}) {
      const PicturePoint corner{p.centre.x + a * p.u.x + b * p.v.x, p.centre.y + a * p.u.y + b * p.v.y};
      double nearest = 1e9;
      for (const double u : {0.0, 7.0})
        for (const double v : {0.0, 7.0})
          nearest = std::min(nearest, distance(corner, truth(u, v)) / module_at(truth, u, v));
      worst = std::max(worst, nearest);
    }
  }
  return worst;
}

TEST(FinderPatternTest, PatternIsFoundWhateverItsTurnSizeAndSlant) {
  for (const KnownMap& map : {turned(0, 6), turned(20, 6), turned(45, 8), turned(80, 3), turned(10, 14),
                              KnownMap{{9, 2, 50, 0.8, 7, 60, -0.004, 0.006, 1}}}) {
    const auto found = found_in(ring_under(map));
    ASSERT_EQ(found.size(), 1u);
    EXPECT_GT(found[0].likeness, 0.9);
    EXPECT_FALSE(found[0].inverted);
    EXPECT_LT(distance(found[0].centre, map(kMiddle, kMiddle)) / module_at(map, kMiddle, kMiddle), 0.1);
    EXPECT_LT(outline_error(found[0], map), 0.3);
    EXPECT_GT(found[0].u.x * found[0].v.y - found[0].u.y * found[0].v.x, 0) << "u turns clockwise into v";
  }
}

TEST(FinderPatternTest, SizeIsInPixelsOfTheGreyPicture) {
  const auto found = found_in(ring_under(turned(0, 6)));
  ASSERT_EQ(found.size(), 1u);
  EXPECT_NEAR(found[0].module(), 6, 0.15);

  // Black and white at half the size, as the cheap passes make it.
  std::vector<FinderPattern> halved;
  std::vector<TriedPlace> tried;
  const auto small = black_and_white(picture_of(100, 100, upright(3, 39.5, 39.5).inverse(), ring_shade));
  const auto large = ring_under(turned(0, 6));
  add_finder_patterns(
      halved, tried, small, large, Proposed::crossed, [](PicturePoint) { return false; }, 32);
  ASSERT_EQ(halved.size(), 1u);
  EXPECT_NEAR(halved[0].module(), 6, 0.15);
  EXPECT_LT(distance(halved[0].centre, {100, 100}), 0.6);
}

TEST(FinderPatternTest, LightOnDarkIsFoundAndSaidToBe) {
  const auto found = found_in(inverted(ring_under(turned(30, 6))));
  ASSERT_EQ(found.size(), 1u);
  EXPECT_TRUE(found[0].inverted);
  EXPECT_GT(found[0].likeness, 0.9);
}

TEST(FinderPatternTest, BlurMovesItByLittle) {
  const KnownMap map = turned(20, 6);
  const auto found = found_in(blurred(ring_under(map), 2));
  ASSERT_EQ(found.size(), 1u);
  EXPECT_LT(distance(found[0].centre, {100, 100}), 0.6);
  EXPECT_NEAR(found[0].module(), 6, 0.6);
}

// Its right third is under something dark: no column crosses it whole in the middle, rows do not at all.
TEST(FinderPatternTest, CoveredPatternIsProposedByOneDirectionAlone) {
  const KnownMap map = turned(0, 8);
  const auto covered = picture_of(200, 200, map.inverse(), [](double u, double v) {
    return u > 4.6 ? (u + v > 7 ? kPaper : kInk) : ring_shade(u, v);
  });
  EXPECT_TRUE(found_in(covered, Proposed::crossed).empty());
  const auto any = found_in(covered, Proposed::any);
  ASSERT_FALSE(any.empty());
  EXPECT_LT(distance(any[0].centre, {100, 100}) / 8, 0.6);
}

// Seen from so far aside that its axes are 25 or 15 degrees apart: the fit that is likest is folded nearly flat.
TEST(FinderPatternTest, NoPatternIsFoldedNearlyFlat) {
  for (const auto& [turn, between] : {std::pair{45.0, 25.0}, std::pair{0.0, 15.0}}) {
    const double degree = std::acos(-1) / 180, a = turn * degree, b = (turn + between) * degree;
    const PicturePoint u{8 * std::cos(a), 8 * std::sin(a)}, v{4.8 * std::cos(b), 4.8 * std::sin(b)};
    const KnownMap map{
        {u.x, v.x, 200 - kMiddle * (u.x + v.x), u.y, v.y, 200 - kMiddle * (u.y + v.y), 0, 0, 1}};
    for (const FinderPattern& p : found_in(ring_under(map, 400), Proposed::any))
      EXPECT_GE(p.u.x * p.v.y - p.u.y * p.v.x, 0.4 * p.module() * p.module()) << turn;
  }
}

TEST(FinderPatternTest, NothingIsFoundWhereNothingIs) {
  EXPECT_TRUE(found_in({}).empty());
  EXPECT_TRUE(found_in(GreyPicture{60, 60, std::vector<std::uint8_t>(3600, 200)}, Proposed::any).empty());
  // Stripes have runs of one width; a square and a disc have none of a pattern's rings.
  const auto stripes = picture_of(120, 120, upright(1, 0, 0), [](double u, double) {
    return static_cast<int>(u / 6) % 2 ? kInk : kPaper;
  });
  EXPECT_TRUE(found_in(stripes, Proposed::any).empty());
  const auto square = picture_of(120, 120, upright(1, 0, 0), [](double u, double v) {
    return std::max(std::abs(u - 60), std::abs(v - 60)) < 25 ? kInk : kPaper;
  });
  EXPECT_TRUE(found_in(square, Proposed::any).empty());
}

TEST(FinderPatternTest, ClosedPlacesAreLeftAlone) {
  const auto picture = ring_under(turned(0, 6));
  std::vector<FinderPattern> found;
  std::vector<TriedPlace> tried;
  add_finder_patterns(
      found, tried, black_and_white(picture), picture, Proposed::any,
      [](PicturePoint at) { return at.x > 90; }, 32);
  EXPECT_TRUE(found.empty());
}

TEST(FinderPatternTest, LikestComeFirstNoMoreThanAskedForAndNoneTwice) {
  // Two patterns, of which the right one lacks a corner.
  const auto picture = picture_of(260, 120, upright(1, 0, 0), [](double u, double v) {
    if (u > 130) return u > 209 && v > 75 ? kPaper : ring_shade((u - 167) / 8, (v - 32) / 8);
    return ring_shade((u - 32) / 8, (v - 32) / 8);
  });
  const auto bw = black_and_white(inverted(inverted(picture)));
  const auto none_closed = [](PicturePoint) { return false; };
  std::vector<FinderPattern> found;
  std::vector<TriedPlace> tried;
  add_finder_patterns(found, tried, bw, picture, Proposed::any, none_closed, 32);
  ASSERT_EQ(found.size(), 2u);
  EXPECT_LT(found[0].centre.x, 130);
  EXPECT_GT(found[0].likeness, found[1].likeness);
  add_finder_patterns(found, tried, bw, picture, Proposed::any, none_closed, 32);
  EXPECT_EQ(found.size(), 2u) << "seen again";
  EXPECT_EQ(found_in(picture, Proposed::any, 1).size(), 1u);
}

TEST(FinderPatternTest, FitComesBackFromAModuleAstray) {
  const KnownMap map = turned(20, 6);
  const auto picture = ring_under(map);
  FinderPattern start;
  start.centre = {100 + 4, 100 - 3};
  start.u = {6.6, 1.2};
  start.v = {-1.0, 5.2};
  const double before = finder_likeness(picture, start);
  const auto fitted = fit_finder_pattern(picture, start);
  EXPECT_GT(fitted.likeness, before);
  EXPECT_LT(distance(fitted.centre, {100, 100}) / 6, 0.1);
  EXPECT_LT(outline_error(fitted, map), 0.3);
  EXPECT_GT(finder_likeness(picture, fitted), 0.9);

  FinderPattern light = fitted;
  light.inverted = true;
  EXPECT_EQ(finder_likeness(picture, light), 0);
}

TEST(FinderPatternTest, PlaceThatWasTriedIsNotTriedAgain) {
  const auto picture = ring_under(turned(0, 6));
  const auto bw = black_and_white(picture);
  GreyPicture flat = picture;
  std::fill(flat.pixels.begin(), flat.pixels.end(), std::uint8_t{128});
  const auto none_closed = [](PicturePoint) { return false; };
  std::vector<FinderPattern> found;
  std::vector<TriedPlace> tried;
  add_finder_patterns(found, tried, bw, flat, Proposed::crossed, none_closed, 32);
  EXPECT_TRUE(found.empty());
  ASSERT_EQ(tried.size(), 1u);
  EXPECT_TRUE(tried[0].barren);
  add_finder_patterns(found, tried, bw, picture, Proposed::crossed, none_closed, 32);
  EXPECT_TRUE(found.empty());
  EXPECT_EQ(tried.size(), 1u);
  tried.clear();
  add_finder_patterns(found, tried, bw, picture, Proposed::crossed, none_closed, 32);
  EXPECT_EQ(found.size(), 1u);
  ASSERT_EQ(tried.size(), 1u);
  EXPECT_FALSE(tried[0].barren);
}

// Places apart enough to be tried each may lead to one pattern.
TEST(FinderPatternTest, PoorPatternIsFoundOnceFromAllVersions) {
  const auto picture = picture_of(120, 120, upright(8, 32, 32).inverse(), [](double u, double v) {
    return u > 4.6 && v > 4.6 ? kInk : ring_shade(u, v);
  });
  const auto none_closed = [](PicturePoint) { return false; };
  std::vector<FinderPattern> found;
  std::vector<TriedPlace> tried;
  for (int i = 0; i < 2; ++i) {
    tried.clear();
    add_finder_patterns(found, tried, black_and_white(picture), picture, Proposed::any, none_closed, 32);
  }
  ASSERT_EQ(found.size(), 1u);
  EXPECT_LT(found[0].likeness, 0.9) << "or this test shows nothing";
}

TEST(FinderPatternTest, TextureIsGivenUpAfterTwiceThePatternsThatAreKept) {
  // Ten patterns in a row, far enough apart for each to be one.
  const auto picture = picture_of(1000, 100, upright(6, 9, 29).inverse(), [](double u, double v) {
    const double apart = 16;
    return u < 0 ? kPaper : ring_shade(std::fmod(u, apart), v);
  });
  const auto none_closed = [](PicturePoint) { return false; };
  for (const std::size_t most : {2u, 32u}) {
    std::vector<FinderPattern> found;
    std::vector<TriedPlace> tried;
    add_finder_patterns(found, tried, black_and_white(picture), picture, Proposed::crossed, none_closed,
                        most);
    EXPECT_EQ(found.size(), most == 2 ? 2u : 10u);
    EXPECT_EQ(tried.size(), most == 2 ? 4u : 10u);
  }
}

}  // namespace
}  // namespace counterfoil
