#include "recovery/growth.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <queue>
#include <utility>
#include <vector>

#include "recovery/layout.h"

namespace counterfoil {
namespace {

constexpr float kTether = 3.0F;  // what a shift by one module from the expected place costs, in modules
constexpr int kRelaxations = 3;
constexpr std::array<std::pair<int, int>, 4> kSides = {{{1, 0}, {-1, 0}, {0, 1}, {0, -1}}};

struct Shift {
  float u = 0, v = 0;  // in modules
};

class Growth {
 public:
  Growth(const Flattened& flattened, std::vector<Shift> start)
      : flattened_(flattened),
        modules_(flattened.modules()),
        colour_(layout_of((modules_ - 17) / 4).colour),
        shift_(std::move(start)),
        placed_(shift_.size(), false) {}

  std::vector<Shift> run() {
    for (const auto& [x, y] : {std::pair{3, 3}, std::pair{modules_ - 4, 3}, std::pair{3, modules_ - 4}})
      seed(x, y);
    while (!front_.empty()) {
      const Candidate next = front_.top();
      front_.pop();
      if (placed_[index(next.x, next.y)]) continue;
      const Shift expected = expectation(next.x, next.y);
      shift_[index(next.x, next.y)] = settled(next.x, next.y, expected, 0.2F);
      place(next.x, next.y);
    }
    for (int i = 0; i < kRelaxations; ++i) relax();
    return std::move(shift_);
  }

 private:
  struct Candidate {
    float promise;
    int x, y;
    bool operator<(const Candidate& other) const {
      return std::pair(promise, std::pair(x, y)) < std::pair(other.promise, std::pair(other.x, other.y));
    }
  };

  std::size_t index(int x, int y) const { return static_cast<std::size_t>(y * modules_ + x); }
  bool inside(int x, int y) const { return x >= 0 && y >= 0 && x < modules_ && y < modules_; }
  float darkness(float x, float y, Shift shift) const {
    return flattened_.darkness(x + 0.5F + shift.u, y + 0.5F + shift.v);
  }

  // The module and its four neighbours: clear inside, and unclear between two of different colours.
  float clearness(int x, int y, Shift shift) const {
    const float u = static_cast<float>(x), v = static_cast<float>(y);
    const auto worth = [&](int cx, int cy, float dark) {
      const float colour = inside(cx, cy) ? static_cast<float>(colour_[index(cx, cy)]) : -1;
      return colour != 0 ? 1.5F * colour * dark : std::abs(dark);
    };
    const float here = darkness(u, v, shift);
    float sum = worth(x, y, here);
    for (const auto& [dx, dy] : kSides) {
      const float du = static_cast<float>(dx), dv = static_cast<float>(dy);
      const float there = darkness(u + du, v + dv, shift);
      sum += 0.5F * worth(x + dx, y + dy, there);
      if (here * there < 0) sum -= std::abs(darkness(u + 0.5F * du, v + 0.5F * dv, shift));
    }
    return sum;
  }

  Shift settled(int x, int y, Shift expected, float first_step) const {
    Shift best = expected;
    float most = clearness(x, y, best);
    for (float step = first_step; step > 0.04F; step /= 2) {
      const Shift from = best;
      for (int dy = -1; dy <= 1; ++dy) {
        for (int dx = -1; dx <= 1; ++dx) {
          const Shift tried{from.u + step * static_cast<float>(dx), from.v + step * static_cast<float>(dy)};
          const float du = tried.u - expected.u, dv = tried.v - expected.v;
          const float value = clearness(x, y, tried) - kTether * (du * du + dv * dv);
          if (value > most) {
            most = value;
            best = tried;
          }
        }
      }
    }
    return best;
  }

  // From the neighbours that are placed, carried on half as far as they lead.
  Shift expectation(int x, int y) const {
    Shift sum;
    float count = 0;
    for (const auto& [dx, dy] : kSides) {
      const int nx = x + dx, ny = y + dy;
      if (!inside(nx, ny) || !placed_[index(nx, ny)]) continue;
      const Shift near = shift_[index(nx, ny)];
      Shift lead = near;
      const int fx = nx + dx, fy = ny + dy;
      if (inside(fx, fy) && placed_[index(fx, fy)]) {
        const Shift far = shift_[index(fx, fy)];
        lead = {near.u + 0.6F * (near.u - far.u), near.v + 0.6F * (near.v - far.v)};
      }
      sum.u += lead.u;
      sum.v += lead.v;
      ++count;
    }
    if (count == 0) return shift_[index(x, y)];
    return {sum.u / count, sum.v / count};
  }

  void seed(int x, int y) {
    const auto likeness = [&](Shift shift) {
      float sum = 0;
      for (int dy = -4; dy <= 4; ++dy) {
        for (int dx = -4; dx <= 4; ++dx) {
          const int ring = std::max(std::abs(dx), std::abs(dy));
          const float dark = darkness(static_cast<float>(x + dx), static_cast<float>(y + dy), shift);
          sum += ring == 2 || ring == 4 ? -dark : dark;
        }
      }
      return sum;
    };
    const Shift start = shift_[index(x, y)];
    Shift best = start;
    float most = likeness(best);
    for (int dv = -6; dv <= 6; ++dv) {
      for (int du = -6; du <= 6; ++du) {
        const Shift tried{start.u + 0.2F * static_cast<float>(du), start.v + 0.2F * static_cast<float>(dv)};
        const float now = likeness(tried);
        if (now > most) {
          most = now;
          best = tried;
        }
      }
    }
    if (most < 0.5F * 81) return;  // torn off or covered
    shift_[index(x, y)] = best;
    place(x, y);
  }

  void place(int x, int y) {
    placed_[index(x, y)] = true;
    const float clear = clearness(x, y, shift_[index(x, y)]);
    for (const auto& [dx, dy] : kSides) {
      if (inside(x + dx, y + dy) && !placed_[index(x + dx, y + dy)]) front_.push({clear, x + dx, y + dy});
    }
  }

  void relax() {
    for (int y = 0; y < modules_; ++y) {
      for (int x = 0; x < modules_; ++x) {
        Shift mean;
        float count = 0;
        for (const auto& [dx, dy] : kSides) {
          if (!inside(x + dx, y + dy)) continue;
          mean.u += shift_[index(x + dx, y + dy)].u;
          mean.v += shift_[index(x + dx, y + dy)].v;
          ++count;
        }
        const Shift own = shift_[index(x, y)];
        const Shift expected{(own.u + mean.u / count) / 2, (own.v + mean.v / count) / 2};
        shift_[index(x, y)] = settled(x, y, expected, 0.1F);
      }
    }
  }

  const Flattened& flattened_;
  int modules_;
  const std::vector<std::int8_t>& colour_;
  std::vector<Shift> shift_;
  std::vector<bool> placed_;
  std::priority_queue<Candidate> front_;
};

}  // namespace

SampledSymbol grown_sample(const Flattened& flattened, const Grid& grid) {
  SampledSymbol out;
  out.modules = flattened.modules();
  std::vector<Shift> start;
  for (int y = 0; y < out.modules; ++y) {
    for (int x = 0; x < out.modules; ++x) {
      const PicturePoint at = grid(x + 0.5, y + 0.5);
      start.push_back({static_cast<float>(at.x - x - 0.5), static_cast<float>(at.y - y - 0.5)});
    }
  }
  const std::vector<Shift> shifts = Growth(flattened, std::move(start)).run();
  std::size_t i = 0;
  for (int y = 0; y < out.modules; ++y) {
    for (int x = 0; x < out.modules; ++x, ++i) {
      out.darkness.push_back(flattened.darkness(static_cast<float>(x) + 0.5F + shifts[i].u,
                                                static_cast<float>(y) + 0.5F + shifts[i].v));
    }
  }
  return out;
}

}  // namespace counterfoil
