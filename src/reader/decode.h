// Symbols in a grey picture, by ZXing-cpp: one call, as it comes. What is done to the picture beforehand is
// passes.h. Versions 1.4 (Debian 12), 2.x and 3.x of the library serve; decode.cc evens out what differs.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "reader/image.h"
#include "reader/photo.h"

namespace counterfoil {

enum class Symbologies {
  qr,   // QR Code
  any,  // QR Code, Data Matrix, Code 128
};
enum class Tones {
  grey,             // told apart by the library's local average
  black_and_white,  // already told apart
};

// Every symbol that decodes without an error; corners in pixels of this picture, `pass` empty. The library's
// own reductions of the picture are left out: the passes make better ones.
std::vector<PhotoCode> decode_symbols(GreyView picture, Tones tones, Symbologies symbologies);

// What an exact QR Code matrix says: modules x modules, row by row, 1 dark. Nothing when it is none.
std::optional<std::string> decode_matrix(const std::vector<std::uint8_t>& dark, int modules);

}  // namespace counterfoil
