// Whatever a stock file holds, it is refused or all its places lie on the page.
#include <cstdlib>

#include "sheet/stock_file.h"

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
  for (int i = 0; i < stock->pairs_per_page(); ++i)
    if (!on_page(stock->bag_half(i)) || !on_page(stock->box_half(i))) std::abort();
  return 0;
}
