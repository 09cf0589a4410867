// Where a symbol may lie: guesses from two or three finder patterns. Three give all corners; where one is torn off
// or covered, two still give the side or the diagonal between them, and the timing patterns tell the rest.
#pragma once

#include <cstddef>
#include <vector>

#include "base/grey.h"
#include "base/projective.h"
#include "recovery/finder_pattern.h"

namespace counterfoil {

struct Framing {
  int modules = 0;     // along one side
  Projective place;    // from modules to pixels
  double promise = 0;  // only to order guesses by
  bool inverted = false;
};

// Most promising first.
std::vector<Framing> framings(GreyView grey, const std::vector<FinderPattern>& patterns, std::size_t most);

}  // namespace counterfoil
