// Photographs of tags that never were: a printed paper tag on a ground, seen by a camera in perspective,
// with one fault of five strengths. Everything follows from the seed. For judging readers, not for showing:
// shapes and sizes of the faults are estimates, not measurements.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/grey.h"
#include "support/rgb_picture.h"
#include "symbol/matrix.h"

namespace counterfoil {

enum class Fault {
  none,
  water,      // drops: each a small lens with a highlight
  pen,        // ballpoint through the symbol, and through a finder pattern
  tape,       // the edge of a glossy strip: haze, a highlight, what lies below is shifted
  fold,       // through a finder pattern: two planes, each in its own light, and a strip that is hidden
  stretch,    // thermal print whose feed slipped: up to 9 % longer or shorter, and unevenly
  cutoff,     // one side of the symbol is outside the picture, up to a fourth
  lens,       // dirty: a veil, and places that are blurred
  mixed,      // two lights of different colours, and a sharp edge between them
  screen,     // photographed from a screen: moire, dark bands, raised black
  wrinkle,    // smooth waves
  crumple,    // flat facets
  glare,      // white spots
  printline,  // dead dots of the print head: lines that were not printed
  oil,        // brown, and dark in blue above all
  tilt,       // seen from the side, 25 .. 70 degrees
  combined,   // three of the above
};

// In the order above.
const std::vector<Fault>& all_faults();
std::string_view name_of(Fault fault);

struct TagView {
  int width = 1280, height = 960;  // of the picture
  double module_pixels = 7.5;      // side of a module in the picture, where it is seen straight on
};

struct TagScene : TagView {
  std::string text;
  CorrectionLevel correction = CorrectionLevel::high;
  int least_version = 1;
};

struct TagPicture {
  RgbPicture picture;
  SymbolMatrix symbol;
  std::array<PicturePoint, 4> corners{};  // of the symbol: top left, top right, bottom right, bottom left
  double module_pixels = 0;               // mean over the four sides
};

// `level`: 1 (mild) .. 5 (hardly readable), or between. Aborts when no symbol holds the text.
TagPicture photograph(const TagScene& scene, Fault fault, double level, std::uint64_t seed);

// Symbols on a blank area of a tag, for comparing arrangements of the same area: for one seed, faults have
// the same places and sizes on the area whatever is printed there, and aim at nothing. Lengths are in units
// in which the faults have the size that they have on a symbol of kSymbolSide modules, one unit each.
inline constexpr double kSymbolSide = 25;
struct PrintedArea {
  struct Placed {
    SymbolMatrix symbol;
    double left = 0, top = 0;  // of its outer corner
    double module = 1;
  };
  double side = 0;  // the area is square
  std::vector<Placed> symbols;
};
// `view.module_pixels` are those of a unit; the picture has to be large enough for the area. `level` as
// above.
RgbPicture photograph_area(const PrintedArea& area, const TagView& view, Fault fault, double level,
                           std::uint64_t seed);

}  // namespace counterfoil
