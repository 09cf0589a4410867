// A colour picture, and JPEG files of it by libvips.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/grey.h"

namespace counterfoil {

struct RgbPicture {
  int width = 0, height = 0;
  std::vector<std::uint8_t> pixels;  // red, green, blue; rows from the top, without padding
};

// Luma of ITU-R BT.601, as the reader takes it.
GreyPicture grey_of(const RgbPicture& picture);

// `quality`: libjpeg's, 1 .. 100. Throws std::runtime_error when libvips fails.
std::string jpeg_of(const RgbPicture& picture, int quality);
std::string jpeg_of(const GreyPicture& picture, int quality);

}  // namespace counterfoil
