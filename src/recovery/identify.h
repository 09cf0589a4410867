// Which known text a symbol bears that cannot be decoded: every text is drawn as the symbol would bear it, and the
// one that the sample bears out best is named.
//
// Tags share most of their text, and the right text may not be known at all (a foreign tag, a retired one, the
// other half of the same number), so that resembling more than all others is no reason to believe. What is
// believed is parity alone: texts that differ in one codeword differ in all parity of its block, and the parity of
// a wrong text is random to what was sampled, whatever covers the symbol. In every block that the text reaches, the
// parity must bear it out so well (evidence.h) that the chance of any wrong text doing so in the whole call, over
// all texts, formats and `tries`, is below kMostFalse. The chance is shared out among the texts in the order in which
// the data codewords bear them out, the r-th having the share 1 / (r (1 + ln texts)), so that texts which the data
// point to need less. Then the text must lead the next one by kLeastLead, over the bits where the two differ.
#pragma once

#include <cstddef>
#include <vector>

#include "recovery/known_texts.h"
#include "recovery/layout.h"
#include "recovery/sampled_symbol.h"

namespace counterfoil {

inline constexpr double kMostFalse = 1e-7;  // bound on the probability that a call is certain of a wrong text
inline constexpr double kLeastLead = 4;     // sum(w s) / sqrt(sum(w^2)): by chance below exp(-8)

struct Likeness {
  std::size_t text = 0;  // index among the known texts
  double score = 0;      // share of the codewords' weight that bears the text out: -1 .. 1
};

struct Identification {
  std::vector<Likeness> likely;  // at most three different texts, the likeliest first
  bool certain = false;          // that the symbol bears the first of them
  SymbolFormat format;           // that the first was found with
  double evidence_nats = 0;      // of its parity, in the block that bears it out least
  double needed_nats = 0;        // that would do
  double lead = 0;               // over the next text
};

// Takes any sample; `tries`: how many samplings of this one symbol are held against the texts in all, at least 1,
// this one included. Texts that no symbol of this version and level can bear are passed over. With equal texts
// among the known no text leads. Safe to call from several threads.
Identification identify_symbol(const SampledSymbol& symbol, const KnownTexts& known, std::size_t tries = 1);

}  // namespace counterfoil
