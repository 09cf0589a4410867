#include "recovery/growth.h"

#include <gtest/gtest.h>

#include "unit/recovery/bent_symbol.h"

namespace counterfoil {
namespace {

TEST(GrowthTest, FlatSymbolIsSampledAsItIs) {
  const BentSymbol flat{unbent};
  const auto picture = flat.picture();
  const Flattened flattened(picture, flat.framing());
  const SampledSymbol sample = grown_sample(flattened, Grid(flattened));
  EXPECT_EQ(sample.modules, kBentModules);
  ASSERT_EQ(sample.darkness.size(), 625u);
  EXPECT_EQ(wrong_modules(sample), 0);
}

// Around so thin a pipe the lattice loses the symbol's right edge, or the left one.
TEST(GrowthTest, BendsThatAreTooStrongForTheLatticeAreFollowed) {
  const BentSymbol bent{Pipe{14}};
  const auto picture = bent.picture();
  const Flattened flattened(picture, bent.framing());
  const Grid grid(flattened);
  EXPECT_GT(wrong_modules(grid.sample(flattened)), 5);
  EXPECT_LE(wrong_modules(grown_sample(flattened, grid)), 1);
}

TEST(GrowthTest, PassesRoundWhatIsCovered) {
  const BentSymbol covered{Pipe{20}, [](double u, double v) { return u > 9 && u < 15 && v > 9 && v < 15; }};
  const auto picture = covered.picture();
  const Flattened flattened(picture, covered.framing());
  const SampledSymbol sample = grown_sample(flattened, Grid(flattened));
  int wrong = 0;
  for (int y = 0; y < kBentModules; ++y)
    for (int x = 0; x < kBentModules; ++x)
      if (x < 8 || x > 15 || y < 8 || y > 15) wrong += is_wrong(sample, x, y);
  EXPECT_EQ(wrong, 0);
}

// A torn corner that has slipped has a finder pattern at the wrong place: the rest is grown from the other two.
TEST(GrowthTest, NothingGrowsFromACornerThatHasSlipped) {
  for (const bool right : {false, true}) {
    const double radius = right ? 16.4 : 15.3, size = right ? 7 : 9;
    const PicturePoint slip = right ? PicturePoint{0.7, 1} : PicturePoint{2.2, -0.2};
    const auto is_torn = [&](double u, double v) {
      return (right ? u >= kBentModules - size && u < kBentModules : u >= 0 && u < size) && v >= 0 &&
             v < size;
    };
    const auto picture =
        picture_of(kBentSide, kBentSide, BentSymbol::frame().inverse(), [&](double u, double v) {
          const PicturePoint at = Pipe{radius}({u, v});
          const bool torn = is_torn(at.x, at.y);
          return Inked{bent_matrix()}(at.x + (torn ? slip.x : 0), at.y + (torn ? slip.y : 0));
        });
    const Flattened flattened(picture, BentSymbol::framing());
    const SampledSymbol sample = grown_sample(flattened, Grid(flattened));
    int wrong = 0;
    for (int y = 0; y < kBentModules; ++y)
      for (int x = 0; x < kBentModules; ++x) wrong += !is_torn(x, y) && is_wrong(sample, x, y);
    EXPECT_LE(wrong, 2) << (right ? "right" : "left");
  }
}

// Without a finder pattern there is nothing to grow from: the sample is the lattice's.
TEST(GrowthTest, NothingGrowsOnABlankPicture) {
  const BentSymbol blank{unbent, [](double, double) { return true; }};
  const auto picture = blank.picture();
  const Flattened flattened(picture, blank.framing());
  const SampledSymbol sample = grown_sample(flattened, Grid(flattened));
  ASSERT_EQ(sample.darkness.size(), 625u);
  for (const float dark : sample.darkness) EXPECT_NEAR(dark, 0, 1e-3);
}

}  // namespace
}  // namespace counterfoil
