// Ours on pictures that bear no tag: nothing may be read as one.
#pragma once

#include <cstdint>

#include "bench/readers.h"

namespace counterfoil {

// Prints every text that was reported, then counts by kind and the time. Exit code: 0 when nothing was
// reported, else 1.
int read_no_tags(std::uint64_t from, std::uint64_t count, unsigned threads, const OurWay& way);

}  // namespace counterfoil
