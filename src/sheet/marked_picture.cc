#include "sheet/marked_picture.h"

#include <cairo.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <memory>

namespace counterfoil {
namespace {

constexpr int kLongerSide = 2400;  // not more than
constexpr double kLinePixels = 4, kLetterPixels = 22;

struct Destroy {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  void operator()(cairo_t* context) const { cairo_destroy(context); }
};
using Surface = std::unique_ptr<cairo_surface_t, Destroy>;
using Context = std::unique_ptr<cairo_t, Destroy>;

// Each pixel the mean of the square that it stands for.
void paint_reduced(cairo_surface_t* surface, GreyView picture, int by) {
  const int width = cairo_image_surface_get_width(surface), height = cairo_image_surface_get_height(surface);
  cairo_surface_flush(surface);
  for (int y = 0; y < height; ++y) {
    auto* row = reinterpret_cast<std::uint32_t*>(cairo_image_surface_get_data(surface) +
                                                 std::ptrdiff_t{y} * cairo_image_surface_get_stride(surface));
    for (int x = 0; x < width; ++x) {
      unsigned sum = 0;
      for (int dy = 0; dy < by; ++dy)
        for (int dx = 0; dx < by; ++dx)
          sum += picture.pixels[std::ptrdiff_t{y * by + dy} * picture.width + x * by + dx];
      const unsigned grey = sum / static_cast<unsigned>(by * by);
      row[x] = grey << 16 | grey << 8 | grey;
    }
  }
  cairo_surface_mark_dirty(surface);
}

void set_colour(cairo_t* context, PictureMark::Colour colour) {
  constexpr std::array<std::array<double, 3>, 3> kColours{{{.0, .55, .2}, {.85, .5, .0}, {.85, .0, .1}}};
  const auto& [red, green, blue] = kColours[static_cast<std::size_t>(colour)];
  cairo_set_source_rgb(context, red, green, blue);
}

void draw_outline(cairo_t* context, const PictureMark& mark, int by) {
  set_colour(context, mark.colour);
  cairo_set_line_width(context, kLinePixels);
  for (const auto& at : mark.outline) cairo_line_to(context, at.x / by, at.y / by);
  cairo_close_path(context);
  cairo_stroke(context);
}

// White on the mark's colour, above the outline, and inside the picture.
void write_words(cairo_t* context, const PictureMark& mark, int by, int width, int height) {
  if (mark.words.empty() || mark.outline.empty()) return;
  double left = mark.outline.front().x, top = mark.outline.front().y;
  for (const auto& at : mark.outline) left = std::min(left, at.x), top = std::min(top, at.y);
  cairo_text_extents_t size;
  cairo_text_extents(context, mark.words.c_str(), &size);
  constexpr double kPad = 5;
  const double box_width = size.x_advance + 2 * kPad, box_height = kLetterPixels + 2 * kPad;
  const double x = std::clamp(left / by - kLinePixels / 2, 0.0, std::max(0.0, width - box_width));
  const double y =
      std::clamp(top / by - box_height - kLinePixels / 2, 0.0, std::max(0.0, height - box_height));
  set_colour(context, mark.colour);
  cairo_rectangle(context, x, y, box_width, box_height);
  cairo_fill(context);
  cairo_set_source_rgb(context, 1, 1, 1);
  cairo_move_to(context, x + kPad, y + kPad + 0.8 * kLetterPixels);
  cairo_show_text(context, mark.words.c_str());
}

cairo_status_t add_bytes(void* to, const unsigned char* bytes, unsigned count) {
  static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(bytes), count);
  return CAIRO_STATUS_SUCCESS;
}

}  // namespace

Result<std::string> marked_png(GreyView picture, const std::vector<PictureMark>& marks) {
  if (picture.empty()) return malformed("there is no picture to mark");
  const int by = std::max(1, (std::max(picture.width, picture.height) + kLongerSide - 1) / kLongerSide);
  const int width = std::max(1, picture.width / by), height = std::max(1, picture.height / by);
  const Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height));
  if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS)
    return unreadable("the picture is too large to be marked");
  paint_reduced(surface.get(), picture, by);
  const Context context(cairo_create(surface.get()));
  cairo_select_font_face(context.get(), "B612", CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_BOLD);
  cairo_set_font_size(context.get(), kLetterPixels);
  for (const auto& mark : marks) draw_outline(context.get(), mark, by);
  for (const auto& mark : marks) write_words(context.get(), mark, by, width, height);
  std::string png;
  if (cairo_status(context.get()) != CAIRO_STATUS_SUCCESS ||
      cairo_surface_write_to_png_stream(surface.get(), add_bytes, &png) != CAIRO_STATUS_SUCCESS)
    return unreadable("the marked picture could not be made");
  return png;
}

}  // namespace counterfoil
