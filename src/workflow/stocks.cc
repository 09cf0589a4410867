#include "workflow/stocks.h"

#include <algorithm>
#include <filesystem>

#include "base/text.h"
#include "sheet/design.h"
#include "sheet/stock_drawing.h"
#include "sheet/stock_file.h"
#include "workflow/sheet_file.h"

namespace counterfoil {
namespace {

namespace fs = std::filesystem;

struct Measured {
  std::string name;
  double width_mm = 0, height_mm = 0;
};

Result<std::vector<Measured>> designs_of(const std::string& templates) {
  std::vector<Measured> out;
  std::error_code failed;
  fs::directory_iterator entry(fs::path(templates) / "designs", failed);
  for (; !failed && entry != fs::directory_iterator(); entry.increment(failed)) {
    if (entry->path().extension() != ".svg") continue;
    auto design = Design::load(entry->path().string());
    if (!design) return design.error();
    out.push_back({design->name(), design->width_mm(), design->height_mm()});
  }
  if (failed) return unreadable("cannot read the designs in " + templates + ": " + failed.message());
  std::sort(out.begin(), out.end(), [](const Measured& a, const Measured& b) {
    const double left = a.width_mm * a.height_mm, right = b.width_mm * b.height_mm;
    return left != right ? left > right : a.name < b.name;
  });
  return out;
}

}  // namespace

Result<std::vector<Stock>> stocks(const std::string& templates) {
  return load_stocks((fs::path(templates) / "stocks").string());
}

Result<Stock> stock_named(const std::string& templates, const std::string& name) {
  if (name.find('/') != std::string::npos || name.ends_with(".json")) return load_stock(name);
  auto all = stocks(templates);
  if (!all) return all.error();
  const std::string wanted = name.empty() ? kUsualStock : name;
  std::string names;
  for (const auto& stock : *all) {
    if (stock.name == wanted) return stock;
    names += (names.empty() ? "" : ", ") + stock.name;
  }
  return malformed("there is no stock \"" + wanted + "\"",
                   "the stocks are " + names + "; a file of your own ends in .json");
}

Result<MeasuredStock> measure_stock(const std::string& templates, const std::string& name) {
  auto stock = stock_named(templates, name);
  if (!stock) return stock.error();
  auto designs = designs_of(templates);
  if (!designs) return designs.error();
  MeasuredStock measured{*stock, survey(*stock), {}};
  const double width = std::min(measured.survey.bag_width_mm, measured.survey.box_width_mm);
  const double height = std::min(measured.survey.bag_height_mm, measured.survey.box_height_mm);
  constexpr double kSlackMm = 1e-6;
  for (const auto& design : *designs)
    if (design.width_mm <= width + kSlackMm && design.height_mm <= height + kSlackMm)
      measured.designs.push_back(design.name);
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
