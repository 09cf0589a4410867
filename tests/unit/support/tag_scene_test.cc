#include "support/tag_scene.h"

#include <gtest/gtest.h>

#include <cmath>

#include "reader/photo.h"

namespace counterfoil {
namespace {

const TagScene kScene{{320, 240, 4}, "CF1:7KWP-M4XE-3N", CorrectionLevel::high, 2};

// Mean difference of a channel, in grey steps.
double difference(const RgbPicture& a, const RgbPicture& b) {
  double sum = 0;
  for (std::size_t i = 0; i < a.pixels.size(); ++i) sum += std::abs(int{a.pixels[i]} - int{b.pixels[i]});
  return sum / static_cast<double>(a.pixels.size());
}

TEST(TagScene, SeedDecidesEverything) {
  const auto picture = photograph(kScene, Fault::combined, 3, 7).picture;
  ASSERT_EQ(picture.pixels.size(), 320u * 240u * 3u);
  EXPECT_EQ(photograph(kScene, Fault::combined, 3, 7).picture.pixels, picture.pixels);
  EXPECT_NE(photograph(kScene, Fault::combined, 3, 8).picture.pixels, picture.pixels);
}

TEST(TagScene, EachFaultShowsAndGrowsWithItsLevel) {
  const auto clean = photograph(kScene, Fault::none, 1, 5).picture;
  for (const Fault fault : all_faults()) {
    if (fault == Fault::none) continue;
    const double mild = difference(photograph(kScene, fault, 1, 5).picture, clean);
    const double hard = difference(photograph(kScene, fault, 5, 5).picture, clean);
    EXPECT_GT(mild, 0.01) << name_of(fault);
    EXPECT_GT(hard, mild) << name_of(fault);
  }
}

// The reader's corners come from another library and know nothing of how the picture was made.
TEST(TagScene, CornersAreWhereTheReaderFindsThem) {
  TagScene scene = kScene;
  scene.width = 640, scene.height = 480, scene.module_pixels = 6;
  for (const Fault fault : {Fault::none, Fault::stretch, Fault::tilt}) {
    const auto made = photograph(scene, fault, 2, 3);
    const auto photo = read_photo_bytes(jpeg_of(made.picture, 90), {});
    ASSERT_TRUE(photo) << name_of(fault);
    ASSERT_EQ(photo->codes.size(), 1u) << name_of(fault);
    EXPECT_EQ(photo->codes[0].text, scene.text);
    for (std::size_t i = 0; i < 4; ++i) {
      const auto& found = photo->codes[0].corners[i];
      const auto& true_corner = made.corners[i];
      EXPECT_LT(std::hypot(found.x - true_corner.x, found.y - true_corner.y), made.module_pixels)
          << name_of(fault) << ", corner " << i;
    }
  }
}

TEST(TagScene, CutOffSymbolLiesOutsideByItsShare) {
  for (const std::uint64_t seed : {1u, 2u, 3u, 4u}) {
    const auto corners = photograph(kScene, Fault::cutoff, 5, seed).corners;
    double left = corners[0].x, right = left, top = corners[0].y, bottom = top;
    for (const auto& corner : corners) {
      left = std::min(left, corner.x), right = std::max(right, corner.x);
      top = std::min(top, corner.y), bottom = std::max(bottom, corner.y);
    }
    const double across = std::max(-left, right - kScene.width) / (right - left);
    const double down = std::max(-top, bottom - kScene.height) / (bottom - top);
    EXPECT_NEAR(std::max(across, down), 0.25, 0.02) << seed;
  }
}

PrintedArea::Placed placed(double left, double top, double module) {
  return {*encode_symbol("CF1:7KWP-M4XE-3N", CorrectionLevel::high, 2), left, top, module};
}

TEST(TagScene, AreaIsDamagedAlikeWhateverIsPrintedThere) {
  const TagView view{320, 240, 4};
  PrintedArea bare, printed;
  bare.side = printed.side = 33;
  printed.symbols.push_back(placed(25, 25, 0.2));  // a corner of 5 units of the area
  // Faults of the lens and of print-outs spread what is dark; these do not.
  for (const Fault fault :
       {Fault::water, Fault::pen, Fault::fold, Fault::crumple, Fault::oil, Fault::mixed}) {
    const auto one = photograph_area(bare, view, fault, 3, 11),
               other = photograph_area(printed, view, fault, 3, 11);
    std::size_t changed = 0;
    for (std::size_t i = 0; i < one.pixels.size(); ++i) changed += one.pixels[i] != other.pixels[i];
    EXPECT_GT(changed, 0u) << name_of(fault);
    EXPECT_LT(changed, 3u * 40 * 40) << name_of(fault);
  }
}

TEST(TagScene, EverySymbolOfAnAreaIsReadable) {
  PrintedArea area;
  area.side = 66;
  area.symbols = {placed(4, 4, 1), placed(40, 40, 0.88)};
  const auto photo =
      read_photo_bytes(jpeg_of(photograph_area(area, {640, 480, 5}, Fault::none, 1, 3), 90), {});
  ASSERT_TRUE(photo);
  ASSERT_EQ(photo->codes.size(), 2u);
  EXPECT_EQ(photo->codes[0].text, "CF1:7KWP-M4XE-3N");
  EXPECT_EQ(photo->codes[1].text, "CF1:7KWP-M4XE-3N");
}

}  // namespace
}  // namespace counterfoil
