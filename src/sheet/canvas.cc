#include "sheet/canvas.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <cairo.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <filesystem>
#include <optional>

#include "base/file.h"
#include "sheet/measure.h"
#include "sheet/png.h"
#include "sheet/svg.h"

namespace counterfoil {
namespace {

struct Destroy {
  void operator()(cairo_t* context) const { cairo_destroy(context); }
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  void operator()(cairo_pattern_t* pattern) const { cairo_pattern_destroy(pattern); }
};
using ContextPtr = std::unique_ptr<cairo_t, Destroy>;
using SurfacePtr = std::unique_ptr<cairo_surface_t, Destroy>;

// One bit a module, as Cairo has it: 32-bit words of the machine, a little one's first pixel in the lowest
// bit.
SurfacePtr mask_of(const SymbolMatrix& matrix) {
  SurfacePtr surface(cairo_image_surface_create(CAIRO_FORMAT_A1, matrix.modules, matrix.modules));
  if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS) std::abort();  // a few hundred bytes
  unsigned char* const bytes = cairo_image_surface_get_data(surface.get());
  const int stride = cairo_image_surface_get_stride(surface.get());
  for (int y = 0; y < matrix.modules; ++y)
    for (int x = 0; x < matrix.modules; ++x) {
      const int bit = std::endian::native == std::endian::little ? x % 8 : 7 - x % 8;
      if (matrix.at(x, y)) bytes[y * stride + x / 8] |= static_cast<unsigned char>(1 << bit);
    }
  cairo_surface_mark_dirty(surface.get());
  return surface;
}

// Every dot of the picture, of four bytes a pixel, is ink or is not: a printer has nothing between.
DotPicture dots_of(cairo_surface_t* picture) {
  cairo_surface_flush(picture);
  DotPicture dots;
  dots.width = static_cast<std::size_t>(cairo_image_surface_get_width(picture));
  dots.height = static_cast<std::size_t>(cairo_image_surface_get_height(picture));
  dots.bytes.resize(dots.row_bytes() * dots.height);
  const unsigned char* row = cairo_image_surface_get_data(picture);
  for (std::size_t y = 0; y < dots.height; ++y, row += cairo_image_surface_get_stride(picture)) {
    const auto* const pixels = reinterpret_cast<const std::uint32_t*>(row);
    std::uint8_t* const out = dots.bytes.data() + y * dots.row_bytes();
    for (std::size_t x = 0; x < dots.width; ++x) {
      const std::uint32_t rgb = pixels[x];
      const std::uint32_t brightness = ((rgb >> 16 & 0xff) * 2 + (rgb >> 8 & 0xff) * 5 + (rgb & 0xff)) / 8;
      if (brightness >= 128) out[x / 8] |= static_cast<std::uint8_t>(0x80 >> x % 8);
    }
  }
  return dots;
}

// "sheet.png" is "sheet-3.png" for page 3 of several.
std::string page_path(const std::string& path, int page, int pages) {
  if (pages == 1) return path;
  std::filesystem::path whole(path);
  const std::string name = whole.stem().string() + "-" + std::to_string(page) + whole.extension().string();
  return whole.replace_filename(name).string();
}

}  // namespace

struct Canvas::Data {
  SheetFormat format = SheetFormat::pdf;
  std::string path;
  double dots_per_inch = 0;
  double width_mm = 0, height_mm = 0;
  int page = 1, pages = 1;

  std::vector<NewFile> files;
  std::vector<std::string> paths;
  std::optional<Error> write_error;  // what a callback met
  std::string svg;                   // of the page that is being drawn
  // Last, so that they go first: a PDF surface writes once more when it goes.
  SurfacePtr surface;
  ContextPtr context;

  Result<void> begin_file() {
    paths.push_back(format == SheetFormat::pdf ? path : page_path(path, page, pages));
    auto file = NewFile::open(paths.back());
    if (!file) return file.error();
    files.push_back(std::move(*file));
    return {};
  }

  Result<void> start(SurfacePtr on, double units_per_point) {
    surface = std::move(on);
    context.reset(cairo_create(surface.get()));
    cairo_scale(context.get(), units_per_point, units_per_point);
    return status();
  }

  Result<void> status() const {
    if (write_error) return *write_error;
    auto status = cairo_surface_status(surface.get());
    if (status == CAIRO_STATUS_SUCCESS && context) status = cairo_status(context.get());
    if (status == CAIRO_STATUS_SUCCESS) return {};
    return unreadable("cannot draw " + path + ": " + cairo_status_to_string(status));
  }

  double dot_pt() const { return 72 / dots_per_inch; }

  static cairo_status_t to_file(void* self, const unsigned char* bytes, unsigned length) {
    auto* const data = static_cast<Data*>(self);
    auto done = data->files.back().add({reinterpret_cast<const char*>(bytes), length});
    if (done) return CAIRO_STATUS_SUCCESS;
    data->write_error = done.error();
    return CAIRO_STATUS_WRITE_ERROR;
  }
  static cairo_status_t to_text(void* text, const unsigned char* bytes, unsigned length) {
    static_cast<std::string*>(text)->append(reinterpret_cast<const char*>(bytes), length);
    return CAIRO_STATUS_SUCCESS;
  }

  Result<void> begin_pdf(const PageForm& order) {
    if (auto done = begin_file(); !done) return done;
    SurfacePtr pdf(cairo_pdf_surface_create_for_stream(&Data::to_file, this, width_mm * kPointsPerMm,
                                                       height_mm * kPointsPerMm));
    // Without dates of ours Cairo takes the clock's.
    cairo_pdf_surface_set_metadata(pdf.get(), CAIRO_PDF_METADATA_TITLE, order.title.c_str());
    cairo_pdf_surface_set_metadata(pdf.get(), CAIRO_PDF_METADATA_CREATOR, "counterfoil");
    cairo_pdf_surface_set_metadata(pdf.get(), CAIRO_PDF_METADATA_CREATE_DATE, order.created.c_str());
    cairo_pdf_surface_set_metadata(pdf.get(), CAIRO_PDF_METADATA_MOD_DATE, order.created.c_str());
    return start(std::move(pdf), 1);
  }

  Result<void> begin_svg() {
    svg.clear();
    return start(SurfacePtr(cairo_svg_surface_create_for_stream(&Data::to_text, &svg, width_mm * kPointsPerMm,
                                                                height_mm * kPointsPerMm)),
                 1);
  }

  Result<void> begin_png() {
    const auto dots = [&](double mm) {
      return static_cast<int>(std::lround(mm / kMmPerInch * dots_per_inch));
    };
    if (!surface) {
      auto done =
          start(SurfacePtr(cairo_image_surface_create(CAIRO_FORMAT_RGB24, dots(width_mm), dots(height_mm))),
                dots_per_inch / 72);
      if (!done) return done;
    }
    cairo_set_source_rgb(context.get(), 1, 1, 1);
    cairo_paint(context.get());
    return status();
  }

  Result<void> end_svg() {
    cairo_surface_finish(surface.get());
    if (auto done = status(); !done) return done;
    context.reset();
    if (auto done = begin_file(); !done) return done;
    if (auto done = files.back().add(with_stable_ids(svg)); !done) return done;
    return files.back().finish();
  }

  Result<void> end_png() {
    if (auto done = status(); !done) return done;
    if (auto done = begin_file(); !done) return done;
    if (auto done = files.back().add(png_of(dots_of(surface.get()), dots_per_inch)); !done) return done;
    return files.back().finish();
  }
};

Canvas::Canvas(std::unique_ptr<Data> data) : data_(std::move(data)) {}
Canvas::Canvas(Canvas&&) noexcept = default;

Canvas::~Canvas() = default;

Result<Canvas> Canvas::open(const SheetOrder& order, int pages) {
  return open(PageForm{order.stock.page_width_mm, order.stock.page_height_mm, order.dots_per_inch,
                       order.format, order.path, order.title, order.created},
              pages);
}

Result<Canvas> Canvas::open(const PageForm& form, int pages) {
  auto data = std::make_unique<Data>();
  data->format = form.format;
  data->path = form.path;
  data->dots_per_inch = form.dots_per_inch;
  data->width_mm = form.width_mm;
  data->height_mm = form.height_mm;
  data->pages = pages;
  Canvas canvas(std::move(data));
  if (form.format == SheetFormat::pdf)
    if (auto done = canvas.data_->begin_pdf(form); !done) return done.error();
  return canvas;
}

cairo_t* Canvas::context() const { return data_->context.get(); }

Result<void> Canvas::begin_page() {
  if (data_->format == SheetFormat::svg) return data_->begin_svg();
  if (data_->format == SheetFormat::png) return data_->begin_png();
  return data_->status();
}

Result<void> Canvas::end_page() {
  Result<void> done;
  if (data_->format == SheetFormat::svg) done = data_->end_svg();
  if (data_->format == SheetFormat::png) done = data_->end_png();
  if (data_->format == SheetFormat::pdf) {
    cairo_show_page(context());
    done = data_->status();
  }
  ++data_->page;
  return done;
}

Result<std::vector<std::string>> Canvas::commit() {
  if (data_->format == SheetFormat::pdf) {
    data_->context.reset();
    cairo_surface_finish(data_->surface.get());
    if (auto done = data_->status(); !done) return done.error();
  }
  for (auto& file : data_->files)
    if (auto done = file.commit(); !done) return done.error();
  return data_->paths;
}

void Canvas::fill(const std::vector<Box>& boxes) {
  cairo_set_source_rgb(context(), 0, 0, 0);
  for (const auto& box : boxes)
    cairo_rectangle(context(), box.x_mm * kPointsPerMm, box.y_mm * kPointsPerMm, box.width_mm * kPointsPerMm,
                    box.height_mm * kPointsPerMm);
  cairo_fill(context());
}

void Canvas::dash(const Line& line, const std::vector<double>& lengths_mm) {
  std::vector<double> lengths_pt;
  for (const double length : lengths_mm) lengths_pt.push_back(length * kPointsPerMm);
  cairo_set_source_rgb(context(), 0, 0, 0);
  cairo_set_line_width(context(), line.width_mm * kPointsPerMm);
  cairo_set_dash(context(), lengths_pt.data(), static_cast<int>(lengths_pt.size()), 0);
  cairo_move_to(context(), line.from_x_mm * kPointsPerMm, line.from_y_mm * kPointsPerMm);
  cairo_line_to(context(), line.to_x_mm * kPointsPerMm, line.to_y_mm * kPointsPerMm);
  cairo_stroke(context());
  cairo_set_dash(context(), nullptr, 0, 0);
}

void Canvas::symbol(const SymbolMatrix& matrix, double x_mm, double y_mm, int dots) {
  cairo_save(context());
  cairo_set_source_rgb(context(), 0, 0, 0);
  cairo_translate(context(), x_mm * kPointsPerMm, y_mm * kPointsPerMm);
  cairo_scale(context(), dots * data_->dot_pt(), dots * data_->dot_pt());
  if (data_->format == SheetFormat::pdf) {
    // The smallest form of a symbol in a PDF: a stencil of one bit a module.
    const SurfacePtr mask = mask_of(matrix);
    const std::unique_ptr<cairo_pattern_t, Destroy> pattern(cairo_pattern_create_for_surface(mask.get()));
    cairo_pattern_set_filter(pattern.get(), CAIRO_FILTER_NEAREST);
    cairo_mask(context(), pattern.get());
  } else {
    // One path for all modules, so that no seam can show between two dark ones.
    for (int y = 0; y < matrix.modules; ++y)
      for (int x = 0; x < matrix.modules;) {
        int end = x;
        while (end < matrix.modules && matrix.at(end, y)) ++end;
        if (end > x) cairo_rectangle(context(), x, y, end - x, 1);
        x = end + 1;
      }
    cairo_fill(context());
  }
  cairo_restore(context());
}

}  // namespace counterfoil
