// Inside the sheet room: texts, rules, boxes, side marks and symbols on pages of plain paper, for cards and lists.
// Lengths are mm from the page's top left corner.
#pragma once

#include <deque>
#include <map>
#include <memory>
#include <string>
#include <string_view>

#include "base/result.h"
#include "sheet/backdrop.h"
#include "sheet/canvas.h"
#include "sheet/document.h"
#include "sheet/lettering.h"
#include "sheet/slot.h"

namespace counterfoil {

inline constexpr double kLeastPaperModuleMm = 0.38;  // read from near, in good light (TRADE: never less)
inline constexpr double kSideMarkWidthMm = 36, kSideMarkHeightMm = 6.6;

struct TextStyle {
  double largest_mm = 3.2;  // of capitals
  bool bold = false, mono = false;
  int lines = 1;
  Slot::Align align = Slot::Align::start;
};

class Drafting {
 public:
  // Refuses, beside what area_of refuses, dots per inch and dates that no page can have.
  static Result<Drafting> open(const DocumentOrder& order, const std::string& title, int pages);

  // The page without margin and foot. Refuses a page that is too small to hold both.
  static Result<Box> area_of(const DocumentOrder& order);
  const Box& area() const { return area_; }

  // In as many lines as the style allows, as large as the box lets it, 2.8 mm or more; `malformed` with name and text
  // when it does not fit. An empty text is nothing.
  Result<void> text(const std::string& name, const Box& box, std::string_view text, const TextStyle& style);
  void outline(const Box& box, double width_mm);  // the line inside of the box
  void fill(const Box& box);
  // The side's word in its shape, as on the tags: an open band with round ends, a solid one with square ends, or an
  // empty one to write in. `side`: "suction", "discharge" or empty.
  Result<void> side_mark(double x_mm, double y_mm, std::string_view side);
  // In the middle of the box, quiet zone included.
  Result<void> symbol(const std::string& name, const Box& box, std::string_view payload);

  Result<void> begin_page();
  Result<void> end_page();  // with its foot
  Result<DocumentReport> commit();

 private:
  Drafting(const DocumentOrder& order, int pages, const Box& area, Canvas canvas);

  DocumentOrder order_;
  int pages_ = 0, page_ = 0, symbols_ = 0;
  Box area_;
  Canvas canvas_;
  Result<void> place(Lettering& lettering, const std::string& name, const Box& box, std::string_view text,
                     const TextStyle& style);

  std::unique_ptr<Lettering> lettering_, on_ink_;  // black, white
  std::deque<Slot> slots_;                         // of the page; they outlive what is placed in them
  std::map<std::string, Backdrop, std::less<>> marks_;
};

// Lines of `style` that the text takes in that width, 1 to `most`; `malformed`, with name and text, when it is more.
class TextMeasure {
 public:
  Result<int> lines(const std::string& name, double width_mm, std::string_view text, TextStyle style,
                    int most);

 private:
  std::unique_ptr<Lettering> lettering_;
  std::deque<Slot> slots_;
};
// Height of so many lines of that style.
double height_of_lines(const TextStyle& style, int lines);

}  // namespace counterfoil
