#include "sheet/survey.h"

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "sheet/measure.h"
#include "sheet/slot.h"
#include "symbol/matrix.h"

namespace counterfoil {
namespace {

constexpr int kUsualModules = 25;       // version 2
constexpr double kMostUnevenMm = 1;     // left against right, top against bottom
constexpr double kLeastMarginMm = 1;    // a printer that starts 1 to 2 mm off is the commonest fault
constexpr double kUsualModuleMm = 0.5;  // the least on a bag half
constexpr double kCoarsestDpi = 203.2;  // of common printers

std::string mm(double length) { return decimal(length, 4) + " mm"; }

// Of a sheet only: a roll's page is its label.
void remark_on_page(const Stock& stock, Survey& out) {
  const double right = out.left_over_right_mm, bottom = out.left_over_bottom_mm;
  if (std::abs(right - stock.left_mm) > kMostUnevenMm)
    out.remarks.push_back("the page has " + mm(stock.left_mm) + " left of the labels (left_mm) and " +
                          mm(right) + " right of them");
  if (std::abs(bottom - stock.top_mm) > kMostUnevenMm)
    out.remarks.push_back("the page has " + mm(stock.top_mm) + " above the labels (top_mm) and " +
                          mm(bottom) + " below them");
  const double nearest = std::min({stock.left_mm + std::max(stock.margin_mm, stock.blank_left_mm),
                                   stock.top_mm + std::max(stock.margin_mm, stock.blank_top_mm),
                                   right + std::max(stock.margin_mm, stock.blank_right_mm),
                                   bottom + std::max(stock.margin_mm, stock.blank_bottom_mm)});
  if (nearest < kUnprintableMm)
    out.remarks.push_back("print comes as near as " + mm(nearest) +
                          " to the page's edge, where most printers leave " + mm(kUnprintableMm) +
                          " blank: a larger margin_mm keeps it away");
}

void remark_on_label(const Stock& stock, Survey& out) {
  if (stock.margin_mm < kLeastMarginMm)
    out.remarks.push_back("margin_mm is " + mm(stock.margin_mm) +
                          ": a printer that starts 1 mm off prints over a label's edge");
  if (stock.hole && stock.hole->clear_mm == 0)
    out.remarks.push_back("there is a hole, and no hole_clear_mm keeps print away from it");
  if (!stock.mark_edge(false))
    out.remarks.push_back("no edge is free for the match mark, so the halves carry none");
  const double side = std::min({out.bag_width_mm, out.bag_height_mm, out.box_width_mm, out.box_height_mm});
  if (!dots_per_module(kUsualModules, side, kCoarsestDpi, kUsualModuleMm))
    out.remarks.push_back("a bag half's symbol does not get its " + mm(kUsualModuleMm) + " a module at " +
                          decimal(kCoarsestDpi) + " dpi");
}

}  // namespace

Survey survey(const Stock& stock) {
  Survey out;
  const Box bag = stock.printable(stock.bag_label(0), stock.bag_half(0), false);
  const Box box = stock.printable(stock.box_label(0), stock.box_half(0), true);
  const Box last = stock.label(stock.labels_per_page() - 1);
  out.bag_width_mm = bag.width_mm;
  out.bag_height_mm = bag.height_mm;
  out.box_width_mm = box.width_mm;
  out.box_height_mm = box.height_mm;
  out.left_over_right_mm = std::max(0.0, stock.page_width_mm - last.right_mm());
  out.left_over_bottom_mm = std::max(0.0, stock.page_height_mm - last.bottom_mm());
  const int labels_a_pair = stock.pairing == Stock::Pairing::split ? 1 : 2;
  if (stock.pairs_per_page() > 0)
    out.single_labels = stock.labels_per_page() - labels_a_pair * stock.pairs_per_page();
  if (stock.labels_per_page() > 1) remark_on_page(stock, out);
  remark_on_label(stock, out);
  return out;
}

std::vector<ModuleSize> module_sizes(const Design& design) {
  const auto& slots = design.data().slots;
  const auto slot = std::find_if(slots.begin(), slots.end(), [](const Slot& s) { return s.is_symbol(); });
  if (slot == slots.end()) return {};
  const double side = std::min(slot->box.width_mm, slot->box.height_mm);
  std::vector<ModuleSize> sizes;
  for (const double dpi : {kCoarsestDpi, 300.0, 304.8, 600.0}) {
    const auto dots = dots_per_module(kUsualModules, side, dpi, slot->least_module_mm);
    sizes.push_back({dpi, dots ? *dots : 0, dots ? *dots * kMmPerInch / dpi : 0});
  }
  return sizes;
}

}  // namespace counterfoil
