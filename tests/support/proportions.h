// How sure a share of trials is, and whether two readers of the same pictures differ.
#pragma once

#include <cmath>
#include <cstddef>
#include <utility>

namespace counterfoil {

// Wilson's score interval of a proportion, 95 %, without continuity correction (E. B. Wilson, J. Am. Stat. Assoc. 22
// (1927) 209). Precondition: part <= whole, whole > 0.
inline std::pair<double, double> wilson_interval(std::size_t part, std::size_t whole) {
  constexpr double z = 1.959963985;
  const double n = static_cast<double>(whole), p = static_cast<double>(part) / n;
  const double middle = p + z * z / (2 * n);
  const double half = z * std::sqrt(p * (1 - p) / n + z * z / (4 * n * n));
  return {(middle - half) / (1 + z * z / n), (middle + half) / (1 + z * z / n)};
}

// Of trials made in pairs, the first alone succeeded in `first`, the second alone in `second`: the probability of a
// split as uneven or more so if neither were better (exact McNemar or sign test, two-sided).
inline double sign_test(std::size_t first, std::size_t second) {
  const std::size_t n = first + second, few = first < second ? first : second;
  double sum = 0;
  for (std::size_t k = 0; k <= few; ++k) {
    sum += std::exp(std::lgamma(static_cast<double>(n) + 1) - std::lgamma(static_cast<double>(k) + 1) -
                    std::lgamma(static_cast<double>(n - k) + 1) - static_cast<double>(n) * std::log(2.0));
  }
  return 2 * sum < 1 ? 2 * sum : 1;
}

}  // namespace counterfoil
