#include "grade/registration.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

namespace counterfoil {
namespace {

constexpr int kRounds = 6;          // at each blur
constexpr double kSettled = 0.005;  // pixels
constexpr double kHuber = 0.15;     // of the tones between paper and ink
constexpr double kRidge = 1e-4;     // of the mean diagonal: directions that nothing tells stay as they are

// Solves A x = b for symmetric A by elimination with pivots; false when it cannot.
template <std::size_t N>
bool solve(std::array<std::array<double, N>, N> a, std::array<double, N> b, std::array<double, N>& x) {
  for (std::size_t i = 0; i < N; ++i) {
    std::size_t pivot = i;
    for (std::size_t r = i + 1; r < N; ++r)
      if (std::abs(a[r][i]) > std::abs(a[pivot][i])) pivot = r;
    if (!(std::abs(a[pivot][i]) > 1e-12)) return false;
    std::swap(a[i], a[pivot]);
    std::swap(b[i], b[pivot]);
    for (std::size_t r = i + 1; r < N; ++r) {
      const double factor = a[r][i] / a[i][i];
      for (std::size_t c = i; c < N; ++c) a[r][c] -= factor * a[i][c];
      b[r] -= factor * b[i];
    }
  }
  for (std::size_t i = N; i-- > 0;) {
    double sum = b[i];
    for (std::size_t c = i + 1; c < N; ++c) sum -= a[i][c] * x[c];
    x[i] = sum / a[i][i];
  }
  return true;
}

struct Tones {
  double paper = 255, ink = 0;
};

// The tones that turn the drawing (0 ink, 255 paper) into what is seen.
Tones tones_of(double n, double sum_d, double sum_s, double sum_dd, double sum_ds) {
  const double spread = n * sum_dd - sum_d * sum_d;
  if (!(spread > 1e-6)) return {};
  const double slope = (n * sum_ds - sum_d * sum_s) / spread, start = (sum_s - slope * sum_d) / n;
  return {start + 255 * slope, start};
}

// N: 2 moves only, 6 all of an affine map. Places count from the middle, in units of `scale` pixels.
template <std::size_t N>
class Aligner {
 public:
  Aligner(const Plane& drawing, const Plane& scan, const PixelBox& box)
      : drawing_(drawing), scan_(scan), box_(box) {
    middle_ = {(box.left + box.right) / 2.0, (box.top + box.bottom) / 2.0};
    scale_ = std::max(1.0, std::max(box.right - box.left, box.bottom - box.top) / 2.0);
  }

  PicturePoint moved(PicturePoint p) const {
    const double u = (p.x - middle_.x) / scale_, v = (p.y - middle_.y) / scale_;
    if constexpr (N == 2) return {p.x + at_[0], p.y + at_[1]};
    return {p.x + at_[0] + at_[2] * u + at_[3] * v, p.y + at_[1] + at_[4] * u + at_[5] * v};
  }

  void start(const std::array<double, N>& from) { at_ = from; }
  bool run() {
    for (int round = 0; round < kRounds; ++round) {
      std::array<double, N> change{};
      if (!turn(change)) return false;
      double largest = 0;
      for (std::size_t i = 0; i < N; ++i) {
        at_[i] += change[i];
        largest = std::max(largest, std::abs(change[i]));
      }
      if (largest < kSettled) break;
    }
    return true;
  }

  const std::array<double, N>& found() const { return at_; }
  PicturePoint middle() const { return middle_; }
  double scale() const { return scale_; }

 private:
  // One step of Gauss and Newton.
  bool turn(std::array<double, N>& change) const {
    const Tones tones = measured_tones();
    const double contrast = (tones.paper - tones.ink) / 255;
    if (!(contrast > 0.05)) return false;
    std::array<std::array<double, N>, N> a{};
    std::array<double, N> b{};
    for (int y = std::max(box_.top, 1); y < std::min(box_.bottom, drawing_.height - 1); ++y)
      for (int x = std::max(box_.left, 1); x < std::min(box_.right, drawing_.width - 1); ++x) {
        const double gx = contrast * double{drawing_.at(x + 1, y) - drawing_.at(x - 1, y)} / 2,
                     gy = contrast * double{drawing_.at(x, y + 1) - drawing_.at(x, y - 1)} / 2;
        if (gx * gx + gy * gy < 1) continue;
        const PicturePoint p{x + 0.5, y + 0.5};
        const double off =
            double{scan_.between(moved(p))} - (tones.ink + contrast * double{drawing_.at(x, y)});
        const double far = std::abs(off) / (tones.paper - tones.ink);
        const double weight = far <= kHuber ? 1 : kHuber / far;
        std::array<double, N> slope{};
        const double u = (p.x - middle_.x) / scale_, v = (p.y - middle_.y) / scale_;
        slope[0] = gx, slope[1] = gy;
        if constexpr (N == 6) slope[2] = gx * u, slope[3] = gx * v, slope[4] = gy * u, slope[5] = gy * v;
        for (std::size_t i = 0; i < N; ++i) {
          b[i] -= weight * slope[i] * off;
          for (std::size_t k = 0; k < N; ++k) a[i][k] += weight * slope[i] * slope[k];
        }
      }
    double trace = 0;
    for (std::size_t i = 0; i < N; ++i) trace += a[i][i] / N;
    if (!(trace > 1)) return false;
    for (std::size_t i = 0; i < N; ++i) a[i][i] += kRidge * trace;
    return solve<N>(a, b, change);
  }

  Tones measured_tones() const {
    double n = 0, sum_d = 0, sum_s = 0, sum_dd = 0, sum_ds = 0;
    for (int y = box_.top; y < box_.bottom; ++y)
      for (int x = box_.left; x < box_.right; ++x) {
        const double d = double{drawing_.at(x, y)}, s = double{scan_.between(moved({x + 0.5, y + 0.5}))};
        n += 1, sum_d += d, sum_s += s, sum_dd += d * d, sum_ds += d * s;
      }
    return tones_of(n, sum_d, sum_s, sum_dd, sum_ds);
  }

  const Plane& drawing_;
  const Plane& scan_;
  PixelBox box_;
  PicturePoint middle_;
  double scale_ = 1;
  std::array<double, N> at_{};
};

}  // namespace

Affine registered(const Plane& drawing, const Plane& scan) {
  const PixelBox all{0, 0, drawing.width, drawing.height};
  constexpr double kMostMoved = 20, kMostTurned = 0.03;  // pixels; of the size
  std::array<double, 6> found{};
  constexpr double kBlur = 1.5;  // pixels of each reduced picture
  for (const int by : {4, 2, 1}) {
    const Plane small_drawing = blurred(reduced(drawing, by), kBlur),
                small_scan = blurred(reduced(scan, by), kBlur);
    Aligner<6> aligner(small_drawing, small_scan, {0, 0, small_drawing.width, small_drawing.height});
    for (auto& value : found) value /= by;
    aligner.start(found);
    if (!aligner.run()) return {};
    found = aligner.found();
    for (auto& value : found) value *= by;
    const double scale = aligner.scale() * by;
    if (std::max(std::abs(found[0]), std::abs(found[1])) > kMostMoved) return {};
    for (std::size_t i = 2; i < 6; ++i)
      if (std::abs(found[i]) > kMostTurned * scale) return {};
  }
  const Aligner<6> frame(drawing, scan, all);
  const double s = frame.scale();
  Affine map{1 + found[2] / s, found[3] / s, 0, found[4] / s, 1 + found[5] / s, 0};
  const PicturePoint m = frame.middle(), turned = map(m);
  map.x0 = m.x + found[0] - turned.x;
  map.y0 = m.y + found[1] - turned.y;
  return map;
}

PicturePoint shift_of(const Plane& drawing, const Plane& scan, const PixelBox& box, double most) {
  if (box.empty()) return {};
  Aligner<2> aligner(drawing, scan, box);
  if (!aligner.run()) return {};
  const auto& [x, y] = aligner.found();
  if (!(std::hypot(x, y) <= most)) return {};
  return {x, y};
}

}  // namespace counterfoil
