// Inside the sheet room: pages to draw on, whatever file they end in. Owner of Cairo. Lengths are mm from the
// paper's top left corner, and the form's correction is applied here; everything that is printed is black.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "base/grey.h"
#include "base/result.h"
#include "sheet/sheet.h"
#include "sheet/stock.h"
#include "symbol/matrix.h"

struct _cairo;

namespace counterfoil {

// A page and the files that it ends in.
struct PageForm {
  double width_mm = 0, height_mm = 0;
  double dots_per_inch = 300;
  SheetFormat format = SheetFormat::pdf;
  std::string path, title, created;  // as in SheetOrder
  Affine correction{};               // likewise
};

class Canvas {
 public:
  struct Line {
    double from_x_mm = 0, from_y_mm = 0, to_x_mm = 0, to_y_mm = 0, width_mm = 0;
  };

  // `pages` says how files are named.
  static Result<Canvas> open(const PageForm& form, int pages);
  Canvas(Canvas&&) noexcept;
  ~Canvas();

  // Counts in points, for what other libraries draw; changes from page to page.
  _cairo* context() const;

  void fill(const std::vector<Box>& boxes);
  // A straight line in dashes: lengths of ink and gap in turn, from its start, over and over.
  void dash(const Line& line, const std::vector<double>& lengths_mm);
  void fill_discs(const std::vector<PicturePoint>& middles_mm, double diameter_mm);

  // Top left dot of a symbol, on the printer's own page.
  struct Spot {
    int column = 0, row = 0;
  };
  // Where a symbol, without its quiet zone, lies so that its middle comes as near as whole dots let it to where it is
  // meant on the paper.
  Spot spot(int modules, double middle_x_mm, double middle_y_mm, int dots_per_module) const;
  // Modules are squares of that many dots, and never turned.
  void symbol(const SymbolMatrix& matrix, Spot spot, int dots_per_module);
  // Without its quiet zone in that square, whatever dots there are: for what only shows a page.
  void symbol(const SymbolMatrix& matrix, const Box& square);
  // A box in grey, 1 is white; filled, or a line of that width when it is not 0. For outlines, which are not printed.
  void shape(const Box& box, double corner_radius_mm, double grey, double line_mm = 0);

  // What is on the page so far, one value a pixel, 255 white. Precondition: the format is PNG or preview.
  GreyPicture grey() const;

  Result<void> begin_page();
  Result<void> end_page();
  // Gives all files their names; without it none is left.
  Result<std::vector<std::string>> commit();

 private:
  struct Data;
  explicit Canvas(std::unique_ptr<Data> data);
  std::unique_ptr<Data> data_;
};

}  // namespace counterfoil
