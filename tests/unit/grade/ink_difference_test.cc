// A drawing of bars and boxes, and prints of it computed from known errors.
#include "grade/ink_difference.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "grade/registration.h"

namespace counterfoil {
namespace {

// 255 paper, 0 ink; boxes of several sizes, none like another.
Plane drawing() {
  Plane plane(240, 160, 255);
  const auto box = [&](int left, int top, int width, int height) {
    for (int y = top; y < top + height; ++y)
      for (int x = left; x < left + width; ++x) plane.at(x, y) = 0;
  };
  box(20, 20, 60, 8);
  box(20, 40, 8, 90);
  box(60, 50, 25, 25);
  box(110, 30, 6, 100);
  box(140, 100, 80, 14);
  box(150, 30, 40, 40);
  box(160, 40, 10, 10);
  return plane;
}

// The drawing as a scan shows it that lies as `map` says, from the drawing's places to the scan's.
Plane print_of(const Plane& from, const Affine& map, double paper = 230, double ink = 40, double blur = 1) {
  const Affine back = map.inverse();
  const Plane soft = blurred(from, blur);
  Plane out(from.width, from.height);
  for (int y = 0; y < out.height; ++y)
    for (int x = 0; x < out.width; ++x)
      out.at(x, y) =
          static_cast<float>(ink + (paper - ink) / 255 * double{soft.between(back({x + 0.5, y + 0.5}))});
  return out;
}

float largest(const Plane& plane) { return *std::max_element(plane.values.begin(), plane.values.end()); }

TEST(RegistrationTest, AMapOfSomePixelsIsFoundToATenth) {
  const Affine map{1.004, -0.006, 5.3, 0.007, 0.996, -6.2};
  const Affine found = registered(drawing(), print_of(drawing(), map));
  for (const PicturePoint p :
       {PicturePoint{10, 10}, PicturePoint{230, 10}, PicturePoint{10, 150}, PicturePoint{230, 150}}) {
    EXPECT_NEAR(found(p).x, map(p).x, .1);
    EXPECT_NEAR(found(p).y, map(p).y, .1);
  }
}

TEST(RegistrationTest, OneBoxInAnotherPlaceDoesNotMoveTheRest) {
  Plane print = print_of(drawing(), {});
  for (int y = 45; y < 80; ++y)
    for (int x = 55; x < 90; ++x) print.at(x, y) = 230;
  const Affine found = registered(drawing(), print);
  EXPECT_NEAR(found({120, 80}).x, 120, .15);
  EXPECT_NEAR(found({120, 80}).y, 80, .15);
}

TEST(RegistrationTest, WithoutInkNothingIsChanged) {
  EXPECT_EQ(registered(drawing(), Plane(240, 160, 230)), Affine{});
  EXPECT_EQ(registered(Plane(240, 160, 255), print_of(drawing(), {})), Affine{});
}

TEST(RegistrationTest, AShiftOfAPartIsFoundUpToItsLimit) {
  const Plane print = blurred(print_of(drawing(), {1, 0, 1.4, 0, 1, -0.8}), 1);
  const Plane soft = blurred(drawing(), 1);
  const PixelBox box{50, 40, 95, 85};
  EXPECT_NEAR(shift_of(soft, print, box, 3).x, 1.4, .1);
  EXPECT_NEAR(shift_of(soft, print, box, 3).y, -0.8, .1);
  EXPECT_EQ(shift_of(soft, print, box, 1).x, 0);
  EXPECT_EQ(shift_of(soft, print, {}, 3).x, 0);
}

TEST(InkDifferenceTest, TonesBlurAndSpreadAreMeasured) {
  const InkPlanes planes = ink_planes(drawing(), print_of(drawing(), {}, 210, 60, 1.4));
  EXPECT_NEAR(planes.paper, 210, 2);
  EXPECT_NEAR(planes.contrast, 150, 3);
  EXPECT_EQ(planes.blur, 1.4);
  EXPECT_NEAR(planes.spread, 0, .05);
  // Ink that reaches a pixel farther to all sides.
  const InkPlanes wide = ink_planes(drawing(), print_of(least_around(drawing(), 1), {}));
  EXPECT_NEAR(wide.spread, 1, .3);
  EXPECT_LT(largest(ink_difference(wide.meant, wide.seen).extra), 3);
}

TEST(InkDifferenceTest, AnEvenChangeOfLightIsNoInk) {
  Plane print = print_of(drawing(), {});
  for (int y = 0; y < print.height; ++y)
    for (int x = 0; x < print.width; ++x) print.at(x, y) -= 0.25F * static_cast<float>(x);
  const InkPlanes planes = ink_planes(drawing(), print);
  const InkDifference difference = ink_difference(planes.meant, planes.seen);
  EXPECT_LT(largest(difference.missing), 1);
  EXPECT_LT(largest(difference.extra), 1);
}

// A spot of 5 x 5 pixels is 25 of ink, of which what is as light as a quarter of the ink is left out, and blur takes some.
TEST(InkDifferenceTest, ASpotThatIsMissingOrTooMuchIsMeasuredInPixels) {
  const Plane meant = ink_planes(drawing(), print_of(drawing(), {})).meant;
  Plane seen = meant;
  for (int y = 55; y < 60; ++y)
    for (int x = 65; x < 70; ++x) seen.at(x, y) = 0;
  for (int y = 80; y < 85; ++y)
    for (int x = 200; x < 205; ++x) seen.at(x, y) = 1;
  const InkDifference difference = ink_difference(meant, seen);
  EXPECT_NEAR(difference.missing.at(67, 57), 25, .01);
  EXPECT_NEAR(difference.extra.at(202, 82), 25, .01);
  EXPECT_EQ(difference.extra.at(67, 57), 0);
  EXPECT_NEAR(largest(difference.missing), 25, .01);
  // Nothing farther off than a spot reaches.
  EXPECT_EQ(difference.missing.at(67, 57 + 3 + kSpotReach + 2), 0);
}

TEST(InkDifferenceTest, APixelsShiftIsNoDifference) {
  const Plane meant = ink_planes(drawing(), print_of(drawing(), {})).meant;
  Plane seen = meant;
  for (int y = 0; y < seen.height; ++y)
    for (int x = 1; x < seen.width; ++x) seen.at(x, y) = meant.at(x - 1, y);
  const InkDifference difference = ink_difference(meant, seen);
  EXPECT_LT(largest(difference.missing), .01);
  EXPECT_LT(largest(difference.extra), .01);
  // Unless no better place is looked for.
  EXPECT_GT(largest(ink_difference(meant, seen, 40).missing), 1);
}

TEST(PlaneTest, FlattenedTakesTheMeanOfWhatLiesUnderAPixel) {
  GreyPicture picture{4, 2, {0, 100, 200, 200, 0, 100, 200, 200}};
  const Plane plane = flattened(picture, {2, 0, 0, 0, 2, 0}, 2, 1);
  EXPECT_NEAR(plane.at(0, 0), 50, .01);
  EXPECT_NEAR(plane.at(1, 0), 200, .01);
  EXPECT_NEAR(flattened(picture, {}, 4, 2).at(1, 1), 100, .01);
  EXPECT_NEAR(flattened(picture, {1, 0, 100, 0, 1, 0}, 1, 1).at(0, 0), 200, .01);  // beyond the edge
}

TEST(PlaneTest, ReducedIsTheMeanOfSquares) {
  Plane plane(5, 4, 10);
  plane.at(0, 0) = 50;
  plane.at(4, 3) = 99;  // in what is left over
  const Plane small = reduced(plane, 2);
  EXPECT_EQ(small.width, 2);
  EXPECT_EQ(small.height, 2);
  EXPECT_EQ(small.at(0, 0), 20);
  EXPECT_EQ(small.at(1, 1), 10);
}

TEST(PlaneTest, SumsAndExtremesReachAsFarAsTheySay) {
  Plane plane(9, 9);
  plane.at(4, 4) = 1;
  EXPECT_EQ(sum_around(plane, 2).at(6, 2), 1);
  EXPECT_EQ(sum_around(plane, 2).at(7, 4), 0);
  EXPECT_EQ(sum_around(Plane(9, 9, 1), 2).at(0, 0), 9);  // nothing beyond the edge
  EXPECT_EQ(largest_around(plane, 1).at(5, 3), 1);
  EXPECT_EQ(largest_around(plane, 1).at(6, 4), 0);
  EXPECT_EQ(least_around(Plane(3, 3, 2), 1).at(0, 0), 2);
  float all = 0;
  for (const float value : blurred(plane, 0.9).values) all += value;
  EXPECT_NEAR(all, 1, 1e-4);
}

}  // namespace
}  // namespace counterfoil
