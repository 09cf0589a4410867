#include "reader/image.h"

#include <glib.h>
#include <vips/vips.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <memory>
#include <utility>

#include "base/text.h"
#include "reader/exif.h"
#include "reader/photo.h"

namespace counterfoil {
namespace {

struct Unref {
  void operator()(void* object) const { g_object_unref(object); }
};
using Image = std::unique_ptr<VipsImage, Unref>;
using Source = std::unique_ptr<VipsSource, Unref>;
using Region = std::unique_ptr<VipsRegion, Unref>;

enum class Format { jpeg, png, tiff, webp };

// The library starts once. It would load its plug-ins for a dozen formats that we do not want near untrusted
// files (and takes ten times as long for it), unless told to look where there are none.
bool start_library() {
  static const bool started = [] {
    const bool ours = g_getenv("VIPSHOME") == nullptr && g_setenv("VIPSHOME", "/nonexistent", FALSE);
    const bool ok = vips_init("counterfoil") == 0;
    if (ours) g_unsetenv("VIPSHOME");
    if (!ok) return false;
    vips_cache_set_max(0);
    vips_concurrency_set(1);
    g_log_set_handler(
        "VIPS", static_cast<GLogLevelFlags>(G_LOG_LEVEL_MASK), [](auto, auto, auto, auto) {}, nullptr);
    return true;
  }();
  return started;
}

// The first line of what the library says went wrong, if it says anything; its buffer is emptied.
std::string library_message() {
  const std::string text = vips_error_buffer();
  vips_error_clear();
  const std::string_view line = trimmed(std::string_view(text).substr(0, text.find('\n')));
  return line.empty() ? "it is damaged" : std::string(line);
}

std::optional<Format> sniff(VipsSource* source) {
  const unsigned char* bytes = vips_source_sniff(source, 12);
  if (!bytes) return std::nullopt;
  const std::string_view head(reinterpret_cast<const char*>(bytes), 12);
  if (head.starts_with("\xFF\xD8\xFF")) return Format::jpeg;
  if (head.starts_with("\x89PNG\r\n\x1A\n")) return Format::png;
  if (head.starts_with(std::string_view("II\x2A\0", 4)) ||
      head.starts_with(std::string_view("MM\0\x2A", 4)) ||
      head.starts_with(std::string_view("II\x2B\0", 4)) ||
      head.starts_with(std::string_view("MM\0\x2B", 4))) {
    return Format::tiff;
  }
  if (head.starts_with("RIFF") && head.substr(8) == "WEBP") return Format::webp;
  return std::nullopt;
}

// Opens the picture and reads its header; `shrink` is taken by JPEG alone.
Image open_picture(VipsSource* source, Format format, VipsFailOn fail_on, int shrink) {
  VipsImage* out = nullptr;
  const auto common = [&](auto load, auto... more) {
    return load(source, &out, "access", VIPS_ACCESS_SEQUENTIAL, "fail_on", fail_on, more..., nullptr);
  };
  int failed = 0;
  switch (format) {
    case Format::jpeg:
      failed = common(vips_jpegload_source, "shrink", shrink);
      break;
    case Format::png:
      failed = common(vips_pngload_source);
      break;
    case Format::tiff:
      failed = common(vips_tiffload_source);
      break;
    case Format::webp:
      failed = common(vips_webpload_source);
      break;
  }
  return Image(failed ? nullptr : out);
}

bool is_decoded_whole(VipsImage* image, Format format) {
  return format == Format::webp || vips_image_get_typeof(image, "interlaced") != 0;
}

Result<void> check_size(VipsImage* image, Format format) {
  constexpr int kLongestSide = 1'000'000;           // bounds one row, which is always held whole
  constexpr std::uint64_t kMostBytesPerPixel = 16;  // four bands of floating point
  const int width = vips_image_get_width(image), height = vips_image_get_height(image);
  const std::uint64_t bytes_per_pixel = static_cast<std::uint64_t>(vips_image_get_bands(image)) *
                                        vips_format_sizeof(vips_image_get_format(image));
  if (std::max(width, height) > kLongestSide || bytes_per_pixel > kMostBytesPerPixel) {
    return unreadable("it is not the shape of a photograph");
  }
  const double pixels = double{1} * width * height;
  const double limit = is_decoded_whole(image, format) ? kLargestWholePixels : kLargestPhotoPixels;
  if (pixels <= limit) return {};
  return unreadable("it has " + std::to_string(std::llround(pixels / 1e6)) + " megapixels; at most " +
                        std::to_string(std::llround(limit / 1e6)) + " are read",
                    "save it smaller and read that");
}

// Applies one operation to the image, or leaves it when the operation fails.
template <typename Operation, typename... Arguments>
bool apply(Image& image, Operation operation, Arguments... arguments) {
  VipsImage* out = nullptr;
  if (operation(image.get(), &out, arguments..., nullptr) != 0) return false;
  image.reset(out);
  return true;
}

// Three bands of colour or one of grey, 8 bits each, whatever the file holds.
bool to_plain_bands(Image& image) {
  const auto is_plain = [&] {
    const auto space = vips_image_get_interpretation(image.get());
    return vips_image_get_format(image.get()) == VIPS_FORMAT_UCHAR &&
           (space == VIPS_INTERPRETATION_sRGB || space == VIPS_INTERPRETATION_B_W);
  };
  if (!is_plain()) {
    const bool grey = vips_image_get_bands(image.get()) < 3;
    // A picture in no colour space that is known still has a first band to look at.
    if (!apply(image, vips_colourspace, grey ? VIPS_INTERPRETATION_B_W : VIPS_INTERPRETATION_sRGB)) {
      vips_error_clear();
      if (!apply(image, vips_extract_band, 0)) return false;
    }
    if (!apply(image, vips_cast_uchar)) return false;
  }
  if (vips_image_hasalpha(image.get())) {
    // What is transparent becomes white: a symbol drawn in black on nothing stays one.
    const std::unique_ptr<VipsArrayDouble, void (*)(VipsArrayDouble*)> white(
        vips_array_double_newv(1, 255.0), [](VipsArrayDouble* array) { vips_area_unref(VIPS_AREA(array)); });
    if (!apply(image, vips_flatten, "background", white.get())) return false;
  }
  return true;
}

void take_channel(const VipsPel* from, std::uint8_t* to, int n, int bands, Channel channel) {
  for (int i = 0; i < n; ++i, from += bands) {
    if (bands < 3) {
      to[i] = from[0];
    } else if (channel == Channel::lightest) {
      to[i] = std::max({from[0], from[1], from[2]});
    } else {
      to[i] = static_cast<std::uint8_t>((77 * from[0] + 150 * from[1] + 29 * from[2] + 128) >> 8);
    }
  }
}

// Pulls the pixels through the pipeline some rows at a time, so that colour never lies in memory as a whole.
bool decode_rows(VipsImage* image, Channel channel, GreyPicture& grey) {
  const int width = vips_image_get_width(image), height = vips_image_get_height(image);
  const int bands = vips_image_get_bands(image);
  constexpr int kStripBytes = 1 << 20;
  const int rows_at_once = std::max(kStripBytes / (width * bands), 1);
  const Region region(vips_region_new(image));
  grey.width = width;
  grey.height = height;
  grey.pixels.resize(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
  for (int top = 0; top < height; top += rows_at_once) {
    const VipsRect rows{0, top, width, std::min(rows_at_once, height - top)};
    if (vips_region_prepare(region.get(), &rows) != 0) return false;
    for (int y = top; y < top + rows.height; ++y) {
      const VipsPel* row = region->data + std::ptrdiff_t{y - region->valid.top} * region->bpl;
      take_channel(row, grey.pixels.data() + static_cast<std::size_t>(y) * static_cast<std::size_t>(width),
                   width, bands, channel);
    }
  }
  return true;
}

// Turns the grey picture as EXIF's orientation says. Done on grey pixels, since turning needs the whole
// picture.
bool set_upright(GreyPicture& grey, int orientation) {
  if (orientation <= 1 || orientation > 8) return true;
  Image image(vips_image_new_from_memory(grey.pixels.data(), grey.pixels.size(), grey.width, grey.height, 1,
                                         VIPS_FORMAT_UCHAR));
  if (!image) return false;
  vips_image_set_int(image.get(), VIPS_META_ORIENTATION, orientation);
  if (!apply(image, vips_autorot)) return false;
  GreyPicture upright{vips_image_get_width(image.get()), vips_image_get_height(image.get()), {}};
  std::size_t size = 0;
  const std::unique_ptr<void, void (*)(void*)> pixels(vips_image_write_to_memory(image.get(), &size), g_free);
  if (!pixels) return false;
  const auto* first = static_cast<const std::uint8_t*>(pixels.get());
  upright.pixels.assign(first, first + size);
  grey = std::move(upright);
  return true;
}

std::optional<Moment> taken_at(VipsSource* source, VipsImage* image, Format format) {
  const void* data = nullptr;
  std::size_t size = 0;
  if (format == Format::tiff) {
    // The library does not read EXIF out of TIFF files, and their directory may lie anywhere.
    data = vips_source_map(source, &size);
  } else if (vips_image_get_typeof(image, VIPS_META_EXIF_NAME) != 0) {
    vips_image_get_blob(image, VIPS_META_EXIF_NAME, &data, &size);
  }
  if (!data) {
    vips_error_clear();
    return std::nullopt;
  }
  return exif_taken({static_cast<const char*>(data), size});
}

// Decodes once. With `fail_on` an incomplete file is an error, without it what is missing stays grey.
Result<Picture> decode(VipsSource* source, Channel channel, VipsFailOn fail_on) {
  const auto format = sniff(source);
  vips_error_clear();
  if (!format) {
    return unreadable("it is no picture in a format that is known", "JPEG, PNG, TIFF and WebP are read");
  }
  Image image = open_picture(source, *format, fail_on, 1);
  if (!image) return unreadable(library_message());
  if (const auto fits = check_size(image.get(), *format); !fits) return fits.error();

  Picture picture;
  picture.width = vips_image_get_width(image.get());
  picture.height = vips_image_get_height(image.get());
  picture.taken = taken_at(source, image.get(), *format);
  const int orientation = vips_image_get_orientation(image.get());
  if (vips_image_get_orientation_swap(image.get())) std::swap(picture.width, picture.height);

  const double pixels = double{1} * picture.width * picture.height;
  while (pixels / picture.shrink / picture.shrink > kWorkingPixels) picture.shrink *= 2;
  if (picture.shrink > 1 && *format == Format::jpeg) {
    image = open_picture(source, *format, fail_on, picture.shrink);
  } else if (picture.shrink > 1 &&
             !apply(image, vips_shrink, double{1} * picture.shrink, double{1} * picture.shrink)) {
    image.reset();
  }
  if (!image || !to_plain_bands(image) || !decode_rows(image.get(), channel, picture.grey) ||
      !set_upright(picture.grey, orientation)) {
    return unreadable(library_message());
  }
  picture.colour = vips_image_get_bands(image.get()) >= 3;
  return picture;
}

Result<Picture> decode_what_is_there(VipsSource* source, Channel channel) {
  auto whole = decode(source, channel, VIPS_FAIL_ON_TRUNCATED);
  if (whole) return whole;
  auto part = decode(source, channel, VIPS_FAIL_ON_NONE);
  if (!part) return part;
  part->damage = whole.error().message;
  return part;
}

}  // namespace

Result<Picture> load_picture(const std::string& path, Channel channel) {
  const auto cannot = [&](const std::string& why, const std::string& hint = {}) {
    return unreadable("cannot read " + path + ": " + why, hint);
  };
  std::error_code failed;
  // A pipe would be waited for without end, and a folder has no content of this kind.
  const auto status = std::filesystem::status(path, failed);
  if (!std::filesystem::exists(status)) return cannot(failed ? failed.message() : "no such file");
  if (!std::filesystem::is_regular_file(status)) return cannot("it is not a file");
  if (!start_library()) return cannot(library_message());
  const Source source(vips_source_new_from_file(path.c_str()));
  if (!source) return cannot(library_message());
  auto picture = decode_what_is_there(source.get(), channel);
  if (!picture) return cannot(picture.error().message, picture.error().hint);
  if (!picture->damage.empty()) picture->damage = cannot(picture->damage).message;
  return picture;
}

Result<Picture> load_picture_bytes(std::string_view bytes, Channel channel) {
  if (!start_library()) return unreadable(library_message());
  const Source source(vips_source_new_from_memory(bytes.data(), bytes.size()));
  auto picture = decode_what_is_there(source.get(), channel);
  if (!picture)
    return unreadable("cannot read the picture: " + picture.error().message, picture.error().hint);
  return picture;
}

}  // namespace counterfoil
