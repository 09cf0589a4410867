// Ours on pictures that bear no tag: nothing may be read as one.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "bench/readers.h"

namespace counterfoil {

// "CF1:XXXX-XXXX-XX", all different.
std::vector<std::string> stand_in_texts(std::size_t count, std::uint32_t seed);

// Prints every text that was reported, then counts by kind and the time. Exit code: 0 when nothing was reported,
// else 1.
int read_no_tags(std::uint64_t from, std::uint64_t count, unsigned threads, const OurWay& way);

}  // namespace counterfoil
