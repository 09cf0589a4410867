#include "recovery/finder_pattern.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>

namespace counterfoil {
namespace {

constexpr double kLeastLikeness = 0.5;

// The pattern with the light module around it, two samples to a module either way.
struct TemplatePoint {
  float u, v, darkness;
};
constexpr int kTemplateSide = 9;

const std::vector<TemplatePoint>& template_points() {
  static const std::vector<TemplatePoint> all = [] {
    std::vector<TemplatePoint> points;
    float sum = 0;
    for (int row = 0; row < kTemplateSide; ++row) {
      for (int column = 0; column < kTemplateSide; ++column) {
        const int ring = std::max(std::abs(row - 4), std::abs(column - 4));
        const float darkness = ring == 2 || ring == 4 ? -1 : 1;
        for (const float du : {-0.25F, 0.25F}) {
          for (const float dv : {-0.25F, 0.25F}) {
            points.push_back({static_cast<float>(column - 4) + du, static_cast<float>(row - 4) + dv, darkness});
            sum += darkness;
          }
        }
      }
    }
    const float mean = sum / static_cast<float>(points.size());
    for (auto& point : points) point.darkness -= mean;
    return points;
  }();
  return all;
}

// Positive where the pattern is dark on light, negative where it is inverted.
double correlation(GreyView grey, const FinderPattern& p) {
  double sum = 0, squares = 0, product = 0, ideal = 0;
  for (const TemplatePoint& t : template_points()) {
    const double g =
        grey_at(grey, p.centre.x + t.u * p.u.x + t.v * p.v.x, p.centre.y + t.u * p.u.y + t.v * p.v.y);
    sum += g;
    squares += g * g;
    product -= g * t.darkness;
    ideal += t.darkness * t.darkness;
  }
  const double n = static_cast<double>(template_points().size());
  const double variance = squares - sum * sum / n;
  if (variance < 4 * n) return 0;  // flat within two grey levels
  return product / std::sqrt(variance * ideal);
}

FinderPattern turned(const FinderPattern& p, double angle, double module) {
  FinderPattern out = p;
  out.u = {module * std::cos(angle), module * std::sin(angle)};
  out.v = {-out.u.y, out.u.x};
  return out;
}

struct Proposal {
  double x = 0, y = 0, module = 0;
  int votes = 0;
};

// Proposals that lie within a module or so of each other become one, their mean.
class Proposals {
 public:
  void add(double x, double y, double module) {
    for (std::size_t i = all_.size(), tried = 0; i-- > 0 && tried < kRecent; ++tried) {
      Proposal& p = all_[i];
      if (std::abs(p.x - x) < 1.5 * module && std::abs(p.y - y) < 1.5 * module && p.module < 1.5 * module &&
          module < 1.5 * p.module) {
        ++p.votes;
        p.x += (x - p.x) / p.votes;
        p.y += (y - p.y) / p.votes;
        p.module += (module - p.module) / p.votes;
        return;
      }
    }
    all_.push_back({x, y, module, 1});
  }
  std::vector<Proposal> take() { return std::move(all_); }

 private:
  static constexpr std::size_t kRecent = 60;
  std::vector<Proposal> all_;
};

// Five runs in the proportion 1:1:3:1:1, each within 60 % of a module of what it should be.
bool has_proportion(const std::array<int, 5>& run, double& module) {
  const int total = run[0] + run[1] + run[2] + run[3] + run[4];
  if (total < 7) return false;
  module = total / 7.0;
  const double slack = 0.6 * module + 0.5;
  return std::abs(run[0] - module) < slack && std::abs(run[1] - module) < slack &&
         std::abs(run[2] - 3 * module) < 1.5 * slack && std::abs(run[3] - module) < slack &&
         std::abs(run[4] - module) < slack;
}

// Walks one line of pixels, of either colour; `found(middle, module)`.
template <typename Found>
void scan_line(const std::uint8_t* first, std::ptrdiff_t step, int length, Found found) {
  std::array<int, 5> run{};
  int filled = 0, start = 0;
  for (int i = 1; i <= length; ++i) {
    if (i < length && (first[i * step] != 0) == (first[(i - 1) * step] != 0)) continue;
    std::rotate(run.begin(), run.begin() + 1, run.end());
    run[4] = i - start;
    start = i;
    double module = 0;
    if (++filled >= 5 && has_proportion(run, module)) {
      found(i - run[4] - run[3] - run[2] / 2.0, module);
    }
  }
}

std::vector<Proposal> proposals(GreyView bw) {
  Proposals along_rows, along_columns;
  const std::ptrdiff_t width = bw.width;
  for (int y = 0; y < bw.height; ++y) {
    scan_line(bw.pixels + y * width, 1, bw.width,
              [&](double x, double module) { along_rows.add(x, y + 0.5, module); });
  }
  for (int x = 0; x < bw.width; ++x) {
    scan_line(bw.pixels + x, width, bw.height,
              [&](double y, double module) { along_columns.add(x + 0.5, y, module); });
  }
  auto all = along_rows.take();
  const auto columns = along_columns.take();
  all.insert(all.end(), columns.begin(), columns.end());
  // A whole pattern is crossed by three modules of lines; one that is half covered by fewer.
  std::erase_if(all, [](const Proposal& p) { return p.votes < std::max(2.0, 0.8 * p.module); });
  return all;
}

bool same_place(const FinderPattern& a, const FinderPattern& b) {
  return std::hypot(a.centre.x - b.centre.x, a.centre.y - b.centre.y) <
         3 * std::max(a.module(), b.module());
}

}  // namespace

double FinderPattern::module() const { return (std::hypot(u.x, u.y) + std::hypot(v.x, v.y)) / 2; }

float grey_at(GreyView picture, double x, double y) {
  const double cx = std::clamp(x - 0.5, 0.0, picture.width - 1.001);
  const double cy = std::clamp(y - 0.5, 0.0, picture.height - 1.001);
  const int ix = static_cast<int>(cx), iy = static_cast<int>(cy);
  const float fx = static_cast<float>(cx - ix), fy = static_cast<float>(cy - iy);
  const std::uint8_t* p = picture.pixels + std::ptrdiff_t{iy} * picture.width + ix;
  const std::uint8_t* q = iy + 1 < picture.height ? p + picture.width : p;
  const int right = ix + 1 < picture.width ? 1 : 0;
  const float upper = static_cast<float>(p[0]) + fx * static_cast<float>(p[right] - p[0]);
  const float lower = static_cast<float>(q[0]) + fx * static_cast<float>(q[right] - q[0]);
  return upper + fy * (lower - upper);
}

double finder_likeness(GreyView grey, const FinderPattern& p) {
  return std::max((p.inverted ? -1 : 1) * correlation(grey, p), 0.0);
}

FinderPattern fit_finder_pattern(GreyView grey, FinderPattern p) {
  const double sign = p.inverted ? -1 : 1;
  double best = sign * correlation(grey, p);
  double* const free[] = {&p.centre.x, &p.centre.y, &p.u.x, &p.u.y, &p.v.x, &p.v.y};
  const double module = p.module();
  for (double step = 0.5; step > 0.02; step /= 2) {
    for (int sweep = 0; sweep < 4; ++sweep) {
      bool better = false;
      for (std::size_t i = 0; i < 6; ++i) {
        const double length = step * module * (i < 2 ? 1 : 0.25);
        for (const double move : {length, -length}) {
          *free[i] += move;
          const double now = sign * correlation(grey, p);
          if (now > best) {
            best = now;
            better = true;
            break;
          }
          *free[i] -= move;
        }
      }
      if (!better) break;
    }
  }
  p.likeness = std::max(best, 0.0);
  return p;
}

std::vector<FinderPattern> find_finder_patterns(GreyView bw, GreyView grey, std::size_t most) {
  std::vector<FinderPattern> out;
  if (bw.empty() || grey.empty()) return out;
  const double scale = static_cast<double>(grey.width) / bw.width;
  for (const Proposal& proposal : proposals(bw)) {
    FinderPattern start;
    start.centre = {proposal.x * scale, proposal.y * scale};
    double best = 0;
    FinderPattern candidate;
    for (int turn = 0; turn < 6; ++turn) {
      for (const double size : {0.85, 1.0, 1.15}) {
        const auto tried = turned(start, turn * std::numbers::pi / 12, size * scale * proposal.module);
        const double like = correlation(grey, tried);
        if (std::abs(like) <= best) continue;
        best = std::abs(like);
        candidate = tried;
        candidate.inverted = like < 0;
      }
    }
    if (best < 0.3) continue;
    candidate = fit_finder_pattern(grey, candidate);
    const double m = candidate.module();
    const double area = candidate.u.x * candidate.v.y - candidate.u.y * candidate.v.x;
    if (candidate.likeness < kLeastLikeness || area < 0.4 * m * m) continue;
    const auto same =
        std::find_if(out.begin(), out.end(), [&](const auto& other) { return same_place(other, candidate); });
    if (same == out.end()) {
      out.push_back(candidate);
    } else if (same->likeness < candidate.likeness) {
      *same = candidate;
    }
  }
  std::sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.likeness > b.likeness; });
  if (out.size() > most) out.resize(most);
  return out;
}

}  // namespace counterfoil
