// What is printed on: a sheet of labels or a roll, as plain geometry in millimetres. Stocks are data, one
// JSON file each under templates/stocks; the grammar is in templates/README.md.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace counterfoil {

struct Box {
  double x_mm = 0, y_mm = 0, width_mm = 0, height_mm = 0;  // from the page's top left corner
};

struct Stock {
  // Where the two halves of a pair lie: in neighbouring columns of one row, or in one label that is cut
  // across.
  enum class Pairing { columns, split };

  std::string name;   // "a4-2x4": the file's name, by geometry
  std::string title;  // one line for people
  double page_width_mm = 0, page_height_mm = 0;
  int columns = 1, rows = 1;
  double left_mm = 0, top_mm = 0;  // of the first label
  double label_width_mm = 0, label_height_mm = 0;
  double gap_x_mm = 0, gap_y_mm = 0;  // between labels
  double corner_radius_mm = 0;
  double margin_mm = 0;  // inside a label, where nothing but the match mark is printed
  Pairing pairing = Pairing::columns;

  int labels_per_page() const { return columns * rows; }
  int pairs_per_page() const { return pairing == Pairing::columns ? columns / 2 * rows : columns * rows; }
  Box label(int index) const;  // row by row from the top left, 0 <= index < labels_per_page()
  // The places of the two halves of pair 0 <= index < pairs_per_page(); margin not yet taken off.
  Box bag_half(int index) const;
  Box box_half(int index) const;
};

// Refuses what does not close on the page: labels beyond its edge, negative gaps, an odd number of columns
// for pairs in columns, a margin that leaves nothing. The error names the field.
Result<Stock> parse_stock(std::string_view json, std::string_view name);

// All stocks of a folder, by name.
Result<std::vector<Stock>> load_stocks(const std::string& folder);

}  // namespace counterfoil
