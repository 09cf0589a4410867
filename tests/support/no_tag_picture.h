// Pictures without a tag of ours, to see that none is read: patterns, text, wood, metal, other codes, parts
// of codes. A hundred thousand different ones, each made from its index alone.
#pragma once

#include <cstdint>
#include <string>

#include "support/rgb_picture.h"

namespace counterfoil {

struct NoTagPicture {
  GreyPicture picture;  // 320 x 240 .. 480 x 360
  std::string kind;     // "wood", "code 128", ...
  std::string text;     // of a foreign code, which may be read as such; else empty
};

NoTagPicture picture_without_tag(std::uint64_t index);

}  // namespace counterfoil
