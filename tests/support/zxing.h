// ZXing-cpp bare, without anything of ours: one plain read as a measure of our reader, and symbols that we do not
// print, to be told from ours. The tests and benchmarks know the library by this file alone; versions 1.4
// (Debian 12), 2.x and 3.x of it serve.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "base/grey.h"

namespace counterfoil {

struct PlainCode {
  std::string text;                     // UTF-8, as the symbol holds it
  std::array<PicturePoint, 4> corners;  // top left, top right, bottom right, bottom left of the symbol
};

enum class PlainSearch { any_format, qr_only };

// One call with the library's defaults: it tries hard, turns and shrinks the picture. None of an empty picture.
std::vector<PlainCode> plain_read(GreyView grey, PlainSearch search);

enum class ForeignFormat {
  code_128,
  gs1_128,  // one element, its identifier in brackets: "[01]12345678901231"
  data_matrix,
};

// Modules without a quiet zone. Bars are one row.
struct ForeignCode {
  int width = 0, height = 0;
  std::vector<std::uint8_t> dark;  // row by row, 1 dark

  bool at(int column, int row) const { return dark[static_cast<std::size_t>(row * width + column)] != 0; }
};

// By the library's own writer. `text`: ASCII. Throws what the library throws when it cannot.
ForeignCode foreign_code(ForeignFormat format, const std::string& text);

}  // namespace counterfoil
