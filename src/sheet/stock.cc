#include "sheet/stock.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <utility>

#include "sheet/match_mark.h"

namespace counterfoil {
namespace {

// Between the match mark and what a design draws, so that a bar never reads as part of a word or a band.
constexpr double kMarkClearMm = 1;

bool overlap(const Box& a, const Box& b) {
  return a.x_mm < b.right_mm() && b.x_mm < a.right_mm() && a.y_mm < b.bottom_mm() && b.y_mm < a.bottom_mm();
}

Box between(double left, double top, double right, double bottom) {
  return {left, top, right - left, bottom - top};
}

// The square around the hole in which nothing is printed.
Box clear_of(const Hole& hole, const Box& label) {
  const double reach = hole.diameter_mm / 2 + hole.clear_mm;
  return {label.x_mm + hole.x_mm - reach, label.y_mm + hole.y_mm - reach, 2 * reach, 2 * reach};
}

// The label without its bands.
Box without_bands(const Stock& stock, const Box& label) {
  return between(label.x_mm + stock.blank_left_mm, label.y_mm + stock.blank_top_mm,
                 label.right_mm() - stock.blank_right_mm, label.bottom_mm() - stock.blank_bottom_mm);
}

Box strip_along(Stock::Edge edge, const Box& half) {
  switch (edge) {
    case Stock::Edge::left:
      return {half.x_mm, half.y_mm, kMarkReachMm, half.height_mm};
    case Stock::Edge::top:
      return {half.x_mm, half.y_mm, half.width_mm, kMarkReachMm};
    case Stock::Edge::right:
      return {half.right_mm() - kMarkReachMm, half.y_mm, kMarkReachMm, half.height_mm};
    case Stock::Edge::bottom:
      return {half.x_mm, half.bottom_mm() - kMarkReachMm, half.width_mm, kMarkReachMm};
  }
  std::abort();
}

// A band across its end only shortens the strip: mark_ends_mm().
bool is_free(const Stock& stock, const Box& label, const Box& half, Stock::Edge edge) {
  const Box strip = strip_along(edge, half);
  if (stock.hole && overlap(clear_of(*stock.hole, label), strip)) return false;
  const Box open = without_bands(stock, label);
  return edge == Stock::Edge::left || edge == Stock::Edge::right
             ? strip.x_mm >= open.x_mm && strip.right_mm() <= open.right_mm()
             : strip.y_mm >= open.y_mm && strip.bottom_mm() <= open.bottom_mm();
}

}  // namespace

int Stock::pairs_per_page() const {
  switch (pairing) {
    case Pairing::columns:
      return columns / 2 * rows;
    case Pairing::rows:
      return rows / 2 * columns;
    case Pairing::split:
      return labels_per_page();
    case Pairing::successive:
      return 0;
  }
  std::abort();
}

Box Stock::label(int index) const {
  if (index < 0 || index >= labels_per_page()) std::abort();
  return {left_mm + (index % columns) * (label_width_mm + gap_x_mm),
          top_mm + (index / columns) * (label_height_mm + gap_y_mm), label_width_mm, label_height_mm};
}

int Stock::bag_label(int index) const {
  switch (pairing) {
    case Pairing::columns:
      return index / (columns / 2) * columns + index % (columns / 2) * 2;
    case Pairing::rows:
      return index / columns * 2 * columns + index % columns;
    case Pairing::split:
    case Pairing::successive:
      return index;
  }
  std::abort();
}

int Stock::box_label(int index) const {
  if (pairing == Pairing::columns) return bag_label(index) + 1;
  if (pairing == Pairing::rows) return bag_label(index) + columns;
  return bag_label(index);
}

Box Stock::bag_half(int index) const {
  Box half = label(bag_label(index));
  if (pairing == Pairing::split) half.height_mm /= 2;
  return half;
}

Box Stock::box_half(int index) const {
  Box half = label(box_label(index));
  if (pairing == Pairing::split) {
    half.height_mm /= 2;
    half.y_mm += half.height_mm;
  }
  return half;
}

Stock::Edge Stock::facing_edge(Pairing pairing, bool box_half) {
  if (pairing == Pairing::columns) return box_half ? Edge::left : Edge::right;
  return box_half ? Edge::top : Edge::bottom;
}

std::optional<Stock::Edge> Stock::mark_edge(bool box_half) const {
  const std::array<std::pair<Edge, Edge>, 5> edges = {
      {{facing_edge(pairing, false), facing_edge(pairing, true)},
       {Edge::bottom, Edge::bottom},
       {Edge::top, Edge::top},
       {Edge::right, Edge::right},
       {Edge::left, Edge::left}}};
  for (const auto& pair : edges)
    if (is_free(*this, label(bag_label(0)), bag_half(0), pair.first) &&
        is_free(*this, label(box_label(0)), this->box_half(0), pair.second))
      return box_half ? pair.second : pair.first;
  return std::nullopt;
}

double Stock::mark_ends_mm(Edge edge) const {
  return edge == Edge::left || edge == Edge::right ? std::max(blank_top_mm, blank_bottom_mm)
                                                   : std::max(blank_left_mm, blank_right_mm);
}

Box Stock::printable(int label, const Box& half, bool box_half) const {
  const Box whole = this->label(label);
  const Box open = without_bands(*this, whole);
  const auto mark = mark_edge(box_half);
  const auto inset = [&](Edge edge) {
    return mark == edge ? std::max(margin_mm, kMarkReachMm + kMarkClearMm) : margin_mm;
  };
  const double left = std::max(half.x_mm + inset(Edge::left), open.x_mm);
  const double top = std::max(half.y_mm + inset(Edge::top), open.y_mm);
  const double right = std::min(half.right_mm() - inset(Edge::right), open.right_mm());
  const double bottom = std::min(half.bottom_mm() - inset(Edge::bottom), open.bottom_mm());
  const Box area = between(left, top, right, bottom);
  if (!hole) return area;
  const Box clear = clear_of(*hole, whole);
  if (!overlap(area, clear)) return area;
  const std::array<Box, 4> beside = {
      between(left, clear.bottom_mm(), right, bottom), between(left, top, right, clear.y_mm),
      between(clear.right_mm(), top, right, bottom), between(left, top, clear.x_mm, bottom)};
  const auto room = [](const Box& box) { return std::max(0.0, box.width_mm) * std::max(0.0, box.height_mm); };
  return *std::max_element(beside.begin(), beside.end(),
                           [&](const Box& a, const Box& b) { return room(a) < room(b); });
}

}  // namespace counterfoil
