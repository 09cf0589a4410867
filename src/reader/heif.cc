#include "reader/heif.h"

#include <libheif/heif.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>
#include <vector>

#include "base/file.h"
#include "base/text.h"

namespace counterfoil {
namespace {

template <auto release>
struct Release {
  template <typename T>
  void operator()(T* object) const {
    release(object);
  }
};
using Context = std::unique_ptr<heif_context, Release<heif_context_free>>;
using Handle = std::unique_ptr<heif_image_handle, Release<heif_image_handle_release>>;
using Image = std::unique_ptr<heif_image, Release<heif_image_release>>;
using ColourProfile = std::unique_ptr<heif_color_profile_nclx, Release<heif_nclx_color_profile_free>>;

constexpr std::uint64_t kMostFileBytes = 256 << 20;  // the largest photograph takes a quarter of it
constexpr std::size_t kMostExifBytes = 1 << 20;

Error failure(const heif_error& error) {
  std::string text(error.message ? error.message : "");
  if (text.empty()) text = "it is damaged";
  text[0] = to_lower(text.substr(0, 1))[0];
  return unreadable(text);
}

Result<void> check_size(int width, int height) {
  if (width <= 0 || height <= 0) return unreadable("it has no pixels");
  const double pixels = double{1} * width * height;
  if (pixels <= kLargestWholePixels) return {};
  return unreadable("it has " + std::to_string(std::llround(pixels / 1e6)) + " megapixels; at most " +
                        std::to_string(std::llround(kLargestWholePixels / 1e6)) + " are read",
                    "save it smaller and read that");
}

// One channel of a decoded image, brought to 8 bits.
class Plane {
 public:
  Plane() = default;
  Plane(const heif_image* image, heif_channel channel) {
    if (!heif_image_has_channel(image, channel)) return;  // asked for its bits, the library would abort
    bytes_ = heif_image_get_plane_readonly(image, channel, &stride_);
    width_ = heif_image_get_width(image, channel);
    height_ = heif_image_get_height(image, channel);
    shift_ = std::max(heif_image_get_bits_per_pixel_range(image, channel) - 8, 0);
    wide_ = heif_image_get_bits_per_pixel(image, channel) > 8;
  }

  bool is_there() const { return bytes_ && width_ > 0 && height_ > 0; }
  int at(int x, int y) const {
    const std::uint8_t* row = bytes_ + std::ptrdiff_t{stride_} * y;
    if (!wide_) return row[x];
    std::uint16_t sample;  // in the machine's byte order
    std::copy_n(row + 2 * std::ptrdiff_t{x}, 2, reinterpret_cast<std::uint8_t*>(&sample));
    return sample >> shift_;
  }
  int width() const { return width_; }
  int height() const { return height_; }

 private:
  int stride_ = 0;
  const std::uint8_t* bytes_ = nullptr;
  int width_ = 0, height_ = 0, shift_ = 0;
  bool wide_ = false;
};

// The pixels as they were coded: taking the library's RGB would treble the memory. Colours by ITU-R BT.601, whatever
// the file says of its primaries; a symbol is told apart by far more than that.
class Pixels {
 public:
  Pixels(const heif_image* image, Channel channel)
      : channel_(channel), space_(heif_image_get_colorspace(image)) {
    const auto order = space_ == heif_colorspace_RGB
                           ? std::array{heif_channel_R, heif_channel_G, heif_channel_B}
                           : std::array{heif_channel_Y, heif_channel_Cb, heif_channel_Cr};
    for (std::size_t i = 0; i < 3; ++i) planes_[i] = Plane(image, order[i]);
    heif_color_profile_nclx* profile = nullptr;
    if (heif_image_get_nclx_color_profile(image, &profile).code == heif_error_Ok && profile) {
      const ColourProfile owned(profile);
      full_range_ = profile->full_range_flag != 0;
    }
  }

  bool are_there() const {
    if (space_ == heif_colorspace_monochrome) return planes_[0].is_there();
    if (space_ != heif_colorspace_RGB && space_ != heif_colorspace_YCbCr) return false;
    return std::all_of(planes_.begin(), planes_.end(), [](const Plane& plane) { return plane.is_there(); });
  }
  bool colour() const { return space_ != heif_colorspace_monochrome; }
  int width() const { return planes_[0].width(); }
  int height() const { return planes_[0].height(); }

  int at(int x, int y) const {
    if (space_ == heif_colorspace_RGB) {
      const int r = planes_[0].at(x, y), g = planes_[1].at(x, y), b = planes_[2].at(x, y);
      return channel_ == Channel::lightest ? std::max({r, g, b}) : (77 * r + 150 * g + 29 * b + 128) >> 8;
    }
    const int luma = stretched(planes_[0].at(x, y), 16, 219);
    if (channel_ == Channel::luma || !colour()) return luma;
    const int cb = chroma(planes_[1], x, y), cr = chroma(planes_[2], x, y);
    // R and B lie that far from Y; G is the largest when both are below it.
    const int r = luma + cr * 359 / 256, b = luma + cb * 454 / 256, g = luma - (cb * 88 + cr * 183) / 256;
    return std::clamp(std::max({r, g, b}), 0, 255);
  }

 private:
  int stretched(int value, int low, int range) const {
    return full_range_ ? value : std::clamp((value - low) * 255 / range, 0, 255);
  }
  int chroma(const Plane& plane, int x, int y) const {
    const int px = std::min(static_cast<int>(std::int64_t{x} * plane.width() / width()), plane.width() - 1);
    const int py =
        std::min(static_cast<int>(std::int64_t{y} * plane.height() / height()), plane.height() - 1);
    const int value = plane.at(px, py) - 128;
    return full_range_ ? value : value * 255 / 224;
  }

  Channel channel_;
  heif_colorspace space_;
  std::array<Plane, 3> planes_;
  bool full_range_ = true;
};

// Means of squares of `shrink` by `shrink` pixels; what is left over at the right and lower edge goes.
GreyPicture reduced(const Pixels& pixels, int shrink) {
  GreyPicture grey{pixels.width() / shrink, pixels.height() / shrink, {}};
  const auto columns = static_cast<std::size_t>(grey.width);
  grey.pixels.resize(columns * static_cast<std::size_t>(grey.height));
  const int count = shrink * shrink;
  for (int y = 0; y < grey.height; ++y) {
    std::uint8_t* row = grey.pixels.data() + columns * static_cast<std::size_t>(y);
    for (int x = 0; x < grey.width; ++x) {
      int sum = count / 2;
      for (int dy = 0; dy < shrink; ++dy)
        for (int dx = 0; dx < shrink; ++dx) sum += pixels.at(x * shrink + dx, y * shrink + dy);
      row[x] = static_cast<std::uint8_t>(sum / count);
    }
  }
  return grey;
}

std::uint64_t big_endian(std::string_view bytes) {
  std::uint64_t n = 0;
  for (const char c : bytes) n = n << 8 | static_cast<std::uint8_t>(c);
  return n;
}

// Calls take(content) for each box of that name among the boxes (ISO/IEC 14496-12 clause 4.2): four bytes of length,
// four of name; length 1 stands for eight bytes of it behind the name, 0 for all that is left.
template <typename Take>
void each_box(std::string_view boxes, std::string_view name, Take take) {
  while (boxes.size() >= 8) {
    std::uint64_t length = big_endian(boxes.substr(0, 4));
    std::size_t head = 8;
    if (length == 1) {
      if (boxes.size() < 16) return;
      length = big_endian(boxes.substr(8, 8));
      head = 16;
    }
    if (length == 0 || length > boxes.size()) length = boxes.size();
    if (length < head) return;
    const auto size = static_cast<std::size_t>(length);
    if (boxes.substr(4, 4) == name) take(boxes.substr(head, size - head));
    boxes.remove_prefix(size);
  }
}

// Whether an item is coded in AV1: the library would hand it to a decoder that we do not mean to run. The items are in
// the entries (infe) of the item information (iinf) of the meta box, clause 8.11.6.
bool has_av1_item(std::string_view file) {
  bool found = false;
  each_box(file, "meta", [&](std::string_view meta) {
    if (meta.size() < 4) return;
    each_box(meta.substr(4), "iinf", [&](std::string_view items) {
      const std::size_t head = !items.empty() && items[0] != 0 ? 8 : 6;
      if (items.size() < head) return;
      each_box(items.substr(head), "infe", [&](std::string_view item) {
        const std::size_t type = !item.empty() && item[0] == 2 ? 8 : 10;
        found = found || (item.size() >= type + 4 && item.substr(type, 4) == "av01");
      });
    });
  });
  return found;
}

CameraWords words_of(const heif_image_handle* handle) {
  heif_item_id id = 0;
  if (heif_image_handle_get_list_of_metadata_block_IDs(handle, "Exif", &id, 1) != 1) return {};
  const std::size_t size = heif_image_handle_get_metadata_size(handle, id);
  if (size <= 4 || size > kMostExifBytes) return {};
  std::string block(size, '\0');
  if (heif_image_handle_get_metadata(handle, id, block.data()).code != heif_error_Ok) return {};
  // Four bytes tell how far behind them the TIFF header is (ISO/IEC 23008-12 annex A.2.1).
  std::size_t at = 0;
  for (std::size_t i = 0; i < 4; ++i) at = at << 8 | static_cast<std::uint8_t>(block[i]);
  if (at >= size - 4) return {};
  return read_exif(std::string_view(block).substr(4 + at));
}

class HeifFile : public PictureFile {
 public:
  explicit HeifFile(std::string owned) : owned_(std::move(owned)), bytes_(owned_) {}
  explicit HeifFile(std::string_view bytes) : bytes_(bytes) {}

  Result<void> read_header() {
    if (has_av1_item(bytes_)) return unreadable("it is AVIF by its content", "HEIC is read; save it as that");
    heif_context_set_max_decoding_threads(context_.get(), 0);
    heif_error error =
        heif_context_read_from_memory_without_copy(context_.get(), bytes_.data(), bytes_.size(), nullptr);
    if (error.code != heif_error_Ok) return failure(error);
    heif_image_handle* handle = nullptr;
    error = heif_context_get_primary_image_handle(context_.get(), &handle);
    if (error.code != heif_error_Ok) return failure(error);
    handle_.reset(handle);
    words_ = words_of(handle);
    return check_size(heif_image_handle_get_width(handle), heif_image_handle_get_height(handle));
  }

  int pages() const override { return 1; }
  const CameraWords& words() const override { return words_; }

  Result<Picture> load(int, Channel channel) override {
    heif_image* decoded = nullptr;
    const heif_error error =
        heif_decode_image(handle_.get(), &decoded, heif_colorspace_undefined, heif_chroma_undefined, nullptr);
    const Image image(decoded);
    if (error.code != heif_error_Ok || !image) return failure(error);
    const Pixels pixels(image.get(), channel);
    if (!pixels.are_there()) return unreadable("its pixels are of no kind that is known");
    if (const auto fits = check_size(pixels.width(), pixels.height()); !fits) return fits.error();
    Picture picture;
    picture.width = pixels.width();
    picture.height = pixels.height();
    picture.colour = pixels.colour();
    const double count = double{1} * picture.width * picture.height;
    while (count / picture.shrink / picture.shrink > kWorkingPixels) picture.shrink *= 2;
    if (std::min(picture.width, picture.height) < picture.shrink)
      return unreadable("it is not the shape of a photograph");
    picture.grey = reduced(pixels, picture.shrink);
    heif_error warning{};
    if (heif_image_get_decoding_warnings(decoded, 0, &warning, 1) > 0)
      picture.damage = failure(warning).message;
    return picture;
  }

 private:
  std::string owned_;
  std::string_view bytes_;
  Context context_{heif_context_alloc()};  // let go of after the handle
  Handle handle_;
  CameraWords words_;
};

Result<std::unique_ptr<PictureFile>> opened(std::unique_ptr<HeifFile> file) {
  if (const auto read = file->read_header(); !read) return read.error();
  return std::unique_ptr<PictureFile>(std::move(file));
}

}  // namespace

Result<std::unique_ptr<PictureFile>> open_heif(const std::string& path) {
  auto bytes = read_file(path, kMostFileBytes);
  if (!bytes) return bytes.error();
  return opened(std::make_unique<HeifFile>(std::move(*bytes)));
}

Result<std::unique_ptr<PictureFile>> open_heif_bytes(std::string_view bytes) {
  return opened(std::make_unique<HeifFile>(bytes));
}

}  // namespace counterfoil
