#include <algorithm>
#include <vector>

#include "support/tag_layers.h"

namespace counterfoil {
namespace {

// The value for a level of 1 .. 5, in between as far as the level is.
double by_level(double level, const std::array<double, 5>& values) {
  const double at = std::clamp(level, 1.0, 5.0) - 1;
  const auto below = static_cast<std::size_t>(at);
  const double beyond = at - static_cast<double>(below);
  return beyond == 0 ? values[below] : values[below] + beyond * (values[below + 1] - values[below]);
}

struct Place {
  double u = 0, v = 0;
};

Place in_symbol(const Tag& tag, Chance& chance, double margin = 0) {
  return {chance.between(margin, tag.across - margin), chance.between(margin, tag.down - margin)};
}

// The middle of one of the three finder patterns, unless faults do not aim.
Place a_finder(const Tag& tag, Chance& chance) {
  if (tag.scattered) return in_symbol(tag, chance);
  const double near = 3.5, far = tag.modules - 3.5;
  const std::array<Place, 3> finders{{{near, near}, {far, near}, {near, far}}};
  return finders[static_cast<std::size_t>(chance.below(3))];
}

void move(Tag& tag, int y, int x, double du, double dv) {
  tag.shift(y, x) += cv::Vec2f(single(du), single(dv));
}

// Each drop magnifies what is below its middle, is dark at the rim towards the light and bright on the other
// side, and mirrors the light as a spot.
void water(Tag& tag, Chance& chance, double level) {
  struct Drop {
    Place at;
    double radius, strength, wobble, phase;
  };
  std::vector<Drop> drops;
  const int count = tag.over(by_level(level, {3, 5, 8, 11, 16}));
  for (int i = 0; i < count; ++i) {
    const double largest = tag.modules * by_level(level, {0.07, 0.09, 0.12, 0.15, 0.17});
    drops.push_back({in_symbol(tag, chance), largest * chance.between(0.35, 1),
                     by_level(level, {0.25, 0.35, 0.45, 0.5, 0.55}) * chance.between(0.7, 1.1),
                     chance.between(0.03, 0.12), chance.angle()});
  }
  constexpr double kLight = -2.3;  // direction that the light comes from: top left
  tag.each([&](double u, double v, int y, int x) {
    const Drop* in = nullptr;  // drops that touch would run into one; the larger wins
    double in_rho = 0;
    for (const Drop& drop : drops) {
      const double du = u - drop.at.u, dv = v - drop.at.v, angle = std::atan2(dv, du);
      const double radius = drop.radius * (1 + drop.wobble * std::sin(2 * angle + drop.phase) +
                                           0.5 * drop.wobble * std::sin(3 * angle - drop.phase));
      const double rho = std::hypot(du, dv) / radius;
      const double behind = std::cos(angle - kLight - CV_PI);  // 1 away from the light
      if (rho >= 1 && rho < 1.35)
        tag.shade(y, x) *= single(1 - 0.3 * step(behind, 0, 1) * (1.35 - rho) / 0.35);
      if (rho < 1 && (!in || drop.radius > in->radius)) in = &drop, in_rho = rho;
    }
    if (!in) return;
    const double du = u - in->at.u, dv = v - in->at.v, rho = in_rho;
    const double pull = in->strength * (1 - rho * rho) + 0.5 * in->strength * step(rho, 0.75, 1);
    move(tag, y, x, -pull * du, -pull * dv);
    const double behind = std::cos(std::atan2(dv, du) - kLight - CV_PI);
    const double rim = step(rho, 0.6, 1);
    tag.shade(y, x) *= single(0.93 - 0.45 * rim * step(-behind, -0.2, 1) + 0.25 * rim * step(behind, 0.1, 1));
    tag.shine(y, x) += Colour::all(single(0.25 * rim * step(behind, 0.5, 1)));
    const double su = du / in->radius - 0.42 * std::cos(kLight),
                 sv = dv / in->radius - 0.42 * std::sin(kLight);
    tag.shine(y, x) += Colour::all(single(1.1 * step(-std::hypot(su, 1.3 * sv), -0.2, -0.12)));
  });
}

// Blue paste on paper and on ink; the first stroke runs through a finder pattern.
void pen(Tag& tag, Chance& chance, double level) {
  cv::Mat_<std::uint8_t> mask(tag.paper.size(), std::uint8_t{0});
  const int strokes = tag.over(by_level(level, {1, 1, 2, 4, 7}));
  const double width = by_level(level, {0.4, 0.7, 0.8, 0.9, 1.0});
  for (int i = 0; i < strokes; ++i) {
    const Place through = i == 0 ? a_finder(tag, chance) : in_symbol(tag, chance, 3);
    const double angle = chance.angle(), length = tag.modules * chance.between(0.7, 1.1);
    const double bow = chance.between(-0.012, 0.012), wave = chance.between(0, 0.5), phase = chance.angle();
    std::vector<cv::Point> line;
    for (double t = -length; t <= length; t += 0.5) {
      const double side = bow * t * t + wave * std::sin(t / 3 + phase);
      line.push_back(tag.pixel(through.u + t * std::cos(angle) - side * std::sin(angle),
                               through.v + t * std::sin(angle) + side * std::cos(angle)));
    }
    cv::polylines(mask, line, false, cv::Scalar(255), cvRound(width * tag.scale), cv::LINE_AA);
  }
  const Field pressure = tag.patches(chance, 60, 40);
  tag.each([&](double, double, int y, int x) {
    const double cover = mask(y, x) / 255.0 * clamped(0.88 + 0.12 * static_cast<double>(pressure(y, x)));
    tag.paper(y, x) = times(tag.paper(y, x), mixed({1, 1, 1}, {0.13f, 0.14f, 0.42f}, cover));
  });
}

// A strip that ends within the symbol. Its haze takes contrast, its gloss mirrors a lamp, its thickness
// shifts.
void tape(Tag& tag, Chance& chance, double level) {
  const double angle = chance.angle(), width = tag.modules * chance.between(0.45, 0.8);
  const Place at = in_symbol(tag, chance, tag.modules * 0.3);
  const double shift = by_level(level, {0.15, 0.3, 0.5, 0.7, 0.9}),
               haze = by_level(level, {0.15, 0.25, 0.35, 0.45, 0.55});
  const double gloss = by_level(level, {0.15, 0.35, 0.6, 0.8, 1.0}),
               lamp_angle = angle + chance.between(0.6, 1.2);
  const double lamp = chance.between(0.2, 0.8) * width, lamp_width = by_level(level, {1.2, 1.8, 2.2, 2.6, 3});
  const double shift_angle = chance.angle();
  const Field uneven = tag.patches(chance, 7, 5), air = tag.patches(chance, 18, 12);
  tag.each([&](double u, double v, int y, int x) {
    const double rough = static_cast<double>(uneven(y, x));
    const double across = (u - at.u) * std::cos(angle) + (v - at.v) * std::sin(angle) + 0.05 * rough;
    const double edge = std::min(std::abs(across), std::abs(across - width));
    tag.shade(y, x) *= single(1 - 0.45 * bell(edge - 0.15, 0.13));
    tag.shine(y, x) +=
        Colour::all(single(0.35 * bell(edge + (across > 0 && across < width ? -0.45 : 0.45), 0.15)));
    if (across < 0 || across > width) return;
    move(tag, y, x, shift * std::cos(shift_angle), shift * std::sin(shift_angle));
    tag.shade(y, x) *= single(1 - haze);
    const double lit = (u - at.u) * std::cos(lamp_angle) + (v - at.v) * std::sin(lamp_angle) - lamp;
    const double bubble = step(static_cast<double>(air(y, x)), 1.2, 1.8) * 0.2;
    const double tone = 0.62 * haze + gloss * bell(lit + 0.5 * rough, lamp_width) + bubble * haze;
    tag.shine(y, x) += Colour(single(tone), single(tone * 0.97), single(tone * 0.86));
  });
}

// What lies beyond the fold is turned away: foreshortened, in another light, and its first strip is hidden.
void fold(Tag& tag, Chance& chance, double level) {
  const Place at = a_finder(tag, chance);
  // Towards the middle of the symbol, more or less, so that there is something on either side.
  const double to_middle = std::atan2(tag.down / 2 - at.v, tag.across / 2 - at.u);
  const double side = chance.sign(), normal = to_middle + side * chance.between(0.35, 1.35);
  const double foreshortening = by_level(level, {0.97, 0.93, 0.88, 0.81, 0.72});
  const double hidden = by_level(level, {0.1, 0.3, 0.6, 0.9, 1.3});
  const double dark = by_level(level, {0.85, 0.72, 0.58, 0.45, 0.32});
  const double bare = by_level(level, {0.1, 0.18, 0.25, 0.32, 0.4});
  const bool lighter = chance.one_in(3);
  const Field flakes = tag.patches(chance, 70, 45);
  tag.each([&](double u, double v, int y, int x) {
    const double beyond = (u - at.u) * std::cos(normal) + (v - at.v) * std::sin(normal);
    if (beyond > 0) {
      const double paper =
          hidden + beyond / foreshortening * (1 + (1 - foreshortening) * beyond / tag.modules * 0.6);
      move(tag, y, x, (paper - beyond) * std::cos(normal), (paper - beyond) * std::sin(normal));
      tag.shade(y, x) *= single(lighter ? 1 + (1 - dark) * 0.35 : dark);
    } else {
      tag.shade(y, x) *= single(1 - 0.25 * (1 - dark) * bell(beyond, 2.5));
    }
    // Ink that flaked off on the edge, and the valley's shadow right beside it.
    if (std::abs(beyond) < bare * (1 + 0.7 * static_cast<double>(flakes(y, x)))) {
      tag.shine(y, x) += Colour::all(0.3f);
    }
    tag.shade(y, x) *= single(1 - 0.4 * bell(beyond - bare - 0.2, 0.2));
  });
}

// The paper's feed runs down the tag. Along it the print is too long or too short, wobbles, and slipped.
void stretch(Tag& tag, Chance& chance, double level) {
  const double factor = 1 + chance.sign() * by_level(level, {0.02, 0.04, 0.06, 0.075, 0.09});
  const double wobble = by_level(level, {0.08, 0.15, 0.25, 0.35, 0.5});
  const int slips = cvRound(by_level(level, {0, 1, 2, 3, 5}) * tag.down / tag.modules);
  const double slip = by_level(level, {0, 0.25, 0.4, 0.55, 0.7});
  std::vector<std::pair<double, double>> slipped;
  for (int i = 0; i < slips; ++i) {
    const double at = chance.between(1, tag.down - 1);
    const double by = slip * chance.between(0.6, 1.2);
    slipped.emplace_back(at, chance.one_in(4) ? by : -by);
  }
  const Field noise = chance.smooth_noise({8, tag.paper.rows}, 1, 9),
              bands = chance.smooth_noise({8, tag.paper.rows}, 1, 25);
  tag.each([&](double, double v, int y, int x) {
    double paper = (v - tag.down / 2) / factor + tag.down / 2 + wobble * static_cast<double>(noise(y, 4));
    // Where the feed stuck, rows were printed one over the other; where it jumped, what was above goes on.
    for (const auto& [at, by] : slipped) {
      if (v > at) paper -= by;
    }
    move(tag, y, x, 0, paper - v);
    tag.shine(y, x) += Colour::all(single(clamped(0.02 * level * static_cast<double>(bands(y, 4)), 0, 0.3)));
  });
}

void wrinkle(Tag& tag, Chance& chance, double level) {
  const double height = by_level(level, {0.15, 0.35, 0.6, 0.85, 1.15});
  struct Wave {
    double angle, length, phase, height, aside;
  };
  std::vector<Wave> waves;
  for (int i = 0; i < 3; ++i) {
    waves.push_back({chance.angle(), chance.between(6, 16), chance.angle(),
                     height * chance.between(0.4, 1) / (1 + 0.5 * i), chance.between(-0.9, 0.9)});
  }
  tag.each([&](double u, double v, int y, int x) {
    double light = 1;
    for (const Wave& wave : waves) {
      const double along = u * std::cos(wave.angle) + v * std::sin(wave.angle);
      const double at = 2 * CV_PI * along / wave.length + wave.phase;
      const double by = wave.height * std::sin(at), direction = wave.angle + wave.aside;
      move(tag, y, x, by * std::cos(direction), by * std::sin(direction));
      light -= 0.9 * wave.height / wave.length * 2 * std::cos(at) * (level * 0.12 + 0.4);
    }
    tag.shade(y, x) *= single(clamped(light, 0.25, 1.4));
  });
}

// Triangles between places that were pushed about: flat each, all joined.
void crumple(Tag& tag, Chance& chance, double level) {
  const double height = by_level(level, {0.25, 0.5, 0.8, 1.1, 1.5}),
               cell = by_level(level, {9, 8, 7, 6, 5.5});
  const double relief = by_level(level, {0.08, 0.14, 0.22, 0.3, 0.4});
  const int columns = static_cast<int>(tag.width / cell) + 3, rows = static_cast<int>(tag.height / cell) + 3;
  struct Node {
    double u, v, du, dv, z;
  };
  std::vector<Node> nodes;
  for (int j = 0; j < rows; ++j) {
    for (int i = 0; i < columns; ++i) {
      nodes.push_back({tag.left + (i - 0.5 + chance.between(-0.33, 0.33)) * cell,
                       tag.top + (j - 0.5 + chance.between(-0.33, 0.33)) * cell,
                       height * 0.5 * chance.normal(), height * 0.5 * chance.normal(), chance.normal()});
    }
  }
  const auto facet = [&](const Node& a, const Node& b, const Node& c) {
    const double area = (b.u - a.u) * (c.v - a.v) - (c.u - a.u) * (b.v - a.v);
    if (std::abs(area) < 1e-6) return;
    // Slopes of the height, which the light from the top left falls on.
    const double slope_u = ((b.z - a.z) * (c.v - a.v) - (c.z - a.z) * (b.v - a.v)) / area;
    const double slope_v = ((c.z - a.z) * (b.u - a.u) - (b.z - a.z) * (c.u - a.u)) / area;
    const double light = clamped(1 + relief * cell * 0.6 * (slope_u + slope_v), 0.3, 1.35);
    const auto low = tag.pixel(std::min({a.u, b.u, c.u}), std::min({a.v, b.v, c.v}));
    const auto high = tag.pixel(std::max({a.u, b.u, c.u}), std::max({a.v, b.v, c.v}));
    for (int y = std::max(0, cvFloor(low.y)); y <= std::min(tag.paper.rows - 1, cvCeil(high.y)); ++y) {
      for (int x = std::max(0, cvFloor(low.x)); x <= std::min(tag.paper.cols - 1, cvCeil(high.x)); ++x) {
        const double u = (x + 0.5) / tag.scale + tag.left, v = (y + 0.5) / tag.scale + tag.top;
        const double wb = ((u - a.u) * (c.v - a.v) - (c.u - a.u) * (v - a.v)) / area;
        const double wc = ((b.u - a.u) * (v - a.v) - (u - a.u) * (b.v - a.v)) / area;
        const double wa = 1 - wb - wc;
        if (wa < 0 || wb < 0 || wc < 0) continue;
        tag.shift(y, x) =
            cv::Vec2f(single(wa * a.du + wb * b.du + wc * c.du), single(wa * a.dv + wb * b.dv + wc * c.dv));
        tag.shade(y, x) = single(light * (1 - 0.12 * level / 5 * step(-std::min({wa, wb, wc}), -0.04, 0)));
      }
    }
  };
  for (int j = 0; j + 1 < rows; ++j) {
    for (int i = 0; i + 1 < columns; ++i) {
      const auto at = [&](int dx, int dy) {
        return nodes[static_cast<std::size_t>((j + dy) * columns + i + dx)];
      };
      if ((i + j) % 2 == 0) {
        facet(at(0, 0), at(1, 0), at(1, 1));
        facet(at(0, 0), at(1, 1), at(0, 1));
      } else {
        facet(at(0, 0), at(1, 0), at(0, 1));
        facet(at(1, 0), at(1, 1), at(0, 1));
      }
    }
  }
}

void glare(Tag& tag, Chance& chance, double level) {
  struct Spot {
    Place at;
    double long_side, short_side, angle;
  };
  std::vector<Spot> spots;
  const int count = tag.over(by_level(level, {1, 1, 2, 2, 3}));
  for (int i = 0; i < count; ++i) {
    const double size = tag.modules * by_level(level, {0.12, 0.19, 0.19, 0.24, 0.26});
    spots.push_back({in_symbol(tag, chance, tag.modules * 0.1), size * chance.between(0.8, 1.4),
                     size * chance.between(0.5, 0.9), chance.angle()});
  }
  tag.each([&](double u, double v, int y, int x) {
    for (const Spot& spot : spots) {
      const double du = u - spot.at.u, dv = v - spot.at.v;
      const double a = (du * std::cos(spot.angle) + dv * std::sin(spot.angle)) / spot.long_side;
      const double b = (dv * std::cos(spot.angle) - du * std::sin(spot.angle)) / spot.short_side;
      const double rho = a * a + b * b;
      tag.shine(y, x) += Colour::all(single(1.3 * std::exp(-rho * rho) + 0.12 * std::exp(-rho / 6)));
    }
  });
}

// Dots of the head that do not burn leave lines along the feed, which runs down the tag.
void printline(Tag& tag, Chance& chance, double level) {
  const int count = tag.along(by_level(level, {2, 3, 5, 7, 10}));
  const double widest = by_level(level, {0.5, 0.7, 0.8, 0.95, 1.1});
  std::vector<std::pair<double, double>> lines;
  for (int i = 0; i < count; ++i) {
    double at = i == 0 ? a_finder(tag, chance).u : chance.between(0, tag.across);
    if (i == 0) at += chance.between(-2, 2);
    lines.emplace_back(at, widest * chance.between(0.5, 1));
  }
  tag.each([&](double u, double, int y, int x) {
    for (const auto& [at, width] : lines) {
      if (std::abs(u - at) < width / 2) tag.paper(y, x) = Colour::all(0.86f);
    }
  });
}

void oil(Tag& tag, Chance& chance, double level) {
  const Field broad = tag.patches(chance, 7, 4), fine = tag.patches(chance, 40, 25);
  const Field grime = tag.patches(chance, 15, 10);
  const double reach = by_level(level, {0.8, 0.4, 0.0, -0.4, -0.9}),
               dense = by_level(level, {0.8, 1.1, 1.5, 1.9, 2.4});
  const double black = by_level(level, {2.4, 2.1, 1.7, 1.4, 1.1});
  tag.each([&](double, double, int y, int x) {
    const double amount = static_cast<double>(broad(y, x)) + 0.15 * static_cast<double>(fine(y, x)) - reach;
    const double soaked = dense * step(amount, 0, 0.25) * (0.8 + 0.3 * clamped(amount, 0, 2));
    const Colour through{single(std::pow(0.86, soaked)), single(std::pow(0.66, soaked)),
                         single(std::pow(0.34, soaked))};
    tag.paper(y, x) = times(tag.paper(y, x), through);
    const double dirt =
        step(static_cast<double>(grime(y, x)) + 0.3 * static_cast<double>(fine(y, x)), black, black + 0.5);
    tag.paper(y, x) = mixed(tag.paper(y, x), {0.1f, 0.08f, 0.06f}, 0.85 * dirt);
  });
}

// Fat on the glass: a veil of stray light, blur in places, and a smear along which a finger went.
void lens(Shot& shot, Chance& chance, double level) {
  const double veil = by_level(level, {0.15, 0.25, 0.38, 0.5, 0.62});
  const double blur = shot.module_pixels * by_level(level, {0.3, 0.42, 0.55, 0.68, 0.8});
  const double reach = by_level(level, {0.8, 0.4, 0.0, -0.4, -0.8});
  const auto size = shot.picture.size();
  Colours soft, smeared, glow, small;
  cv::GaussianBlur(shot.picture, soft, {}, blur);
  cv::resize(shot.picture, small, size / 8, 0, 0, cv::INTER_AREA);
  cv::GaussianBlur(small, small, {}, size.width / 100.0);
  cv::resize(small, glow, size, 0, 0, cv::INTER_LINEAR);
  const int length = std::max(3, cvRound(blur * 4)) | 1;
  Field kernel(length, length, 0.0f);
  const double angle = chance.angle(), half = length / 2.0;
  cv::line(kernel, cv::Point2d(half - half * std::cos(angle), half - half * std::sin(angle)),
           cv::Point2d(half + half * std::cos(angle), half + half * std::sin(angle)), cv::Scalar(1), 1,
           cv::LINE_8);
  cv::filter2D(shot.picture, smeared, -1, kernel / cv::sum(kernel)[0]);
  const int cells = std::max(3, cvRound(size.width / shot.module_pixels / 14));
  const Field blobs = chance.smooth_noise(size, cells, cells * size.height / size.width);
  const Field smear = chance.smooth_noise(size, cells / 2 + 1, cells / 2 + 1);
  for (int y = 0; y < size.height; ++y) {
    for (int x = 0; x < size.width; ++x) {
      const double blurred = step(static_cast<double>(blobs(y, x)), reach - 0.4, reach + 1);
      Colour seen = mixed(shot.picture(y, x), soft(y, x), blurred);
      seen = mixed(seen, smeared(y, x), 0.7 * step(static_cast<double>(smear(y, x)), 0.6, 1.2));
      const double here = veil * (0.6 + 0.4 * blurred);
      shot.picture(y, x) = mixed(seen, glow(y, x) * 0.7f + Colour::all(0.25f), here);
    }
  }
}

// Lamplight here, daylight there, and what casts the shadow between them has straight edges.
void mixed_light(Shot& shot, Chance& chance, double level) {
  const double dark = by_level(level, {0.6, 0.4, 0.25, 0.15, 0.08});
  const Colour lamp{1.05f, 0.8f, 0.45f}, daylight{0.55f, 0.8f, 1.1f};
  const bool lamp_is_dark = chance.one_in(2);
  const double angle = chance.angle(), sharp = chance.between(0.8, 2.5);
  const int edges = static_cast<int>(by_level(level, {1, 1, 2, 3, 5}));
  // The first edge goes near the middle of the symbol; the others make bars of shadow.
  std::vector<double> at{chance.between(-shot.spread, shot.spread) * shot.module_pixels};
  for (int i = 1; i < edges; ++i) at.push_back(at.back() + chance.between(3, 9) * shot.module_pixels);
  const double middle = at[at.size() / 2] - chance.between(-3, 3) * shot.module_pixels;
  for (int y = 0; y < shot.picture.rows; ++y) {
    for (int x = 0; x < shot.picture.cols; ++x) {
      const double across =
          (x - shot.middle.x) * std::cos(angle) + (y - shot.middle.y) * std::sin(angle) + middle;
      double lit = 1;
      for (const double edge : at) {
        const double beyond = step(across, edge - sharp, edge + sharp);
        lit = lit * (1 - beyond) + (1 - lit) * beyond;
      }
      const Colour bright = lamp_is_dark ? daylight : lamp,
                   dim = (lamp_is_dark ? lamp : daylight) * single(dark);
      shot.picture(y, x) = times(shot.picture(y, x), mixed(dim, bright * 0.95f, lit));
    }
  }
}

// The screen's own grid, sampled where the camera's pixels happen to lie, which makes the moire; bands of the
// shutter against the screen's refreshing; black that shines.
void screen(Shot& shot, Chance& chance, double level) {
  const double grid = by_level(level, {0.15, 0.3, 0.5, 0.7, 0.9}),
               raised = by_level(level, {0.06, 0.1, 0.17, 0.25, 0.33});
  const double gamma = chance.one_in(2) ? by_level(level, {1.15, 1.35, 1.6, 1.9, 2.3})
                                        : by_level(level, {0.9, 0.8, 0.7, 0.6, 0.5});
  const double band = by_level(level, {0.1, 0.2, 0.35, 0.5, 0.65}), bands = chance.between(2, 5),
               phase = chance.angle();
  const double beat =
      by_level(level, {0.6, 0.9, 1.3, 2.0, 3.0}) * chance.between(0.8, 1.2);  // modules a fringe
  const double pitch_u = 1 / (shot.module_pixels + 1 / beat),
               pitch_v = 1 / (shot.module_pixels - 1 / beat * chance.between(0.3, 0.8));
  for (int y = 0; y < shot.picture.rows; ++y) {
    const double shutter =
        1 - band * (0.5 + 0.5 * std::sin(2 * CV_PI * bands * y / shot.picture.rows + phase));
    for (int x = 0; x < shot.picture.cols; ++x) {
      const cv::Vec3d at = shot.to_tag * cv::Vec3d(x + 0.5, y + 0.5, 1);
      const double u = at[0] / at[2] / pitch_u, v = at[1] / at[2] / pitch_v;
      const double row = 1 - 0.8 * grid * (0.5 + 0.5 * std::cos(2 * CV_PI * v));
      for (int c = 0; c < 3; ++c) {
        const double light = std::pow(clamped(static_cast<double>(shot.picture(y, x)[c])), gamma);
        const double stripe = 1 - grid * (0.5 + 0.5 * std::cos(2 * CV_PI * (u + c / 3.0)));
        shot.picture(y, x)[c] = single((raised + (1 - raised) * light) * 1.25 * stripe * row * shutter);
      }
    }
  }
}

}  // namespace

void pose_fault(Pose& pose, Fault fault, double level, Chance& chance) {
  if (fault == Fault::tilt) {
    const double tilt = by_level(level, {25, 40, 52, 61, 69}) * CV_PI / 180 * chance.sign();
    (chance.one_in(2) ? pose.tilt_x : pose.tilt_y) = tilt;
  }
  if (fault == Fault::cutoff) {
    pose.cut = by_level(level, {0.04, 0.08, 0.13, 0.19, 0.25});
    pose.cut_side = chance.below(4);
  }
}

void tag_fault(Tag& tag, Fault fault, double level, Chance& chance) {
  switch (fault) {
    case Fault::water:
      return water(tag, chance, level);
    case Fault::pen:
      return pen(tag, chance, level);
    case Fault::tape:
      return tape(tag, chance, level);
    case Fault::fold:
      return fold(tag, chance, level);
    case Fault::stretch:
      return stretch(tag, chance, level);
    case Fault::wrinkle:
      return wrinkle(tag, chance, level);
    case Fault::crumple:
      return crumple(tag, chance, level);
    case Fault::glare:
      return glare(tag, chance, level);
    case Fault::printline:
      return printline(tag, chance, level);
    case Fault::oil:
      return oil(tag, chance, level);
    default:
      return;  // not of the tag
  }
}

void shot_fault(Shot& shot, Fault fault, double level, Chance& chance) {
  if (fault == Fault::lens) lens(shot, chance, level);
  if (fault == Fault::mixed) mixed_light(shot, chance, level);
  if (fault == Fault::screen) screen(shot, chance, level);
}

}  // namespace counterfoil
