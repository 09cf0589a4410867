// How surely a printed symbol's codewords are dark and light, ISO/IEC 15415:2011, 7.8.4: for each grade, the codewords
// that hold a module below it count as errors; the symbol has the best grade for which correction would still be
// that good.
#pragma once

#include "grade/reference_decode.h"

namespace counterfoil {

struct SymbolModulation {
  double least = 1;  // of a module that holds a bit of a codeword
  int grade = 0;
};

SymbolModulation symbol_modulation(const SeenModules& seen, SymbolLevel level);

}  // namespace counterfoil
