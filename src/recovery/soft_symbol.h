// A sampled symbol as soft codewords: the likeliest formats, and the codeword bits with the mask undone.
#pragma once

#include <optional>
#include <vector>

#include "recovery/layout.h"
#include "recovery/sampled_symbol.h"

namespace counterfoil {

// The sample with every value within -1 .. 1 and none that is not a number; nothing when it is no symbol's: a
// side that no version has, or another number of values.
std::optional<SampledSymbol> sound_sample(const SampledSymbol& symbol);

struct FormatGuess {
  SymbolFormat format;
  double score =
      0;  // what both copies of the format information bear out of it: -1 .. 1, of the weight there
};

// The likeliest first, at most `most`, without those that the sample speaks against clearly. Precondition of this
// and the following: a sound sample.
std::vector<FormatGuess> likely_formats(const SampledSymbol& symbol, std::size_t most);

// All codeword bits in the symbol's order, positive for 1.
std::vector<float> soft_bits(const SampledSymbol& symbol, int mask);

// The share of weight that bears out the modules which the version alone gives a colour: -1 .. 1, 0 where nothing
// is known of them.
double function_agreement(const SampledSymbol& symbol);

}  // namespace counterfoil
