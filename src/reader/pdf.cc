#include "reader/pdf.h"

#include <poppler/cpp/poppler-document.h>
#include <poppler/cpp/poppler-global.h>
#include <poppler/cpp/poppler-image.h>
#include <poppler/cpp/poppler-page-renderer.h>
#include <poppler/cpp/poppler-page.h>

#include <algorithm>
#include <cmath>
#include <exception>
#include <limits>
#include <utility>

namespace counterfoil {
namespace {

constexpr double kDotsPerInch = 300, kPointsPerInch = 72;

// The library would write what it does not like to standard error.
void keep_quiet() {
  static const bool quiet = [] {
    poppler::set_debug_error_function([](const std::string&, void*) {}, nullptr);
    return true;
  }();
  static_cast<void>(quiet);
}

class PdfFile : public PictureFile {
 public:
  explicit PdfFile(std::unique_ptr<poppler::document> document)
      : document_(std::move(document)), pages_(std::min(document_->pages(), kMostPages)) {}

  int pages() const override { return pages_; }
  const CameraWords& words() const override { return none_; }

  Result<Picture> load(int number, Channel channel) override try {
    const std::unique_ptr<poppler::page> page(document_->create_page(number - 1));
    if (!page) return unreadable("the page is damaged");
    const poppler::rectf size = page->page_rect();
    // Also false for what is no number.
    if (!(size.width() > 0 && size.height() > 0)) return unreadable("the page has no area");
    const double square_inches = size.width() * size.height() / (kPointsPerInch * kPointsPerInch);
    const double dots = std::min(kDotsPerInch, std::sqrt(kWorkingPixels * 0.99 / square_inches));
    const double longest = std::max(size.width(), size.height()) / kPointsPerInch * dots;
    const double shortest = std::min(size.width(), size.height()) / kPointsPerInch * dots;
    if (!(longest < kLongestSide && shortest >= 1))
      return unreadable("the page is not the shape of a photograph");
    poppler::page_renderer renderer;
    renderer.set_render_hints(poppler::page_renderer::antialiasing |
                              poppler::page_renderer::text_antialiasing);
    renderer.set_image_format(poppler::image::format_rgb24);
    const poppler::image drawn = renderer.render_page(page.get(), dots, dots);
    if (!drawn.is_valid() || drawn.width() <= 0 || drawn.height() <= 0)
      return unreadable("the page cannot be drawn");
    Picture picture;
    picture.width = drawn.width();
    picture.height = drawn.height();
    picture.dots_per_inch_x = picture.dots_per_inch_y = dots;
    take_rows(drawn, channel, picture);
    return picture;
  } catch (const std::exception& error) {
    return unreadable(std::string("the page cannot be drawn: ") + error.what());
  }

 private:
  static constexpr double kLongestSide = 100'000;

  static void take_rows(const poppler::image& drawn, Channel channel, Picture& picture) {
    constexpr int kHardlyColoured = 16;  // a grey scan, compressed
    picture.grey.width = drawn.width();
    picture.grey.height = drawn.height();
    const auto columns = static_cast<std::size_t>(drawn.width());
    picture.grey.pixels.resize(columns * static_cast<std::size_t>(drawn.height()));
    std::uint8_t* to = picture.grey.pixels.data();
    for (int y = 0; y < drawn.height(); ++y) {
      const auto* from = reinterpret_cast<const std::uint8_t*>(drawn.const_data()) +
                         std::ptrdiff_t{drawn.bytes_per_row()} * y;
      for (std::size_t x = 0; x < columns; ++x, from += 3, ++to) {
        const auto [least, most] = std::minmax({from[0], from[1], from[2]});
        picture.colour = picture.colour || most - least > kHardlyColoured;
        *to = channel == Channel::lightest
                  ? most
                  : static_cast<std::uint8_t>((77 * from[0] + 150 * from[1] + 29 * from[2] + 128) >> 8);
      }
    }
  }

  std::unique_ptr<poppler::document> document_;
  int pages_;
  CameraWords none_;
};

Result<std::unique_ptr<PictureFile>> opened(poppler::document* document) {
  if (!document) return unreadable("it is damaged");
  std::unique_ptr<poppler::document> owned(document);
  if (owned->is_locked())
    return unreadable("it is locked with a password", "save it without one and read that");
  if (owned->pages() < 1) return unreadable("it has no pages");
  return std::unique_ptr<PictureFile>(std::make_unique<PdfFile>(std::move(owned)));
}

}  // namespace

Result<std::unique_ptr<PictureFile>> open_pdf(const std::string& path) try {
  keep_quiet();
  return opened(poppler::document::load_from_file(path));
} catch (const std::exception& error) {
  return unreadable(std::string("it is damaged: ") + error.what());
}

Result<std::unique_ptr<PictureFile>> open_pdf_bytes(std::string_view bytes) try {
  keep_quiet();
  if (bytes.size() > std::numeric_limits<int>::max()) return unreadable("it is too large");
  return opened(poppler::document::load_from_raw_data(bytes.data(), static_cast<int>(bytes.size())));
} catch (const std::exception& error) {
  return unreadable(std::string("it is damaged: ") + error.what());
}

}  // namespace counterfoil
