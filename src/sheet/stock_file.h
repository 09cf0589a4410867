// Stocks as they lie in files: one JSON object each; the grammar is in templates/README.md.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "sheet/stock.h"

namespace counterfoil {

// Refuses what does not close on the page: labels beyond its edge, negative gaps, too few columns or rows for the
// pairing, a hole outside the label, a margin or a band that leaves nothing. The error names field and number.
Result<Stock> parse_stock(std::string_view json, std::string_view name);

// The stock of one file, with the file's name.
Result<Stock> load_stock(const std::string& path);

// All stocks of a folder, by name.
Result<std::vector<Stock>> load_stocks(const std::string& folder);

}  // namespace counterfoil
