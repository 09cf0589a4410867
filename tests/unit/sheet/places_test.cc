#include "sheet/places.h"

#include <gtest/gtest.h>

#include <map>
#include <random>
#include <set>

#include "support/sheet_samples.h"

namespace counterfoil {
namespace {

Stock grid(int columns, int rows, Stock::Pairing pairing) {
  Stock stock;
  stock.name = "grid";
  stock.page_width_mm = 10 + 30 * columns;
  stock.page_height_mm = 10 + 20 * rows;
  stock.columns = columns;
  stock.rows = rows;
  stock.left_mm = stock.top_mm = 5;
  stock.label_width_mm = 28;
  stock.label_height_mm = 18;
  stock.gap_x_mm = stock.gap_y_mm = 2;
  stock.pairing = pairing;
  return stock;
}

std::vector<Stock> small_grids() {
  std::vector<Stock> out;
  for (int columns = 1; columns <= 4; ++columns)
    for (int rows = 1; rows <= 4 && columns * rows <= 8; ++rows) {
      if (columns % 2 == 0) out.push_back(grid(columns, rows, Stock::Pairing::columns));
      out.push_back(grid(columns, rows, Stock::Pairing::split));
    }
  return out;
}

bool overlap(const Box& a, const Box& b) {
  constexpr double kSlack = 1e-9;
  return a.x_mm + a.width_mm > b.x_mm + kSlack && b.x_mm + b.width_mm > a.x_mm + kSlack &&
         a.y_mm + a.height_mm > b.y_mm + kSlack && b.y_mm + b.height_mm > a.y_mm + kSlack;
}

// What has to hold of any filling, in terms of millimetres and label numbers only. Gives the pages.
int expect_sound(const Stock& stock, const PartSheet& part, const std::vector<bool>& is_pair,
                 const std::vector<TagPlace>& places) {
  std::map<std::size_t, std::vector<TagPlace>> of_item;
  std::map<int, std::vector<Box>> on_page;
  const std::set<int> skipped(part.skipped.begin(), part.skipped.end());
  int page = 0;
  for (const auto& place : places) {
    EXPECT_GE(place.page, page) << "page by page";
    page = place.page;
    of_item[place.item].push_back(place);
    for (const auto& other : on_page[page]) EXPECT_FALSE(overlap(other, place.box)) << "used twice";
    on_page[page].push_back(place.box);
    const Box label = stock.label(place.label);
    EXPECT_GE(place.box.y_mm, label.y_mm);
    EXPECT_LE(place.box.y_mm + place.box.height_mm, label.y_mm + label.height_mm + 1e-9);
    EXPECT_EQ(place.box.x_mm, label.x_mm);
    if (page == 0) {
      EXPECT_GE(place.label + 1, part.start_at);
      EXPECT_FALSE(skipped.contains(place.label + 1)) << "a spoiled label is used";
    }
  }
  EXPECT_EQ(of_item.size(), is_pair.size());
  for (const auto& [item, halves] : of_item) {
    EXPECT_EQ(halves.size(), is_pair[item] ? 2u : 1u);
    if (!is_pair[item]) continue;
    EXPECT_EQ(halves[0].page, halves[1].page) << "a pair over two sheets";
    EXPECT_FALSE(halves[0].box_half);
    EXPECT_TRUE(halves[1].box_half);
    bool is_pair_of_stock = false;
    for (int pair = 0; pair < stock.pairs_per_page(); ++pair) {
      const Box bag = stock.bag_half(pair), box = stock.box_half(pair);
      is_pair_of_stock =
          is_pair_of_stock || (bag.x_mm == halves[0].box.x_mm && bag.y_mm == halves[0].box.y_mm &&
                               box.x_mm == halves[1].box.x_mm && box.y_mm == halves[1].box.y_mm);
    }
    EXPECT_TRUE(is_pair_of_stock) << "halves that do not lie side by side";
  }
  EXPECT_EQ(on_page.size(), static_cast<std::size_t>(page) + 1) << "a sheet that nothing is on";
  return page + 1;
}

// Free pairs of places on the part sheet, counted from the outlines alone.
int free_pairs(const Stock& stock, const PartSheet& part) {
  std::set<int> gone(part.skipped.begin(), part.skipped.end());
  for (int label = 1; label < part.start_at; ++label) gone.insert(label);
  int free = 0;
  for (int pair = 0; pair < stock.pairs_per_page(); ++pair) {
    bool hit = false;
    for (const int label : gone)
      hit = hit || overlap(stock.label(label - 1), stock.bag_half(pair)) ||
            overlap(stock.label(label - 1), stock.box_half(pair));
    free += hit ? 0 : 1;
  }
  return free;
}

PartSheet part_sheet(int start_at, unsigned spoiled_bits) {
  PartSheet part{start_at, {}};
  for (int label = 8; label >= 1; --label)
    if ((spoiled_bits >> (label - 1) & 1) != 0) part.skipped.push_back(label);
  return part;
}

TEST(Places, EveryPartSheetOfEverySmallGridTakesPairsAsItShould) {
  for (const auto& stock : small_grids()) {
    const int labels = stock.labels_per_page();
    for (int start = 1; start <= labels; ++start)
      for (unsigned spoiled = 0; spoiled < 1u << labels; ++spoiled) {
        // Spoiled labels that lie before the start change nothing: on small sheets only.
        if (labels > 4 && (spoiled & ((1u << (start - 1)) - 1)) != 0) continue;
        const PartSheet part = part_sheet(start, spoiled);
        const int free = free_pairs(stock, part);
        const std::vector<bool> pairs(static_cast<std::size_t>(free + stock.pairs_per_page() + 1), true);
        const auto places = places_of(stock, part, SheetSequence::across, pairs);
        if (free == 0) {
          ASSERT_FALSE(places);
          ASSERT_EQ(places.error().kind, ErrorKind::refused);
          continue;
        }
        ASSERT_TRUE(places) << places.error().message;
        // The part sheet is filled, then a whole one, then one pair begins the third.
        ASSERT_EQ(expect_sound(stock, part, pairs, *places), 3);
        int first = 0;
        for (const auto& place : *places) first += place.page == 0 ? 1 : 0;
        ASSERT_EQ(first, 2 * free);
        if (HasFailure()) return;
      }
  }
}

TEST(Places, SinglesTakeEveryFreePlaceAndPairsOnlyWholeOnes) {
  std::mt19937 random(7);
  for (const auto& stock : small_grids())
    for (unsigned spoiled = 0; spoiled + 1 < 1u << stock.labels_per_page(); ++spoiled) {
      const PartSheet part = part_sheet(1, spoiled);
      const int places_a_label = stock.pairing == Stock::Pairing::split ? 2 : 1;
      const int free = (stock.labels_per_page() - static_cast<int>(part.skipped.size())) * places_a_label;
      const std::vector<bool> singles(static_cast<std::size_t>(free), false);
      const auto alone = places_of(stock, part, SheetSequence::across, singles);
      ASSERT_TRUE(alone);
      ASSERT_EQ(expect_sound(stock, part, singles, *alone), 1);

      std::vector<bool> mixed = {false};
      for (int i = 0; i < 9; ++i) mixed.push_back(random() % 2 == 0);
      const auto together = places_of(stock, part, SheetSequence::across, mixed);
      ASSERT_TRUE(together);
      expect_sound(stock, part, mixed, *together);
      if (HasFailure()) return;
    }
}

TEST(Places, ShippedStocksTakePairsFromEveryLabelOnAndPastAnySpoiledOnes) {
  std::mt19937 random(11);
  for (const auto& stock : value_of(load_stocks(kTemplates + "stocks")))
    for (int start = 1; start <= stock.labels_per_page(); ++start)
      for (int spoiled = 0; spoiled <= stock.labels_per_page(); ++spoiled) {
        PartSheet part{start, {}};
        for (int i = 0; i < spoiled; ++i)
          part.skipped.push_back(1 +
                                 static_cast<int>(random() % static_cast<unsigned>(stock.labels_per_page())));
        const int free = free_pairs(stock, part);
        const std::vector<bool> pairs(static_cast<std::size_t>(stock.pairs_per_page()), true);
        if (pairs.empty()) continue;
        const auto places = places_of(stock, part, SheetSequence::across, pairs);
        ASSERT_EQ(static_cast<bool>(places), free > 0) << stock.name << start;
        if (!places) continue;
        ASSERT_EQ(expect_sound(stock, part, pairs, *places), free == stock.pairs_per_page() ? 1 : 2)
            << stock.name;
      }
}

// Cutting in place of a person: sheets on a pile, first on top; each place becomes a stack.
std::vector<std::size_t> cut_pile(const std::vector<TagPlace>& places, bool pairs) {
  std::map<std::pair<int, double>, std::map<int, std::size_t>> stacks;  // by label and height, from the top
  for (const auto& place : places)
    if (!place.box_half) stacks[{place.label, pairs ? 0 : place.box.y_mm}][place.page] = place.item;
  std::vector<std::size_t> out;
  for (const auto& [label, stack] : stacks)
    for (const auto& [sheet, item] : stack) out.push_back(item);
  return out;
}

TEST(Places, CutStacksAreInSequenceOneAfterTheOther) {
  for (const auto& stock : small_grids())
    for (const bool pair : {true, false})
      for (std::size_t count = 1; count <= 40; ++count) {
        const std::vector<bool> items(count, pair);
        const auto places = places_of(stock, {}, SheetSequence::cut_and_stack, items);
        ASSERT_TRUE(places);
        const int per_sheet = pair                                     ? stock.pairs_per_page()
                              : stock.pairing == Stock::Pairing::split ? 2 * stock.labels_per_page()
                                                                       : stock.labels_per_page();
        ASSERT_EQ(expect_sound(stock, {}, items, *places),
                  (static_cast<int>(count) + per_sheet - 1) / per_sheet);
        const auto cut = cut_pile(*places, pair);
        ASSERT_EQ(cut.size(), count);
        for (std::size_t i = 0; i < count; ++i) ASSERT_EQ(cut[i], i) << stock.columns << stock.rows << count;
      }
}

TEST(Places, AreWorkedOutByHandForOneSheet) {
  // Labels 1 to 4 are used, 7 is spoiled: row 5 6, then 7 8 has no pair, then the next sheet.
  const auto places =
      value_of(places_of(shipped_stock("a4-2x4"), {5, {7}}, SheetSequence::across, {true, true, false}));
  ASSERT_EQ(places.size(), 5u);
  EXPECT_EQ(places[0].label, 4);
  EXPECT_EQ(places[1].label, 5);
  EXPECT_NEAR(places[1].box.x_mm, 4.65 + 99.1 + 2.5, 1e-9);
  EXPECT_NEAR(places[1].box.y_mm, 13.1 + 2 * 67.7, 1e-9);
  EXPECT_EQ(places[2].page, 1);
  EXPECT_EQ(places[2].label, 0);
  EXPECT_EQ(places[4].page, 1);
  EXPECT_EQ(places[4].label, 2);
}

TEST(Places, LabelsThatTheStockLacksAreRefusedByNumber) {
  const auto message = [](const char* stock, PartSheet part) {
    const auto places = places_of(shipped_stock(stock), part, SheetSequence::across, {true});
    return places ? std::string() : places.error().message + "; " + places.error().hint;
  };
  EXPECT_NE(message("a4-2x4", {9, {}}).find("no label 9; its labels are 1 to 8"), std::string::npos);
  EXPECT_NE(message("a4-2x4", {0, {}}).find("no label 0"), std::string::npos);
  EXPECT_NE(message("a4-2x4", {2, {3, 11}}).find("no label 11"), std::string::npos);
  EXPECT_NE(message("a4-2x4", {1, {-1}}).find("no label -1"), std::string::npos);
  EXPECT_NE(message("roll-4x6in", {2, {}}).find("no part sheet"), std::string::npos);
}

TEST(Places, WhatCannotBeCutAndStackedIsRefused) {
  const Stock stock = shipped_stock("a4-2x4");
  EXPECT_FALSE(places_of(stock, {2, {}}, SheetSequence::cut_and_stack, {true}));
  EXPECT_FALSE(places_of(stock, {1, {8}}, SheetSequence::cut_and_stack, {true}));
  EXPECT_FALSE(places_of(stock, {}, SheetSequence::cut_and_stack, {true, false}));
  EXPECT_TRUE(places_of(stock, {}, SheetSequence::cut_and_stack, {false, false}));
}

}  // namespace
}  // namespace counterfoil
