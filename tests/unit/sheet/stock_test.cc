#include "sheet/stock.h"

#include <gtest/gtest.h>

#include <set>

#include "sheet/match_mark.h"

namespace counterfoil {
namespace {

Stock grid(int columns, int rows, Stock::Pairing pairing) {
  Stock stock;
  stock.columns = columns;
  stock.rows = rows;
  stock.left_mm = stock.top_mm = 5;
  stock.label_width_mm = 60;
  stock.label_height_mm = 40;
  stock.gap_x_mm = stock.gap_y_mm = 2;
  stock.margin_mm = 2;
  stock.page_width_mm = 10 + 62 * columns;
  stock.page_height_mm = 10 + 42 * rows;
  stock.pairing = pairing;
  return stock;
}

Stock tag() {
  Stock stock = grid(1, 1, Stock::Pairing::successive);
  stock.left_mm = stock.top_mm = 0;
  stock.page_width_mm = stock.label_width_mm = 60;
  stock.page_height_mm = stock.label_height_mm = 120;
  stock.hole = Hole{30, 10, 5, 20};
  return stock;
}

Box bag_area(const Stock& stock) { return stock.printable(stock.bag_label(0), stock.bag_half(0), false); }
Box box_area(const Stock& stock) { return stock.printable(stock.box_label(0), stock.box_half(0), true); }

TEST(Stock, PairsInColumnsLieInOneRow) {
  const Stock stock = grid(2, 4, Stock::Pairing::columns);
  EXPECT_EQ(stock.labels_per_page(), 8);
  EXPECT_EQ(stock.pairs_per_page(), 4);
  // By hand: 5 + 60 + 2; 5 + 3 * 42.
  EXPECT_DOUBLE_EQ(stock.bag_half(3).x_mm, 5);
  EXPECT_DOUBLE_EQ(stock.box_half(3).x_mm, 67);
  EXPECT_DOUBLE_EQ(stock.bag_half(3).y_mm, 131);
  EXPECT_DOUBLE_EQ(stock.box_half(3).y_mm, 131);
}

TEST(Stock, PairsInRowsLieInOneColumn) {
  const Stock stock = grid(3, 4, Stock::Pairing::rows);
  EXPECT_EQ(stock.pairs_per_page(), 6);
  // Pair 4 is the middle one of rows 3 and 4.
  EXPECT_EQ(stock.bag_label(4), 7);
  EXPECT_EQ(stock.box_label(4), 10);
  EXPECT_DOUBLE_EQ(stock.bag_half(4).x_mm, stock.box_half(4).x_mm);
  EXPECT_DOUBLE_EQ(stock.box_half(4).y_mm - stock.bag_half(4).y_mm, 42);
}

TEST(Stock, AnOddColumnOrRowIsInNoPair) {
  for (const auto& [stock, pairs] : {std::pair{grid(3, 2, Stock::Pairing::columns), 2},
                                     {grid(3, 7, Stock::Pairing::rows), 9},
                                     {grid(5, 3, Stock::Pairing::columns), 6}}) {
    ASSERT_EQ(stock.pairs_per_page(), pairs);
    std::set<int> used;
    for (int i = 0; i < pairs; ++i) {
      EXPECT_TRUE(used.insert(stock.bag_label(i)).second);
      EXPECT_TRUE(used.insert(stock.box_label(i)).second);
    }
    EXPECT_LT(*used.rbegin(), stock.labels_per_page());
    for (const int label : used) {
      const bool in_columns = stock.pairing == Stock::Pairing::columns;
      EXPECT_LT(in_columns ? label % stock.columns : label / stock.columns,
                (in_columns ? stock.columns : stock.rows) - 1);
    }
  }
}

TEST(Stock, SplitLabelsAreHalvedAlongTheFeed) {
  const Stock stock = grid(1, 1, Stock::Pairing::split);
  EXPECT_EQ(stock.pairs_per_page(), 1);
  EXPECT_DOUBLE_EQ(stock.bag_half(0).y_mm, 5);
  EXPECT_DOUBLE_EQ(stock.box_half(0).y_mm, 25);
  EXPECT_DOUBLE_EQ(stock.box_half(0).height_mm, 20);
  EXPECT_DOUBLE_EQ(stock.box_half(0).width_mm, 60);
}

TEST(Stock, SuccessiveLabelsNeedAPageForEachHalf) {
  const Stock stock = tag();
  EXPECT_EQ(stock.pairs_per_page(), 0);
  EXPECT_EQ(stock.bag_label(0), 0);
  EXPECT_EQ(stock.box_label(0), 0);
  EXPECT_DOUBLE_EQ(stock.box_half(0).height_mm, 120);
}

TEST(Stock, PrintableLeavesMarginAndTheMatchMarksReach) {
  // The mark reaches 3.2 mm, 1 mm is left beside it; the margin elsewhere is 2 mm.
  const Box bag = bag_area(grid(2, 1, Stock::Pairing::columns));
  EXPECT_DOUBLE_EQ(bag.x_mm, 7);
  EXPECT_DOUBLE_EQ(bag.right_mm(), 65 - 4.2);
  EXPECT_DOUBLE_EQ(bag.y_mm, 7);
  EXPECT_DOUBLE_EQ(bag.bottom_mm(), 43);
  EXPECT_DOUBLE_EQ(box_area(grid(2, 1, Stock::Pairing::columns)).x_mm, 67 + 4.2);
  EXPECT_DOUBLE_EQ(box_area(grid(1, 2, Stock::Pairing::rows)).y_mm, 47 + 4.2);
  EXPECT_DOUBLE_EQ(bag_area(grid(1, 1, Stock::Pairing::split)).bottom_mm(), 25 - 4.2);
  Stock wide = grid(2, 1, Stock::Pairing::columns);
  wide.margin_mm = 5;
  EXPECT_DOUBLE_EQ(bag_area(wide).right_mm(), 60);
}

TEST(Stock, NothingIsPrintableInABand) {
  Stock stock = grid(2, 1, Stock::Pairing::columns);
  stock.blank_top_mm = 10;
  stock.blank_bottom_mm = 1;  // inside the margin
  EXPECT_DOUBLE_EQ(bag_area(stock).y_mm, 15);
  EXPECT_DOUBLE_EQ(bag_area(stock).x_mm, 7);
  EXPECT_DOUBLE_EQ(bag_area(stock).bottom_mm(), 43);
}

TEST(Stock, NothingIsPrintableWithin20MillimetresOfATagsHole) {
  const Stock stock = tag();
  for (const Box& area : {bag_area(stock), box_area(stock)}) {
    EXPECT_DOUBLE_EQ(area.y_mm, 10 + 2.5 + 20);
    EXPECT_DOUBLE_EQ(area.bottom_mm(), 120 - 4.2);
    EXPECT_DOUBLE_EQ(area.width_mm, 56);
  }
}

TEST(Stock, PrintableTakesTheSideOfTheHoleWithMostRoom) {
  Stock stock = tag();
  stock.hole->y_mm = 110;
  EXPECT_DOUBLE_EQ(bag_area(stock).bottom_mm(), 110 - 22.5);
  EXPECT_DOUBLE_EQ(bag_area(stock).y_mm, 4.2);  // the mark of both is at the head then
  stock.hole = Hole{8, 60, 5, 1};
  EXPECT_DOUBLE_EQ(bag_area(stock).x_mm, 8 + 3.5);
  stock.hole = Hole{52, 60, 5, 1};
  EXPECT_DOUBLE_EQ(bag_area(stock).right_mm(), 52 - 3.5);
}

TEST(Stock, TheMatchMarkFacesTheOtherHalfUnlessAHoleKeepsItAway) {
  using enum Stock::Edge;
  const auto edges = [](const Stock& stock) {
    return std::pair(stock.mark_edge(false), stock.mark_edge(true));
  };
  using Edges = std::pair<std::optional<Stock::Edge>, std::optional<Stock::Edge>>;
  EXPECT_EQ(edges(grid(2, 1, Stock::Pairing::columns)), (Edges{right, left}));
  EXPECT_EQ(edges(grid(1, 2, Stock::Pairing::rows)), (Edges{bottom, top}));
  EXPECT_EQ(edges(tag()), (Edges{bottom, bottom}));
  Stock at_foot = tag();
  at_foot.hole->y_mm = 110;
  EXPECT_EQ(edges(at_foot), (Edges{top, top}));
  Stock banded = grid(2, 1, Stock::Pairing::columns);
  banded.blank_left_mm = banded.blank_right_mm = 1;
  EXPECT_EQ(edges(banded), (Edges{bottom, bottom}));
  banded.blank_top_mm = banded.blank_bottom_mm = 1;
  EXPECT_EQ(edges(banded), (Edges{std::nullopt, std::nullopt}));
}

}  // namespace
}  // namespace counterfoil
