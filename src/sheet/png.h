// Inside the sheet room: what Cairo leaves out of a PNG. Source: W3C PNG (second edition), 5.3 and 11.3.5.3,
// from memory.
#pragma once

#include <string>
#include <string_view>

namespace counterfoil {

// The PNG with a pHYs chunk behind its header, so that programs print it at its size. Precondition: a whole
// PNG file without such a chunk.
std::string with_resolution(std::string_view png, double dots_per_inch);

}  // namespace counterfoil
