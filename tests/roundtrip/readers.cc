#include "roundtrip/readers.h"

#include <zbar.h>

#include <algorithm>

#include "support/zxing.h"

namespace counterfoil {

std::multiset<std::string> read_by_zxing(const Raster& page) {
  std::multiset<std::string> texts;
  for (const auto& code : plain_read({page.grey.data(), page.width, page.height}, PlainSearch::any_format))
    texts.insert(code.text);
  return texts;
}

std::multiset<std::string> read_by_zbar(const Raster& page) {
  zbar::ImageScanner scanner;
  // Every pixel row and column of 203.2 dpi, as many of a finer page.
  const int density = std::max(1, static_cast<int>(page.dots_per_inch / 200));
  scanner.set_config(zbar::ZBAR_NONE, zbar::ZBAR_CFG_X_DENSITY, density);
  scanner.set_config(zbar::ZBAR_NONE, zbar::ZBAR_CFG_Y_DENSITY, density);
  zbar::Image image(static_cast<unsigned>(page.width), static_cast<unsigned>(page.height), "Y800",
                    page.grey.data(), page.grey.size());
  scanner.scan(image);
  std::multiset<std::string> texts;
  for (auto symbol = image.symbol_begin(); symbol != image.symbol_end(); ++symbol)
    texts.insert(symbol->get_data());
  return texts;
}

}  // namespace counterfoil
