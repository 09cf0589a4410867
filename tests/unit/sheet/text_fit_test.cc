#include "sheet/text_fit.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "sheet/slot.h"
#include "support/sheet_samples.h"
#include "support/temp_folder.h"

namespace counterfoil {
namespace {

TEST(TextFit, WhatIsDrawnHasRoomAndWhatHasNoneIsNotDrawn) {
  const TempFolder folder;
  SheetOrder order = sample_order("a4-2x4", SheetFormat::pdf, folder / "tags.pdf");
  int refused = 0;
  for (std::size_t length = 1; length < 60; length += 6) {
    PairItem pair = sample_pair(0);
    std::string name;
    while (name.size() < length) name += name.size() % 7 == 6 ? ' ' : 'H';
    pair.bag.texts["pocket"] = pair.box.texts["pocket"] = name;
    const bool has_room = text_misfits(order, {pair}).empty();
    EXPECT_EQ(has_room, bool(draw_sheet(order, {pair}))) << name;
    refused += has_room ? 0 : 1;
  }
  EXPECT_GT(refused, 0);
  EXPECT_LT(refused, 10);
}

TEST(TextFit, EachTextWithoutRoomIsNamedWithItsTagAndItsExcess) {
  const SheetOrder order = sample_order("a4-2x4", SheetFormat::pdf, "tags.pdf");
  PairItem plain = sample_pair(0), long_part = sample_pair(1), longer = sample_pair(1);
  long_part.bag.texts["part"] = std::string(50, 'W');
  longer.bag.texts["part"] = std::string(100, 'W');
  const auto misfits = text_misfits(order, {plain, long_part, longer});
  ASSERT_EQ(misfits.size(), 2u);
  EXPECT_EQ(misfits[0].item, 1u);
  EXPECT_EQ(misfits[1].item, 2u);
  EXPECT_EQ(misfits[0].design, "bag-large");
  EXPECT_EQ(misfits[0].slot, "part");
  EXPECT_EQ(misfits[0].text, std::string(50, 'W'));
  // Fifty letters more are as wide as the slot and the first excess together, but for the margins of one letter.
  const auto& slots = order.bag.data().slots;
  const auto slot =
      std::find_if(slots.begin(), slots.end(), [](const Slot& one) { return one.name == "part"; });
  EXPECT_NEAR(misfits[1].wide_mm - misfits[0].wide_mm, slot->box.width_mm + misfits[0].wide_mm, 0.5);
  EXPECT_GT(misfits[0].wide_mm, 50);
  EXPECT_EQ(misfits[0].high_mm, 0);
}

TEST(TextFit, TextsOfSlotsThatADesignHasNotAreNoMisfits) {
  const SheetOrder order = sample_order("a4-2x4", SheetFormat::pdf, "tags.pdf");
  SingleItem small{sample_tag(1, "BAG"), shipped_design("bag-small")};
  small.tag.texts["part"] = std::string(50, 'W');
  EXPECT_TRUE(text_misfits(order, {small}).empty());
  EXPECT_FALSE(has_slot(order, small, "part"));
  EXPECT_TRUE(has_slot(order, sample_pair(0), "part"));
  EXPECT_TRUE(has_slot(order, small, "pocket"));
}

}  // namespace
}  // namespace counterfoil
