#include "sheet/outline.h"

#include <algorithm>
#include <set>

namespace counterfoil {
namespace {

constexpr double kBlank = 0.9;  // greys, 1 is white
constexpr double kEdge = 0.6;
constexpr double kWhite = 1;
constexpr double kLineMm = 0.3;
constexpr double kHatchMm = 0.6, kHatchPitchMm = 2;

}  // namespace

std::vector<OutlinedPlace> outlined_places(const Stock& stock, bool box_page) {
  std::vector<OutlinedPlace> places;
  const auto add = [&](int label, const Box& half, bool box_half, bool in_pair) {
    places.push_back({label, box_half, in_pair, stock.printable(label, half, box_half)});
  };
  std::set<int> paired;
  const int pairs = stock.pairs_per_page();
  for (int pair = 0; pair < pairs; ++pair) {
    add(stock.bag_label(pair), stock.bag_half(pair), false, true);
    add(stock.box_label(pair), stock.box_half(pair), true, true);
    paired.insert({stock.bag_label(pair), stock.box_label(pair)});
  }
  for (int label = 0; label < stock.labels_per_page(); ++label)
    if (!paired.contains(label)) add(label, stock.label(label), pairs == 0 && box_page, pairs == 0);
  return places;
}

void draw_outline(Canvas& canvas, const Stock& stock, bool box_page) {
  const double radius = stock.corner_radius_mm;
  for (int i = 0; i < stock.labels_per_page(); ++i) canvas.shape(stock.label(i), radius, kBlank);
  for (const auto& place : outlined_places(stock, box_page)) canvas.shape(place.printable, 0, kWhite);
  for (int i = 0; i < stock.labels_per_page(); ++i) {
    const Box label = stock.label(i);
    canvas.shape(label, radius, kEdge, kLineMm);
    if (!stock.hole) continue;
    const double width = stock.hole->diameter_mm;
    const Box hole{label.x_mm + stock.hole->x_mm - width / 2, label.y_mm + stock.hole->y_mm - width / 2,
                   width, width};
    canvas.shape(hole, width / 2, kWhite);
    canvas.shape(hole, width / 2, kEdge, kLineMm);
  }
}

void draw_used(Canvas& canvas, const Stock& stock, const PartSheet& part) {
  for (int i = 0; i < stock.labels_per_page(); ++i) {
    if (i + 1 >= part.start_at && std::count(part.skipped.begin(), part.skipped.end(), i + 1) == 0) continue;
    const Box label = stock.label(i);
    const double inset = std::max(stock.corner_radius_mm, kHatchPitchMm);
    for (double y = label.y_mm + inset; y + kHatchMm <= label.bottom_mm() - inset; y += kHatchPitchMm)
      canvas.shape({label.x_mm + inset, y, label.width_mm - 2 * inset, kHatchMm}, 0, kEdge);
  }
}

}  // namespace counterfoil
