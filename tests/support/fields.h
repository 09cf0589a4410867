// What the made pictures of the tests are computed in: matrices of OpenCV's core, and chance that is the
// same on every machine for a seed.
#pragma once

#include <cmath>
#include <cstdint>
#include <opencv2/core.hpp>
#include <opencv2/imgproc.hpp>

namespace counterfoil {

using Field = cv::Mat_<float>;
using Colour = cv::Vec3f;  // red, green, blue; 0 is black, 1 white paper in full light
using Colours = cv::Mat_<Colour>;
using Shifts = cv::Mat_<cv::Vec2f>;

inline float single(double value) { return static_cast<float>(value); }

inline Field linear(const Field& field, double factor, double summand) {
  Field out;
  field.convertTo(out, CV_32F, factor, summand);
  return out;
}

// The arguments of a call are made ready in any order, which differs between compilers: no two draws in
// one, unless in braces.
class Chance {
 public:
  explicit Chance(std::uint64_t seed) : rng_(seed * 0x9E3779B97F4A7C15u + 0x632BE59BD9B4E019u) {
    for (int i = 0; i < 4; ++i) rng_.next();
  }

  double between(double low, double high) { return rng_.uniform(low, high); }
  int below(int end) { return rng_.uniform(0, end); }
  double normal() { return rng_.gaussian(1); }
  bool one_in(int n) { return below(n) == 0; }
  double sign() { return one_in(2) ? 1 : -1; }
  double angle() { return between(0, 2 * CV_PI); }
  std::uint64_t seed() {
    const std::uint64_t high = rng_.next();
    return (high << 32) | rng_.next();
  }
  // Mean 0, deviation 1, each value for itself.
  Field noise(cv::Size size) {
    Field out(size);
    rng_.fill(out, cv::RNG::NORMAL, 0, 1);
    return out;
  }
  // The same with about that many bumps across and down.
  Field smooth_noise(cv::Size size, int cells_x, int cells_y) {
    Field out;
    cv::resize(noise({cells_x + 3, cells_y + 3}), out, size, 0, 0, cv::INTER_CUBIC);
    cv::Scalar mean, deviation;
    cv::meanStdDev(out, mean, deviation);
    return linear(out, 1 / std::max(deviation[0], 1e-6), -mean[0] / std::max(deviation[0], 1e-6));
  }

 private:
  cv::RNG rng_;
};

inline double clamped(double value, double low = 0, double high = 1) {
  return value < low ? low : value > high ? high : value;
}
// 0 below `from`, 1 above `to`, smooth between.
inline double step(double value, double from, double to) {
  const double t = clamped((value - from) / (to - from));
  return t * t * (3 - 2 * t);
}
inline double bell(double distance, double width) {
  return std::exp(-distance * distance / (2 * width * width));
}
inline Colour mixed(const Colour& a, const Colour& b, double share_of_b) {
  return a * single(1 - share_of_b) + b * single(share_of_b);
}
inline Colour times(const Colour& a, const Colour& b) { return {a[0] * b[0], a[1] * b[1], a[2] * b[2]}; }

}  // namespace counterfoil
