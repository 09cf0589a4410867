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
