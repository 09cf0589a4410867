#include "bench/readers.h"

#include <vips/vips.h>
#include <zbar.h>

#include <chrono>
#include <ctime>

#include "support/zxing.h"

namespace counterfoil {
namespace {

using Watch = std::chrono::steady_clock;

double cpu_seconds() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

// As a program would have it that knows nothing of tags: whatever libvips opens, to grey, upright.
std::optional<GreyPicture> grey_picture(const std::string& path) {
  static const bool started = VIPS_INIT("reading") == 0;
  if (!started) return {};
  VipsImage* image = vips_image_new_from_file(path.c_str(), "access", VIPS_ACCESS_SEQUENTIAL, nullptr);
  if (!image) return {};
  const auto then = [&](auto operation, auto... arguments) {
    if (!image) return;
    VipsImage* out = nullptr;
    if (operation(image, &out, arguments..., nullptr) != 0) out = nullptr;
    g_object_unref(image);
    image = out;
  };
  then(vips_colourspace, VIPS_INTERPRETATION_B_W);
  if (image && vips_image_hasalpha(image)) then(vips_flatten);
  then(vips_cast_uchar);
  if (!image) return {};
  GreyPicture grey{vips_image_get_width(image), vips_image_get_height(image), {}};
  std::size_t size = 0;
  void* pixels = vips_image_write_to_memory(image, &size);
  g_object_unref(image);
  if (!pixels) return {};
  const auto* begin = static_cast<const std::uint8_t*>(pixels);
  grey.pixels.assign(begin, begin + size);
  g_free(pixels);
  return grey;
}

class PlainReader : public TagReader {
 public:
  Reading read(const std::string& path) override {
    Reading out;
    const auto grey = grey_picture(path);
    if (!grey) {
      out.failure = "not opened";
      return out;
    }
    for (auto& code : plain_read(*grey, PlainSearch::qr_only))
      out.texts.push_back({std::move(code.text), false, "plain"});
    return out;
  }
};

class ZbarReader : public TagReader {
 public:
  ZbarReader() {
    scanner_.set_config(zbar::ZBAR_NONE, zbar::ZBAR_CFG_ENABLE, 0);
    scanner_.set_config(zbar::ZBAR_QRCODE, zbar::ZBAR_CFG_ENABLE, 1);
  }

  Reading read(const std::string& path) override {
    Reading out;
    const auto grey = grey_picture(path);
    if (!grey) {
      out.failure = "not opened";
      return out;
    }
    zbar::Image image(static_cast<unsigned>(grey->width), static_cast<unsigned>(grey->height), "Y800",
                      grey->pixels.data(), grey->pixels.size());
    scanner_.scan(image);
    for (auto code = image.symbol_begin(); code != image.symbol_end(); ++code) {
      out.texts.push_back({code->get_data(), false, "zbar"});
    }
    return out;
  }

 private:
  zbar::ImageScanner scanner_;
};

class OurReader : public TagReader {
 public:
  explicit OurReader(OurWay way) : way_(std::move(way)) {}

  Reading read(const std::string& path) override {
    Reading out;
    auto photo = read_photo(path, our_options(way_));
    if (!photo) {
      out.failure = photo.error().message;
      return out;
    }
    for (auto& code : photo->codes) {
      out.texts.push_back({std::move(code.text), code.identified, std::move(code.pass)});
    }
    for (auto& symbol : photo->unread) out.unread.push_back(std::move(symbol.likely));
    return out;
  }

 private:
  OurWay way_;
};

}  // namespace

Reading TagReader::timed(const std::string& path) {
  const auto start = Watch::now();
  const double cpu_start = cpu_seconds();
  Reading out = read(path);
  out.cpu_seconds = cpu_seconds() - cpu_start;
  out.seconds = std::chrono::duration<double>(Watch::now() - start).count();
  return out;
}

PhotoOptions our_options(const OurWay& way) {
  PhotoOptions options;
  options.wanted = [beginning = way.wanted_beginning](std::string_view text) {
    return text.starts_with(beginning);
  };
  options.known = way.known;
  options.effort = way.effort;
  if (way.budget_seconds) {
    const auto end = Watch::now() + std::chrono::duration_cast<Watch::duration>(
                                        std::chrono::duration<double>(*way.budget_seconds));
    options.time_left = [end] { return Watch::now() < end; };
  }
  return options;
}

std::unique_ptr<TagReader> plain_reader() { return std::make_unique<PlainReader>(); }
std::unique_ptr<TagReader> zbar_reader() { return std::make_unique<ZbarReader>(); }
std::unique_ptr<TagReader> our_reader(OurWay way) { return std::make_unique<OurReader>(std::move(way)); }

}  // namespace counterfoil
