// Lists on paper: a head, a table over as many pages as it needs with its headings repeated, symbols and tick boxes
// in the rows where they are wanted. A list never learns what its texts mean.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "sheet/document.h"

namespace counterfoil {

struct ListColumn {
  enum class Kind {
    text,
    number,  // text in letters of one width, bold: what is compared character by character
    side,    // "suction", "discharge" or nothing: the word in its shape
    symbol,  // a QR symbol of the cell's text
    tick,    // an empty box to tick; the cell's text is ignored
  };
  std::string heading;
  Kind kind = Kind::text;
  double share = 1;  // of the width that symbols, sides and tick boxes leave; text and number only
};

struct PaperList {
  std::string title;  // "Carton C3"
  std::vector<std::pair<std::string, std::string>>
      facts;  // "to", "Kettle Valves": under the title, once a page
  std::vector<ListColumn> columns;
  std::vector<std::vector<std::string>> rows;  // a cell a column
};

// Rows are as high as their texts need, up to 6 lines, and never broken over pages. Refuses, and leaves no file:
// rows with too few or many cells, no columns or rows, a text that does not fit at 2.8 mm (the error names row,
// column and text), columns that leave no width for text, a symbol that does not fit.
Result<DocumentReport> draw_list(const DocumentOrder& order, const PaperList& list);

// What goes along with a carton: the receiver ticks what has come.
struct CartonLine {
  std::string number, payload, unit, pocket, side, part;
};
struct CartonList {
  std::string carton, from, to, date;
  std::vector<CartonLine> lines;
};
PaperList paper_list(const CartonList& carton);

// Which pair goes to which pocket, in the order in which a person walks by: the lines' own.
struct PickLine {
  std::string unit, pocket, side, number, payload, part;
};
struct PickList {
  std::string turnaround, walk;  // "U2 from the frame outwards, then U4"
  std::vector<PickLine> lines;
};
PaperList paper_list(const PickList& pick);

}  // namespace counterfoil
