#include "sheet/canvas.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <cairo.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <filesystem>
#include <numbers>
#include <optional>

#include "base/file.h"
#include "sheet/measure.h"
#include "sheet/pdf.h"
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

// A symbol that waits for the end of its page; lengths in points.
struct Stamp {
  SymbolMatrix matrix;
  double x_pt = 0, y_pt = 0, module_pt = 0;
};

// White around each symbol of a strip, in modules, at least half a point: Cairo cuts what it draws of a strip at
// whole points.
constexpr int kAround = 1;

// Symbols under each other, one bit a module, as Cairo has it: 32-bit words of the machine, a little one's
// first pixel in the lowest bit.
SurfacePtr strip_of(const std::vector<Stamp>& stamps) {
  int width = 0, height = 0;
  for (const auto& stamp : stamps) {
    width = std::max(width, stamp.matrix.modules + 2 * kAround);
    height += stamp.matrix.modules + 2 * kAround;
  }
  SurfacePtr surface(cairo_image_surface_create(CAIRO_FORMAT_A1, width, height));
  if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS) std::abort();  // a few thousand bytes
  unsigned char* row = cairo_image_surface_get_data(surface.get());
  const int stride = cairo_image_surface_get_stride(surface.get());
  for (const auto& stamp : stamps) {
    row += kAround * stride;
    for (int y = 0; y < stamp.matrix.modules; ++y, row += stride)
      for (int x = 0; x < stamp.matrix.modules; ++x) {
        const int bit = (x + kAround) % 8;
        if (stamp.matrix.at(x, y))
          row[(x + kAround) / 8] |=
              static_cast<unsigned char>(1 << (std::endian::native == std::endian::little ? bit : 7 - bit));
      }
    row += kAround * stride;
  }
  cairo_surface_mark_dirty(surface.get());
  return surface;
}

std::uint8_t brightness(std::uint32_t rgb) {
  return static_cast<std::uint8_t>(((rgb >> 16 & 0xff) * 2 + (rgb >> 8 & 0xff) * 5 + (rgb & 0xff)) / 8);
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
    for (std::size_t x = 0; x < dots.width; ++x)
      if (brightness(pixels[x]) >= 128) out[x / 8] |= static_cast<std::uint8_t>(0x80 >> x % 8);
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
  Affine correction;
  double units_per_point = 1;
  int page = 1, pages = 1;

  std::vector<NewFile> files;
  std::vector<std::string> paths;
  std::optional<Error> write_error;  // what a callback met
  std::string svg;                   // of the page that is being drawn
  std::vector<Stamp> stamps;         // a PDF's page's
  PdfStream pdf;
  std::string title, created;
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

  Result<void> start(SurfacePtr on, double units) {
    surface = std::move(on);
    units_per_point = units;
    context.reset(cairo_create(surface.get()));
    cairo_scale(context.get(), units_per_point, units_per_point);
    cairo_matrix_t to_printer;
    cairo_matrix_init(&to_printer, correction.xx, correction.yx, correction.xy, correction.yy,
                      correction.x0 * kPointsPerMm, correction.y0 * kPointsPerMm);
    cairo_transform(context.get(), &to_printer);
    return status();
  }

  Result<void> status() const {
    if (write_error) return *write_error;
    auto status = cairo_surface_status(surface.get());
    if (status == CAIRO_STATUS_SUCCESS && context) status = cairo_status(context.get());
    if (status == CAIRO_STATUS_SUCCESS) return {};
    return unreadable("cannot draw " + path + ": " + cairo_status_to_string(status));
  }

  bool is_raster() const { return format == SheetFormat::png || format == SheetFormat::preview; }
  // A preview is of a handy size in pixels, whatever the page's.
  double pixels_per_inch() const {
    if (format != SheetFormat::preview) return dots_per_inch;
    constexpr double kUsual = 100, kLeastPixels = 600, kMostPixels = 3000;
    const double inches = std::max(width_mm, height_mm) / kMmPerInch;
    return std::min(std::max(kUsual, kLeastPixels / inches), kMostPixels / inches);
  }

  double dot_pt() const { return 72 / dots_per_inch; }

  static cairo_status_t to_pdf(void* self, const unsigned char* bytes, unsigned length) {
    auto* const data = static_cast<Data*>(self);
    auto done = data->pdf.add({reinterpret_cast<const char*>(bytes), length}, data->files.back());
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
    SurfacePtr on(cairo_pdf_surface_create_for_stream(&Data::to_pdf, this, width_mm * kPointsPerMm,
                                                      height_mm * kPointsPerMm));
    cairo_pdf_surface_restrict_to_version(on.get(),
                                          CAIRO_PDF_VERSION_1_4);  // with a table of objects in text
    // Without a date of ours Cairo takes the clock's; the rest is stated at the end.
    cairo_pdf_surface_set_metadata(on.get(), CAIRO_PDF_METADATA_CREATE_DATE, order.created.c_str());
    title = order.title;
    created = order.created;
    return start(std::move(on), 1);
  }

  Result<void> begin_svg() {
    svg.clear();
    return start(SurfacePtr(cairo_svg_surface_create_for_stream(&Data::to_text, &svg, width_mm * kPointsPerMm,
                                                                height_mm * kPointsPerMm)),
                 1);
  }

  Result<void> begin_png() {
    const auto dots = [&](double mm) {
      return static_cast<int>(std::max(1l, std::lround(mm / kMmPerInch * pixels_per_inch())));
    };
    if (!surface) {
      auto done =
          start(SurfacePtr(cairo_image_surface_create(CAIRO_FORMAT_RGB24, dots(width_mm), dots(height_mm))),
                pixels_per_inch() / 72);
      if (!done) return done;
    }
    cairo_set_source_rgb(context.get(), 1, 1, 1);
    cairo_paint(context.get());
    return status();
  }

  // The smallest form of symbols in a PDF is a stencil of one bit a module, and one stencil for all symbols of
  // a page is a third of the bytes of one for each: it is laid once for each symbol, clipped to that one.
  void stamp_symbols() {
    if (stamps.empty()) return;
    const SurfacePtr strip = strip_of(stamps);
    const std::unique_ptr<cairo_pattern_t, Destroy> pattern(cairo_pattern_create_for_surface(strip.get()));
    cairo_pattern_set_filter(pattern.get(), CAIRO_FILTER_NEAREST);
    cairo_set_source_rgb(context.get(), 0, 0, 0);
    int top = 0;
    for (const auto& stamp : stamps) {
      const int side = stamp.matrix.modules + 2 * kAround;
      cairo_save(context.get());
      cairo_identity_matrix(context.get());  // the stamps are on the printer's own page
      cairo_translate(context.get(), stamp.x_pt, stamp.y_pt);
      cairo_scale(context.get(), stamp.module_pt, stamp.module_pt);
      cairo_rectangle(context.get(), -kAround, -kAround, side, side);
      cairo_clip(context.get());
      cairo_translate(context.get(), -kAround, -kAround - top);
      cairo_mask(context.get(), pattern.get());
      cairo_restore(context.get());
      top += side;
    }
    stamps.clear();
  }

  void stamp(const Stamp& stamp) {
    const SymbolMatrix& matrix = stamp.matrix;
    cairo_save(context.get());
    cairo_set_source_rgb(context.get(), 0, 0, 0);
    cairo_identity_matrix(context.get());
    cairo_scale(context.get(), units_per_point, units_per_point);
    cairo_translate(context.get(), stamp.x_pt, stamp.y_pt);
    cairo_scale(context.get(), stamp.module_pt, stamp.module_pt);
    // One path for all modules, so that no seam can show between two dark ones.
    for (int y = 0; y < matrix.modules; ++y)
      for (int x = 0; x < matrix.modules;) {
        int end = x;
        while (end < matrix.modules && matrix.at(end, y)) ++end;
        if (end > x) cairo_rectangle(context.get(), x, y, end - x, 1);
        x = end + 1;
      }
    cairo_fill(context.get());
    cairo_restore(context.get());
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
    if (format == SheetFormat::png) {
      if (auto done = files.back().add(png_of(dots_of(surface.get()), dots_per_inch)); !done) return done;
      return files.back().finish();
    }
    std::string bytes;
    cairo_surface_write_to_png_stream(surface.get(), &Data::to_text, &bytes);
    if (auto done = status(); !done) return done;
    if (auto done = files.back().add(bytes); !done) return done;
    return files.back().finish();
  }
};

Canvas::Canvas(std::unique_ptr<Data> data) : data_(std::move(data)) {}
Canvas::Canvas(Canvas&&) noexcept = default;

Canvas::~Canvas() = default;

Result<Canvas> Canvas::open(const PageForm& form, int pages) {
  auto data = std::make_unique<Data>();
  data->format = form.format;
  data->path = form.path;
  data->dots_per_inch = form.dots_per_inch;
  data->width_mm = form.width_mm;
  data->height_mm = form.height_mm;
  data->correction = form.correction;
  data->pages = pages;
  Canvas canvas(std::move(data));
  if (form.format == SheetFormat::pdf)
    if (auto done = canvas.data_->begin_pdf(form); !done) return done.error();
  return canvas;
}

cairo_t* Canvas::context() const { return data_->context.get(); }

Result<void> Canvas::begin_page() {
  if (data_->format == SheetFormat::svg) return data_->begin_svg();
  if (data_->is_raster()) return data_->begin_png();
  return data_->status();
}

Result<void> Canvas::end_page() {
  Result<void> done;
  if (data_->format == SheetFormat::svg) done = data_->end_svg();
  if (data_->is_raster()) done = data_->end_png();
  if (data_->format == SheetFormat::pdf) {
    data_->stamp_symbols();
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
    auto done = data_->pdf.finish(data_->title, data_->created, data_->files.back());
    if (!done) return done.error();
  }
  for (auto& file : data_->files)
    if (auto done = file.commit(); !done) return done.error();
  return data_->paths;
}

Canvas::Spot Canvas::spot(int modules, double middle_x_mm, double middle_y_mm, int dots_per_module) const {
  const PicturePoint middle = data_->correction({middle_x_mm, middle_y_mm});
  const int dots = modules * dots_per_module;
  return {first_dot(middle.x, dots, data_->dots_per_inch), first_dot(middle.y, dots, data_->dots_per_inch)};
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

void Canvas::shape(const Box& box, double corner_radius_mm, double grey, double line_mm) {
  const double x = box.x_mm * kPointsPerMm, y = box.y_mm * kPointsPerMm;
  const double right = box.right_mm() * kPointsPerMm, bottom = box.bottom_mm() * kPointsPerMm;
  const double radius = corner_radius_mm * kPointsPerMm;
  constexpr double kQuarter = std::numbers::pi / 2;
  cairo_set_source_rgb(context(), grey, grey, grey);
  cairo_new_path(context());
  cairo_arc(context(), right - radius, y + radius, radius, -kQuarter, 0);
  cairo_arc(context(), right - radius, bottom - radius, radius, 0, kQuarter);
  cairo_arc(context(), x + radius, bottom - radius, radius, kQuarter, 2 * kQuarter);
  cairo_arc(context(), x + radius, y + radius, radius, 2 * kQuarter, 3 * kQuarter);
  cairo_close_path(context());
  if (line_mm == 0) {
    cairo_fill(context());
    return;
  }
  cairo_set_line_width(context(), line_mm * kPointsPerMm);
  cairo_stroke(context());
}

void Canvas::fill_discs(const std::vector<PicturePoint>& centres, double diameter_mm) {
  cairo_set_source_rgb(context(), 0, 0, 0);
  for (const auto& centre : centres) {
    cairo_new_sub_path(context());
    cairo_arc(context(), centre.x * kPointsPerMm, centre.y * kPointsPerMm, diameter_mm / 2 * kPointsPerMm, 0,
              2 * std::numbers::pi);
  }
  cairo_fill(context());
}

void Canvas::symbol(const SymbolMatrix& matrix, Spot spot, int dots) {
  const double dot = data_->dot_pt();
  const Stamp stamp{matrix, spot.column * dot, spot.row * dot, dots * dot};
  if (data_->format == SheetFormat::pdf)
    data_->stamps.push_back(stamp);
  else
    data_->stamp(stamp);
}

void Canvas::symbol(const SymbolMatrix& matrix, const Box& square) {
  data_->stamp({matrix, square.x_mm * kPointsPerMm, square.y_mm * kPointsPerMm,
                square.width_mm * kPointsPerMm / matrix.modules});
}

GreyPicture Canvas::grey() const {
  cairo_surface_flush(data_->surface.get());
  GreyPicture picture{cairo_image_surface_get_width(data_->surface.get()),
                      cairo_image_surface_get_height(data_->surface.get()),
                      {}};
  picture.pixels.reserve(static_cast<std::size_t>(picture.width) * static_cast<std::size_t>(picture.height));
  const unsigned char* row = cairo_image_surface_get_data(data_->surface.get());
  for (int y = 0; y < picture.height; ++y, row += cairo_image_surface_get_stride(data_->surface.get()))
    for (int x = 0; x < picture.width; ++x)
      picture.pixels.push_back(brightness(reinterpret_cast<const std::uint32_t*>(row)[x]));
  return picture;
}

}  // namespace counterfoil
