#include "recovery/finder_pattern.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <optional>

#include "recovery/pixel.h"

namespace counterfoil {
namespace {

constexpr double kLeastStart = 0.3, kWorthRescaling = 0.45, kLeastLikeness = 0.5, kGoodAnyhow = 0.9;
constexpr std::size_t kMostProposals = 150;

// The pattern with the light module around it, as a square of points by which a picture is held against it.
class Template {
 public:
  // So many points along each of its nine modules.
  explicit Template(int points) : side_(9 * points), step_(1.0 / points) {
    for (int row = 0; row < side_; ++row) {
      for (int column = 0; column < side_; ++column) {
        const int ring = std::max(std::abs(row / points - 4), std::abs(column / points - 4));
        dark_.push_back(ring == 2 || ring == 4 ? 0 : -1);
      }
    }
    dark_share_ = static_cast<double>(std::count(dark_.begin(), dark_.end(), -1)) / count();
  }

  // Normalised: positive where the pattern is dark on light, negative where it is inverted.
  double correlation(GreyView grey, const FinderPattern& p) const {
    const PicturePoint across{p.u.x * step_, p.u.y * step_}, down{p.v.x * step_, p.v.y * step_};
    const double half = (side_ - 1) / 2.0;
    const PicturePoint first{p.centre.x - half * (across.x + down.x) - 0.5,
                             p.centre.y - half * (across.y + down.y) - 0.5};
    const bool inside = is_well_inside(grey, p.centre, half * (std::abs(across.x) + std::abs(down.x)),
                                       half * (std::abs(across.y) + std::abs(down.y)));
    const Shown shown =
        inside ? shown_inside(grey, first, across, down) : shown_at(grey, first, across, down);
    const double n = count(), sum = static_cast<double>(shown.sum);
    const double variance = static_cast<double>(shown.squares) - sum * sum / n;
    if (variance < 4 * 65536 * n) return 0;  // flat within two grey levels
    const double covariance = dark_share_ * sum - static_cast<double>(shown.dark);
    return covariance / std::sqrt(variance * dark_share_ * (1 - dark_share_) * n);
  }

 private:
  // What a picture shows at the points, in 256ths of grey levels: of all, of those that should be dark.
  struct Shown {
    std::int64_t sum = 0, dark = 0, squares = 0;

    void add(int grey, int dark_mask) {
      sum += grey;
      dark += grey & dark_mask;
      squares += static_cast<std::uint32_t>(grey) * static_cast<std::uint32_t>(grey);
    }
  };

  Shown shown_inside(GreyView grey, PicturePoint first, PicturePoint across, PicturePoint down) const {
    Shown shown;
    const int step_x = fixed_16(across.x), step_y = fixed_16(across.y);
    const int* dark = dark_.data();
    for (int row = 0; row < side_; ++row) {
      int x = fixed_16(first.x + row * down.x), y = fixed_16(first.y + row * down.y);
      for (int column = 0; column < side_; ++column, x += step_x, y += step_y) {
        shown.add(grey_256_at(grey, x, y), *dark++);
      }
    }
    return shown;
  }

  Shown shown_at(GreyView grey, PicturePoint first, PicturePoint across, PicturePoint down) const {
    Shown shown;
    const int* dark = dark_.data();
    for (int row = 0; row < side_; ++row) {
      for (int column = 0; column < side_; ++column) {
        const float value = grey_at(grey, first.x + 0.5 + column * across.x + row * down.x,
                                    first.y + 0.5 + column * across.y + row * down.y);
        shown.add(static_cast<int>(256 * value), *dark++);
      }
    }
    return shown;
  }

  double count() const { return static_cast<double>(dark_.size()); }

  int side_;               // points
  double step_;            // modules from one point to the next
  std::vector<int> dark_;  // row by row: all bits set where it should be dark, else none
  double dark_share_ = 0;
};

const Template& coarse_template() {
  static const Template made(1);
  return made;
}
const Template& fine_template() {
  static const Template made(2);
  return made;
}

bool likest_first(const FinderPattern& a, const FinderPattern& b) { return a.likeness > b.likeness; }

// Moves the middle and the axes until the template fits best, in steps from `first` to `last` modules, each half as
// long.
FinderPattern fitted(GreyView grey, FinderPattern p, const Template& ideal, double first, double last) {
  const double sign = p.inverted ? -1 : 1;
  double best = sign * ideal.correlation(grey, p);
  double* const free[] = {&p.centre.x, &p.centre.y, &p.u.x, &p.u.y, &p.v.x, &p.v.y};
  const double module = p.module();
  for (double step = first; step >= last; step /= 2) {
    for (int sweep = 0; sweep < 4; ++sweep) {
      bool better = false;
      for (std::size_t i = 0; i < 6; ++i) {
        const double length = step * module * (i < 2 ? 1 : 0.25);
        for (const double move : {length, -length}) {
          *free[i] += move;
          const double now = sign * ideal.correlation(grey, p);
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

// The turns, sizes and slants that a pattern may have around a place whose run along a line gave `module`; the few
// likest. Upright ones come first, then the likest of them slanted either way.
std::vector<FinderPattern> starts(GreyView grey, PicturePoint centre, double module) {
  constexpr std::size_t kMost = 3, kSlanted = 8;
  constexpr std::array kSizes{0.7, 1.0, 1.4};
  struct Shape {
    double turn, slant, along, down;  // radians, modules
  };
  std::vector<std::pair<FinderPattern, Shape>> all;
  const auto add = [&](const Shape& shape) {
    FinderPattern p;
    p.centre = centre;
    const double a = shape.along * module, b = shape.down * module;
    p.u = {a * std::cos(shape.turn), a * std::sin(shape.turn)};
    p.v = {-b * std::sin(shape.turn + shape.slant), b * std::cos(shape.turn + shape.slant)};
    const double like = coarse_template().correlation(grey, p);
    p.inverted = like < 0;
    p.likeness = std::abs(like);
    all.emplace_back(p, shape);
  };
  const auto put_first = [&](std::size_t count) {
    std::partial_sort(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(count), all.end(),
                      [](const auto& x, const auto& y) { return likest_first(x.first, y.first); });
  };
  for (int turn = 0; turn < 6; ++turn) {  // the other six are the same pattern turned by a quarter
    for (const double along : kSizes)
      for (const double down : kSizes) add({turn * std::numbers::pi / 12, 0, along, down});
  }
  put_first(kSlanted);
  for (std::size_t i = 0; i < kSlanted; ++i) {
    const Shape shape = all[i].second;
    for (const double slant : {-0.4, 0.4}) {
      add({shape.turn, slant, shape.along, shape.down});
      // The other axis may be the one that leans.
      add({shape.turn - slant, slant, shape.along, shape.down});
    }
  }
  put_first(kMost);
  std::vector<FinderPattern> out;
  for (std::size_t i = 0; i < kMost; ++i) out.push_back(all[i].first);
  return out;
}

// The fit may have caught on the inner five modules instead of all seven, or the reverse, along either axis.
FinderPattern rescaled(GreyView grey, const FinderPattern& p) {
  constexpr double kRing = 7.0 / 5;
  FinderPattern best = p;
  if (p.likeness > kGoodAnyhow) return best;
  for (const double a : {1.0, kRing, 1 / kRing}) {
    for (const double b : {1.0, kRing, 1 / kRing}) {
      if (a == 1 && b == 1) continue;
      FinderPattern q = p;
      q.u = {a * p.u.x, a * p.u.y};
      q.v = {b * p.v.x, b * p.v.y};
      q = fitted(grey, q, coarse_template(), 0.5, 0.125);
      if (q.likeness > best.likeness) best = q;
    }
  }
  return best;
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

std::vector<Proposal> proposals(GreyView bw, Proposed proposed) {
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
  // A whole pattern is crossed by three modules of lines; one that is half covered by fewer.
  const auto is_chance = [](const Proposal& p) { return p.votes < std::max(2.0, 0.8 * p.module); };
  auto all = along_rows.take();
  auto columns = along_columns.take();
  std::erase_if(all, is_chance);
  std::erase_if(columns, is_chance);
  if (proposed == Proposed::any) {
    all.insert(all.end(), columns.begin(), columns.end());
  } else {
    std::erase_if(all, [&](const Proposal& p) {
      return std::none_of(columns.begin(), columns.end(), [&](const Proposal& q) {
        const double close = 1.5 * std::min(p.module, q.module);
        return std::abs(p.x - q.x) < close && std::abs(p.y - q.y) < close;
      });
    });
  }
  // Those first that most lines agree on, for their size.
  std::sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.votes > b.votes; });
  if (all.size() > kMostProposals) all.resize(kMostProposals);
  return all;
}

bool same_place(const FinderPattern& a, const FinderPattern& b) {
  return std::hypot(a.centre.x - b.centre.x, a.centre.y - b.centre.y) < 3 * std::max(a.module(), b.module());
}

// The pattern there, if there is one.
std::optional<FinderPattern> pattern_at(GreyView grey, PicturePoint place, double module) {
  FinderPattern best;
  for (const FinderPattern& start : starts(grey, place, module)) {
    if (start.likeness < kLeastStart) continue;
    const FinderPattern near = fitted(grey, start, coarse_template(), 0.5, 0.125);
    if (near.likeness > best.likeness) best = near;
  }
  if (best.likeness < kWorthRescaling) return std::nullopt;
  best = rescaled(grey, best);
  if (best.likeness < kLeastLikeness) return std::nullopt;
  best = fitted(grey, best, fine_template(), 0.25, 0.03125);
  const double m = best.module(), area = best.u.x * best.v.y - best.u.y * best.v.x;
  if (best.likeness < kLeastLikeness || area < 0.4 * m * m) return std::nullopt;
  return best;
}

}  // namespace

double FinderPattern::module() const { return (std::hypot(u.x, u.y) + std::hypot(v.x, v.y)) / 2; }

double finder_likeness(GreyView grey, const FinderPattern& p) {
  return std::max((p.inverted ? -1 : 1) * coarse_template().correlation(grey, p), 0.0);
}

FinderPattern fit_finder_pattern(GreyView grey, const FinderPattern& start) {
  return fitted(grey, start, fine_template(), 0.5, 0.03125);
}

void add_finder_patterns(std::vector<FinderPattern>& out, std::vector<TriedPlace>& tried, GreyView bw,
                         GreyView grey, Proposed proposed, const std::function<bool(PicturePoint)>& is_closed,
                         std::size_t most) {
  if (bw.empty() || grey.empty()) return;
  const double scale = static_cast<double>(grey.width) / bw.width;
  for (const Proposal& proposal : proposals(bw, proposed)) {
    if (out.size() >= 2 * most) break;  // a texture
    const PicturePoint place{proposal.x * scale, proposal.y * scale};
    const double module = proposal.module * scale;
    const auto is_found = [&](const FinderPattern& p) {
      return p.likeness > kGoodAnyhow &&
             std::hypot(p.centre.x - place.x, p.centre.y - place.y) < 2 * std::max(p.module(), module);
    };
    const auto is_tried = [&](const TriedPlace& t) {
      return std::hypot(t.centre.x - place.x, t.centre.y - place.y) < 0.5 * module &&
             t.module < 1.15 * module && module < 1.15 * t.module;
    };
    if (is_closed(place) || std::any_of(out.begin(), out.end(), is_found) ||
        std::any_of(tried.begin(), tried.end(), is_tried))
      continue;
    const auto candidate = pattern_at(grey, place, module);
    tried.push_back({place, module, !candidate});
    if (!candidate) continue;
    const auto same = std::find_if(out.begin(), out.end(),
                                   [&](const auto& other) { return same_place(other, *candidate); });
    if (same == out.end()) {
      out.push_back(*candidate);
    } else if (same->likeness < candidate->likeness) {
      *same = *candidate;
    }
  }
  std::sort(out.begin(), out.end(), likest_first);
  if (out.size() > most) out.resize(most);
}

}  // namespace counterfoil
