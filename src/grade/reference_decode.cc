#include "grade/reference_decode.h"

#include <algorithm>
#include <bit>

#include "recovery/reed_solomon.h"

namespace counterfoil {
namespace {

constexpr int kFormatCorrectable = 3;  // bits of 15

// ISO/IEC 18004:2015, table 9, from memory: what is left of d there is twice the r that it gives.
int misdecode_protection(int version, SymbolLevel level) {
  if (version == 1) return level == SymbolLevel::low ? 3 : level == SymbolLevel::medium ? 2 : 1;
  if (version == 2) return level == SymbolLevel::low ? 2 : 0;
  if (version == 3) return level == SymbolLevel::low ? 1 : 0;
  return 0;
}

std::optional<SymbolFormat> format_of(const SeenModules& seen, const Layout& layout) {
  std::optional<SymbolFormat> nearest;
  int least = kFormatCorrectable + 1;
  for (const auto& copy : layout.format) {
    unsigned word = 0;
    for (const int module : copy)
      word = word << 1 | (seen.dark(module % layout.modules, module / layout.modules) ? 1 : 0);
    for (const auto level : kSymbolLevels) {
      for (int mask = 0; mask < kMasks; ++mask) {
        const int off = std::popcount(word ^ static_cast<unsigned>(format_word({level, mask})));
        if (off >= least) continue;
        least = off;
        nearest = SymbolFormat{level, mask};
      }
    }
  }
  return nearest;
}

}  // namespace

SeenModules::SeenModules(const Reflectance& reflectance, const ReferenceGrid& grid)
    : modules_(grid.modules()), threshold_(reflectance.threshold()), contrast_(reflectance.contrast()) {
  for (int y = -kQuietZone; y < modules_ + kQuietZone; ++y)
    for (int x = -kQuietZone; x < modules_ + kQuietZone; ++x)
      reflectance_.push_back(reflectance.at(grid.at(x + 0.5, y + 0.5)));
}

double SeenModules::modulation(int x, int y) const {
  if (!(contrast_ > 0)) return 0;
  return std::min(2 * std::abs(reflectance_[index(x, y)] - threshold_) / contrast_, 1.0);
}

double unused_correction(int version, SymbolLevel level, int wrong_codewords) {
  const int parity = blocks_of(version, level).blocks.front().parity;
  return 1 - 2.0 * wrong_codewords / (parity - misdecode_protection(version, level));
}

ReferenceDecode reference_decode(const SeenModules& seen) {
  const int version = (seen.modules() - 17) / 4;
  const Layout& layout = layout_of(version);
  ReferenceDecode result;
  result.format = format_of(seen, layout);
  if (!result.format) return result;
  std::vector<std::uint8_t> codewords(static_cast<std::size_t>(layout.codewords()));
  for (std::size_t i = 0; i < layout.bits.size(); ++i) {
    const int x = layout.bits[i] % layout.modules, y = layout.bits[i] / layout.modules;
    const bool bit = seen.dark(x, y) != mask_turns(result.format->mask, x, y);
    codewords[i / 8] = static_cast<std::uint8_t>(codewords[i / 8] << 1 | (bit ? 1 : 0));
  }
  result.decoded = true;
  result.unused_correction = 1;
  for (const Block& block : blocks_of(version, result.format->level).blocks) {
    std::vector<std::uint8_t> word;
    for (const int place : block.places) word.push_back(codewords[static_cast<std::size_t>(place)]);
    const int protection = misdecode_protection(version, result.format->level);
    const auto correction = correct_block(word, block.parity, {}, protection);
    if (!correction) {
      result.decoded = false;
      result.unused_correction = 0;
      return result;
    }
    result.wrong_codewords += correction->errors;
    result.unused_correction = std::min(result.unused_correction,
                                        unused_correction(version, result.format->level, correction->errors));
    for (std::size_t i = 0; i < word.size(); ++i)
      codewords[static_cast<std::size_t>(block.places[i])] = word[i];
  }
  result.right = draw_symbol(version, *result.format, codewords);
  return result;
}

}  // namespace counterfoil
