#include "reader/raster.h"

#include <glib.h>
#include <vips/vips.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <utility>

#include "base/text.h"
#include "reader/photo.h"

namespace counterfoil {
namespace {

struct Unref {
  void operator()(void* object) const { g_object_unref(object); }
};
using Image = std::unique_ptr<VipsImage, Unref>;
using Source = std::unique_ptr<VipsSource, Unref>;
using Region = std::unique_ptr<VipsRegion, Unref>;

using Format = RasterFormat;

// The library starts once. It would load its plug-ins for a dozen formats that we do not want near untrusted
// files (and takes ten times as long for it), unless told to look where there are none. Of the loaders that are built
// in, all but four are blocked, so that no mistake of ours can reach them.
bool start_library() {
  static const bool started = [] {
    const bool ours = g_getenv("VIPSHOME") == nullptr && g_setenv("VIPSHOME", "/nonexistent", FALSE);
    const bool ok = vips_init("counterfoil") == 0;
    if (ours) g_unsetenv("VIPSHOME");
    if (!ok) return false;
    vips_operation_block_set("VipsForeignLoad", TRUE);
    for (const char* meant :
         {"VipsForeignLoadJpeg", "VipsForeignLoadPng", "VipsForeignLoadTiff", "VipsForeignLoadWebp"}) {
      vips_operation_block_set(meant, FALSE);
    }
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

// Opens the picture and reads its header; `shrink` is taken by JPEG alone, `page` from 1 by TIFF alone.
Image open_picture(VipsSource* source, Format format, VipsFailOn fail_on, int page, int shrink) {
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
      failed = common(vips_tiffload_source, "page", page - 1);
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

CameraWords words_of(VipsSource* source, VipsImage* image, Format format) {
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
    return {};
  }
  return read_exif({static_cast<const char*>(data), size});
}

// From the library's pixels per mm, which is 1 where the file says nothing.
double stated_dots(double pixels_per_mm) {
  const double dots = pixels_per_mm * 25.4;
  return pixels_per_mm != 1 && dots >= 10 && dots <= 20'000 ? dots : 0;
}

// Decodes once. With `fail_on` an incomplete file is an error, without it what is missing stays grey.
Result<Picture> decode(VipsSource* source, Format format, int page, Channel channel, VipsFailOn fail_on) {
  Image image = open_picture(source, format, fail_on, page, 1);
  if (!image) return unreadable(library_message());
  if (const auto fits = check_size(image.get(), format); !fits) return fits.error();

  Picture picture;
  picture.width = vips_image_get_width(image.get());
  picture.height = vips_image_get_height(image.get());
  picture.dots_per_inch_x = stated_dots(vips_image_get_xres(image.get()));
  picture.dots_per_inch_y = stated_dots(vips_image_get_yres(image.get()));
  const int orientation = vips_image_get_orientation(image.get());
  if (vips_image_get_orientation_swap(image.get())) {
    std::swap(picture.width, picture.height);
    std::swap(picture.dots_per_inch_x, picture.dots_per_inch_y);
  }

  const double pixels = double{1} * picture.width * picture.height;
  while (pixels / picture.shrink / picture.shrink > kWorkingPixels) picture.shrink *= 2;
  if (picture.shrink > 1 && format == Format::jpeg) {
    image = open_picture(source, format, fail_on, page, picture.shrink);
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

class RasterFile : public PictureFile {
 public:
  RasterFile(Source source, Format format) : source_(std::move(source)), format_(format) {}

  Result<void> read_header() {
    const Image image = open_picture(source_.get(), format_, VIPS_FAIL_ON_NONE, 1, 1);
    if (!image) return unreadable(library_message());
    words_ = words_of(source_.get(), image.get(), format_);
    if (format_ == Format::tiff) pages_ = std::clamp(vips_image_get_n_pages(image.get()), 1, kMostPages);
    return {};
  }

  int pages() const override { return pages_; }
  const CameraWords& words() const override { return words_; }
  Result<Picture> load(int page, Channel channel) override {
    auto whole = decode(source_.get(), format_, page, channel, VIPS_FAIL_ON_TRUNCATED);
    if (whole) return whole;
    auto part = decode(source_.get(), format_, page, channel, VIPS_FAIL_ON_NONE);
    if (part) part->damage = whole.error().message;
    return part;
  }

 private:
  Source source_;
  Format format_;
  int pages_ = 1;
  CameraWords words_;
};

Result<std::unique_ptr<PictureFile>> open_source(Source source, Format format) {
  if (!source) return unreadable(library_message());
  auto file = std::make_unique<RasterFile>(std::move(source), format);
  if (const auto read = file->read_header(); !read) return read.error();
  return std::unique_ptr<PictureFile>(std::move(file));
}

}  // namespace

Result<std::unique_ptr<PictureFile>> open_raster(const std::string& path, RasterFormat format) {
  if (!start_library()) return unreadable(library_message());
  return open_source(Source(vips_source_new_from_file(path.c_str())), format);
}

Result<std::unique_ptr<PictureFile>> open_raster_bytes(std::string_view bytes, RasterFormat format) {
  if (!start_library()) return unreadable(library_message());
  return open_source(Source(vips_source_new_from_memory(bytes.data(), bytes.size())), format);
}

}  // namespace counterfoil
