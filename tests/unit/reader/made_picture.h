// Pictures that the tests of this room make themselves: symbols on a ground, saved in any format by libvips.
#pragma once

#include <vips/vips.h>

#include <cstdint>
#include <cstdlib>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "symbol/matrix.h"

namespace counterfoil {

struct Rgb {
  std::uint8_t r, g, b;
};

class MadePicture {
 public:
  MadePicture(int width, int height, Rgb ground = {255, 255, 255}) : width_(width), height_(height) {
    for (int i = 0; i < width * height; ++i) rgb_.insert(rgb_.end(), {ground.r, ground.g, ground.b});
  }

  void fill(int left, int top, int width, int height, Rgb colour) {
    for (int y = top; y < top + height; ++y) {
      for (int x = left; x < left + width; ++x) {
        const auto at = 3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(width_) +
                             static_cast<std::size_t>(x));
        rgb_[at] = colour.r;
        rgb_[at + 1] = colour.g;
        rgb_[at + 2] = colour.b;
      }
    }
  }

  // A QR Code at level M with its outer top left corner there; the quiet zone in the light colour. Gives the
  // side of the symbol in pixels.
  int draw(std::string_view text, int left, int top, int module, Rgb dark = {0, 0, 0},
           Rgb light = {255, 255, 255}) {
    const SymbolMatrix symbol = *encode_symbol(text, CorrectionLevel::medium);
    const int side = symbol.modules * module, quiet = kQuietZoneModules * module;
    fill(left - quiet, top - quiet, side + 2 * quiet, side + 2 * quiet, light);
    for (int y = 0; y < symbol.modules; ++y) {
      for (int x = 0; x < symbol.modules; ++x) {
        if (symbol.at(x, y)) fill(left + x * module, top + y * module, module, module, dark);
      }
    }
    return side;
  }

  Rgb at(int x, int y) const {
    const auto first =
        3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(width_) + static_cast<std::size_t>(x));
    return {rgb_[first], rgb_[first + 1], rgb_[first + 2]};
  }
  int width() const { return width_; }
  int height() const { return height_; }

  // For the caller to unref; the picture must outlive it.
  VipsImage* image() const {
    if (VIPS_INIT("reader_test") != 0) std::abort();
    VipsImage* image =
        vips_image_new_from_memory(rgb_.data(), rgb_.size(), width_, height_, 3, VIPS_FORMAT_UCHAR);
    image->Type = VIPS_INTERPRETATION_sRGB;
    return image;
  }

 private:
  int width_, height_;
  std::vector<std::uint8_t> rgb_;
};

// `path` ends as libvips wants it: "x.jpg[Q=80]". Unrefs the image.
inline void save(VipsImage* image, const std::string& path) {
  if (!image || vips_image_write_to_file(image, path.c_str(), nullptr) != 0) {
    throw std::runtime_error(vips_error_buffer());
  }
  g_object_unref(image);
}
inline void save(const MadePicture& picture, const std::string& path) { save(picture.image(), path); }

// The image after one operation; unrefs what it was made from.
template <typename Operation, typename... Arguments>
VipsImage* after(VipsImage* image, Operation operation, Arguments... arguments) {
  VipsImage* out = nullptr;
  if (operation(image, &out, arguments..., nullptr) != 0) throw std::runtime_error(vips_error_buffer());
  g_object_unref(image);
  return out;
}

}  // namespace counterfoil
