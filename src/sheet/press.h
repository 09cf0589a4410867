// Inside the sheet room: tags onto pages, with all that belongs to them.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "sheet/backdrop.h"
#include "sheet/canvas.h"
#include "sheet/fit.h"
#include "sheet/lettering.h"
#include "sheet/match_mark.h"
#include "sheet/scale_note.h"
#include "sheet/sheet.h"
#include "sheet/slot.h"
#include "sheet/symbols_ahead.h"

namespace counterfoil {

class Press {
 public:
  enum class Shows {
    page_sent,  // to the printer
    paper,      // what comes out, when the order's correction is right; the canvas has none then
  };

  // All have to outlive this object. `places`: of the tags that are printed, in that order.
  Press(const SheetOrder& order, const std::vector<SheetItem>& items, const std::vector<TagPlace>& places,
        Canvas& canvas, Shows shows)
      : order_(order), canvas_(canvas), shows_(shows), symbols_ahead_(order, items, places) {}

  // Pages are from 1.
  Result<void> print_scale(int page, int pages);
  // One half of a pair, or a single tag.
  Result<void> print(const SheetItem& item, const TagPlace& place);
  // What waited for the page's end.
  void finish_page();
  Result<void> end_page();
  // Of a page that is looked at; `place`: its first.
  void outline(const TagPlace& place);

  int tags() const { return tags_; }
  int on_dead_columns() const { return on_dead_columns_; }
  int out_of_reach() const { return out_of_reach_; }
  const std::vector<SymbolReport>& symbols() const { return symbols_; }

 private:
  void print_bars(const MatchBars& bars);
  void add_cut(const CutLine& cut);
  Result<void> print_tag(const Design& design, const TagContent& tag, const TagPlace& place);
  Result<void> fill_tag(const Design& design, const TagContent& tag, const TagPlace& place);
  Result<void> check_reach(const Box& tag);
  Result<void> print_text(const Slot& slot, const TagContent& tag, double x, double y);
  Result<void> print_symbol(const Design& design, const Slot& slot, double x, double y);
  void report(const Design& design, const Slot& slot, const FittedSymbol& symbol);

  const SheetOrder& order_;
  Canvas& canvas_;
  Shows shows_;
  SymbolsAhead symbols_ahead_;
  Backdrops backdrops_;
  Lettering lettering_;
  const ScaleNote scale_note_{order_.stock};
  std::vector<CutLine> cuts_;  // of the page
  Box bag_;                    // of the pair that is being printed
  int tags_ = 0;
  int on_dead_columns_ = 0, out_of_reach_ = 0;
  std::vector<SymbolReport> symbols_;
};

}  // namespace counterfoil
