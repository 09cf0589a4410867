// Inside the sheet room: PNG files of a printer's dots, one bit each and with the resolution, which Cairo
// writes neither. Source: W3C PNG (second edition), clauses 5 and 11, from memory. Owner of zlib.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace counterfoil {

struct DotPicture {
  std::size_t width = 0, height = 0;
  std::vector<std::uint8_t>
      bytes;  // rows from the top, each of whole bytes; first dot in the highest bit, 1 is white

  std::size_t row_bytes() const { return (width + 7) / 8; }
};

// Precondition: sizes of 1 to 2^31 - 1 that agree with the bytes.
std::string png_of(const DotPicture& picture, double dots_per_inch);

}  // namespace counterfoil
