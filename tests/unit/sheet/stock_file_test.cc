#include "sheet/stock_file.h"

#include <gtest/gtest.h>

#include <fstream>
#include <map>
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

TEST(StockFile, WhatDoesNotCloseOnThePageIsRefusedByItsField) {
  expect_fault(with("columns", "3"), "page_width_mm is 210 mm, less than the columns need, 306.95 mm");
  expect_fault(with("columns", "1"), "columns is 1, and pairs in columns need 2 or more");
  expect_fault(with("rows", "5"), "page_height_mm is 297 mm, less than the rows need, 351.6 mm");
  expect_fault(with("gap_x_mm", "12"), "page_width_mm is 210 mm, less than the columns need, 214.85 mm");
  expect_fault(with("gap_x_mm", "-1"), "gap_x_mm is -1, and has to be a length in mm from 0 to 2000");
  expect_fault(with("label_width_mm", "0"),
               "label_width_mm is 0, and has to be a length in mm from 1 to 2000");
  expect_fault(with("label_width_mm", "1e300"), "label_width_mm is 1e+300");
  expect_fault(with("label_width_mm", "\"wide\""), "label_width_mm is \"wide\"");
  expect_fault(with("margin_mm", "34"), "margin_mm is 34 mm on both sides, and leaves nothing of 67.7 mm");
  expect_fault(with("corner_radius_mm", "40"), "corner_radius_mm is 40 mm, more than half a side of 67.7 mm");
  expect_fault(with("pairing", "\"diagonal\""),
               "pairing is \"diagonal\", and has to be columns, rows, split or");
  expect_fault(with("pairing", "\"successive\""), "one label a page, and there are 8 labels");
  expect_fault(with("title", "7"), "title");
  expect_fault(with("rows", "2.5"), "rows is 2.5, and has to be a whole number from 1 to 200");
  expect_fault(with("rows", "1000000"), "rows is 1000000");
}

TEST(StockFile, HolesAndBandsHaveToLeaveSomething) {
  const auto also = [](const std::string& members) { return with("margin_mm", "2, " + members); };
  ASSERT_TRUE(parse_stock(also(R"("hole_x_mm": 50, "hole_y_mm": 8, "hole_diameter_mm": 5)"), "test"));
  expect_fault(also(R"("hole_x_mm": 50, "hole_y_mm": 8)"), "hole_diameter_mm is missing");
  expect_fault(also(R"("hole_clear_mm": 20)"), "hole_x_mm is missing");
  expect_fault(also(R"("hole_x_mm": 98, "hole_y_mm": 8, "hole_diameter_mm": 5)"),
               "hole_x_mm is 98 mm, which puts the hole over the edge of a label 99.1 mm wide");
  expect_fault(also(R"("hole_x_mm": 50, "hole_y_mm": 2, "hole_diameter_mm": 5)"), "hole_y_mm is 2 mm");
  expect_fault(also(R"("hole_x_mm": 50, "hole_y_mm": 30, "hole_diameter_mm": 5, "hole_clear_mm": 60)"),
               "hole_clear_mm is 60 mm, and what is left to print on is 0 x 0 mm");
  expect_fault(also(R"("blank_left_mm": 50, "blank_right_mm": 50)"),
               "blank_left_mm and blank_right_mm are 100 mm");
  expect_fault(also(R"("blank_top_mm": 68)"),
               "blank_top_mm and blank_bottom_mm are 68 mm, and leave nothing of 67.7");
}

TEST(StockFile, UnknownAndMissingFieldsAreNamed) {
  expect_fault(with("margin_mm", "2, \"margins_mm\": 3"), "margins_mm is not a field");
  expect_fault(R"({"title": "x"})", "page_width_mm is missing");
  expect_fault("[]", "not a JSON object");
  expect_fault("{", "stock test: ");
}

TEST(StockFile, AFolderGivesItsStocksByName) {
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

TEST(StockFile, AFileOfAUsersOwnHasItsName) {
  const TempFolder folder;
  std::ofstream(folder / "shelf.json") << kGrid;
  const auto stock = load_stock(folder / "shelf.json");
  ASSERT_TRUE(stock) << stock.error().message;
  EXPECT_EQ(stock->name, "shelf");
  EXPECT_EQ(load_stock(folder / "absent.json").error().kind, ErrorKind::unreadable);
}

// Common practice, no published source: grids, rolls and numbered tags as they are sold, typed in here by hand.
struct Known {
  double page_width = 0, page_height = 0;
  int columns = 0, rows = 0;
  double left = 0, top = 0, label_width = 0, label_height = 0, gap = 0;
};

void expect_geometry(const Stock& stock, const Known& known, double unit) {
  EXPECT_NEAR(stock.page_width_mm, known.page_width * unit, 0.001) << stock.name;
  EXPECT_NEAR(stock.page_height_mm, known.page_height * unit, 0.001) << stock.name;
  EXPECT_EQ(stock.columns, known.columns) << stock.name;
  EXPECT_EQ(stock.rows, known.rows) << stock.name;
  EXPECT_NEAR(stock.left_mm, known.left * unit, 0.001) << stock.name;
  EXPECT_NEAR(stock.top_mm, known.top * unit, 0.001) << stock.name;
  EXPECT_NEAR(stock.label_width_mm, known.label_width * unit, 0.001) << stock.name;
  EXPECT_NEAR(stock.label_height_mm, known.label_height * unit, 0.001) << stock.name;
  EXPECT_NEAR(stock.gap_x_mm, known.gap * unit, 0.001) << stock.name;
  EXPECT_EQ(stock.gap_y_mm, 0) << stock.name;
}

TEST(StockFile, ShippedStocksHaveTheGeometryOfTheTrade) {
  const std::map<std::string, Known> inches = {
      {"letter-3x10", {8.5, 11, 3, 10, .1875, .5, 2.625, 1, .125}},
      {"letter-2x5", {8.5, 11, 2, 5, .15625, .5, 4, 2, .1875}},
      {"letter-2x3", {8.5, 11, 2, 3, .15625, .5, 4, 10 / 3., .1875}},
      {"letter-2x2", {8.5, 11, 2, 2, 0, 0, 4.25, 5.5, 0}},
      {"roll-4x6in", {4, 6, 1, 1, 0, 0, 4, 6, 0}},
      {"roll-4x3in", {4, 3, 1, 1, 0, 0, 4, 3, 0}},
      {"roll-4x2in", {4, 2, 1, 1, 0, 0, 4, 2, 0}},
      {"roll-2x1in", {2, 1, 1, 1, 0, 0, 2, 1, 0}},
      {"tag-1", {1 + 3 / 8., 2 + 3 / 4., 1, 1, 0, 0, 1 + 3 / 8., 2 + 3 / 4., 0}},
      {"tag-2", {1 + 5 / 8., 3 + 1 / 4., 1, 1, 0, 0, 1 + 5 / 8., 3 + 1 / 4., 0}},
      {"tag-3", {1 + 7 / 8., 3 + 3 / 4., 1, 1, 0, 0, 1 + 7 / 8., 3 + 3 / 4., 0}},
      {"tag-4", {2 + 1 / 8., 4 + 1 / 4., 1, 1, 0, 0, 2 + 1 / 8., 4 + 1 / 4., 0}},
      {"tag-5", {2 + 3 / 8., 4 + 3 / 4., 1, 1, 0, 0, 2 + 3 / 8., 4 + 3 / 4., 0}},
      {"tag-6", {2 + 5 / 8., 5 + 1 / 4., 1, 1, 0, 0, 2 + 5 / 8., 5 + 1 / 4., 0}},
      {"tag-7", {2 + 7 / 8., 5 + 3 / 4., 1, 1, 0, 0, 2 + 7 / 8., 5 + 3 / 4., 0}},
      {"tag-8", {3 + 1 / 8., 6 + 1 / 4., 1, 1, 0, 0, 3 + 1 / 8., 6 + 1 / 4., 0}}};
  const std::map<std::string, Known> millimetres = {
      {"a4-3x8", {210, 297, 3, 8, 7.25, 12.9, 63.5, 33.9, 2.5}},
      {"a4-3x7", {210, 297, 3, 7, 7.25, 15.15, 63.5, 38.1, 2.5}},
      {"a4-2x7", {210, 297, 2, 7, 4.65, 15.15, 99.1, 38.1, 2.5}},
      {"a4-2x4", {210, 297, 2, 4, 4.65, 13.1, 99.1, 67.7, 2.5}},
      {"a4-2x2", {210, 297, 2, 2, 0, 0, 105, 148.5, 0}},
      {"roll-100x150", {100, 150, 1, 1, 0, 0, 100, 150, 0}},
      {"roll-100x50", {100, 50, 1, 1, 0, 0, 100, 50, 0}},
      {"roll-57x32", {57, 32, 1, 1, 0, 0, 57, 32, 0}}};
  const auto stocks = load_stocks(COUNTERFOIL_SOURCE "/templates/stocks");
  ASSERT_TRUE(stocks) << stocks.error().message;
  EXPECT_EQ(stocks->size(), inches.size() + millimetres.size());
  for (const auto& stock : *stocks) {
    const bool metric = millimetres.contains(stock.name);
    ASSERT_TRUE(metric || inches.contains(stock.name)) << stock.name;
    expect_geometry(stock, metric ? millimetres.at(stock.name) : inches.at(stock.name), metric ? 1 : 25.4);
    // Labels are centred on the page, so what is left over at the right and at the bottom is what is at the left and
    // at the top.
    const Box last = stock.label(stock.labels_per_page() - 1);
    EXPECT_NEAR(stock.page_width_mm - last.right_mm(), stock.left_mm, 0.01) << stock.name;
    EXPECT_NEAR(stock.page_height_mm - last.bottom_mm(), stock.top_mm, 0.01) << stock.name;
  }
}

// Common practice: a hole at one short end, nothing printed within 20 mm of it.
TEST(StockFile, ShippedTagsHaveTheirHoleAtTheShortEndThatIsFedFirst) {
  const auto stocks = load_stocks(COUNTERFOIL_SOURCE "/templates/stocks");
  ASSERT_TRUE(stocks);
  int tags = 0;
  for (const auto& stock : *stocks) {
    EXPECT_EQ(stock.hole.has_value(), stock.name.starts_with("tag-")) << stock.name;
    if (!stock.hole) continue;
    ++tags;
    EXPECT_NEAR(stock.hole->x_mm, stock.label_width_mm / 2, 0.001) << stock.name;
    EXPECT_LT(stock.hole->y_mm, 12.7) << stock.name;
    for (const bool box_half : {false, true}) {
      const Box area = stock.printable(0, stock.label(0), box_half);
      EXPECT_GE(area.y_mm - (stock.hole->y_mm + stock.hole->diameter_mm / 2), 20) << stock.name;
      EXPECT_GT(area.height_mm, 30) << stock.name;
    }
  }
  EXPECT_EQ(tags, 8);
}

}  // namespace
}  // namespace counterfoil
