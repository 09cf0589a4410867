#include <algorithm>
#include <cmath>

#include "printer/marks.h"
#include "recovery/pixel.h"

namespace counterfoil {
namespace {

constexpr int kStations = 64;  // along each edge
constexpr int kLeastStations = 24;
constexpr double kLeastContrast = 40;
constexpr double kCornerShare = 0.08;  // of an edge, at both ends, where corners are rounded or dog-eared
constexpr std::array kEdgeNames = {"upper", "right", "lower", "left"};

struct Line {
  PicturePoint point, along;  // along has length 1

  double off(PicturePoint p) const { return (p.x - point.x) * along.y - (p.y - point.y) * along.x; }
};

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

bool inside(GreyView picture, PicturePoint p) {
  return p.x >= 0 && p.y >= 0 && p.x < picture.width && p.y < picture.height;
}

// The first passing from dark to light on the way from `from` to `to`, if the way begins in the dark.
std::optional<PicturePoint> first_light(GreyView picture, PicturePoint from, PicturePoint to,
                                        double pixels_per_mm) {
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  // Also false for what is no number.
  if (!(length > 4 && length < 100'000)) return std::nullopt;
  constexpr double kStep = 0.5;  // pixels
  const auto steps = static_cast<int>(length / kStep);
  const auto at = [&](double step) {
    const double share = step * kStep / length;
    return PicturePoint{from.x + share * (to.x - from.x), from.y + share * (to.y - from.y)};
  };
  std::vector<double> values;
  int first = 0;
  while (first < steps && !inside(picture, at(first))) ++first;
  for (int i = first; i < steps && inside(picture, at(i)); ++i)
    values.push_back(double{grey_at(picture, at(i).x, at(i).y)});
  const auto backing_steps = static_cast<std::size_t>(std::max(0.8 * pixels_per_mm / kStep, 4.0));
  const auto stays_steps = static_cast<std::size_t>(std::max(0.6 * pixels_per_mm / kStep, 3.0));
  if (values.size() < 2 * (backing_steps + stays_steps)) return std::nullopt;
  const double backing =
      median({values.begin(), values.begin() + static_cast<std::ptrdiff_t>(backing_steps)});
  std::vector<double> sorted = values;
  std::sort(sorted.begin(), sorted.end());
  const double paper = sorted[sorted.size() * 9 / 10];
  if (paper - backing < kLeastContrast) return std::nullopt;
  const double threshold = (backing + paper) / 2;
  for (std::size_t i = 1; i + stays_steps < values.size(); ++i) {
    if (values[i] < threshold || values[i - 1] >= threshold) continue;
    const auto next = values.begin() + static_cast<std::ptrdiff_t>(i);
    if (median({next, next + static_cast<std::ptrdiff_t>(stays_steps)}) < threshold) continue;  // dust
    return at(first + static_cast<double>(i) - 1 + (threshold - values[i - 1]) / (values[i] - values[i - 1]));
  }
  return std::nullopt;
}

Line through(PicturePoint a, PicturePoint b) {
  const double length = std::hypot(b.x - a.x, b.y - a.y);
  return {a, {(b.x - a.x) / length, (b.y - a.y) / length}};
}

// Total least squares.
Line line_of(const std::vector<PicturePoint>& points) {
  const auto n = static_cast<double>(points.size());
  PicturePoint mean;
  for (const auto& p : points) mean = {mean.x + p.x / n, mean.y + p.y / n};
  double xx = 0, xy = 0, yy = 0;
  for (const auto& p : points) {
    xx += (p.x - mean.x) * (p.x - mean.x);
    xy += (p.x - mean.x) * (p.y - mean.y);
    yy += (p.y - mean.y) * (p.y - mean.y);
  }
  const double angle = std::atan2(2 * xy, xx - yy) / 2;
  return {mean, {std::cos(angle), std::sin(angle)}};
}

struct Edge {
  Line line;
  double squares = 0;
  std::size_t points = 0;
};

// The line that most points lie along: of lines through two points each the one with the least median distance, then
// least squares over what lies near it. Where ink runs over the paper's edge, stations are wrong by millimetres.
std::optional<Edge> edge_of(const std::vector<PicturePoint>& points) {
  if (points.size() < kLeastStations) return std::nullopt;
  const auto scatter = [&](const Line& line) {
    std::vector<double> off;
    for (const auto& p : points) off.push_back(std::abs(line.off(p)));
    return median(std::move(off));
  };
  Line best;
  double least = 1e9;
  const std::size_t half = points.size() / 2;
  for (std::size_t i = 0; i < half; ++i) {
    const Line line = through(points[i], points[i + half]);
    if (const double s = scatter(line); s < least) {
      least = s;
      best = line;
    }
  }
  std::vector<PicturePoint> near;
  for (const auto& p : points)
    if (std::abs(best.off(p)) <= std::max(4 * least, 0.7)) near.push_back(p);
  if (near.size() < kLeastStations) return std::nullopt;
  Edge edge{line_of(near), 0, near.size()};
  for (const auto& p : near) edge.squares += edge.line.off(p) * edge.line.off(p);
  return edge;
}

std::optional<PicturePoint> crossing(const Line& a, const Line& b) {
  const double turn = a.along.x * b.along.y - a.along.y * b.along.x;
  if (std::abs(turn) < 0.1) return std::nullopt;
  const double t = ((b.point.x - a.point.x) * b.along.y - (b.point.y - a.point.y) * b.along.x) / turn;
  return PicturePoint{a.point.x + t * a.along.x, a.point.y + t * a.along.y};
}

}  // namespace

Result<PaperOutline> find_paper(GreyView picture, const Projective& page, double width, double height) {
  const std::array<PicturePoint, 4> corner = {{{0, 0}, {width, 0}, {width, height}, {0, height}}};
  const double reach = 6 + 0.05 * std::max(width, height);  // the print may be off and out of scale
  const double inward = std::min(reach, 0.3 * std::min(width, height));
  std::array<Edge, 4> edges;
  for (std::size_t e = 0; e < 4; ++e) {
    const PicturePoint a = corner[e], b = corner[(e + 1) % 4];
    const double length = std::hypot(b.x - a.x, b.y - a.y);
    const PicturePoint in = {-(b.y - a.y) / length, (b.x - a.x) / length};
    std::vector<PicturePoint> points;
    for (int s = 0; s < kStations; ++s) {
      const double share = kCornerShare + (1 - 2 * kCornerShare) * s / (kStations - 1);
      const PicturePoint at = {a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)};
      const PicturePoint from = page(at.x - reach * in.x, at.y - reach * in.y);
      const PicturePoint to = page(at.x + inward * in.x, at.y + inward * in.y);
      const double per_mm = std::hypot(to.x - from.x, to.y - from.y) / (reach + inward);
      if (const auto found = first_light(picture, from, to, per_mm)) points.push_back(*found);
    }
    const auto edge = edge_of(points);
    if (!edge)
      return refused(
          std::string("the paper's ") + kEdgeNames[e] + " edge does not show",
          "lay something dark behind the paper and have some of it in the picture all round; or type where "
          "the lines are, with --left and --top");
    edges[e] = *edge;
  }
  PaperOutline outline;
  double squares = 0, points = 0;
  for (std::size_t e = 0; e < 4; ++e) {
    const auto at = crossing(edges[(e + 3) % 4].line, edges[e].line);
    if (!at) return refused("the paper's edges do not make a page");
    outline.corners[e] = *at;
    squares += edges[e].squares;
    points += static_cast<double>(edges[e].points);
  }
  outline.scatter = std::sqrt(squares / points);
  return outline;
}

}  // namespace counterfoil
