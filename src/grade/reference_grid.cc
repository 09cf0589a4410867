#include "grade/reference_grid.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>

#include "grade/edges.h"
#include "recovery/layout.h"

namespace counterfoil {
namespace {

constexpr double kFinderMiddle = 3.5;
constexpr int kTiming = 6;  // row and column of the timing patterns
constexpr std::size_t kFewestMiddles = 6;

PicturePoint sum(PicturePoint p, PicturePoint q, double times) {
  return {p.x + times * q.x, p.y + times * q.y};
}
PicturePoint between(PicturePoint from, PicturePoint to, double share) {
  return {(to.x - from.x) * share, (to.y - from.y) * share};
}
double length(PicturePoint p) { return std::hypot(p.x, p.y); }

// The middle of a pattern along one axis, and how much wider its dark is than it should be.
struct Across {
  std::vector<double> middles, growths;
};

// Edges at -half and half around the centre, over lines beside each other; in modules.
void look_across(Across& across, const Reflectance& reflectance, PicturePoint centre, PicturePoint along,
                 PicturePoint aside, double half, bool dark_inside, double reach, double window) {
  constexpr int kLines = 6;  // to each side
  for (int i = -kLines; i <= kLines; ++i) {
    const ScanLine line{sum(centre, aside, reach * i / kLines), along};
    const auto in = dark_inside ? Passing::into_dark : Passing::into_light;
    const auto out = dark_inside ? Passing::into_light : Passing::into_dark;
    const auto first = passing(reflectance, line, in, -half, window);
    const auto last = passing(reflectance, line, out, half, window);
    if (!first || !last) continue;
    across.middles.push_back((*first + *last) / 2);
    across.growths.push_back((*last - *first - 2 * half) * (dark_inside ? 1 : -1));
  }
}

}  // namespace

ReferenceGrid::ReferenceGrid(const Reflectance& reflectance, const Framing& framing)
    : modules_(framing.modules) {
  const double far = modules_ - kFinderMiddle;
  const PicturePoint top_left = framing.place(kFinderMiddle, kFinderMiddle);
  along_x_ = between(top_left, framing.place(far, kFinderMiddle), 1 / (far - kFinderMiddle));
  along_y_ = between(top_left, framing.place(kFinderMiddle, far), 1 / (far - kFinderMiddle));
  origin_ = sum(sum(top_left, along_x_, -kFinderMiddle), along_y_, -kFinderMiddle);
  nodes_ = layout_of((modules_ - 17) / 4).alignment;
  off_.resize(nodes_.size() * nodes_.size());
  find_finders(reflectance);
  find_alignment(reflectance);
  follow_timing(reflectance);
  measure();
}

PicturePoint ReferenceGrid::ideal(double u, double v) const {
  return sum(sum(origin_, along_x_, u), along_y_, v);
}

Framing ReferenceGrid::ideal_framing() const {
  Framing framing;
  framing.modules = modules_;
  framing.place.m = {along_x_.x, along_y_.x, origin_.x, along_x_.y, along_y_.y, origin_.y, 0, 0, 1};
  return framing;
}

PicturePoint ReferenceGrid::at(double u, double v) const {
  const PicturePoint off = deviation(u, v);
  return sum(ideal(u, v), off, 1);
}

// Each finder pattern's middle from the edges of its three squares, in both directions; the middlemost of many lines,
// so that a module which is wrong does not move it.
void ReferenceGrid::find_finders(const Reflectance& reflectance) {
  const double far = modules_ - kFinderMiddle;
  const std::array<std::pair<double, double>, 3> places{
      {{kFinderMiddle, kFinderMiddle}, {far, kFinderMiddle}, {kFinderMiddle, far}}};
  std::vector<double> growths_x, growths_y;
  for (const double window : {0.9, 0.6, 0.6}) {
    std::array<PicturePoint, 3> middles;
    growths_x.clear();
    growths_y.clear();
    for (std::size_t i = 0; i < places.size(); ++i) {
      const PicturePoint centre = ideal(places[i].first, places[i].second);
      Across x, y;
      for (const double half : {1.5, 2.5, 3.5}) {
        look_across(x, reflectance, centre, along_x_, along_y_, half, half != 2.5, 1.2, window);
        look_across(y, reflectance, centre, along_y_, along_x_, half, half != 2.5, 1.2, window);
      }
      middles[i] = centre;
      if (x.middles.size() >= kFewestMiddles) middles[i] = sum(middles[i], along_x_, median(x.middles));
      if (y.middles.size() >= kFewestMiddles) middles[i] = sum(middles[i], along_y_, median(y.middles));
      growths_x.insert(growths_x.end(), x.growths.begin(), x.growths.end());
      growths_y.insert(growths_y.end(), y.growths.begin(), y.growths.end());
    }
    const double share = 1 / (far - kFinderMiddle);
    along_x_ = between(middles[0], middles[1], share);
    along_y_ = between(middles[0], middles[2], share);
    origin_ = sum(sum(middles[0], along_x_, -kFinderMiddle), along_y_, -kFinderMiddle);
  }
  growth_x_ = growths_x.empty() ? 0 : median(growths_x);
  growth_y_ = growths_y.empty() ? 0 : median(growths_y);
}

// Near its ideal place by likeness, then by the edges of its middle module and of the light ring. One that is not to be
// found keeps its ideal place; what is wrong with it shows in its modules.
void ReferenceGrid::find_alignment(const Reflectance& reflectance) {
  constexpr double kSearch = 1.2, kStep = 0.1, kLeastLikeness = 0.5;
  const std::size_t count = nodes_.size();
  for (std::size_t row = 0; row < count; ++row) {
    for (std::size_t column = 0; column < count; ++column) {
      const bool first_row = row == 0, first_column = column == 0;
      if ((first_row && (first_column || column + 1 == count)) || (first_column && row + 1 == count))
        continue;
      const double u = nodes_[column] + 0.5, v = nodes_[row] + 0.5;
      double best = kLeastLikeness, nearest = 0;
      PicturePoint shift;
      for (double dv = -kSearch; dv <= kSearch; dv += kStep) {
        for (double du = -kSearch; du <= kSearch; du += kStep) {
          double like = 0;
          for (int y = -2; y <= 2; ++y)
            for (int x = -2; x <= 2; ++x) {
              const double dark = reflectance.threshold() - reflectance.at(ideal(u + du + x, v + dv + y));
              like += std::max(std::abs(x), std::abs(y)) == 1 ? -dark : dark;
            }
          like /= 12.5 * std::max(reflectance.contrast(), 1e-6);
          const double off = std::hypot(du, dv);
          if (like > best + 1e-9 || (like > best - 1e-9 && off < nearest)) {
            best = like;
            nearest = off;
            shift = {du, dv};
          }
        }
      }
      if (best <= kLeastLikeness) continue;
      PicturePoint centre = ideal(u + shift.x, v + shift.y);
      for (int round = 0; round < 2; ++round) {
        Across x, y;
        for (const double half : {0.5, 1.5}) {
          const double reach = half == 0.5 ? 0.3 : 1;
          look_across(x, reflectance, centre, along_x_, along_y_, half, half == 0.5, reach, 0.45);
          look_across(y, reflectance, centre, along_y_, along_x_, half, half == 0.5, reach, 0.45);
        }
        if (x.middles.size() >= kFewestMiddles) centre = sum(centre, along_x_, median(x.middles));
        if (y.middles.size() >= kFewestMiddles) centre = sum(centre, along_y_, median(y.middles));
      }
      const PicturePoint off = between(ideal(u, v), centre, 1);
      off_[row * count + column] = off;
      // Its parts along the axes, in modules of either.
      const double area = along_x_.x * along_y_.y - along_x_.y * along_y_.x;
      if (area != 0)
        count_in({u, v}, std::hypot((off.x * along_y_.y - off.y * along_y_.x) / area,
                                    (along_x_.x * off.y - along_x_.y * off.x) / area));
    }
  }
}

// A module's middle lies between its two edges, whatever the ink has spread.
void ReferenceGrid::follow_timing(const Reflectance& reflectance) {
  for (const bool along_row : {true, false}) {
    const PicturePoint along = along_row ? along_x_ : along_y_, aside = along_row ? along_y_ : along_x_;
    std::vector<std::optional<double>> edges;  // before module 8, 9, ...
    for (int i = 8; i <= modules_ - 8; ++i) {
      std::vector<double> seen;
      for (const double w : {-0.3, -0.15, 0.0, 0.15, 0.3}) {
        const PicturePoint from = along_row ? ideal(0, kTiming + 0.5) : ideal(kTiming + 0.5, 0);
        const auto edge = passing(reflectance, {sum(from, aside, w), along},
                                  i % 2 == 0 ? Passing::into_dark : Passing::into_light, i, 0.7);
        if (edge) seen.push_back(*edge);
      }
      edges.push_back(seen.size() >= 3 ? std::optional(median(seen)) : std::nullopt);
    }
    for (std::size_t i = 0; i + 1 < edges.size(); ++i) {
      if (!edges[i] || !edges[i + 1]) continue;
      const double middle = static_cast<double>(i) + 8.5;
      const double off = std::abs((*edges[i] + *edges[i + 1]) / 2 - middle);
      count_in(along_row ? PicturePoint{middle, kTiming + 0.5} : PicturePoint{kTiming + 0.5, middle}, off);
    }
  }
}

void ReferenceGrid::count_in(PicturePoint place, double distance) {
  if (distance <= non_uniformity_) return;
  non_uniformity_ = distance;
  worst_ = place;
}

void ReferenceGrid::measure() {
  double x = 0, y = 0;
  for (int i = 0; i < modules_; ++i) {
    for (int j = 0; j + 1 < modules_; ++j) {
      x += length(between(at(j + 0.5, i + 0.5), at(j + 1.5, i + 0.5), 1));
      y += length(between(at(i + 0.5, j + 0.5), at(i + 0.5, j + 1.5), 1));
    }
  }
  const double steps = static_cast<double>(modules_) * (modules_ - 1);
  pixels_x_ = x / steps;
  pixels_y_ = y / steps;
}

double ReferenceGrid::axial_non_uniformity() const {
  const double both = pixels_x_ + pixels_y_;
  return both > 0 ? std::abs(pixels_x_ - pixels_y_) / (both / 2) : 0;
}

// Bilinear between the alignment patterns, and beyond them as at the nearest.
PicturePoint ReferenceGrid::deviation(double u, double v) const {
  if (nodes_.empty()) return {};
  const auto cell = [&](double at) {
    std::size_t i = 0;
    while (i + 2 < nodes_.size() && at >= nodes_[i + 1] + 0.5) ++i;
    const double width = nodes_[i + 1] - nodes_[i];
    return std::pair(i, std::clamp((at - nodes_[i] - 0.5) / width, 0.0, 1.0));
  };
  const auto [column, fx] = cell(u);
  const auto [row, fy] = cell(v);
  const PicturePoint* p = off_.data() + row * nodes_.size() + column;
  const PicturePoint* q = p + nodes_.size();
  const auto mix = [fx = fx, fy = fy](double a, double b, double c, double d) {
    return (a * (1 - fx) + b * fx) * (1 - fy) + (c * (1 - fx) + d * fx) * fy;
  };
  return {mix(p[0].x, p[1].x, q[0].x, q[1].x), mix(p[0].y, p[1].y, q[0].y, q[1].y)};
}

}  // namespace counterfoil
