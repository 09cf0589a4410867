// What is printed on: a sheet of labels, a roll or a string of tags, as plain geometry in millimetres. Stocks are
// data, one JSON file each under templates/stocks (sheet/stock_file.h).
#pragma once

#include <optional>
#include <string>

namespace counterfoil {

struct Box {
  double x_mm = 0, y_mm = 0, width_mm = 0, height_mm = 0;  // from the page's top left corner

  double right_mm() const { return x_mm + width_mm; }
  double bottom_mm() const { return y_mm + height_mm; }
};

// For the tie of a tag.
struct Hole {
  double x_mm = 0, y_mm = 0;  // its middle, from the label's top left corner
  double diameter_mm = 0;
  double clear_mm = 0;  // nothing is printed this near to its edge
};

struct Stock {
  // Where the two halves of a pair lie.
  enum class Pairing {
    columns,     // in neighbouring columns of one row
    rows,        // in neighbouring rows of one column
    split,       // in one label that is cut across
    successive,  // on two labels of a roll, one after the other; a page is one label
  };

  std::string name;   // "a4-2x4": the file's name, by geometry
  std::string title;  // one line for people
  double page_width_mm = 0, page_height_mm = 0;
  int columns = 1, rows = 1;
  double left_mm = 0, top_mm = 0;  // of the first label
  double label_width_mm = 0, label_height_mm = 0;
  double gap_x_mm = 0, gap_y_mm = 0;  // between labels
  double corner_radius_mm = 0;
  double margin_mm = 0;  // inside a label, where nothing but the match mark is printed
  // Bands of a label where nothing is printed at all, from its edges.
  double blank_left_mm = 0, blank_top_mm = 0, blank_right_mm = 0, blank_bottom_mm = 0;
  std::optional<Hole> hole;  // in each label
  Pairing pairing = Pairing::columns;

  int labels_per_page() const { return columns * rows; }
  // 0 where a pair needs two pages. Labels of an odd column or row are left to single tags.
  int pairs_per_page() const;
  Box label(int index) const;  // row by row from the top left, 0 <= index < labels_per_page()

  // The places of the two halves of pair 0 <= index < pairs_per_page(), and the labels that they lie on; margin not
  // yet taken off. Where pairs_per_page() is 0 the halves have index 0, each on a page of its own.
  int bag_label(int index) const;
  int box_label(int index) const;
  Box bag_half(int index) const;
  Box box_half(int index) const;

  // The edge along which a half has its bars of the match mark: the one that faces the other half; where a hole or
  // a band keeps print away from there the same edge of both, preferably the foot, so that they meet when one of
  // them is turned; null where no edge is free.
  enum class Edge { left, top, right, bottom };
  std::optional<Edge> mark_edge(bool box_half) const;
  static Edge facing_edge(Pairing pairing, bool box_half);
  // Along such an edge, at each of its ends: where bands keep the mark away.
  double mark_ends_mm(Edge edge) const;

  // Where a design may lie in such a place: without margin and bands, without the match mark's reach, and beyond
  // the hole on the side where most room is. Width or height is 0 or less where nothing is left, which
  // parse_stock refuses.
  Box printable(int label, const Box& half, bool box_half) const;
};

}  // namespace counterfoil
