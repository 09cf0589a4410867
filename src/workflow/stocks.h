// What can be printed on: the stocks of the templates' folder, and a user's own description, measured and drawn.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "base/moment.h"
#include "base/result.h"
#include "sheet/stock.h"
#include "sheet/survey.h"

namespace counterfoil {

inline constexpr const char* kUsualStock = "a4-2x4";

Result<std::vector<Stock>> stocks(const std::string& templates);

// By name, or a file of a user's own: what ends in .json or has a slash in it. Empty: kUsualStock.
Result<Stock> stock_named(const std::string& templates, const std::string& name);

// What is printed on a stock of the tags of one kind.
struct StockDesign {
  std::string kind;  // "bag"
  std::string name;  // the largest that has room on either half; empty: none has
  std::vector<ModuleSize> modules{};
};
struct MeasuredStock {
  Stock stock;
  Survey survey;
  std::vector<StockDesign> designs;
};
Result<MeasuredStock> measure_stock(const std::string& templates, const std::string& name);

// Outlines at actual size; for a path that ends in .png a preview. Gives the files' names.
Result<std::vector<std::string>> draw_outlines(const Stock& stock, const std::string& path,
                                               const Moment& now);

// Of those in the folder the one with the smallest label, the first by name among equals, on which `does` says
// yes; empty when none does.
Result<std::string> smallest_stock(const std::string& templates,
                                   const std::function<bool(const Stock&)>& does);

}  // namespace counterfoil
