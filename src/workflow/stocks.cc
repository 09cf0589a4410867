#include "workflow/stocks.h"

#include <algorithm>
#include <array>
#include <filesystem>

#include "base/nearest.h"
#include "sheet/design_choice.h"
#include "sheet/stock_drawing.h"
#include "sheet/stock_file.h"
#include "workflow/sheet_file.h"

namespace counterfoil {
namespace {

namespace fs = std::filesystem;

// The kinds of tags that a stock is for.
constexpr std::array<const char*, 6> kKinds = {"bag", "box", "spare-bag", "spare-box", "label", "carton"};

}  // namespace

Result<std::vector<Stock>> stocks(const std::string& templates) {
  return load_stocks((fs::path(templates) / "stocks").string());
}

Result<Stock> stock_named(const std::string& templates, const std::string& name) {
  if (name.find('/') != std::string::npos || name.ends_with(".json")) return load_stock(name);
  auto all = stocks(templates);
  if (!all) return all.error();
  const std::string wanted = name.empty() ? kUsualStock : name;
  std::vector<std::string> names;
  for (const auto& stock : *all) {
    if (stock.name == wanted) return stock;
    names.push_back(stock.name);
  }
  return malformed(
      "there is no stock \"" + wanted + "\"",
      did_you_mean(wanted, names) + "the stocks are " + listed(names) + "; a file of your own ends in .json");
}

Result<MeasuredStock> measure_stock(const std::string& templates, const std::string& name) {
  auto stock = stock_named(templates, name);
  if (!stock) return stock.error();
  MeasuredStock measured{*stock, survey(*stock), {}};
  const double width = std::min(measured.survey.bag_width_mm, measured.survey.box_width_mm);
  const double height = std::min(measured.survey.bag_height_mm, measured.survey.box_height_mm);
  for (const char* kind : kKinds) {
    auto design = choose_design((fs::path(templates) / "designs").string(), {kind, width, height});
    if (design)
      measured.designs.push_back({kind, design->name(), module_sizes(*design)});
    else if (design.error().kind == ErrorKind::refused)
      measured.designs.push_back({kind, {}});
    else
      return design.error();
  }
  return measured;
}

Result<std::vector<std::string>> draw_outlines(const Stock& stock, const std::string& path,
                                               const Moment& now) {
  auto format = format_of(path);
  if (!format) return format.error();
  return draw_stock(stock, *format == SheetFormat::png ? SheetFormat::preview : *format, path, to_text(now));
}

Result<std::string> smallest_stock(const std::string& templates,
                                   const std::function<bool(const Stock&)>& does) {
  auto all = stocks(templates);
  if (!all) return all.error();
  std::stable_sort(all->begin(), all->end(), [](const Stock& a, const Stock& b) {
    return a.label_width_mm * a.label_height_mm < b.label_width_mm * b.label_height_mm;
  });
  for (const auto& stock : *all)
    if (does(stock)) return stock.name;
  return std::string();
}

}  // namespace counterfoil
