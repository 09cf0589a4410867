#include "workflow/stock_fit.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "workflow/page_fit.h"
#include "workflow/print_finding.h"

namespace counterfoil {
namespace {

constexpr double kWellMm = 0.4;   // root mean square of what remains of places
constexpr double kAlike = 0.005;  // a driver scales both ways alike, another stock's pitches are unlike
constexpr std::size_t kFewest = 2;

// Whether all symbols lie there at nearly their size.
bool lies_well(const std::vector<FoundSymbol>& found, const Stock& stock, const ScanSize& scan) {
  const auto fit = fit_page(found);
  if (!fit || !fit->stray.empty() || fit->rms_mm > kWellMm) return false;
  const auto geometry = geometry_of(fit->map, stock, scan.width, scan.height, scan.dots_per_inch);
  return geometry && std::abs(geometry->scale_x - geometry->scale_y) < kAlike &&
         std::abs(geometry->scale_x - 1) <= kUsableScale && std::abs(geometry->scale_y - 1) <= kUsableScale;
}

}  // namespace

const OtherStock* better_stock(const std::vector<MeasuredSymbol>& symbols, const Stock& named,
                               const std::vector<OtherStock>& others, const ScanSize& scan) {
  std::vector<FoundSymbol> found;
  for (const auto& symbol : symbols) found.push_back({symbol.meant->box, symbol.grid});
  if (found.size() < kFewest || lies_well(found, named, scan)) return nullptr;
  for (const auto& other : others) {
    std::map<int, std::vector<FoundSymbol>> pages;
    for (const auto& symbol : symbols)
      for (const auto& there : other.symbols)
        if (there.payload == symbol.meant->payload) pages[there.tag.page].push_back({there.box, symbol.grid});
    for (const auto& [page, there] : pages)
      if (there.size() >= kFewest && lies_well(there, other.stock, scan)) return &other;
  }
  return nullptr;
}

}  // namespace counterfoil
