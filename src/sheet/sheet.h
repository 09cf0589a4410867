// Tags onto sheets: pairs side by side with the cut line and match mark between, or single tags, as PDF, SVG,
// or PNG of the printer's dots. A sheet never learns what a number means: it places texts and symbols.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/affine.h"
#include "base/result.h"
#include "sheet/design.h"
#include "sheet/places.h"
#include "sheet/stock.h"
#include "symbol/matrix.h"

namespace counterfoil {

// What one tag shows.
struct TagContent {
  std::string payload;                       // for the symbol slots
  std::map<std::string, std::string> texts;  // by slot id; an absent one leaves its slot empty
  std::string side;                          // "suction", "discharge" or empty
};

struct PairDesigns {
  Design bag, box;
};
struct PairItem {
  TagContent bag, box;
  std::uint32_t match_mark =
      0;  // the bars across the cut line; halves of one pair agree, others hardly ever do
  std::optional<PairDesigns> designs = {};  // in place of the order's
};
struct SingleItem {
  TagContent tag;
  Design design;
};
using SheetItem = std::variant<PairItem, SingleItem>;

enum class SheetFormat {
  pdf,
  png,  // the printer's dots, black or white
  svg,
  preview,  // a PNG to look at: about 100 dots per inch, in greys, with the stock's outlines under the print
};
inline constexpr int kMostPreviews = 10;  // pages; the rest looks like them

struct SheetOrder {
  Stock stock;
  Design bag, box;
  double dots_per_inch = 300;  // modules are whole dots of this printer in every format
  SheetFormat format = SheetFormat::pdf;
  std::string path;     // PNG and SVG of several pages: "-1", "-2", ... before the ending
  std::string title;    // of the document
  std::string created;  // ISO 8601; same input and date, same bytes
  PartSheet part{};     // what is left of the first sheet
  SheetSequence sequence = SheetSequence::across;
  // What undoes the printer's own errors: from where things are meant on the paper to where they are drawn on the page
  // that it is sent, both mm. Symbols are moved, and stay of whole dots. A preview shows the paper.
  Affine correction{};
  // Of the printer's dots, ascending; symbols are kept off where there is room.
  std::vector<int> dead_columns{};
  // Of the paper, by the printer; all of it when absent.
  std::optional<Box> reached{};
  std::string preview{};  // a file to draw a preview into as well, named like a PNG's pages; empty: none
};

// What is drawn there, and on what; of a single tag there is no half.
struct PlacedTag {
  const Design& design;
  const TagContent& content;
};
inline PlacedTag tag_at(const SheetOrder& order, const SheetItem& item, bool box_half) {
  if (const auto* single = std::get_if<SingleItem>(&item)) return {single->design, single->tag};
  const auto& pair = std::get<PairItem>(item);
  const TagContent& content = box_half ? pair.box : pair.bag;
  if (pair.designs) return {box_half ? pair.designs->box : pair.designs->bag, content};
  return {box_half ? order.box : order.bag, content};
}

// Symbols of one design's slot that came out alike.
struct SymbolReport {
  std::string design, slot;
  int modules = 0, version = 0;  // modules along one side, without quiet zone
  CorrectionLevel level = CorrectionLevel::low;
  int dots = 0;  // a module
  double module_mm = 0;
  double slot_mm = 0;  // the slot's smaller side
  int tags = 0;

  double width_mm() const { return modules * module_mm; }
  double reading_distance_mm() const { return 10 * width_mm(); }  // common practice
};

struct SheetReport {
  std::vector<std::string> files;
  int pages = 0;
  int tags = 0;
  double least_module_mm = 0;  // over all symbols
  // Labels that were printed on, as people count them: the first of all, and those of the last page.
  int first_label = 0;
  std::vector<int> last_labels;
  std::vector<SymbolReport> symbols;
  std::vector<std::string> previews{};  // files
  int on_dead_columns = 0;              // symbols that a dead dot column runs through
  int out_of_reach = 0;                 // tags that lie in part where the printer prints nothing
};

// Where draw_sheet puts them.
Result<std::vector<TagPlace>> places_of(const SheetOrder& order, const std::vector<SheetItem>& items);

// Fails, and leaves no file, when the correction moves a tag off the page, when a text does not fit its slot at 2.8 mm, when a design is larger than the
// place for it, when a symbol's modules would be too small (0.5 mm on the bag half, 0.75 mm on the box half,
// as the design's symbol slot states), or when a file cannot be written. The error names slot, text, sizes.
Result<SheetReport> draw_sheet(const SheetOrder& order, const std::vector<SheetItem>& items);

// Whether all designs have their places on the order's stock, and all symbols their modules; texts are not looked
// at, nothing is drawn. `refused` with the same words as draw_sheet's.
Result<void> check_fit(const SheetOrder& order, const std::vector<SheetItem>& items);

}  // namespace counterfoil
