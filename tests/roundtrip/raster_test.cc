#include "roundtrip/raster.h"

#include <gtest/gtest.h>

namespace counterfoil {
namespace {

TEST(Raster, InkIsMeasuredToThePixel) {
  Raster page{40, 20, 254, std::vector<std::uint8_t>(800, 255)};  // 10 pixels a mm
  for (int x = 12; x < 20; ++x) page.grey[static_cast<std::size_t>(5 * 40 + x)] = 0;
  const Box ink = page.ink_in({1, 0, 3, 2});
  EXPECT_NEAR(ink.x_mm, 1.2, 1e-9);
  EXPECT_NEAR(ink.width_mm, 0.8, 1e-9);
  EXPECT_NEAR(ink.height_mm, 0.1, 1e-9);
  EXPECT_EQ(page.ink_in({2, 0, 2, 2}).width_mm, 0);
}

}  // namespace
}  // namespace counterfoil
