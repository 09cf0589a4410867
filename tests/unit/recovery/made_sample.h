// Samples as a damaged symbol would give them, and pictures that are none, made from a fixed seed.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <random>
#include <string>

#include "recovery/sampled_symbol.h"
#include "symbol/matrix.h"

namespace counterfoil {

using Random = std::mt19937_64;

inline double unit(Random& random) { return static_cast<double>(random() >> 11) * 0x1p-53; }
inline int below(Random& random, int limit) {
  return static_cast<int>(random() % static_cast<unsigned>(limit));
}

// How often a rate is tried: `usual` times, or COUNTERFOIL_TRIALS times as often, by which the rates that headers
// name were measured.
inline int trials(int usual) {
  const char* times = std::getenv("COUNTERFOIL_TRIALS");
  return times ? usual * std::max(1, std::atoi(times)) : usual;
}

// In the form of a tag's text: the check characters are of no account here.
inline std::string tag_text(Random& random, const char* half = "BAG1") {
  constexpr std::string_view kLetters = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
  std::string text = "CF1.K7";
  for (int i = 0; i < 8; ++i) text += kLetters[random() % kLetters.size()];
  return text + "." + half;
}

inline SampledSymbol sample_of(const SymbolMatrix& symbol) {
  SampledSymbol sample{symbol.modules, {}};
  for (const auto dark : symbol.dark) sample.darkness.push_back(dark ? 1.0F : -1.0F);
  return sample;
}

// Each module is seen with noise, and wrongly so with the given probability: then it looks as sure as any other.
inline void add_errors(SampledSymbol& sample, Random& random, double share) {
  for (auto& value : sample.darkness) {
    const auto seen = static_cast<float>(0.4 + 0.6 * unit(random));
    value *= unit(random) < share ? -seen : seen;
  }
}

// Values as a blurred and noisy picture gives them: weak where they are wrong.
inline void add_noise(SampledSymbol& sample, Random& random, double sigma) {
  std::normal_distribution<double> normal(0, sigma);
  for (auto& value : sample.darkness)
    value = static_cast<float>(std::clamp(value * 0.6 + normal(random), -1.0, 1.0));
}

// A rectangle of about that share of the symbol, anywhere, gets values from `value(x, y)`.
template <typename Value>
void cover(SampledSymbol& sample, Random& random, double share, Value value) {
  const int side = sample.modules;
  const double wish = share * side * side;
  const int width = std::clamp(static_cast<int>(std::sqrt(wish) * (0.5 + unit(random))), 1, side);
  const int height = std::clamp(static_cast<int>(wish / width), 1, side);
  const int left = below(random, side - width + 1), top = below(random, side - height + 1);
  for (int y = top; y < top + height; ++y)
    for (int x = left; x < left + width; ++x)
      sample.darkness[static_cast<std::size_t>(y * side + x)] = static_cast<float>(value(x, y));
}

// Stripes of any direction and width, with a phase; -1 .. 1.
inline auto stripes(Random& random) {
  const double turn = unit(random) * 3.1416, period = 1.5 + 12 * unit(random), phase = 6.28 * unit(random);
  const double gain = 1 + 5 * unit(random);
  return [=](int x, int y) {
    const double wave = std::sin((std::cos(turn) * x + std::sin(turn) * y) * 6.28 / period + phase);
    return std::clamp(gain * wave, -1.0, 1.0);
  };
}

// Spots of several modules: noise, smoothed and spread again.
inline SampledSymbol texture(Random& random, int modules) {
  const int coarse = 1 + below(random, 5);
  std::vector<double> grid(static_cast<std::size_t>(modules * modules));
  for (auto& value : grid) value = 2 * unit(random) - 1;
  SampledSymbol sample{modules, std::vector<float>(grid.size())};
  for (int y = 0; y < modules; ++y)
    for (int x = 0; x < modules; ++x) {
      double sum = 0;
      for (int dy = 0; dy < coarse; ++dy)
        for (int dx = 0; dx < coarse; ++dx)
          sum += grid[static_cast<std::size_t>((y + dy) % modules * modules + (x + dx) % modules)];
      sample.darkness[static_cast<std::size_t>(y * modules + x)] =
          static_cast<float>(std::clamp(sum, -1.0, 1.0));
    }
  return sample;
}

inline SampledSymbol random_grid(Random& random, int modules) {
  SampledSymbol sample{modules, std::vector<float>(static_cast<std::size_t>(modules * modules))};
  for (auto& value : sample.darkness) value = static_cast<float>(2 * unit(random) - 1);
  return sample;
}

}  // namespace counterfoil
