// The lattice on bent symbols: where it has each module, held against where the bend truly put it.
#include "recovery/grid.h"

#include <gtest/gtest.h>

#include "unit/recovery/bent_symbol.h"

namespace counterfoil {
namespace {

TEST(GridTest, FlatSymbolNeedsNoBending) {
  const BentSymbol flat{unbent};
  const auto picture = flat.picture();
  const Flattened flattened(picture, flat.framing());
  const Grid grid(flattened);
  EXPECT_GT(grid.fidelity(), 0.8F);
  EXPECT_GT(grid.clearness(), 0.7F);
  for (double u = 0; u <= 25; u += 2.5)
    for (double v = 0; v <= 25; v += 2.5) EXPECT_LT(distance(grid(u, v), {u, v}), 0.15) << u << ", " << v;
  EXPECT_EQ(wrong_modules(grid.sample(flattened)), 0);
}

// By the frame alone timing modules lie nearly half a module from where they are.
TEST(GridTest, LatticeFollowsACylinder) {
  constexpr Pipe kPipe{16};
  const BentSymbol bent{kPipe};
  const auto picture = bent.picture();
  const Flattened flattened(picture, bent.framing());
  const Grid grid(flattened);
  double flat_error = 0, error = 0;
  for (int i = 8; i <= 16; ++i) {
    for (const PicturePoint module : {PicturePoint{i + 0.5, 6.5}, PicturePoint{6.5, i + 0.5}}) {
      const PicturePoint truth = kPipe.seen(module);
      flat_error = std::max(flat_error, distance(module, truth));
      error = std::max(error, distance(grid(module.x, module.y), truth));
    }
  }
  EXPECT_GT(flat_error, 0.45);
  EXPECT_LT(error, 0.3);
  EXPECT_GT(grid.fidelity(), 0.75F);
  EXPECT_EQ(wrong_modules(grid.sample(flattened)), 0);
}

TEST(GridTest, FrameThatIsAstrayIsPutRight) {
  const BentSymbol flat{unbent};
  const auto picture = flat.picture();
  Framing framing = flat.framing();
  framing.place.m[2] += 0.7 * kBentModule;
  framing.place.m[5] -= 0.6 * kBentModule;
  const Flattened flattened(picture, framing);
  const Grid grid(flattened);
  EXPECT_LT(distance(grid(12.5, 12.5), {12.5 - 0.7, 12.5 + 0.6}), 0.2);
  EXPECT_EQ(wrong_modules(grid.sample(flattened)), 0);
}

// A wrong number of modules, and no symbol at all: function patterns are not there.
TEST(GridTest, FidelityTellsThatThereIsNoSuchSymbol) {
  const BentSymbol flat{unbent};
  const auto picture = flat.picture();
  Framing other = flat.framing();
  other.modules = 29;
  for (const std::size_t i : {0u, 1u, 3u, 4u}) other.place.m[i] *= 25.0 / 29;
  const GreyPicture blank{picture.width, picture.height,
                          std::vector<std::uint8_t>(picture.pixels.size(), 128)};
  EXPECT_GT(Grid(Flattened(picture, flat.framing())).fidelity(), 0.8F);
  EXPECT_LT(Grid(Flattened(picture, other)).fidelity(), 0.55F);
  EXPECT_NEAR(Grid(Flattened(blank, flat.framing())).fidelity(), 0, 1e-3);
  EXPECT_NEAR(Grid(Flattened(blank, flat.framing())).clearness(), 0, 1e-3);
}

TEST(GridTest, CoveredModulesAreUnknownAndTheRestIsRight) {
  const BentSymbol covered{Pipe{20}, [](double u, double v) { return u > 10 && u < 16 && v > 9 && v < 15; }};
  const auto picture = covered.picture();
  const Flattened flattened(picture, covered.framing());
  const SampledSymbol sample = Grid(flattened).sample(flattened);
  ASSERT_EQ(sample.darkness.size(), 625u);
  for (int y = 11; y < 13; ++y)
    for (int x = 12; x < 14; ++x) EXPECT_LT(std::abs(sample.at(x, y)), 0.35F) << x << ", " << y;
  int wrong = 0;
  for (int y = 0; y < 25; ++y)
    for (int x = 0; x < 25; ++x)
      if (x < 9 || x > 16 || y < 8 || y > 15) wrong += is_wrong(sample, x, y);
  EXPECT_EQ(wrong, 0);
}

}  // namespace
}  // namespace counterfoil
