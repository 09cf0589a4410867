// Symbols under maps that are known: how many modules they have, and where their corners lie.
#include "recovery/framing.h"

#include <gtest/gtest.h>

#include "unit/recovery/drawn_symbol.h"

namespace counterfoil {
namespace {

SymbolMatrix symbol_of(int version) {
  return *encode_symbol("CF1:7KWP-M4XE-3N", CorrectionLevel::medium, version);
}

// The pattern whose corner lies at those modules, as an exact search would give it.
FinderPattern pattern_at(const KnownMap& map, double left, double top) {
  const PicturePoint c = map(left + 3.5, top + 3.5), u = map(left + 4.5, top + 3.5),
                     v = map(left + 3.5, top + 4.5);
  FinderPattern out;
  out.centre = c;
  out.u = {u.x - c.x, u.y - c.y};
  out.v = {v.x - c.x, v.y - c.y};
  out.likeness = 0.95;
  return out;
}
enum Corner { top_left, top_right, bottom_left };
FinderPattern pattern_of(const KnownMap& map, int modules, Corner corner) {
  const double far = modules - 7;
  return pattern_at(map, corner == top_right ? far : 0, corner == bottom_left ? far : 0);
}
std::vector<FinderPattern> patterns_of(const KnownMap& map, int modules) {
  return {pattern_of(map, modules, top_left), pattern_of(map, modules, top_right),
          pattern_of(map, modules, bottom_left)};
}

// A map of `modules` modules with 6 pixels each that leaves room at either side, turned by some degrees.
struct Scene {
  KnownMap map;
  int side;
};
Scene scene(int modules, double degrees) {
  const double turn = degrees * std::acos(-1) / 180, c = 6 * std::cos(turn), s = 6 * std::sin(turn);
  const double half = modules / 2.0, middle = 6 * modules * 0.75;
  return {{{c, -s, middle - half * (c - s), s, c, middle - half * (c + s), 0, 0, 1}},
          static_cast<int>(2 * middle)};
}

TEST(FramingTest, ThreePatternsGiveTheNumberOfModulesAndTheCorners) {
  for (const int version : {1, 2, 4, 7}) {
    const auto symbol = symbol_of(version);
    for (const double degrees : {0.0, 30.0}) {
      const Scene made = scene(symbol.modules, degrees);
      const auto picture = picture_of(made.side, made.side, made.map, symbol);
      const auto found = framings(picture, patterns_of(made.map, symbol.modules), 10);
      ASSERT_FALSE(found.empty()) << version << " turned by " << degrees;
      EXPECT_EQ(found[0].modules, symbol.modules) << version << " turned by " << degrees;
      EXPECT_LT(corner_error(found[0].place, made.map, symbol.modules), 0.1) << version;
      EXPECT_FALSE(found[0].inverted);
    }
  }
}

TEST(FramingTest, SlantedViewIsFramedWithinHalfAModule) {
  const auto symbol = symbol_of(2);
  const auto picture = picture_of(kSlantedSide, kSlantedSide, kSlanted, symbol);
  const auto found = framings(picture, patterns_of(kSlanted, symbol.modules), 10);
  ASSERT_FALSE(found.empty());
  EXPECT_EQ(found[0].modules, 25);
  EXPECT_LT(corner_error(found[0].place, kSlanted, 25), 0.5);
}

// The third is on the picture and was not found before: it is searched for where the two lead.
TEST(FramingTest, AnyTwoPatternsLeadToTheThird) {
  const auto symbol = symbol_of(2);
  const Scene made = scene(25, 20);
  const auto picture = picture_of(made.side, made.side, made.map, symbol);
  for (const Corner missing : {top_left, top_right, bottom_left}) {
    auto two = patterns_of(made.map, 25);
    two.erase(two.begin() + missing);
    const auto found = framings(picture, two, 10);
    ASSERT_FALSE(found.empty()) << missing;
    EXPECT_EQ(found[0].modules, 25) << missing;
    EXPECT_LT(corner_error(found[0].place, made.map, 25), 0.15) << missing;
  }
}

// The third is torn off: the timing patterns tell which way round the two belong.
TEST(FramingTest, TornOffPatternIsDoneWithout) {
  const auto symbol = symbol_of(2);
  const Scene made = scene(25, 20);
  for (const Corner missing : {top_left, top_right, bottom_left}) {
    const double far = 25 - 8;
    const auto picture = picture_of(made.side, made.side, made.map.inverse(), [&](double u, double v) {
      const bool right = u > far, low = v > far, left = u < 8, high = v < 8;
      const bool gone = missing == top_left    ? left && high
                        : missing == top_right ? right && high
                                               : left && low;
      return gone ? kPaper : Inked{symbol}(u, v);
    });
    auto two = patterns_of(made.map, 25);
    two.erase(two.begin() + missing);
    const auto found = framings(picture, two, 10);
    const auto right = std::find_if(found.begin(), found.end(), [&](const Framing& f) {
      return f.modules == 25 && corner_error(f.place, made.map, 25) < 0.5;
    });
    ASSERT_NE(right, found.end()) << missing;
    EXPECT_LT(right - found.begin(), 3) << missing;
  }
}

TEST(FramingTest, LightOnDarkIsFramedAsSuch) {
  const auto symbol = symbol_of(1);
  const Scene made = scene(21, 0);
  auto patterns = patterns_of(made.map, 21);
  for (auto& pattern : patterns) pattern.inverted = true;
  const auto found = framings(inverted(picture_of(made.side, made.side, made.map, symbol)), patterns, 10);
  ASSERT_FALSE(found.empty());
  EXPECT_TRUE(found[0].inverted);
  EXPECT_EQ(found[0].modules, 21);
  EXPECT_GT(found[0].promise, 3) << "timing patterns alternate, dark and light changed over";
  patterns[0].inverted = false;
  for (const auto& framing : framings(picture_of(made.side, made.side, made.map, symbol), patterns, 10))
    EXPECT_TRUE(framing.inverted) << "a pattern of each kind never belong together";
}

TEST(FramingTest, TrueTimingIsMorePromisingThanNone) {
  const auto symbol = symbol_of(2);
  const Scene made = scene(25, 0);
  const auto picture = picture_of(made.side, made.side, made.map, symbol);
  const auto without = picture_of(made.side, made.side, made.map.inverse(), [&](double u, double v) {
    const bool timing = (u >= 6 && u < 7 && v > 7 && v < 18) || (v >= 6 && v < 7 && u > 7 && u < 18);
    return timing ? kPaper : Inked{symbol}(u, v);
  });
  const auto patterns = patterns_of(made.map, 25);
  EXPECT_NEAR(framings(picture, patterns, 1).at(0).promise, 3 * 0.95 + 1.5, 0.1);
  EXPECT_NEAR(framings(without, patterns, 1).at(0).promise, 3 * 0.95, 0.3);
}

TEST(FramingTest, NothingComesOfWhatCannotBelongTogether) {
  const Scene made = scene(25, 0);
  const auto picture = picture_of(made.side, made.side, made.map, symbol_of(2));
  EXPECT_TRUE(framings(picture, {}, 10).empty());
  EXPECT_TRUE(framings(picture, {pattern_at(made.map, 0, 0)}, 10).empty());
  EXPECT_TRUE(framings(picture, {pattern_at(made.map, 0, 0), pattern_at(made.map, 5, 0)}, 10).empty())
      << "too near";
  auto unlike = patterns_of(made.map, 25);
  unlike.pop_back();
  unlike[1].u.x *= 2, unlike[1].v.y *= 2;
  EXPECT_TRUE(framings(picture, unlike, 10).empty()) << "of two sizes";
  const GreyPicture blank{made.side, made.side,
                          std::vector<std::uint8_t>(static_cast<std::size_t>(made.side * made.side), 200)};
  EXPECT_TRUE(framings(blank, patterns_of(made.map, 25), 10).empty()) << "no contrast";
}

TEST(FramingTest, NoMoreThanAskedForAndNoneTwice) {
  const Scene made = scene(25, 0);
  const auto picture = picture_of(made.side, made.side, made.map, symbol_of(2));
  const auto patterns = patterns_of(made.map, 25);
  const auto found = framings(picture, patterns, 100);
  int right = 0;
  for (const auto& framing : found)
    right += framing.modules == 25 && corner_error(framing.place, made.map, 25) < 0.3;
  EXPECT_EQ(right, 1) << "met from each of its three pairs";
  for (std::size_t i = 1; i < found.size(); ++i) EXPECT_GE(found[i - 1].promise, found[i].promise);
  ASSERT_GT(found.size(), 1u);
  EXPECT_EQ(framings(picture, patterns, 1).size(), 1u);
}

}  // namespace
}  // namespace counterfoil
