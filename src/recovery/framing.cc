#include "recovery/framing.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "recovery/pixel.h"

namespace counterfoil {
namespace {

constexpr double kMiddle = 3.5;  // of a finder pattern, from its corner, in modules
// Version 10 has room for whatever a tag says, at any level; larger symbols are left to the plain decoder, and a
// texture is not taken for one.
constexpr int kFewestModules = 21, kMostModules = 57;

PicturePoint sum(PicturePoint a, PicturePoint b, double times = 1) {
  return {a.x + times * b.x, a.y + times * b.y};
}
double dot(PicturePoint a, PicturePoint b) { return a.x * b.x + a.y * b.y; }
double cross(PicturePoint a, PicturePoint b) { return a.x * b.y - a.y * b.x; }
PicturePoint negative(PicturePoint a) { return {-a.x, -a.y}; }

// The vector in modules along the pattern's own axes.
PicturePoint in_modules(PicturePoint d, const FinderPattern& p) {
  const double area = cross(p.u, p.v);
  return {cross(d, p.v) / area, cross(p.u, d) / area};
}

// The pattern with its axes renamed so that u points along `direction` as well as it can.
FinderPattern facing(FinderPattern p, PicturePoint direction) {
  FinderPattern best = p;
  for (int quarter = 0; quarter < 3; ++quarter) {
    const PicturePoint u = p.u;
    p.u = p.v;
    p.v = negative(u);
    if (dot(p.u, direction) / std::hypot(p.u.x, p.u.y) >
        dot(best.u, direction) / std::hypot(best.u.x, best.u.y)) {
      best = p;
    }
  }
  return best;
}

// Three patterns by the corner that they mark; one may be missing.
struct Corners {
  std::optional<FinderPattern> top_left, top_right, bottom_left;
};

// One way in which two patterns may belong together.
struct Pairing {
  Corners corners;
  std::optional<FinderPattern> Corners::*missing;
  PicturePoint u, v;  // one module along the symbol's axes
  double distance;    // between the middles of patterns on one side, in modules
};

std::vector<Pairing> pairings(const FinderPattern& p, const FinderPattern& q) {
  std::vector<Pairing> out;
  const double larger = std::max(p.module(), q.module()), smaller = std::min(p.module(), q.module());
  if (p.inverted != q.inverted || larger > 1.8 * smaller) return out;
  const PicturePoint d = sum(q.centre, p.centre, -1);
  const PicturePoint at_p = in_modules(d, p), at_q = in_modules(d, q);
  const auto is_straight = [](PicturePoint m) {
    return std::min(std::abs(m.x), std::abs(m.y)) < 0.35 * std::max(std::abs(m.x), std::abs(m.y));
  };
  const auto longest = [](PicturePoint m) { return std::max(std::abs(m.x), std::abs(m.y)); };
  const double distance = std::sqrt(longest(at_p) * longest(at_q));
  if (distance < kFewestModules - 10 || distance > kMostModules) return out;
  const auto unit = [&](PicturePoint w) { return PicturePoint{w.x / distance, w.y / distance}; };
  if (is_straight(at_p) && is_straight(at_q)) {
    const PicturePoint along = unit(d);
    const PicturePoint aside_p = facing(p, {-d.y, d.x}).u, aside_q = facing(q, {-d.y, d.x}).u;
    const PicturePoint aside = {(aside_p.x + aside_q.x) / 2, (aside_p.y + aside_q.y) / 2};
    out.push_back({{p, q, {}}, &Corners::bottom_left, along, aside, distance});
    out.push_back({{q, p, {}}, &Corners::bottom_left, negative(along), negative(aside), distance});
    out.push_back({{p, {}, q}, &Corners::top_right, negative(aside), along, distance});
    out.push_back({{q, {}, p}, &Corners::top_right, aside, negative(along), distance});
  } else if (!is_straight(at_p) && !is_straight(at_q)) {
    // From top right to bottom left is v - u; the half turn of it is the other pairing.
    const FinderPattern turned = facing(p, {d.x + d.y, d.y - d.x});
    const PicturePoint v = turned.u, u = negative(turned.v);
    const auto diagonal = [&](const FinderPattern& from, const FinderPattern& to, double sign) {
      const PicturePoint su = {sign * u.x, sign * u.y}, sv = {sign * v.x, sign * v.y};
      return Pairing{{{}, from, to}, &Corners::top_left, su, sv, distance};
    };
    out.push_back(diagonal(p, q, 1));
    out.push_back(diagonal(q, p, -1));
  }
  return out;
}

PicturePoint predicted(const Pairing& pair) {
  const Corners& c = pair.corners;
  if (pair.missing == &Corners::bottom_left) return sum(c.top_left->centre, pair.v, pair.distance);
  if (pair.missing == &Corners::top_right) return sum(c.top_left->centre, pair.u, pair.distance);
  // The fourth corner of the parallelogram, from either side.
  const PicturePoint a = sum(c.top_right->centre, pair.u, -pair.distance);
  const PicturePoint b = sum(c.bottom_left->centre, pair.v, -pair.distance);
  return {(a.x + b.x) / 2, (a.y + b.y) / 2};
}

// The third pattern: a found one near the place, or what a search there shows.
std::optional<FinderPattern> third(GreyView grey, const Pairing& pair,
                                   const std::vector<FinderPattern>& patterns) {
  const PicturePoint place = predicted(pair);
  const double module = (std::hypot(pair.u.x, pair.u.y) + std::hypot(pair.v.x, pair.v.y)) / 2;
  const double reach = module * (0.22 * pair.distance + 1);
  const FinderPattern& known = pair.corners.top_left ? *pair.corners.top_left : *pair.corners.top_right;
  const FinderPattern* best = nullptr;
  for (const FinderPattern& p : patterns) {
    const bool near = std::hypot(p.centre.x - place.x, p.centre.y - place.y) < reach;
    const bool fits = p.inverted == known.inverted && p.module() < 1.8 * known.module() &&
                      known.module() < 1.8 * p.module();
    if (near && fits && (!best || p.likeness > best->likeness)) best = &p;
  }
  if (best) return *best;
  if (place.x < 0 || place.y < 0 || place.x > grey.width || place.y > grey.height) return std::nullopt;
  FinderPattern start;
  start.u = pair.u;
  start.v = pair.v;
  start.inverted = known.inverted;
  FinderPattern fitted;
  const int steps = static_cast<int>(0.1 * pair.distance) + 1;
  for (int i = -steps; i <= steps; ++i) {
    for (int j = -steps; j <= steps; ++j) {
      start.centre = {place.x + i * pair.u.x + j * pair.v.x, place.y + i * pair.u.y + j * pair.v.y};
      const double likeness = finder_likeness(grey, start);
      if (likeness > fitted.likeness) {
        fitted = start;
        fitted.likeness = likeness;
      }
    }
  }
  if (fitted.likeness < 0.25) return std::nullopt;
  fitted = fit_finder_pattern(grey, fitted);
  const double skew = cross(fitted.u, fitted.v) / fitted.module() / fitted.module();
  if (fitted.likeness < 0.5 || skew < 0.5 || fitted.module() < 0.6 * module ||
      fitted.module() > 1.6 * module) {
    return std::nullopt;
  }
  return fitted;
}

void add_anchors(std::vector<Anchor>& anchors, const FinderPattern& pattern, PicturePoint u, double left,
                 double top) {
  const FinderPattern p = facing(pattern, u);
  const double weight = p.likeness * p.likeness * p.likeness;
  anchors.push_back({left + kMiddle, top + kMiddle, p.centre, 2 * weight});
  for (const double a : {-kMiddle, kMiddle}) {
    for (const double b : {-kMiddle, kMiddle}) {
      anchors.push_back(
          {left + kMiddle + a, top + kMiddle + b, sum(sum(p.centre, p.u, a), p.v, b), 0.3 * weight});
    }
  }
}

// How well the two timing patterns alternate, -1 to 1.
double timing(GreyView grey, const Projective& place, int modules, double contrast) {
  double total = 0;
  int count = 0;
  for (const bool along_row : {true, false}) {
    double before = 0;
    for (int i = 7; i <= modules - 8; ++i) {
      const PicturePoint at = along_row ? place(i + 0.5, 6.5) : place(6.5, i + 0.5);
      const double now = grey_at(grey, at.x, at.y);
      if (i > 7) {
        const double rise = (now - before) / contrast * (i % 2 == 0 ? -1 : 1);
        total += std::clamp(rise, -1.0, 1.0);
        ++count;
      }
      before = now;
    }
  }
  return count ? total / count : 0;
}

double contrast_of(GreyView grey, const FinderPattern& p) {
  double dark = 0, light = 0;
  for (const double a : {-2.0, 0.0, 2.0}) {
    for (const double b : {-2.0, 0.0, 2.0}) {
      const auto at = sum(sum(p.centre, p.u, a), p.v, b);
      if (a == 0 && b == 0) {
        dark = grey_at(grey, at.x, at.y);
      } else {
        light += grey_at(grey, at.x, at.y) / 8;
      }
    }
  }
  return light - dark;
}

}  // namespace

std::vector<Framing> framings(GreyView grey, const std::vector<FinderPattern>& patterns, std::size_t most) {
  std::vector<Framing> out;
  for (std::size_t i = 0; i < patterns.size(); ++i) {
    for (std::size_t j = i + 1; j < patterns.size(); ++j) {
      for (Pairing& pair : pairings(patterns[i], patterns[j])) {
        pair.corners.*pair.missing = third(grey, pair, patterns);
        const Corners& c = pair.corners;
        double likeness = 0, contrast = 0;
        int present = 0;
        for (const auto* p : {&c.top_left, &c.top_right, &c.bottom_left}) {
          if (!*p) continue;
          likeness += (*p)->likeness;
          contrast += contrast_of(grey, **p);
          ++present;
        }
        contrast /= present;
        if (std::abs(contrast) < 2) continue;
        const int nearest = static_cast<int>(std::lround((pair.distance + 7 - 17) / 4));
        for (int k = nearest - 1; k <= nearest + 1; ++k) {
          const int modules = 17 + 4 * k;
          if (modules < kFewestModules || modules > kMostModules) continue;
          if (std::abs(modules - 7 - pair.distance) > 0.15 * pair.distance + 2) continue;
          std::vector<Anchor> anchors;
          const double far = modules - 7;
          if (c.top_left) add_anchors(anchors, *c.top_left, pair.u, 0, 0);
          if (c.top_right) add_anchors(anchors, *c.top_right, pair.u, far, 0);
          if (c.bottom_left) add_anchors(anchors, *c.bottom_left, pair.u, 0, far);
          const auto place = fit_projective(anchors);
          if (!place || !place->is_sane(modules)) continue;
          Framing framing{modules, *place, 0, patterns[i].inverted};
          framing.promise = likeness + 1.5 * timing(grey, *place, modules, contrast);
          out.push_back(framing);
        }
      }
    }
  }
  std::sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.promise > b.promise; });
  // One triple is met from each of its three pairs.
  std::vector<Framing> distinct;
  for (const Framing& f : out) {
    const auto same = [&](const Framing& g) {
      if (g.modules != f.modules) return false;
      const double n = f.modules, close = 0.75;
      const auto near = [&](double u, double v) {
        const auto a = f.place(u, v), b = g.place(u, v), next = f.place(u + 1, v);
        return std::hypot(a.x - b.x, a.y - b.y) < close * std::hypot(next.x - a.x, next.y - a.y);
      };
      return near(0, 0) && near(n, 0) && near(0, n) && near(n, n);
    };
    if (std::none_of(distinct.begin(), distinct.end(), same)) distinct.push_back(f);
    if (distinct.size() == most) break;
  }
  return distinct;
}

}  // namespace counterfoil
