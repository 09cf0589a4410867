// On pictures whose edges are where they are by construction: each pixel is the share of it that is covered.
#include "printer/marks.h"

#include <gtest/gtest.h>

#include <cmath>

namespace counterfoil {
namespace {

// Each pixel the mean of 8 x 8 places.
template <typename Dark>
GreyPicture picture(int width, int height, Dark dark, int light_grey = 220, int dark_grey = 40) {
  GreyPicture out{width, height, {}};
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x) {
      int covered = 0;
      for (int j = 0; j < 8; ++j)
        for (int i = 0; i < 8; ++i) covered += dark(x + (i + 0.5) / 8, y + (j + 0.5) / 8) ? 1 : 0;
      out.pixels.push_back(static_cast<std::uint8_t>(light_grey + (dark_grey - light_grey) * covered / 64));
    }
  return out;
}

// From mm to pixels: so many a mm, and an offset.
Projective even(double per_mm, double x0, double y0) { return {{per_mm, 0, x0, 0, per_mm, y0, 0, 0, 1}}; }

TEST(DiscMiddle, IsRightWithinAFiftiethOfAPixel) {
  for (const PicturePoint at : {PicturePoint{30, 30}, {30.31, 29.77}, {29.5, 30.9}}) {
    const auto grey =
        picture(60, 60, [&](double x, double y) { return std::hypot(x - at.x, y - at.y) < 12.3; });
    const auto middle = disc_middle(grey, {31, 29}, 12, 20);
    ASSERT_TRUE(middle);
    EXPECT_NEAR(middle->x, at.x, 0.02);
    EXPECT_NEAR(middle->y, at.y, 0.02);
  }
}

// The middle of what is dark moves by 0.4 pixels.
TEST(DiscMiddle, IsHardlyMovedByAWhiteLineThroughTheDisc) {
  const auto grey = picture(60, 60, [&](double x, double y) {
    return std::hypot(x - 30.2, y - 30.4) < 12 && !(x > 36 && x < 37.5);
  });
  const auto middle = disc_middle(grey, {30, 30}, 12, 20);
  ASSERT_TRUE(middle);
  EXPECT_NEAR(middle->x, 30.2, 0.12);
  EXPECT_NEAR(middle->y, 30.4, 0.02);
}

TEST(DiscMiddle, NothingIsFoundWhereThereIsNoSuchDisc) {
  const auto empty = picture(60, 60, [](double, double) { return false; });
  EXPECT_FALSE(disc_middle(empty, {30, 30}, 12, 20));
  const auto small = picture(60, 60, [](double x, double y) { return std::hypot(x - 30, y - 30) < 6; });
  EXPECT_FALSE(disc_middle(small, {30, 30}, 12, 20));
  const auto cut = picture(60, 60, [](double x, double y) { return std::hypot(x - 46, y - 30) < 12; });
  EXPECT_FALSE(disc_middle(cut, {30, 30}, 12, 20));
  const auto near_rim = picture(60, 60, [](double x, double y) { return std::hypot(x - 14, y - 30) < 12; });
  EXPECT_FALSE(disc_middle(near_rim, {14, 30}, 12, 20));
  EXPECT_FALSE(disc_middle(empty, {std::nan(""), 30}, 12, 20));
}

TEST(FindPaper, CornersAreWhereTheEdgesMeet) {
  // 40 x 60 mm at 5 pixels a mm, turned by 2 degrees, with something dark printed over the left edge.
  const double c = std::cos(0.035), s = std::sin(0.035);
  const auto place = [&](double x_mm, double y_mm) {
    return PicturePoint{60 + 5 * (c * x_mm - s * y_mm), 50 + 5 * (s * x_mm + c * y_mm)};
  };
  const auto grey = picture(320, 420, [&](double x, double y) {
    const double u = (x - 60) / 5, v = (y - 50) / 5;
    const double x_mm = c * u + s * v, y_mm = -s * u + c * v;
    const bool paper = x_mm >= 0 && y_mm >= 0 && x_mm < 40 && y_mm < 60;
    return !paper || (y_mm > 50 && y_mm < 54 && x_mm < 20) || (x_mm > 6 && x_mm < 6.3);
  });
  // The print is 1 mm and 1 % off, so the page is not quite where the paper is.
  const Projective page{{5.05 * c, -5 * s, 65, 5.05 * s, 5 * c, 48, 0, 0, 1}};
  const auto outline = find_paper(grey, page, 40, 60);
  ASSERT_TRUE(outline) << outline.error().message;
  const std::array<PicturePoint, 4> corners = {place(0, 0), place(40, 0), place(40, 60), place(0, 60)};
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(outline->corners[i].x, corners[i].x, 0.1) << i;
    EXPECT_NEAR(outline->corners[i].y, corners[i].y, 0.1) << i;
  }
  EXPECT_LT(outline->scatter, 0.2);
}

TEST(FindPaper, EdgeThatDoesNotShowIsNamed) {
  // The right edge is the picture's own.
  const auto grey = picture(220, 420, [](double x, double y) { return x < 20 || y < 50 || y > 350; });
  const auto outline = find_paper(grey, even(5, 20, 50), 40, 60);
  ASSERT_FALSE(outline);
  EXPECT_EQ(outline.error().kind, ErrorKind::refused);
  EXPECT_EQ(outline.error().message, "the paper's right edge does not show");
  const auto white = picture(320, 420, [](double, double) { return false; });
  EXPECT_FALSE(find_paper(white, even(5, 20, 50), 40, 60));
}

class DeadColumns : public ::testing::Test {
 protected:
  // 60 mm at 203.2 dots per inch (8 dots a mm), 10 pixels a mm; columns of `dead` print nothing.
  std::optional<std::vector<int>> found(const std::vector<int>& dead, int light = 220,
                                        double per_mm = 10) const {
    const auto grey = picture(
        static_cast<int>(70 * per_mm), static_cast<int>(12 * per_mm),
        [&](double x, double y) {
          const double x_mm = x / per_mm, y_mm = y / per_mm;
          if (x_mm < 2 || x_mm > 62 || y_mm < 5 || y_mm > 9) return false;
          const int dot = static_cast<int>(x_mm * 8);
          for (const int column : dead)
            if (dot == column) return false;
          return true;
        },
        light);
    return dead_columns(grey, even(per_mm, 0, 0), {2, 5, 60, 4, 0.125, 1});
  }
};

TEST_F(DeadColumns, AreCountedFromThePagesEdge) {
  EXPECT_EQ(found({}), std::vector<int>());
  EXPECT_EQ(found({100}), std::vector<int>({100}));
  EXPECT_EQ(found({30, 200, 201, 203, 440}), std::vector<int>({30, 200, 201, 203, 440}));
  EXPECT_EQ(found({77, 78, 79, 80}), std::vector<int>({77, 78, 79, 80}));
}

TEST_F(DeadColumns, AreNotKnownWhereTheBarCannotBeSeen) {
  EXPECT_FALSE(found({100}, 60));      // hardly printed
  EXPECT_FALSE(found({100}, 220, 3));  // 0.4 pixels a dot
}

}  // namespace
}  // namespace counterfoil
