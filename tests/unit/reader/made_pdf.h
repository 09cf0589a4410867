// PDF files as a scanner makes them, by Cairo: each page is one picture.
#pragma once

#include <cairo-pdf.h>

#include <stdexcept>
#include <string>
#include <vector>

#include "made_picture.h"

namespace counterfoil {

// `dots_per_inch` of the scan says how large the pages are.
inline std::string pdf_of(const std::vector<MadePicture>& pages, double dots_per_inch = 150) {
  std::string out;
  cairo_surface_t* pdf = cairo_pdf_surface_create_for_stream(
      [](void* to, const unsigned char* data, unsigned size) {
        static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(data), size);
        return CAIRO_STATUS_SUCCESS;
      },
      &out, 72, 72);
  cairo_t* cairo = cairo_create(pdf);
  const double scale = 72 / dots_per_inch;
  for (const auto& page : pages) {
    cairo_pdf_surface_set_size(pdf, page.width() * scale, page.height() * scale);
    cairo_surface_t* image = cairo_image_surface_create(CAIRO_FORMAT_RGB24, page.width(), page.height());
    unsigned char* rows = cairo_image_surface_get_data(image);
    const int stride = cairo_image_surface_get_stride(image);
    for (int y = 0; y < page.height(); ++y) {
      auto* row = reinterpret_cast<std::uint32_t*>(rows + std::ptrdiff_t{stride} * y);
      for (int x = 0; x < page.width(); ++x) {
        const Rgb colour = page.at(x, y);
        row[x] = static_cast<std::uint32_t>(colour.r << 16 | colour.g << 8 | colour.b);
      }
    }
    cairo_surface_mark_dirty(image);
    cairo_save(cairo);
    cairo_scale(cairo, scale, scale);
    cairo_set_source_surface(cairo, image, 0, 0);
    cairo_paint(cairo);
    cairo_restore(cairo);
    cairo_show_page(cairo);
    cairo_surface_destroy(image);
  }
  cairo_destroy(cairo);
  cairo_surface_finish(pdf);
  const bool failed = cairo_surface_status(pdf) != CAIRO_STATUS_SUCCESS;
  cairo_surface_destroy(pdf);
  if (failed) throw std::runtime_error("cannot make a PDF");
  return out;
}

}  // namespace counterfoil
