#include "recovery/evidence.h"

#include <cmath>

namespace counterfoil {
namespace {

// ln cosh, which cosh itself would overflow for.
double log_cosh(double x) {
  const double size = std::fabs(x);
  return size + std::log1p(std::exp(-2 * size)) - std::log(2.0);
}

}  // namespace

double evidence_nats(std::span<const float> agreement) {
  double sum = 0, squares = 0;
  for (const float value : agreement) {
    sum += value;
    squares += static_cast<double>(value) * value;
  }
  if (sum <= 0 || squares <= 0) return 0;
  // The exponent is concave in t, so that its slope tells which way to go. Every t gives a bound that holds: the
  // search need not be exact. It starts where Hoeffding's bound has its best, and the best is never below that.
  const double first = sum / squares;
  double low = first, high = first;
  const auto slope = [&](double t) {
    double rest = sum;
    for (const float value : agreement) rest -= std::fabs(value) * std::tanh(t * std::fabs(value));
    return rest;
  };
  constexpr int kDoublings = 5, kHalvings = 8;
  for (int i = 0; i < kDoublings && slope(high) > 0; ++i) {
    low = high;
    high *= 2;
  }
  for (int i = 0; i < kHalvings && high > low; ++i) {
    const double middle = (low + high) / 2;
    (slope(middle) > 0 ? low : high) = middle;
  }
  double exponent = low * sum;
  for (const float value : agreement) exponent -= log_cosh(low * value);
  return exponent;
}

}  // namespace counterfoil
