// Sheets for tests: the shipped designs on the shipped stocks, filled with the invented scenario.
#pragma once

#include <stdexcept>
#include <string>

#include "sheet/sheet.h"
#include "sheet/stock_file.h"

namespace counterfoil {

inline const std::string kTemplates = COUNTERFOIL_SOURCE "/templates/";

template <typename T>
T value_of(Result<T> result) {
  if (!result) throw std::runtime_error(result.error().message);
  return std::move(*result);
}

inline Stock shipped_stock(std::string_view name) {
  for (const auto& stock : value_of(load_stocks(kTemplates + "stocks")))
    if (stock.name == name) return stock;
  throw std::runtime_error("no stock " + std::string(name));
}

inline std::string design_file(const std::string& name) { return kTemplates + "designs/" + name + ".svg"; }

inline Design shipped_design(const std::string& name) { return value_of(Design::load(design_file(name))); }

inline SheetOrder sample_order(std::string_view stock, SheetFormat format, std::string path) {
  return {shipped_stock(stock),
          shipped_design("bag-large"),
          shipped_design("box-large"),
          300,
          format,
          std::move(path),
          "TA26",
          "2026-11-25T09:30:15Z"};
}

// Tag `index` of a batch; sides take turns, the third has neither pocket nor side.
inline TagContent sample_tag(int index, const std::string& half) {
  const std::string serial = std::to_string(1000 + index * 37 % 9000);
  TagContent tag;
  tag.payload = "CF1.K7" + serial + "8X61." + half + "1";
  tag.texts = {{"number", "K7" + serial.substr(0, 2) + " " + serial.substr(2) + "8X 61"},
               {"turnaround", "TA26"},
               {"desk", "Žďár storeroom"}};
  if (index % 3 == 2) return tag;
  tag.side = index % 3 == 0 ? "suction" : "discharge";
  tag.texts.insert({{"unit", "U2"},
                    {"pocket", index % 2 == 0 ? "1st stage, IB, 2D" : "2 HE S1"},
                    {"part", "CV-118-B SP3"},
                    {"copy", "COPY 2"}});
  return tag;
}

inline PairItem sample_pair(int index) {
  return {sample_tag(index, "BAG"), sample_tag(index, "BOX"),
          0x9e3779b9u * static_cast<std::uint32_t>(index + 1)};
}

inline SingleItem sample_label() {
  SingleItem item{{}, shipped_design("label-large")};
  item.tag.payload = "CF1.K74Q2M8X61.LBL1";
  item.tag.side = "discharge";
  item.tag.texts = {{"number", "K74Q 2M8X 61"}, {"date", "2026-11-25"}, {"time", "09:30"},    {"unit", "U2"},
                    {"pocket", "2 HE S1"},      {"by", "Åse"},          {"serial", "8841-77"}};
  return item;
}

}  // namespace counterfoil
