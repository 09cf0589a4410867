// A grid that grows: from the three finder patterns outward, module by module, each placed where its neighbours lead
// one to expect it and then moved a little to where it is clearest. It follows creases that are too sharp for the
// lattice of grid.h, and passes round what is covered, since the clearest places go first.
#pragma once

#include "recovery/flattened.h"
#include "recovery/grid.h"
#include "recovery/sampled_symbol.h"

namespace counterfoil {

// Starts from where the lattice has the modules.
SampledSymbol grown_sample(const Flattened& flattened, const Grid& grid);

}  // namespace counterfoil
