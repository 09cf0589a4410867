#include "sheet/stock.h"

#include <gtest/gtest.h>

#include <fstream>
#include <regex>

#include "support/temp_folder.h"

namespace counterfoil {
namespace {

constexpr std::string_view kGrid = R"({
  "title": "A4 two by four", "page_width_mm": 210, "page_height_mm": 297, "columns": 2, "rows": 4,
  "left_mm": 4.65, "top_mm": 13.1, "label_width_mm": 99.1, "label_height_mm": 67.7, "gap_x_mm": 2.5,
  "corner_radius_mm": 2.5, "margin_mm": 2, "pairing": "columns"})";

std::string with(std::string_view field, const std::string& value) {
  return std::regex_replace(std::string(kGrid), std::regex("\"" + std::string(field) + "\": [^,}]+"),
                            "\"" + std::string(field) + "\": " + value);
}

void expect_fault(const std::string& json, const std::string& words) {
  const auto stock = parse_stock(json, "test");
  ASSERT_FALSE(stock) << json;
  EXPECT_EQ(stock.error().kind, ErrorKind::malformed);
  EXPECT_NE(stock.error().message.find(words), std::string::npos) << stock.error().message;
}

TEST(Stock, PairsInColumnsLieInOneRow) {
  const auto stock = parse_stock(kGrid, "a4-2x4");
  ASSERT_TRUE(stock) << stock.error().message;
  EXPECT_EQ(stock->name, "a4-2x4");
  EXPECT_EQ(stock->labels_per_page(), 8);
  EXPECT_EQ(stock->pairs_per_page(), 4);
  // By hand: 4.65 + 99.1 + 2.5 = 106.25; 13.1 + 3 * 67.7 = 216.2.
  EXPECT_DOUBLE_EQ(stock->bag_half(3).x_mm, 4.65);
  EXPECT_DOUBLE_EQ(stock->box_half(3).x_mm, 106.25);
  EXPECT_NEAR(stock->bag_half(3).y_mm, 216.2, 1e-9);
  EXPECT_NEAR(stock->box_half(3).y_mm, 216.2, 1e-9);
}

TEST(Stock, SplitLabelsAreHalvedAlongTheFeed) {
  const auto stock =
      parse_stock(R"({"title": "Roll", "page_width_mm": 100, "page_height_mm": 150, "columns": 1,
    "rows": 1, "label_width_mm": 100, "label_height_mm": 150, "pairing": "split"})",
                  "roll");
  ASSERT_TRUE(stock) << stock.error().message;
  EXPECT_EQ(stock->pairs_per_page(), 1);
  EXPECT_DOUBLE_EQ(stock->bag_half(0).y_mm, 0);
  EXPECT_DOUBLE_EQ(stock->box_half(0).y_mm, 75);
  EXPECT_DOUBLE_EQ(stock->box_half(0).height_mm, 75);
  EXPECT_DOUBLE_EQ(stock->box_half(0).width_mm, 100);
}

TEST(Stock, WhatDoesNotCloseOnThePageIsRefusedByItsField) {
  expect_fault(with("columns", "3"), "columns");
  expect_fault(with("rows", "5"), "page_height_mm is less than the rows need");
  expect_fault(with("gap_x_mm", "12"), "page_width_mm is less than the columns need");
  expect_fault(with("gap_x_mm", "-1"), "gap_x_mm");
  expect_fault(with("label_width_mm", "0"), "label_width_mm");
  expect_fault(with("label_width_mm", "1e300"), "label_width_mm");
  expect_fault(with("margin_mm", "34"), "margin_mm");
  expect_fault(with("corner_radius_mm", "40"), "corner_radius_mm");
  expect_fault(with("pairing", "\"rows\""), "pairing");
  expect_fault(with("title", "7"), "title");
  expect_fault(with("rows", "2.5"), "rows");
  expect_fault(with("rows", "1000000"), "rows");
}

TEST(Stock, UnknownAndMissingFieldsAreNamed) {
  expect_fault(with("margin_mm", "2, \"margins_mm\": 3"), "margins_mm is not a field");
  expect_fault(R"({"title": "x"})", "page_width_mm is missing");
  expect_fault("[]", "not a JSON object");
  expect_fault("{", "stock test: ");
}

TEST(Stock, AFolderGivesItsStocksByName) {
  const TempFolder folder;
  std::ofstream(folder / "b.json") << kGrid;
  std::ofstream(folder / "a.json") << kGrid;
  std::ofstream(folder / "notes.txt") << "no stock";
  const auto stocks = load_stocks(folder.path());
  ASSERT_TRUE(stocks) << stocks.error().message;
  ASSERT_EQ(stocks->size(), 2u);
  EXPECT_EQ((*stocks)[0].name, "a");
  EXPECT_EQ((*stocks)[1].name, "b");
  const auto none = load_stocks(folder / "absent");
  ASSERT_FALSE(none);
  EXPECT_EQ(none.error().kind, ErrorKind::unreadable);
}

TEST(Stock, ShippedStocksHaveTheGeometryOfTheTrade) {
  const auto stocks = load_stocks(COUNTERFOIL_SOURCE "/templates/stocks");
  ASSERT_TRUE(stocks) << stocks.error().message;
  const auto named = [&](std::string_view name) {
    for (const auto& stock : *stocks)
      if (stock.name == name) return stock;
    ADD_FAILURE() << "no stock " << name;
    return Stock{};
  };
  // Plain geometry of common sheets: Letter 4 x 3.333 in from .15625 and .5 in with a gap of .1875 in;
  // A4 99.1 x 67.7 mm from 4.65 and 13.1 mm with a gap of 2.5 mm.
  const Stock letter = named("letter-2x3");
  EXPECT_NEAR(letter.label(5).x_mm, (.15625 + 4 + .1875) * 25.4, 0.01);
  EXPECT_NEAR(letter.label(5).y_mm, (.5 + 2 * 10.0 / 3) * 25.4, 0.01);
  const Stock a4 = named("a4-2x4");
  EXPECT_NEAR(a4.label(7).x_mm, 106.25, 0.01);
  EXPECT_NEAR(a4.label(7).y_mm, 216.2, 0.01);
  EXPECT_NEAR(named("roll-4x6in").page_height_mm, 6 * 25.4, 0.01);
  EXPECT_NEAR(named("roll-100x150").box_half(0).y_mm, 75, 0.01);
}

}  // namespace
}  // namespace counterfoil
