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
#include "sheet/stock.h"

namespace counterfoil {

// What one tag shows.
struct TagContent {
  std::string payload;                       // for the symbol slots
  std::map<std::string, std::string> texts;  // by slot id; an absent one leaves its slot empty
  std::string side;                          // "suction", "discharge" or empty
};

struct PairItem {
  TagContent bag, box;
  std::uint32_t match_mark =
      0;  // the bars across the cut line; halves of one pair agree, others hardly ever do
};
struct SingleItem {
  TagContent tag;
  Design design;
};
using SheetItem = std::variant<PairItem, SingleItem>;

enum class SheetFormat { pdf, png, svg };

struct SheetOrder {
  Stock stock;
  Design bag, box;
  double dots_per_inch = 300;  // modules are whole dots of this printer in every format
  SheetFormat format = SheetFormat::pdf;
  std::string path;     // PNG and SVG of several pages: "-1", "-2", ... before the ending
  std::string title;    // of the document
  std::string created;  // ISO 8601; same input and date, same bytes

  // What undoes the printer's own errors: from where things are meant on the paper to where they are drawn on the page
  // that it is sent, both mm. Symbols are moved, and stay of whole dots.
  Affine correction{};
  // Of the printer's dots, ascending; symbols are kept off where there is room.
  std::vector<int> dead_columns{};
  // Of the paper, by the printer; all of it when absent.
  std::optional<Box> reached{};
};

struct SheetReport {
  std::vector<std::string> files;
  int pages = 0;
  int tags = 0;
  double least_module_mm = 0;  // over all symbols
  int on_dead_columns = 0;     // symbols that a dead dot column runs through
  int out_of_reach = 0;        // tags that lie in part where the printer prints nothing
};

// Refuses dots per inch, a date or a correction that no sheet can be drawn with.
Result<void> check_order(const SheetOrder& order);

// Fails, and leaves no file, when the correction moves a tag off the page, when a text does not fit its slot at 2.8 mm, when a design is larger than the
// place for it, when a symbol's modules would be too small (0.5 mm on the bag half, 0.75 mm on the box half,
// as the design's symbol slot states), or when a file cannot be written. The error names slot, text, sizes.
Result<SheetReport> draw_sheet(const SheetOrder& order, const std::vector<SheetItem>& items);

}  // namespace counterfoil
