#include "sheet/lettering.h"

#include <pango/pangocairo.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <unordered_map>

#include "base/text.h"
#include "sheet/measure.h"

namespace counterfoil {
namespace {

struct Unref {
  void operator()(void* object) const { g_object_unref(object); }
  void operator()(PangoFontDescription* description) const { pango_font_description_free(description); }
  void operator()(cairo_font_options_t* options) const { cairo_font_options_destroy(options); }
};
using LayoutPtr = std::unique_ptr<PangoLayout, Unref>;

// Texts are shaped at this size and scaled when drawn: without hinting all measures scale with it.
constexpr double kShapedPt = 100;
// Heights are whole multiples of it, so that thousands of texts share a few font sizes.
constexpr double kStepMm = 0.05;
constexpr std::size_t kMostKept = 2048;

constexpr double points(int pango_units) { return static_cast<double>(pango_units) / PANGO_SCALE; }

std::string shown_mm(double mm) {
  std::array<char, 32> text;
  std::snprintf(text.data(), text.size(), "%.4g mm", mm);
  return text.data();
}

// The part of the text that the slot shows.
std::string words_of(const Slot& slot, std::string_view text) {
  if (slot.last_word == 0) return std::string(text);
  const auto words = split(text, ' ');
  std::string shown;
  for (auto i = static_cast<std::size_t>(slot.first_word) - 1;
       i < std::min(words.size(), static_cast<std::size_t>(slot.last_word)); ++i)
    shown += (shown.empty() ? "" : " ") + words[i];
  return shown;
}

// One face: what it looks like, and how high its capitals are.
struct Face {
  std::unique_ptr<PangoFontDescription, Unref> description;
  double capital_pt = 0;  // at kShapedPt
  double line_pt = 0;     // a line's height as the font has it
};

}  // namespace

// A text that has been fitted, in points from the slot's top left corner.
struct Lettering::Piece {
  LayoutPtr layout;
  double scale = 1;
  double x_pt = 0, y_pt = 0;  // of the layout's origin
};

class Lettering::Fitter {
 public:
  Fitter() : context_(pango_font_map_create_context(pango_cairo_font_map_get_default())) {
    const std::unique_ptr<cairo_font_options_t, Unref> options(cairo_font_options_create());
    cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(context_.get(), options.get());
    pango_context_set_round_glyph_positions(context_.get(), FALSE);
  }

  Result<const Piece*> fitted(const Slot& slot, std::string_view text) {
    const Slot* const address = &slot;  // slots outlive the fitter, and each has its own way to show a text
    std::string key(reinterpret_cast<const char*>(&address), sizeof address);
    key += text;
    if (const auto found = pieces_.find(key); found != pieces_.end()) return &found->second;
    auto piece = fit(slot, text);
    if (!piece) return piece.error();
    if (pieces_.size() >= kMostKept) pieces_.clear();
    return &pieces_.emplace(std::move(key), std::move(*piece)).first->second;
  }

 private:
  const Face& face_of(const Slot& slot) {
    Face& face = faces_[(slot.mono ? 2u : 0u) + (slot.bold ? 1u : 0u)];
    if (face.description) return face;
    face.description.reset(
        pango_font_description_from_string(slot.mono ? "B612 Mono,DejaVu Sans Mono" : "B612,DejaVu Sans"));
    pango_font_description_set_absolute_size(face.description.get(), kShapedPt * PANGO_SCALE);
    if (slot.bold) pango_font_description_set_weight(face.description.get(), PANGO_WEIGHT_BOLD);
    const LayoutPtr layout = shape(face, "H");
    PangoRectangle ink, logical;
    pango_layout_get_extents(layout.get(), &ink, &logical);
    face.capital_pt = points(ink.height);
    face.line_pt = points(logical.height);
    return face;
  }

  LayoutPtr shape(const Face& face, const std::string& text) {
    LayoutPtr layout(pango_layout_new(context_.get()));
    pango_layout_set_font_description(layout.get(), face.description.get());
    pango_layout_set_text(layout.get(), text.data(), static_cast<int>(text.size()));
    return layout;
  }

  Result<Piece> fit(const Slot& slot, std::string_view text) {
    if (!is_utf8(text) || has_control_characters(text))
      return malformed("the text for slot " + slot.id + " holds control characters or is not UTF-8");
    std::string shown = slot.before + words_of(slot, text) + slot.after;
    if (slot.stacked) std::replace(shown.begin(), shown.end(), ' ', '\n');
    const Face& face = face_of(slot);
    Piece piece;
    piece.layout = shape(face, shown);
    PangoLayout* layout = piece.layout.get();
    if (pango_layout_get_unknown_glyphs_count(layout) > 0)
      return malformed("no font on this computer has all letters of \"" + shown + "\" for slot " + slot.id,
                       "install a font that has them");
    constexpr std::array<PangoAlignment, 3> kAlignments = {PANGO_ALIGN_LEFT, PANGO_ALIGN_CENTER,
                                                           PANGO_ALIGN_RIGHT};
    pango_layout_set_alignment(layout, kAlignments[static_cast<std::size_t>(slot.align)]);
    pango_layout_set_line_spacing(layout, static_cast<float>(slot.leading * face.capital_pt / face.line_pt));
    const bool wraps = slot.lines > 1 && !slot.stacked;
    const double most = std::min(slot.largest_mm, slot.box.height_mm);
    for (double steps = std::floor(most / kStepMm + 1e-9); steps * kStepMm > slot.least_mm - kStepMm;) {
      const double height_mm = std::max(steps * kStepMm, slot.least_mm);
      piece.scale = height_mm * kPointsPerMm / face.capital_pt;
      const double room_pt = slot.box.width_mm * kPointsPerMm / piece.scale;
      if (wraps) pango_layout_set_width(layout, static_cast<int>(room_pt * PANGO_SCALE));
      const double fits = share_that_fits(slot, face, piece);
      if (fits >= 1 && pango_layout_get_line_count(layout) <= slot.lines) {
        place(slot, face, piece);
        return piece;
      }
      // Unwrapped, the fitting height is known at once; wrapping changes with the height.
      const double next = fits < 1 && !wraps ? std::floor(height_mm * fits / kStepMm + 1e-9) : steps - 1;
      steps = std::min(next, steps - 1);
    }
    return malformed("the text \"" + shown + "\" does not fit slot " + slot.id + " of " +
                         shown_mm(slot.box.width_mm) + " x " + shown_mm(slot.box.height_mm) +
                         " with letters of " + shown_mm(slot.least_mm),
                     "shorten the text or take a design with a larger slot");
  }

  struct Extent {
    double left, right, top, bottom;  // of the ink, and of the capitals' height, in shaped points
    double first_baseline, last_baseline;
  };

  static Extent extent_of(const Face& face, PangoLayout* layout) {
    PangoRectangle ink;
    pango_layout_get_extents(layout, &ink, nullptr);
    Extent extent{points(ink.x), points(ink.x + ink.width), points(ink.y), points(ink.y + ink.height), 0, 0};
    const std::unique_ptr<PangoLayoutIter, decltype(&pango_layout_iter_free)> line(
        pango_layout_get_iter(layout), pango_layout_iter_free);
    extent.first_baseline = points(pango_layout_iter_get_baseline(line.get()));
    while (pango_layout_iter_next_line(line.get())) {
    }
    extent.last_baseline = points(pango_layout_iter_get_baseline(line.get()));
    extent.top = std::min(extent.top, extent.first_baseline - face.capital_pt);
    extent.bottom = std::max(extent.bottom, extent.last_baseline);
    return extent;
  }

  // How much of the piece's present size fits the slot: 1 or more when all does.
  static double share_that_fits(const Slot& slot, const Face& face, const Piece& piece) {
    const Extent extent = extent_of(face, piece.layout.get());
    const double across = slot.box.width_mm * kPointsPerMm / ((extent.right - extent.left) * piece.scale);
    const double down = slot.box.height_mm * kPointsPerMm / ((extent.bottom - extent.top) * piece.scale);
    return std::min(across, down);
  }

  // Capitals are centred in the slot's height, so that neighbouring slots share a baseline whatever their
  // texts hold; an accent or descender that would leave the slot moves the text.
  static void place(const Slot& slot, const Face& face, Piece& piece) {
    const Extent extent = extent_of(face, piece.layout.get());
    const double s = piece.scale;
    const double free_pt = slot.box.width_mm * kPointsPerMm - (extent.right - extent.left) * s;
    piece.x_pt = free_pt * 0.5 * static_cast<double>(slot.align) - extent.left * s;
    const double height_pt = slot.box.height_mm * kPointsPerMm;
    const double middle = (extent.first_baseline - face.capital_pt + extent.last_baseline) / 2;
    piece.y_pt = std::clamp(height_pt / 2 - middle * s, -extent.top * s,
                            std::max(-extent.top * s, height_pt - extent.bottom * s));
  }

  std::unique_ptr<PangoContext, Unref> context_;
  std::array<Face, 4> faces_;
  std::unordered_map<std::string, Piece> pieces_;
};

Lettering::Lettering() : fitter_(std::make_unique<Fitter>()) {}
Lettering::~Lettering() = default;

Result<void> Lettering::draw(cairo_t* context, const Slot& slot, std::string_view text, double x_mm,
                             double y_mm) {
  if (trimmed(text).empty()) return {};
  auto piece = fitter_->fitted(slot, text);
  if (!piece) return piece.error();
  cairo_save(context);
  cairo_translate(context, (x_mm + slot.box.x_mm) * kPointsPerMm + (*piece)->x_pt,
                  (y_mm + slot.box.y_mm) * kPointsPerMm + (*piece)->y_pt);
  cairo_scale(context, (*piece)->scale, (*piece)->scale);
  cairo_set_source_rgb(context, 0, 0, 0);
  cairo_move_to(context, 0, 0);
  pango_cairo_show_layout(context, (*piece)->layout.get());
  cairo_restore(context);
  return {};
}

}  // namespace counterfoil
