// HEIC files that the tests make, by libheif with its HEVC encoder.
#pragma once

#include <libheif/heif.h>

#include <algorithm>
#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>

#include "made_picture.h"

namespace counterfoil {

// Not everywhere is the library built with an encoder.
inline bool can_make_heif() { return heif_have_encoder_for_format(heif_compression_HEVC) != 0; }

enum class HeifPixels { rgb, grey, ten_bits };

inline void check_heif(const heif_error& error) {
  if (error.code != heif_error_Ok) throw std::runtime_error(error.message);
}

// The picture as pixels of that kind. `exif` from the byte order mark on; empty for none. `orientation` as EXIF counts
// them, stated by the file's own irot and imir.
inline std::string heif_of(const MadePicture& picture, HeifPixels pixels = HeifPixels::rgb,
                           const std::string& exif = {}, int orientation = 1) {
  const int width = picture.width(), height = picture.height();
  heif_image* made = nullptr;
  if (pixels == HeifPixels::grey) {
    check_heif(heif_image_create(width, height, heif_colorspace_monochrome, heif_chroma_monochrome, &made));
    check_heif(heif_image_add_plane(made, heif_channel_Y, width, height, 8));
  } else {
    const bool ten = pixels == HeifPixels::ten_bits;
    check_heif(heif_image_create(width, height, heif_colorspace_RGB,
                                 ten ? heif_chroma_interleaved_RRGGBB_LE : heif_chroma_interleaved_RGB,
                                 &made));
    check_heif(heif_image_add_plane(made, heif_channel_interleaved, width, height, ten ? 10 : 8));
  }
  const std::unique_ptr<heif_image, decltype(&heif_image_release)> image(made, heif_image_release);
  int stride = 0;
  auto* to = heif_image_get_plane(
      made, pixels == HeifPixels::grey ? heif_channel_Y : heif_channel_interleaved, &stride);
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      const Rgb colour = picture.at(x, y);
      const std::uint8_t bands[] = {colour.r, colour.g, colour.b};
      std::uint8_t* row = to + std::ptrdiff_t{stride} * y;
      if (pixels == HeifPixels::grey) row[x] = colour.g;
      if (pixels == HeifPixels::rgb) std::copy_n(bands, 3, row + 3 * std::ptrdiff_t{x});
      if (pixels != HeifPixels::ten_bits) continue;
      for (std::ptrdiff_t i = 0; i < 3; ++i) {
        const int wide = bands[i] * 1023 / 255;
        row[6 * std::ptrdiff_t{x} + 2 * i] = static_cast<std::uint8_t>(wide & 0xFF);
        row[6 * std::ptrdiff_t{x} + 2 * i + 1] = static_cast<std::uint8_t>(wide >> 8);
      }
    }
  }
  const std::unique_ptr<heif_context, decltype(&heif_context_free)> context(heif_context_alloc(),
                                                                            heif_context_free);
  heif_encoder* made_encoder = nullptr;
  check_heif(heif_context_get_encoder_for_format(context.get(), heif_compression_HEVC, &made_encoder));
  const std::unique_ptr<heif_encoder, decltype(&heif_encoder_release)> encoder(made_encoder,
                                                                               heif_encoder_release);
  check_heif(heif_encoder_set_lossy_quality(encoder.get(), 80));
  check_heif(heif_encoder_set_parameter_string(encoder.get(), "preset", "ultrafast"));
  const std::unique_ptr<heif_encoding_options, decltype(&heif_encoding_options_free)> options(
      heif_encoding_options_alloc(), heif_encoding_options_free);
  options->image_orientation = static_cast<heif_orientation>(orientation);
  heif_image_handle* made_handle = nullptr;
  check_heif(heif_context_encode_image(context.get(), made, encoder.get(), options.get(), &made_handle));
  const std::unique_ptr<heif_image_handle, decltype(&heif_image_handle_release)> handle(
      made_handle, heif_image_handle_release);
  if (!exif.empty())
    check_heif(heif_context_add_exif_metadata(context.get(), made_handle, exif.data(),
                                              static_cast<int>(exif.size())));
  std::string out;
  heif_writer writer{1, [](heif_context*, const void* data, std::size_t size, void* to_string) {
                       static_cast<std::string*>(to_string)->append(static_cast<const char*>(data), size);
                       return heif_error{heif_error_Ok, heif_suberror_Unspecified, ""};
                     }};
  check_heif(heif_context_write(context.get(), &writer, &out));
  return out;
}

}  // namespace counterfoil
