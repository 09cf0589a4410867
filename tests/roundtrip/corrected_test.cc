// A sheet of tags that is corrected for a printer's errors, printed by that printer, lands where an honest printer puts
// the plain one: symbols located by ZXing-cpp on both papers.
#include <gtest/gtest.h>

#include <cmath>
#include <map>

#include "printer/profile.h"
#include "reader/image.h"
#include "roundtrip/raster.h"
#include "support/sheet_samples.h"
#include "support/simulated_print.h"
#include "support/temp_folder.h"
#include "support/zxing.h"

namespace counterfoil {
namespace {

constexpr double kDots = 300;

// Middles of the symbols on the paper, in mm.
std::map<std::string, PicturePoint> middles(const GreyPicture& paper) {
  std::map<std::string, PicturePoint> found;
  for (const auto& symbol : plain_read(paper, PlainSearch::any_format)) {
    PicturePoint middle;
    for (const auto& corner : symbol.corners)
      middle = {middle.x + corner.x / 4.0 * 25.4 / kDots, middle.y + corner.y / 4.0 * 25.4 / kDots};
    found[symbol.text] = middle;
  }
  return found;
}

GreyPicture page_of(const SheetOrder& order) {
  const auto drawn = value_of(draw_sheet(order, {sample_pair(0)}));
  if (order.format == SheetFormat::png) return value_of(load_picture(drawn.files[0], Channel::luma)).grey;
  Raster raster = rasterised(drawn.files[0], kDots).at(0);
  return {raster.width, raster.height, std::move(raster.grey)};
}

TEST(Corrected, SymbolsLandWhereTheyAreMeantWithinATenthOfAMillimetre) {
  const TempFolder folder;
  PrinterProfile errors;
  errors.offset_x_mm = 1.1;
  errors.offset_y_mm = -0.8;
  errors.scale_x = 0.993;
  errors.scale_y = 1.012;
  errors.turn_deg = 0.35;
  errors.shear_deg = -0.1;
  Glass glass;
  glass.margin_mm = 0;
  const Paper paper{100, 150};
  const Optics sharp{0.4, 0, 1};
  auto order = sample_order("roll-100x150", SheetFormat::png, folder / "sheet.png");
  SimulatedPrinter honest, wrong;
  wrong.map = errors.map();
  const GreyPicture plain = page_of(order);
  const auto meant = middles(scan_of(plain, honest, paper, glass, sharp));
  ASSERT_EQ(meant.size(), 2u);
  // Uncorrected it does not.
  const auto astray = middles(scan_of(plain, wrong, paper, glass, sharp));
  for (const auto& [text, middle] : meant)
    EXPECT_GT(std::hypot(astray.at(text).x - middle.x, astray.at(text).y - middle.y), 0.5);

  order.correction = errors.map().inverse();
  for (const SheetFormat format : {SheetFormat::png, SheetFormat::pdf}) {
    order.format = format;
    order.path = folder / (format == SheetFormat::png ? "corrected.png" : "corrected.pdf");
    const auto landed = middles(scan_of(page_of(order), wrong, paper, glass, sharp));
    ASSERT_EQ(landed.size(), 2u);
    for (const auto& [text, middle] : meant)
      EXPECT_LT(std::hypot(landed.at(text).x - middle.x, landed.at(text).y - middle.y), 0.1) << text;
  }
}

// The first inked dot column of a symbol that ZXing-cpp finds on the page: its upper left finder pattern's edge.
int first_column(const GreyPicture& page, const std::string& text) {
  for (const auto& symbol : plain_read(page, PlainSearch::any_format)) {
    if (symbol.text != text) continue;
    const auto row = static_cast<std::size_t>((static_cast<int>(symbol.corners[0].y) + 3) * page.width);
    int column = static_cast<int>(symbol.corners[0].x) - 8;
    while (page.pixels[row + static_cast<std::size_t>(column)] >= 128) ++column;
    return column;
  }
  return -1;
}

TEST(Corrected, SymbolMovesOffADeadColumnAtItsEdgeAndStaysOnOneInItsMiddle) {
  const TempFolder folder;
  auto order = sample_order("roll-100x150", SheetFormat::png, folder / "sheet.png");
  const std::string bag = sample_tag(0, "BAG").payload;
  const int first = first_column(page_of(order), bag);
  ASSERT_GT(first, 0);
  order.dead_columns = {first};
  const int moved = first_column(page_of(order), bag);
  EXPECT_EQ(moved, first + 1);
  order.dead_columns = {first + 100};
  EXPECT_GE(value_of(draw_sheet(order, {sample_pair(0)})).on_dead_columns, 1);
  EXPECT_EQ(first_column(page_of(order), bag), first);
}

}  // namespace
}  // namespace counterfoil
