#include "recovery/flattened.h"

#include <gtest/gtest.h>

#include "unit/recovery/drawn_symbol.h"

namespace counterfoil {
namespace {

const SymbolMatrix& symbol() {
  static const SymbolMatrix made = *encode_symbol("CF1:7KWP-M4XE-3N", CorrectionLevel::medium, 2);
  return made;
}
Framing framing_of(const KnownMap& map) { return {symbol().modules, Projective{map.h}, 0, false}; }

// How many modules have the colour that was drawn, and are at least that dark or light at their middle.
int surely_right(const Flattened& flattened, float at_least) {
  int right = 0;
  for (int y = 0; y < symbol().modules; ++y) {
    for (int x = 0; x < symbol().modules; ++x) {
      const float dark = flattened.darkness(static_cast<float>(x) + 0.5F, static_cast<float>(y) + 0.5F);
      right += (symbol().at(x, y) ? dark : -dark) >= at_least;
    }
  }
  return right;
}

TEST(FlattenedTest, SlantedSymbolComesOutSquare) {
  const auto picture = picture_of(kSlantedSide, kSlantedSide, kSlanted, symbol());
  const Flattened flattened(picture, framing_of(kSlanted));
  EXPECT_EQ(flattened.modules(), 25);
  EXPECT_EQ(surely_right(flattened, 0.2F), 625);
  EXPECT_GT(surely_right(flattened, 0.5F), 600);
}

// From a fifth of the paper's light at one corner to all of it at the other.
TEST(FlattenedTest, UnevenLightIsEvenedOut) {
  const KnownMap map = upright(6, 24, 24);
  const auto picture = picture_of(198, 198, map.inverse(), [](double u, double v) {
    return (0.2 + 0.8 * std::clamp((u + v) / 50, 0.0, 1.0)) * Inked{symbol()}(u, v);
  });
  EXPECT_LT(picture.pixels[24 * 198 + 22], kInk) << "paper on one side is darker than ink on the other";
  EXPECT_EQ(surely_right(Flattened(picture, framing_of(map)), 0.15F), 625);
}

// In a shadow paper is as dark as ink is beside it.
TEST(FlattenedTest, SharpShadowCostsTheModulesAtItsEdgeAtMost) {
  const KnownMap map = upright(6, 24, 24);
  const auto picture = picture_of(198, 198, map.inverse(), [](double u, double v) {
    return (u > 15.2 ? 0.25 : 1) * Inked{symbol()}(u, v);
  });
  EXPECT_GE(surely_right(Flattened(picture, framing_of(map)), 0), 625 - 25);
}

TEST(FlattenedTest, SmallAndLargeModulesAreSampledAlike) {
  for (const double module : {3.0, 17.0}) {
    const KnownMap map = upright(module, 4 * module, 4 * module);
    const int side = static_cast<int>(33 * module);
    EXPECT_EQ(surely_right(Flattened(picture_of(side, side, map, symbol()), framing_of(map)), 0.2F), 625)
        << module;
  }
}

TEST(FlattenedTest, LightOnDarkIsTurnedAround) {
  const KnownMap map = upright(6, 24, 24);
  const auto picture = inverted(picture_of(198, 198, map, symbol()));
  Framing framing = framing_of(map);
  EXPECT_EQ(surely_right(Flattened(picture, framing), 0), 0);
  framing.inverted = true;
  EXPECT_EQ(surely_right(Flattened(picture, framing), 0.2F), 625);
}

TEST(FlattenedTest, BetweenTwoModulesOfDifferentColourItIsNeither) {
  const KnownMap map = upright(6, 24, 24);
  const Flattened flattened(picture_of(198, 198, map, symbol()), framing_of(map));
  // The timing pattern: dark at even places, light at odd ones.
  for (int i = 8; i < 16; ++i) {
    const float at = static_cast<float>(i);
    EXPECT_GT((i % 2 == 0 ? 1 : -1) * flattened.darkness(at + 0.5F, 6.5F), 0.4F) << i;
    EXPECT_LT(std::abs(flattened.darkness(at + 1, 6.5F)), 0.3F) << i;
  }
}

TEST(FlattenedTest, FlatPictureIsNeitherDarkNorLight) {
  const GreyPicture blank{100, 100, std::vector<std::uint8_t>(10'000, 90)};
  const Flattened flattened(blank, framing_of(upright(3, 12, 12)));
  for (float u = 0; u < 25; u += 0.7F)
    for (float v = 0; v < 25; v += 0.7F) ASSERT_NEAR(flattened.darkness(u, v), 0, 1e-3) << u << ", " << v;
}

// Neither a frame that leaves the picture nor a place far from the symbol reads outside of anything.
TEST(FlattenedTest, PlacesOutsideTakeTheEdge) {
  const auto picture = picture_of(120, 120, upright(8, 0, 0), symbol());
  const Flattened flattened(picture, framing_of(upright(8, -60, -60)));
  for (const float u : {-1e6F, -3.1F, 28.0F, 1e6F})
    for (const float v : {-1e6F, 12.0F, 1e6F}) EXPECT_LE(std::abs(flattened.darkness(u, v)), 1.0F);
  EXPECT_EQ(flattened.darkness(-1e6F, 5), flattened.darkness(-static_cast<float>(Flattened::kMargin), 5));
}

// A camera's noise on a flat picture is not print, although it is all that its neighbourhood has.
TEST(FlattenedTest, FaintNoiseIsNeitherDarkNorLight) {
  const KnownMap map = upright(8, 0, 0);
  const auto noise = picture_of(200, 200, map.inverse(), [](double u, double v) {
    return (static_cast<int>(u) + static_cast<int>(v)) % 2 ? 100.0 : 101.0;
  });
  const Flattened flattened(noise, framing_of(map));
  for (float u = 0.5F; u < 25; ++u)
    for (float v = 0.5F; v < 25; ++v) ASSERT_LT(std::abs(flattened.darkness(u, v)), 0.3F) << u << ", " << v;
}

}  // namespace
}  // namespace counterfoil
