#include "grade/thresholds.h"

#include <cstddef>

namespace counterfoil {
namespace {

struct Row {
  bool more_is_better;
  std::array<double, 4> limits;
};

// In the order of Scale.
constexpr std::array<Row, 9> kRows{{
    {true, {.70, .55, .40, .20}},   // 15415:2011, 7.8.3
    {true, {.50, .40, .30, .20}},   // 7.8.4
    {false, {.06, .08, .10, .12}},  // 7.8.6
    {false, {.38, .50, .63, .75}},  // 7.8.7
    {true, {.62, .50, .37, .25}},   // 7.8.8
    {false, {0, 1, 2, 3}},          // 18004:2015, annex G, segments A1 to A3
    {false, {0, .07, .11, .14}},    // segments B1, B2; from memory
    {false, {0, .10, .20, .30}},    // segment C; from memory
    {true, {4, 3.5, 3, 2.5}},       // mean of the six; from memory
}};
constexpr double kSlack = 1e-9;

const Row& row_of(Scale scale) { return kRows[static_cast<std::size_t>(scale)]; }

}  // namespace

std::string_view to_text(Parameter parameter) {
  constexpr std::array<std::string_view, kParameters.size()> kNames{"decoding",
                                                                    "symbol contrast",
                                                                    "modulation",
                                                                    "axial non-uniformity",
                                                                    "grid non-uniformity",
                                                                    "unused error correction",
                                                                    "fixed pattern damage"};
  return kNames[static_cast<std::size_t>(parameter)];
}

const std::array<double, 4>& limits_of(Scale scale) { return row_of(scale).limits; }

int grade_of(Scale scale, double value) {
  const Row& row = row_of(scale);
  int grade = kBestGrade;
  for (const double limit : row.limits) {
    if (row.more_is_better ? value >= limit - kSlack : value <= limit + kSlack) return grade;
    --grade;
  }
  return 0;
}

}  // namespace counterfoil
