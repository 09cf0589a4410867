#include "sheet/marked_picture.h"

#include <cairo.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <memory>
#include <utility>
#include <vector>

namespace counterfoil {
namespace {

constexpr int kLongerSide = 2400;  // not more than
constexpr double kLinePixels = 4, kLetterPixels = 20;

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

struct Label {
  double x = 0, y = 0, width = 0, height = 0;

  bool covers(const Label& other) const {
    return x < other.x + other.width && other.x < x + width && y < other.y + other.height &&
           other.y < y + height;
  }
};

// Words on the mark's colour: above the outline, or below it, or beside it, where no other words are; inside the picture.
class Labels {
 public:
  Labels(cairo_t* context, int by, int width, int height)
      : context_(context), by_(by), width_(width), height_(height) {}

  void write(const PictureMark& mark) {
    if (mark.words.empty() || mark.outline.empty()) return;
    cairo_text_extents_t size;
    cairo_text_extents(context_, mark.words.c_str(), &size);
    const Label label = free_place(mark, size.x_advance + 2 * kPad, kLetterPixels + 2 * kPad);
    written_.push_back(label);
    set_colour(context_, mark.colour);
    cairo_rectangle(context_, label.x, label.y, label.width, label.height);
    cairo_fill(context_);
    cairo_set_source_rgb(context_, 1, 1, 1);
    cairo_move_to(context_, label.x + kPad, label.y + kPad + 0.8 * kLetterPixels);
    cairo_show_text(context_, mark.words.c_str());
  }

 private:
  static constexpr double kPad = 4;

  Label free_place(const PictureMark& mark, double width, double height) const {
    double left = mark.outline.front().x / by_, top = mark.outline.front().y / by_, right = left,
           bottom = top;
    for (const auto& at : mark.outline) {
      left = std::min(left, at.x / by_), right = std::max(right, at.x / by_);
      top = std::min(top, at.y / by_), bottom = std::max(bottom, at.y / by_);
    }
    const double line = kLinePixels / 2;
    Label label{0, 0, width, height};
    const auto is_free = [&](double x, double y) {
      label.x = std::clamp(x, 0.0, std::max(0.0, width_ - width));
      label.y = std::clamp(y, 0.0, std::max(0.0, height_ - height));
      return std::none_of(written_.begin(), written_.end(), [&](const Label& w) { return w.covers(label); });
    };
    for (const auto& [x, y] :
         {std::pair{left - line, top - line - height}, std::pair{left - line, bottom + line},
          std::pair{right + line, top}, std::pair{left - line - width, top}})
      if (is_free(x, y)) return label;
    for (double down = top + line; down < height_ - height; down += height)
      if (is_free(left - line, down)) return label;
    is_free(left - line, top - line - height);
    return label;
  }

  cairo_t* context_;
  int by_, width_, height_;
  std::vector<Label> written_;
};

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
  Labels labels(context.get(), by, width, height);
  for (const auto& mark : marks) labels.write(mark);
  std::string png;
  if (cairo_status(context.get()) != CAIRO_STATUS_SUCCESS ||
      cairo_surface_write_to_png_stream(surface.get(), add_bytes, &png) != CAIRO_STATUS_SUCCESS)
    return unreadable("the marked picture could not be made");
  return png;
}

}  // namespace counterfoil
