// Two readers that know nothing of us.
#pragma once

#include <set>
#include <string>

#include "roundtrip/raster.h"

namespace counterfoil {

std::multiset<std::string> read_by_zxing(const Raster& page);
std::multiset<std::string> read_by_zbar(const Raster& page);

}  // namespace counterfoil
