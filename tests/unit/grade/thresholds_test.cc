#include "grade/thresholds.h"

#include <gtest/gtest.h>

#include <vector>

namespace counterfoil {
namespace {

struct Column {
  Scale scale;
  std::array<double, 4> limits;
  bool more_is_better;
};

// ISO/IEC 15415:2011, 7.8, and ISO/IEC 18004:2015, annex G (finder patterns); the last three rows from memory.
const std::vector<Column> kPublished{
    {Scale::contrast, {.70, .55, .40, .20}, true},
    {Scale::modulation, {.50, .40, .30, .20}, true},
    {Scale::axial, {.06, .08, .10, .12}, false},
    {Scale::grid, {.38, .50, .63, .75}, false},
    {Scale::unused_correction, {.62, .50, .37, .25}, true},
    {Scale::corner_errors, {0, 1, 2, 3}, false},
    {Scale::timing_errors, {0, .07, .11, .14}, false},
    {Scale::alignment_errors, {0, .10, .20, .30}, false},
    {Scale::mean_of_segments, {4, 3.5, 3, 2.5}, true},
};

TEST(ThresholdsTest, AValueOnALimitHasItsGradeAndOneBesideItTheNext) {
  constexpr double kBeside = 1e-6;
  for (const auto& column : kPublished) {
    for (int grade = 4; grade > 0; --grade) {
      const double limit = column.limits[static_cast<std::size_t>(4 - grade)];
      const double worse = column.more_is_better ? limit - kBeside : limit + kBeside;
      EXPECT_EQ(grade_of(column.scale, limit), grade) << limit;
      EXPECT_EQ(grade_of(column.scale, worse), grade - 1) << limit;
    }
  }
}

TEST(ThresholdsTest, ArithmeticDoesNotPushAValueOffItsLimit) {
  EXPECT_EQ(grade_of(Scale::axial, 0.3 - 0.24), 4);  // .06 and 2e-17
  EXPECT_EQ(grade_of(Scale::unused_correction, 1 - 2.0 * 8 / 32), 3);
}

}  // namespace
}  // namespace counterfoil
