#include "workflow/missing_dots.h"

#include <algorithm>

#include "grade/light_lines.h"

namespace counterfoil {
namespace {

constexpr double kSameLineMm = 0.2;   // light lines of two symbols are one
constexpr double kMostSymbols = 0.6;  // of those in its way

struct LineSeen {
  double at_mm = 0, width_mm = 0;
};

double module_mm(const SheetSymbol& symbol) { return symbol.box.width_mm / symbol.matrix.modules; }

// Symbols that a line there would show in.
int in_the_way(const std::vector<MeasuredSymbol>& symbols, bool column, double at_mm) {
  return static_cast<int>(std::count_if(symbols.begin(), symbols.end(), [&](const MeasuredSymbol& symbol) {
    const SheetSymbol& meant = *symbol.meant;
    const double at = (at_mm - (column ? meant.box.x_mm : meant.box.y_mm)) / module_mm(meant);
    return would_show(meant.matrix.dark, meant.matrix.modules, column, at);
  }));
}

}  // namespace

std::vector<MissingDots> missing_dots(GreyView picture, const std::vector<MeasuredSymbol>& symbols,
                                      const Affine& to_page) {
  std::vector<LineSeen> columns, rows;
  for (const auto& [meant, grid] : symbols) {
    const double half = grid.modules() / 2.0;
    for (const auto& line : light_lines(picture, grid, meant->matrix.dark)) {
      const PicturePoint at = to_page(line.upright ? grid.at(line.at, half) : grid.at(half, line.at));
      (line.upright ? columns : rows).push_back({line.upright ? at.x : at.y, line.width * module_mm(*meant)});
    }
  }
  std::vector<MissingDots> missing;
  for (const bool column : {true, false}) {
    auto& lines = column ? columns : rows;
    std::sort(lines.begin(), lines.end(), [](const auto& a, const auto& b) { return a.at_mm < b.at_mm; });
    for (std::size_t first = 0, last = 0; first < lines.size(); first = last) {
      double sum = 0, width = 0;
      for (last = first; last < lines.size() && lines[last].at_mm - lines[first].at_mm < kSameLineMm;
           ++last) {
        sum += lines[last].at_mm;
        width += lines[last].width_mm;
      }
      const int count = static_cast<int>(last - first);
      const double at = sum / count;
      if (count >= kMostSymbols * in_the_way(symbols, column, at))
        missing.push_back({column, at, width / count, count});
    }
  }
  return missing;
}

}  // namespace counterfoil
