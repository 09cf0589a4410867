#include "recovery/mend.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "recovery/data_bits.h"
#include "recovery/evidence.h"
#include "recovery/reed_solomon.h"
#include "recovery/soft_symbol.h"

namespace counterfoil {
namespace {

constexpr std::size_t kFormatsTried = 8;
constexpr double kFormatBits = 6;  // 32 words, either way round

// The codewords that the soft bits give one by one, and how likely each is right (logarithm).
struct SoftCodewords {
  std::vector<std::uint8_t> values;
  std::vector<double> sureness;
};

SoftCodewords harden(std::span<const float> bits) {
  SoftCodewords codewords;
  codewords.values.assign(bits.size() / 8, 0);
  codewords.sureness.assign(bits.size() / 8, 0);
  for (std::size_t i = 0; i < bits.size(); ++i) {
    codewords.values[i / 8] = static_cast<std::uint8_t>(codewords.values[i / 8] << 1 | (bits[i] > 0));
    codewords.sureness[i / 8] += std::log((1 + std::fabs(bits[i])) / 2);
  }
  return codewords;
}

double agreement_of(std::span<const float> bits, const std::vector<int>& places,
                    std::span<const std::uint8_t> word) {
  double sum = 0;
  for (std::size_t i = 0; i < word.size(); ++i)
    for (std::size_t bit = 0; bit < 8; ++bit) {
      const float value = bits[static_cast<std::size_t>(places[i]) * 8 + bit];
      sum += word[i] >> (7 - bit) & 1 ? value : -value;
    }
  return sum;
}

struct DecodedBlock {
  std::vector<std::uint8_t> word;
  Correction correction;
};

// With each number of erased codewords the code gives at most one word; of these the one that the bits bear out.
std::optional<DecodedBlock> decode_block(const SoftCodewords& codewords, std::span<const float> bits,
                                         const Block& block) {
  std::vector<std::uint8_t> received;
  for (const int place : block.places) received.push_back(codewords.values[static_cast<std::size_t>(place)]);
  std::vector<int> order(block.places.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
    const auto sureness = [&](int i) {
      return codewords.sureness[static_cast<std::size_t>(block.places[static_cast<std::size_t>(i)])];
    };
    return sureness(a) < sureness(b);
  });
  std::optional<DecodedBlock> best;
  double best_agreement = 0;
  const int budget = block.parity - kHeldBackParity;
  for (int erased = budget % 2; erased <= budget; erased += 2) {
    auto word = received;
    const auto correction = correct_block(
        word, block.parity, std::span(order).first(static_cast<std::size_t>(erased)), kHeldBackParity);
    if (!correction || (best && word == best->word)) continue;
    const double agreement = agreement_of(bits, block.places, word);
    if (best && agreement <= best_agreement) continue;
    best_agreement = agreement;
    best = DecodedBlock{std::move(word), *correction};
  }
  return best;
}

std::optional<MendedSymbol> mend_as(const SampledSymbol& symbol, SymbolFormat format) {
  const int version = symbol.version();
  const BlockPlan& plan = blocks_of(version, format.level);
  const auto bits = soft_bits(symbol, format.mask);
  const auto soft = harden(bits);
  MendedSymbol mended;
  std::vector<std::uint8_t> data, codewords(soft.values.size());
  for (const Block& block : plan.blocks) {
    const auto decoded = decode_block(soft, bits, block);
    if (!decoded) return std::nullopt;
    mended.errors += decoded->correction.errors;
    mended.erasures += decoded->correction.erasures;
    data.insert(data.end(), decoded->word.begin(), decoded->word.begin() + block.data);
    for (std::size_t i = 0; i < decoded->word.size(); ++i)
      codewords[static_cast<std::size_t>(block.places[i])] = decoded->word[i];
  }
  const auto taken = bits_taken(data, version);
  if (!taken) return std::nullopt;
  std::vector<float> agrees(bits.size());
  for (std::size_t i = 0; i < bits.size(); ++i)
    agrees[i] = codewords[i / 8] >> (7 - i % 8) & 1 ? bits[i] : -bits[i];
  mended.evidence_bits = evidence_nats(agrees) / std::log(2.0) - *taken - kFormatBits;
  if (mended.evidence_bits < kLeastEvidenceBits) return std::nullopt;

  mended.dark = draw_symbol(version, format, codewords);
  double agreement = 0, weight = 0;
  for (std::size_t i = 0; i < mended.dark.size(); ++i) {
    agreement += mended.dark[i] ? symbol.darkness[i] : -symbol.darkness[i];
    weight += std::fabs(symbol.darkness[i]);
  }
  mended.agreement = weight > 0 ? agreement / weight : 0;
  if (mended.agreement < kLeastAgreement) return std::nullopt;
  mended.modules = symbol.modules;
  mended.format = format;
  return mended;
}

SampledSymbol mirrored(const SampledSymbol& symbol) {
  SampledSymbol turned = symbol;
  for (int y = 0; y < symbol.modules; ++y)
    for (int x = 0; x < symbol.modules; ++x)
      turned.darkness[static_cast<std::size_t>(x * symbol.modules + y)] = symbol.at(x, y);
  return turned;
}

}  // namespace

std::optional<MendedSymbol> mend_symbol(const SampledSymbol& sampled) {
  const auto symbol = sound_sample(sampled);
  if (!symbol || function_agreement(*symbol) < kLeastFunctionAgreement) return std::nullopt;
  std::optional<MendedSymbol> best;
  const auto try_formats = [&](const SampledSymbol& turned, const std::vector<FormatGuess>& guesses,
                               bool is_mirrored) {
    for (const auto& guess : guesses) {
      auto mended = mend_as(turned, guess.format);
      if (!mended || (best && mended->evidence_bits <= best->evidence_bits)) continue;
      best = std::move(mended);
      best->mirrored = is_mirrored;
    }
  };
  const auto guesses = likely_formats(*symbol, kFormatsTried);
  try_formats(*symbol, guesses, false);
  const auto turned = mirrored(*symbol);
  const auto turned_guesses = likely_formats(turned, kFormatsTried);
  if (turned_guesses.front().score > guesses.front().score) try_formats(turned, turned_guesses, true);
  return best;
}

}  // namespace counterfoil
