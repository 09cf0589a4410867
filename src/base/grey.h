// Grey pictures, and places on them.
#pragma once

#include <cstdint>
#include <vector>

namespace counterfoil {

struct GreyPicture {
  int width = 0, height = 0;
  std::vector<std::uint8_t> pixels;  // rows from the top, without padding
};

// Rows of somebody else's picture, without padding.
struct GreyView {
  const std::uint8_t* pixels = nullptr;
  int width = 0, height = 0;

  GreyView() = default;
  GreyView(const std::uint8_t* rows, int columns, int lines) : pixels(rows), width(columns), height(lines) {}
  GreyView(const GreyPicture& picture) : GreyView(picture.pixels.data(), picture.width, picture.height) {}
  bool empty() const { return width == 0 || height == 0; }
};

// Pixels from the outer corner of the top left pixel, whose centre is at (0.5, 0.5).
struct PicturePoint {
  double x = 0, y = 0;
};

}  // namespace counterfoil
