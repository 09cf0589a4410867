// A grey picture with places marked on it, as a PNG file for people: outlines in colour, with a few words at each.
#pragma once

#include <string>
#include <vector>

#include "base/grey.h"
#include "base/result.h"

namespace counterfoil {

struct PictureMark {
  enum class Colour { green, amber, red };

  std::vector<PicturePoint> outline;  // closed; of two places, a line
  Colour colour = Colour::green;
  std::string words;  // at the outline's top left, may be empty
};

// The picture is reduced by a whole number to at most 2400 pixels along its longer side. The bytes of the PNG.
Result<std::string> marked_png(GreyView picture, const std::vector<PictureMark>& marks);

}  // namespace counterfoil
