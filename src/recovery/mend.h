// A damaged symbol made whole: from what was sampled to the exact matrix that its encoder drew. Codewords that are
// least sure are taken as erased, more and more of them (generalised minimum distance decoding, Forney 1966), and
// what decodes is drawn again and held against the sample. What the symbol says is not read here: give the matrix
// to a decoder.
//
// A wrong symbol must not come of this. Of each block's parity kHeldBackParity codewords are never used up for
// correction; and by a bound on chance (evidence.h) the sample must bear out the drawn codeword bits so well that,
// over all texts of that length and all formats, less than one symbol in 2^kLeastEvidenceBits would do so by
// accident. That is the rule which decides; it holds back more parity in small symbols, where it counts: with
// modules that are either sure or unknown a full 1-M symbol may lose 6 of its 10 parity codewords, one whose text
// leaves padding more. Finders alone are no evidence: whoever sampled the symbol went by them.
#pragma once

#include <optional>

#include "recovery/layout.h"
#include "recovery/sampled_symbol.h"

namespace counterfoil {

inline constexpr int kHeldBackParity = 2;         // codewords in each block
inline constexpr double kLeastEvidenceBits = 30;  // beyond the bits of the text and the choice of format
inline constexpr double kLeastAgreement = 0.4;    // of the whole matrix with the sample: 70 % of the weight
inline constexpr double kLeastFunctionAgreement = 0.3;  // of function modules alone, before anything is tried

struct MendedSymbol {
  int modules = 0;                 // along one side
  std::vector<std::uint8_t> dark;  // modules x modules, row by row from the top left: 1 dark, 0 light
  SymbolFormat format;
  bool mirrored = false;  // the sample was: its rows are the matrix's columns
  int errors = 0;         // codewords that were wrong and not erased
  int erasures = 0;       // codewords that were erased
  double agreement = 0;   // share of the sampled weight, -1 .. 1
  double evidence_bits = 0;
};

// Takes any sample. The same sample gives the same symbol. Mirrored symbols are tried when the format information
// says so.
std::optional<MendedSymbol> mend_symbol(const SampledSymbol& symbol);

}  // namespace counterfoil
