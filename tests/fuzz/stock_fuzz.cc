// Whatever a stock file holds, it is refused or all its places lie on the page, and what is printable in them.
#include <algorithm>
#include <cstdlib>

#include "sheet/stock_file.h"
#include "sheet/survey.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace counterfoil;
  const auto stock = parse_stock({reinterpret_cast<const char*>(data), size}, "fuzz");
  if (!stock) return 0;
  const auto on_page = [&](const Box& box) {
    return box.x_mm >= 0 && box.y_mm >= 0 && box.width_mm > 0 && box.height_mm > 0 &&
           box.x_mm + box.width_mm <= stock->page_width_mm + 0.02 &&
           box.y_mm + box.height_mm <= stock->page_height_mm + 0.02;
  };
  for (int i = 0; i < stock->labels_per_page(); ++i)
    if (!on_page(stock->label(i))) std::abort();
  const auto check = [&](int label, const Box& half, bool box_half) {
    const Box area = stock->printable(label, half, box_half);
    const bool inside = area.x_mm >= half.x_mm && area.y_mm >= half.y_mm &&
                        area.right_mm() <= half.right_mm() + 1e-6 &&
                        area.bottom_mm() <= half.bottom_mm() + 1e-6;
    if (!on_page(half) || !on_page(area) || !inside) std::abort();
  };
  for (int i = 0; i < std::max(1, stock->pairs_per_page()); ++i) {
    check(stock->bag_label(i), stock->bag_half(i), false);
    check(stock->box_label(i), stock->box_half(i), true);
  }
  const int singles = survey(*stock).single_labels;
  if (singles < 0 || singles > stock->labels_per_page()) std::abort();
  return 0;
}
