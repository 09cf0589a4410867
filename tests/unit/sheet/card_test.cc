#include "sheet/card.h"

#include <gtest/gtest.h>

#include <filesystem>

#include "support/paper_samples.h"
#include "support/sheet_samples.h"
#include "support/temp_folder.h"

namespace counterfoil {
namespace {

template <typename Change>
std::string map_fault(Change change) {
  const TempFolder folder;
  PocketMap map = sample_map(2);
  change(map);
  const auto drawn = draw_pocket_map(sample_paper(SheetFormat::pdf, folder / "a.pdf"), map);
  EXPECT_EQ(static_cast<bool>(drawn), !std::filesystem::is_empty(folder.path()));
  return drawn ? std::string("drawn") : drawn.error().message;
}

TEST(PocketMapTest, ThatDoesNotSayHowItIsSeenIsRefused) {
  EXPECT_EQ(map_fault([](PocketMap&) {}), "drawn");
  EXPECT_NE(map_fault([](PocketMap& map) { map.viewing_rule.clear(); }).find("from where it is seen"),
            std::string::npos);
  EXPECT_NE(map_fault([](PocketMap& map) { map.valid_from.clear(); }).find("since when"), std::string::npos);
  EXPECT_NE(map_fault([](PocketMap& map) { map.cylinders.clear(); }).find("no cylinder"), std::string::npos);
}

TEST(PocketMapTest, WhatCannotBeShownWholeIsRefusedByCylinderAndPocket) {
  const std::string name(40, 'W');
  const std::string fault = map_fault([&](PocketMap& map) { map.cylinders[1].pockets[2].name = name; });
  EXPECT_NE(fault.find("Throw 2"), std::string::npos) << fault;
  EXPECT_NE(fault.find(name), std::string::npos) << fault;
  EXPECT_NE(map_fault([](PocketMap& map) { map.cylinders[0].pockets[0].side = "S"; }).find("not S"),
            std::string::npos);
  EXPECT_NE(map_fault([](PocketMap& map) {
              const auto pocket = map.cylinders[0].pockets[0];
              map.cylinders[0].pockets.insert(map.cylinders[0].pockets.end(), 30, pocket);
            }).find("more pockets than a page"),
            std::string::npos);
}

TEST(PocketMapTest, CylindersAreNotBrokenOverPages) {
  const TempFolder folder;
  EXPECT_EQ(value_of(draw_pocket_map(sample_paper(SheetFormat::pdf, folder / "a.pdf"), sample_map(2))).pages,
            1);
  EXPECT_GT(value_of(draw_pocket_map(sample_paper(SheetFormat::pdf, folder / "b.pdf"), sample_map(6))).pages,
            1);
}

TEST(TrayCardTest, NeedsNumberAndSymbolAndRoomForItsSteps) {
  const TempFolder folder;
  const auto fault_of = [&](auto change) {
    auto cards = sample_trays();
    change(cards);
    const auto drawn = draw_tray_cards(sample_tray_paper(SheetFormat::pdf, folder / "a.pdf"), cards);
    return drawn ? std::string("drawn") : drawn.error().message;
  };
  EXPECT_NE(fault_of([](auto& cards) { cards.clear(); }).find("no card"), std::string::npos);
  EXPECT_NE(fault_of([](auto& cards) { cards[1].payload.clear(); }).find("its symbol"), std::string::npos);
  EXPECT_NE(fault_of([](auto& cards) { cards[1].steps.resize(13, "x"); }).find("12 steps"),
            std::string::npos);
  EXPECT_NE(fault_of([](auto& cards) { cards[1].steps[0] = std::string(50, 'W'); }).find("step 1"),
            std::string::npos);
  auto low = sample_tray_paper(SheetFormat::pdf, folder / "a.pdf");
  low.page_height_mm = 110;
  const auto drawn = draw_tray_cards(low, sample_trays());
  ASSERT_FALSE(drawn);
  EXPECT_NE(drawn.error().message.find("more steps than the paper has room for"), std::string::npos);
  EXPECT_TRUE(std::filesystem::is_empty(folder.path()));
  EXPECT_EQ(fault_of([](auto&) {}), "drawn");
}

}  // namespace
}  // namespace counterfoil
