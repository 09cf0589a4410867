// Finder patterns: the three squares by which a QR Code symbol is found (ISO/IEC 18004:2015, 6.3.3: dark, light,
// dark, light, dark in the proportion 1:1:3:1:1 on any line through the middle). Places are proposed by runs
// along rows and columns, loosely, so that a pattern that is half covered is still proposed; each is then held
// against the grey picture by a template whose centre and two axes are free.
#pragma once

#include <cstddef>
#include <functional>
#include <vector>

#include "base/grey.h"

namespace counterfoil {

struct FinderPattern {
  PicturePoint centre;
  PicturePoint u, v;    // one module along either axis, as vectors on the picture; u turns clockwise into v
  double likeness = 0;  // normalised correlation with the ideal pattern, 0 to 1
  bool inverted = false;

  double module() const;  // pixels, the mean of both axes
};

// How like the ideal pattern the picture is there, without any fitting.
double finder_likeness(GreyView grey, const FinderPattern& pattern);

// Fits the pattern to the picture, starting from a place that is right within about a module.
FinderPattern fit_finder_pattern(GreyView grey, const FinderPattern& start);

enum class Proposed {
  crossed,  // by rows and by columns: whole patterns, at little cost
  any,      // by either: also patterns that are partly covered
};

// A place that was proposed, with the size of the module that was proposed.
struct TriedPlace {
  PicturePoint centre;
  double module = 0;
  bool barren = false;  // no pattern is there
};

// Adds the patterns that are new to those found before, and keeps the `most` likest, likest first.
// `black_and_white` is the same picture as `grey`, in any size; places and sizes are in pixels of `grey`. A place
// that was tried is not tried again when another version of the picture proposes it; what is tried is added. With
// twice as many as `most` the picture is a texture, and no more are looked for.
void add_finder_patterns(std::vector<FinderPattern>& found, std::vector<TriedPlace>& tried,
                         GreyView black_and_white, GreyView grey, Proposed proposed,
                         const std::function<bool(PicturePoint)>& is_closed, std::size_t most);

}  // namespace counterfoil
