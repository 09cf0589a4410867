#include "support/rgb_picture.h"

#include <vips/vips.h>

#include <stdexcept>

namespace counterfoil {
namespace {

std::string jpeg(const std::vector<std::uint8_t>& pixels, int width, int height, int bands, int quality) {
  static const bool started = VIPS_INIT("counterfoil-tests") == 0;
  if (!started) throw std::runtime_error(vips_error_buffer());
  VipsImage* image =
      vips_image_new_from_memory(pixels.data(), pixels.size(), width, height, bands, VIPS_FORMAT_UCHAR);
  if (!image) throw std::runtime_error(vips_error_buffer());
  image->Type = bands == 1 ? VIPS_INTERPRETATION_B_W : VIPS_INTERPRETATION_sRGB;
  void* bytes = nullptr;
  std::size_t size = 0;
  const int failed = vips_jpegsave_buffer(image, &bytes, &size, "Q", quality, nullptr);
  g_object_unref(image);
  if (failed != 0) throw std::runtime_error(vips_error_buffer());
  std::string out(static_cast<const char*>(bytes), size);
  g_free(bytes);
  return out;
}

}  // namespace

GreyPicture grey_of(const RgbPicture& picture) {
  GreyPicture out{picture.width, picture.height, {}};
  out.pixels.reserve(picture.pixels.size() / 3);
  for (std::size_t i = 0; i + 2 < picture.pixels.size(); i += 3) {
    const int luma = 299 * picture.pixels[i] + 587 * picture.pixels[i + 1] + 114 * picture.pixels[i + 2];
    out.pixels.push_back(static_cast<std::uint8_t>((luma + 500) / 1000));
  }
  return out;
}

std::string jpeg_of(const RgbPicture& picture, int quality) {
  return jpeg(picture.pixels, picture.width, picture.height, 3, quality);
}

std::string jpeg_of(const GreyPicture& picture, int quality) {
  return jpeg(picture.pixels, picture.width, picture.height, 1, quality);
}

}  // namespace counterfoil
