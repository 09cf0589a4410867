#include "printer/fit.h"

#include <gtest/gtest.h>

namespace counterfoil {
namespace {

// Nine places of an A4 page, in mm, and where a made-up printer put them.
const std::vector<Correspondence> kPlaces = {
    {{12, 10}, {12.854, 9.444}},    {{70, 11}, {69.214, 10.955}},     {{198, 9}, {193.648, 10.079}},
    {{14, 140}, {13.369, 141.173}}, {{105, 150}, {101.700, 152.083}}, {{199, 139}, {193.209, 141.805}},
    {{11, 287}, {8.837, 290.011}},  {{104, 288}, {99.219, 291.894}},  {{197, 286}, {189.611, 290.682}}};

// Source of the values: numpy 1.24.2, numpy.linalg.lstsq on the columns x, y, 1; standard errors from the inverse of
// A'A times the residual variance with 2 * 9 - 6 degrees of freedom.
TEST(Fit, AgreesWithNumpyLeastSquares) {
  const auto fit = fit_affine(kPlaces, 0.1);
  ASSERT_TRUE(fit);
  EXPECT_NEAR(fit->map.xx, 0.9719511624336155, 1e-12);
  EXPECT_NEAR(fit->map.xy, -0.011014104717795221, 1e-12);
  EXPECT_NEAR(fit->map.x0, 1.3026733792110576, 1e-10);
  EXPECT_NEAR(fit->map.yx, 0.008946608353254748, 1e-12);
  EXPECT_NEAR(fit->map.yy, 1.013020610819553, 1e-12);
  EXPECT_NEAR(fit->map.y0, -0.8002910981412433, 1e-10);
  EXPECT_NEAR(fit->rms, 0.017584604836919204, 1e-10);
  EXPECT_NEAR(fit->farthest, 0.025172345767845095, 1e-10);
  EXPECT_NEAR(fit->place_error, 0.005076238168094249, 1e-10);
  EXPECT_NEAR(fit->x_scale_error, 6.635990711629018e-05, 1e-12);
  EXPECT_NEAR(fit->y_scale_error, 4.492171065502256e-05, 1e-12);
  EXPECT_TRUE(fit->left_out.empty());
}

TEST(Fit, PlacesThatDoNotGoWithTheRestAreLeftOut) {
  auto places = kPlaces;
  places.push_back({{150, 60}, {151, 66}});
  places.insert(places.begin() + 3, Correspondence{{60, 220}, {40, 221}});
  const auto fit = fit_affine(places, 0.1);
  ASSERT_TRUE(fit);
  EXPECT_EQ(fit->left_out, (std::vector<std::size_t>{3, 10}));
  EXPECT_NEAR(fit->map.xx, 0.9719511624336155, 1e-12);
}

TEST(Fit, ScatterIsRefused) {
  auto places = kPlaces;
  for (std::size_t i = 0; i < places.size(); ++i) places[i].measured.x += i % 2 == 0 ? 0.9 : -0.9;
  const auto fit = fit_affine(places, 0.1);
  ASSERT_FALSE(fit);
  EXPECT_EQ(fit.error().kind, ErrorKind::refused);
  EXPECT_NE(fit.error().message.find("do not lie on a straight map"), std::string::npos);
}

TEST(Fit, PlacesOnOneLineOrTooFewAreRefused) {
  EXPECT_FALSE(fit_affine({{{0, 0}, {0, 0}}, {{1, 1}, {1, 1}}, {{2, 2}, {2, 2}}, {{3, 3}, {3, 3}}}, 1));
  EXPECT_FALSE(fit_affine({{{0, 0}, {0, 0}}, {{1, 0}, {1, 0}}, {{0, 1}, {0, 1}}}, 1));
  EXPECT_FALSE(fit_affine({}, 1));
}

TEST(Fit, InverseUndoesTheMap) {
  const Affine map = fit_affine(kPlaces, 0.1)->map;
  const PicturePoint there = map.inverse()(map({31, 177}));
  EXPECT_NEAR(there.x, 31, 1e-9);
  EXPECT_NEAR(there.y, 177, 1e-9);
}

}  // namespace
}  // namespace counterfoil
