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
  void operator()(PangoLayoutIter* iter) const { pango_layout_iter_free(iter); }
  void operator()(cairo_font_face_t* face) const { cairo_font_face_destroy(face); }
  void operator()(cairo_font_options_t* options) const { cairo_font_options_destroy(options); }
};

// Texts are shaped at this size and scaled when they are placed: without hinting all measures scale with it.
constexpr double kShapedPt = 100;
// Heights are whole multiples of it, so that thousands of texts share a few font sizes.
constexpr double kStepMm = 0.05;
constexpr double kSlack = 1e-9;
constexpr std::size_t kMostKept = 4096;

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

// One kind of letters: what it looks like, and how high its capitals are.
struct Kind {
  std::unique_ptr<PangoFontDescription, Unref> description;
  double capital_pt = 0;  // at kShapedPt
  bool mono = false;
};

struct Letter {
  std::size_t face;  // which of the fonts in use
  unsigned long glyph;
  double x_pt, y_pt;
  char text = 0;  // what it stands for when the document's text is copied; 0: what the font says
};

// A line of text at kShapedPt; x from its start, y from its baseline downwards.
struct Line {
  std::vector<Letter> letters;
  double advance = 0;
  double left = 0, right = 0, top = 0, bottom = 0;  // of the ink
  bool has_all_letters = true;

  double width() const { return right - left; }
};

// The letters of one font and size on a page, in points from the page's top left corner.
struct Batch {
  std::size_t face;
  double size_pt;
  std::vector<cairo_glyph_t> glyphs;
  std::string text;  // a character a glyph
};

}  // namespace

class Lettering::Fitter {
 public:
  Fitter()
      : context_(pango_font_map_create_context(pango_cairo_font_map_get_default())),
        options_(cairo_font_options_create()) {
    cairo_font_options_set_hint_style(options_.get(), CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options_.get(), CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options_.get(), CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(context_.get(), options_.get());
    pango_context_set_round_glyph_positions(context_.get(), FALSE);
    for (std::size_t i = 0; i < kinds_.size(); ++i) {
      Kind& kind = kinds_[i];
      kind.mono = i / 2 != 0;
      kind.description.reset(
          pango_font_description_from_string(kind.mono ? "B612 Mono,DejaVu Sans Mono" : "B612,DejaVu Sans"));
      pango_font_description_set_absolute_size(kind.description.get(), kShapedPt * PANGO_SCALE);
      if (i % 2 != 0) pango_font_description_set_weight(kind.description.get(), PANGO_WEIGHT_BOLD);
      kind.capital_pt = -shape(kind, "H").top;
    }
  }

  Result<void> place(const Slot& slot, std::string_view text, double x_pt, double y_pt) {
    const Kind& kind = kinds_[(slot.mono ? 2u : 0u) + (slot.bold ? 1u : 0u)];
    for (auto& kept : lines_)
      if (kept.size() > kMostKept) kept.clear();  // here, where nothing points at them
    const std::string shown = slot.before + words_of(slot, text) + slot.after;
    right_to_left_ = goes_right_to_left(shown);
    std::vector<const Line*> lines;
    if (slot.stacked)
      for (const auto& word : split(shown, ' ')) lines.push_back(&line_of(kind, word));
    else
      lines.push_back(&line_of(kind, shown));
    for (const Line* line : lines)
      if (!line->has_all_letters) return no_letters(slot, shown);
    const bool wraps = slot.lines > 1 && !slot.stacked && !is_best_on_one_line(slot, *lines[0], kind);
    const double most = std::min(slot.largest_mm, slot.box.height_mm);
    for (double steps = std::floor(most / kStepMm + kSlack); steps * kStepMm > slot.least_mm - kStepMm;) {
      const double height_mm = std::max(steps * kStepMm, slot.least_mm);
      const double scale = height_mm * kPointsPerMm / kind.capital_pt;
      if (wraps) lines = wrapped(kind, shown, slot.box.width_mm * kPointsPerMm / scale);
      const Block block = block_of(kind, lines, slot.leading);
      const double fits = std::min(slot.box.width_mm * kPointsPerMm / (block.width * scale),
                                   slot.box.height_mm * kPointsPerMm / ((block.bottom - block.top) * scale));
      if (fits >= 1 - kSlack && lines.size() <= static_cast<std::size_t>(slot.lines)) {
        put(slot, lines, block, scale, x_pt, y_pt);
        return {};
      }
      // Unwrapped, the fitting height is known at once; wrapping changes with the height.
      const double next = fits < 1 && !wraps ? std::floor(height_mm * fits / kStepMm + kSlack) : steps - 1;
      steps = std::min(next, steps - 1);
    }
    return malformed("the text \"" + shown + "\" does not fit slot " + slot.id + " of " +
                         shown_mm(slot.box.width_mm) + " x " + shown_mm(slot.box.height_mm) +
                         " with letters of " + shown_mm(slot.least_mm),
                     "shorten the text or take a design with a larger slot");
  }

  void show(cairo_t* context, double brightness) {
    cairo_set_source_rgb(context, brightness, brightness, brightness);
    cairo_set_font_options(context, options_.get());
    for (auto& batch : batches_) {
      if (batch.glyphs.empty()) continue;
      cairo_set_font_face(context, faces_[batch.face].get());
      cairo_set_font_size(context, batch.size_pt);
      const auto count = static_cast<int>(batch.glyphs.size());
      if (batch.text.find('\0') == std::string::npos) {
        const std::vector<cairo_text_cluster_t> one_each(batch.glyphs.size(), {1, 1});
        cairo_show_text_glyphs(context, batch.text.data(), count, batch.glyphs.data(), count, one_each.data(),
                               count, cairo_text_cluster_flags_t{});
      } else {
        cairo_show_glyphs(context, batch.glyphs.data(), count);
      }
      batch.glyphs.clear();
      batch.text.clear();
    }
  }

 private:
  // Lines under each other, at kShapedPt; y from the first baseline downwards.
  struct Block {
    double width = 0, top = 0, bottom = 0, pitch = 0, capital = 0, last_baseline = 0;
  };

  static Error no_letters(const Slot& slot, const std::string& text) {
    return malformed("no font on this computer has all letters of \"" + text + "\" for slot " + slot.id,
                     "install a font that has them");
  }

  static Block block_of(const Kind& kind, const std::vector<const Line*>& lines, double leading) {
    Block block;
    block.capital = kind.capital_pt;
    block.pitch = leading * kind.capital_pt;
    block.top = -kind.capital_pt;
    for (std::size_t i = 0; i < lines.size(); ++i) {
      block.last_baseline = static_cast<double>(i) * block.pitch;
      block.width = std::max(block.width, lines[i]->width());
      block.top = std::min(block.top, block.last_baseline + lines[i]->top);
      block.bottom = std::max({block.bottom, block.last_baseline, block.last_baseline + lines[i]->bottom});
    }
    return block;
  }

  // Two lines are never higher than their share of the slot; where one line is as high, nothing has to be
  // tried, which is how nearly all texts go.
  static bool is_best_on_one_line(const Slot& slot, const Line& line, const Kind& kind) {
    const double one_line_mm = std::min(slot.largest_mm, slot.box.width_mm * kind.capital_pt / line.width());
    return one_line_mm >= std::min(slot.largest_mm, slot.box.height_mm / (1 + slot.leading));
  }

  // Breaks at spaces only; a word that is wider than the room stays whole, and does not fit.
  std::vector<const Line*> wrapped(const Kind& kind, const std::string& text, double room) {
    std::vector<const Line*> lines;
    std::string line;
    for (const auto& word : split(text, ' ')) {
      const std::string longer = line.empty() ? word : line + " " + word;
      if (!line.empty() && line_of(kind, longer).width() > room) {
        lines.push_back(&line_of(kind, line));
        line = word;
      } else {
        line = longer;
      }
    }
    lines.push_back(&line_of(kind, line));
    return lines;
  }

  // Capitals are centred in the slot's height, so that neighbouring slots share a baseline whatever their
  // texts hold; an accent or descender that would leave the slot moves the text.
  void put(const Slot& slot, const std::vector<const Line*>& lines, const Block& block, double scale,
           double x_pt, double y_pt) {
    const double height = slot.box.height_mm * kPointsPerMm / scale;
    const double centred = height / 2 - (block.last_baseline - block.capital) / 2;
    double baseline = std::clamp(centred, -block.top, std::max(-block.top, height - block.bottom));
    for (const Line* line : lines) {
      const double free = slot.box.width_mm * kPointsPerMm / scale - line->width();
      const double start = free * 0.5 * static_cast<double>(slot.align) - line->left;
      for (const auto& letter : line->letters) {
        Batch& batch = batch_of(letter.face, kShapedPt * scale);
        batch.glyphs.push_back(
            {letter.glyph, x_pt + (start + letter.x_pt) * scale, y_pt + (baseline + letter.y_pt) * scale});
        batch.text += letter.text;
      }
      baseline += block.pitch;
    }
  }

  // All lines of a text go the way of its first letter that has one, as UAX #9 (P2, P3) has it for a paragraph.
  bool goes_right_to_left(const std::string& text) {
    // Hebrew is the first such script, at U+0590.
    if (std::none_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) >= 0xd6; }))
      return false;
    const std::unique_ptr<PangoLayout, Unref> layout(pango_layout_new(context_.get()));
    pango_layout_set_text(layout.get(), text.data(), static_cast<int>(text.size()));
    return pango_layout_line_get_resolved_direction(pango_layout_get_line_readonly(layout.get(), 0)) ==
           PANGO_DIRECTION_RTL;
  }

  const Line& line_of(const Kind& kind, const std::string& text) {
    auto& kept =
        lines_[static_cast<std::size_t>(&kind - kinds_.data()) + (right_to_left_ ? kinds_.size() : 0)];
    if (const auto found = kept.find(text); found != kept.end()) return found->second;
    const bool composes = kind.mono && text.find_first_not_of(kComposed) == std::string::npos;
    return kept.emplace(text, composes ? compose(kind, text) : shape(kind, text)).first->second;
  }

  const Line& letter_of(const Kind& kind, char c) {
    auto& kept = single_[static_cast<std::size_t>(&kind - kinds_.data())];
    if (const auto found = kept.find(c); found != kept.end()) return found->second;
    Line line = shape(kind, std::string(1, c));
    if (c == '0') {
      // B612 Mono keeps its slashed zero among the signs, at U+E007; it is as wide as the plain one.
      Line slashed = shape(kind, "\uE007");
      const auto is_same_font = [&] {
        return slashed.has_all_letters && slashed.letters.size() == 1 && line.letters.size() == 1 &&
               slashed.letters[0].face == line.letters[0].face && slashed.advance == line.advance;
      };
      if (is_b612_mono(kind) && is_same_font()) line = std::move(slashed);
    }
    for (auto& letter : line.letters) letter.text = c;
    return kept.emplace(c, std::move(line)).first->second;
  }

  bool is_b612_mono(const Kind& kind) {
    const std::unique_ptr<PangoFont, Unref> font(
        pango_context_load_font(context_.get(), kind.description.get()));
    const std::unique_ptr<PangoFontDescription, Unref> found(pango_font_describe(font.get()));
    return std::string_view(pango_font_description_get_family(found.get())) == "B612 Mono";
  }

  // Letters and digits of a font where all advance alike have no kerning and no ligatures: thousands of
  // numbers are put together from letters that have been shaped once.
  static constexpr std::string_view kComposed =
      "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz ";

  Line compose(const Kind& kind, const std::string& text) {
    Line line;
    for (const char c : text) {
      const Line& one = letter_of(kind, c);
      line.has_all_letters = line.has_all_letters && one.has_all_letters;
      for (auto letter : one.letters) {
        letter.x_pt += line.advance;
        line.letters.push_back(letter);
      }
      if (one.width() > 0) {
        line.left = line.right > line.left ? line.left : line.advance + one.left;
        line.right = line.advance + one.right;
      }
      line.top = std::min(line.top, one.top);
      line.bottom = std::max(line.bottom, one.bottom);
      line.advance += one.advance;
    }
    return line;
  }

  Line shape(const Kind& kind, const std::string& text) {
    const std::unique_ptr<PangoLayout, Unref> layout(pango_layout_new(context_.get()));
    pango_layout_set_font_description(layout.get(), kind.description.get());
    pango_layout_set_single_paragraph_mode(layout.get(), TRUE);
    pango_layout_set_auto_dir(layout.get(), FALSE);
    pango_context_set_base_dir(context_.get(), right_to_left_ ? PANGO_DIRECTION_RTL : PANGO_DIRECTION_LTR);
    pango_layout_set_text(layout.get(), text.data(), static_cast<int>(text.size()));
    PangoRectangle ink, logical;
    pango_layout_get_extents(layout.get(), &ink, &logical);
    const double baseline = points(pango_layout_get_baseline(layout.get()));
    Line line;
    line.has_all_letters = pango_layout_get_unknown_glyphs_count(layout.get()) == 0;
    line.advance = points(logical.width);
    line.left = points(ink.x);
    line.right = points(ink.x + ink.width);
    line.top = points(ink.y) - baseline;
    line.bottom = points(ink.y + ink.height) - baseline;
    const std::unique_ptr<PangoLayoutIter, Unref> iter(pango_layout_get_iter(layout.get()));
    do {
      const PangoGlyphItem* const run = pango_layout_iter_get_run_readonly(iter.get());
      if (run == nullptr) continue;  // the end of the line
      const std::size_t face = face_of(run->item->analysis.font);
      PangoRectangle place;
      pango_layout_iter_get_run_extents(iter.get(), nullptr, &place);
      int x = place.x;
      for (int i = 0; i < run->glyphs->num_glyphs; ++i) {
        const PangoGlyphInfo& glyph = run->glyphs->glyphs[i];
        if (glyph.glyph != PANGO_GLYPH_EMPTY && (glyph.glyph & PANGO_GLYPH_UNKNOWN_FLAG) == 0)
          line.letters.push_back(
              {face, glyph.glyph, points(x + glyph.geometry.x_offset), points(glyph.geometry.y_offset), 0});
        x += glyph.geometry.width;
      }
    } while (pango_layout_iter_next_run(iter.get()));
    return line;
  }

  std::size_t face_of(PangoFont* font) {
    cairo_font_face_t* const face =
        cairo_scaled_font_get_font_face(pango_cairo_font_get_scaled_font(PANGO_CAIRO_FONT(font)));
    for (std::size_t i = 0; i < faces_.size(); ++i)
      if (faces_[i].get() == face) return i;
    faces_.emplace_back(cairo_font_face_reference(face));
    return faces_.size() - 1;
  }

  Batch& batch_of(std::size_t face, double size_pt) {
    for (auto& batch : batches_)
      if (batch.face == face && batch.size_pt == size_pt) return batch;
    return batches_.emplace_back(Batch{face, size_pt, {}, {}});
  }

  std::unique_ptr<PangoContext, Unref> context_;
  std::unique_ptr<cairo_font_options_t, Unref> options_;
  bool right_to_left_ = false;  // the text in hand
  std::array<Kind, 4> kinds_;   // regular and bold, then the same of mono
  std::array<std::unordered_map<std::string, Line>, 8>
      lines_;                                             // that were shaped, by direction, kind and text
  std::array<std::unordered_map<char, Line>, 4> single_;  // letters that lines are composed of, by kind
  std::vector<std::unique_ptr<cairo_font_face_t, Unref>> faces_;
  std::vector<Batch> batches_;  // in order of first use, so that the same sheet has the same bytes
};

Lettering::Lettering() : fitter_(std::make_unique<Fitter>()) {}
Lettering::~Lettering() = default;

Result<void> Lettering::place(const Slot& slot, std::string_view text, double x_mm, double y_mm) {
  if (!is_utf8(text) || has_control_characters(text))
    return malformed("the text for slot " + slot.id + " holds control characters or is not UTF-8");
  if (trimmed(text).empty()) return {};
  return fitter_->place(slot, text, (x_mm + slot.box.x_mm) * kPointsPerMm,
                        (y_mm + slot.box.y_mm) * kPointsPerMm);
}

void Lettering::show(cairo_t* context, double brightness) { fitter_->show(context, brightness); }

}  // namespace counterfoil
