#include "recovery/soft_symbol.h"

#include <algorithm>
#include <cmath>

namespace counterfoil {
namespace {

// Words that agree with less than the best does by this share of the weight are left out: any two differ in 5
// of 15 modules or more, which is a share of two thirds.
constexpr double kFormatSlack = 0.4;

}  // namespace

std::optional<SampledSymbol> sound_sample(const SampledSymbol& symbol) {
  const int version = symbol.version();
  if (version < 1 || version > kMostVersion || symbol.modules != 17 + 4 * version ||
      symbol.darkness.size() != static_cast<std::size_t>(symbol.modules * symbol.modules))
    return std::nullopt;
  SampledSymbol sound = symbol;
  for (float& value : sound.darkness) value = std::isfinite(value) ? std::clamp(value, -1.0F, 1.0F) : 0;
  return sound;
}

std::vector<FormatGuess> likely_formats(const SampledSymbol& symbol, std::size_t most) {
  const Layout& layout = layout_of(symbol.version());
  std::array<double, 15> seen{};
  double weight = 0;
  for (const auto& copy : layout.format) {
    for (std::size_t i = 0; i < seen.size(); ++i) {
      const double value = symbol.darkness[static_cast<std::size_t>(copy[i])];
      seen[i] += value;
      weight += std::fabs(value);
    }
  }
  std::vector<FormatGuess> guesses;
  for (const auto level : kSymbolLevels) {
    for (int mask = 0; mask < kMasks; ++mask) {
      const int word = format_word({level, mask});
      double score = 0;
      for (std::size_t i = 0; i < seen.size(); ++i) score += word >> (14 - i) & 1 ? seen[i] : -seen[i];
      guesses.push_back({{level, mask}, weight > 0 ? score / weight : 0});
    }
  }
  std::stable_sort(guesses.begin(), guesses.end(),
                   [](const FormatGuess& a, const FormatGuess& b) { return a.score > b.score; });
  const double least = guesses.front().score - kFormatSlack;
  while (guesses.size() > most || guesses.back().score < least) guesses.pop_back();
  return guesses;
}

std::vector<float> soft_bits(const SampledSymbol& symbol, int mask) {
  const Layout& layout = layout_of(symbol.version());
  std::vector<float> bits(layout.bits.size());
  for (std::size_t i = 0; i < bits.size(); ++i) {
    const int module = layout.bits[i];
    const float value = symbol.darkness[static_cast<std::size_t>(module)];
    bits[i] = mask_turns(mask, module % layout.modules, module / layout.modules) ? -value : value;
  }
  return bits;
}

double function_agreement(const SampledSymbol& symbol) {
  const Layout& layout = layout_of(symbol.version());
  double agrees = 0, weight = 0;
  for (std::size_t i = 0; i < layout.colour.size(); ++i) {
    if (layout.colour[i] == 0) continue;
    agrees += symbol.darkness[i] * static_cast<float>(layout.colour[i]);
    weight += std::fabs(symbol.darkness[i]);
  }
  return weight > 0 ? agrees / weight : 0;
}

}  // namespace counterfoil
