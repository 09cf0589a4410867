#include "grade/fixed_patterns.h"

#include <algorithm>
#include <cstdlib>

#include "grade/thresholds.h"

namespace counterfoil {
namespace {

using Module = FixedPatterns::Module;
constexpr int kCorner = 8;  // modules of a finder pattern and its separator
constexpr int kTiming = 6;

struct Segment {
  Scale scale;
  std::vector<Module> modules;
};

// Corners, timing patterns, alignment patterns where there are any; the quiet zone between the corners last.
std::vector<Segment> segments_of(const Layout& layout) {
  const int n = layout.modules;
  std::vector<Segment> segments;
  const auto in_corner = [n](int x, int y) {
    const bool left = x < kCorner, top = y < kCorner, right = x >= n - kCorner, bottom = y >= n - kCorner;
    return left && top ? 0 : right && top ? 1 : left && bottom ? 2 : 3;
  };
  for (int i = 0; i < 3; ++i) segments.push_back({Scale::corner_errors, {}});
  Segment quiet{Scale::timing_errors, {}};
  for (int y = -kQuietZone; y < n + kQuietZone; ++y) {
    for (int x = -kQuietZone; x < n + kQuietZone; ++x) {
      const int corner = in_corner(x, y);
      if (corner < 3)
        segments[static_cast<std::size_t>(corner)].modules.push_back({x, y});
      else if (x < 0 || y < 0 || x >= n || y >= n)
        quiet.modules.push_back({x, y});
    }
  }
  Segment row{Scale::timing_errors, {}}, column = row;
  for (int i = kCorner; i < n - kCorner; ++i) {
    row.modules.push_back({i, kTiming});
    column.modules.push_back({kTiming, i});
  }
  segments.push_back(std::move(row));
  segments.push_back(std::move(column));
  Segment alignment{Scale::alignment_errors, {}};
  for (const int cy : layout.alignment)
    for (const int cx : layout.alignment) {
      if (in_corner(cx, cy) < 3) continue;
      for (int y = cy - 2; y <= cy + 2; ++y)
        for (int x = cx - 2; x <= cx + 2; ++x) alignment.modules.push_back({x, y});
    }
  if (!alignment.modules.empty()) segments.push_back(std::move(alignment));
  segments.push_back(std::move(quiet));
  return segments;
}

}  // namespace

FixedPatterns fixed_patterns(const SeenModules& seen) {
  const Layout& layout = layout_of((seen.modules() - 17) / 4);
  const int n = layout.modules;
  const auto segments = segments_of(layout);
  const auto is_wrong = [&](Module m) {
    const bool inside = m.x >= 0 && m.y >= 0 && m.x < n && m.y < n;
    return seen.dark(m.x, m.y) != (inside && layout.colour[static_cast<std::size_t>(m.y * n + m.x)] > 0);
  };
  FixedPatterns result;
  std::vector<int> errors;
  for (const auto& segment : segments) {
    errors.push_back(0);
    for (const Module m : segment.modules) {
      if (!is_wrong(m)) continue;
      ++errors.back();
      const auto same = [m](Module other) { return other.x == m.x && other.y == m.y; };
      if (std::none_of(result.wrong.begin(), result.wrong.end(), same)) result.wrong.push_back(m);
    }
  }
  std::copy_n(errors.begin(), 3, result.corner_errors.begin());
  result.timing_errors = errors[3] + errors[4];
  if (segments.size() == 7) result.alignment_errors = errors[5];
  result.quiet_zone_errors = errors.back();

  // For each grade, modules of a weaker modulation count as wrong too.
  for (int grade = kBestGrade; grade > 0; --grade) {
    double sum = 0;
    int lowest = kBestGrade;
    for (std::size_t i = 0; i < segments.size(); ++i) {
      const auto& [scale, modules] = segments[i];
      const auto bad = static_cast<double>(std::count_if(modules.begin(), modules.end(), [&](Module m) {
        return is_wrong(m) || grade_of(Scale::modulation, seen.modulation(m.x, m.y)) < grade;
      }));
      const double value = scale == Scale::corner_errors ? bad : bad / static_cast<double>(modules.size());
      const int notional = grade_of(scale, value);
      lowest = std::min(lowest, notional);
      if (i + 1 < segments.size()) sum += notional;
    }
    const int mean = grade_of(Scale::mean_of_segments, sum / static_cast<double>(segments.size() - 1));
    result.grade = std::max(result.grade, std::min({grade, lowest, mean}));
  }
  return result;
}

}  // namespace counterfoil
