#include "custody/stack.h"

#include <gtest/gtest.h>

#include "story.h"

namespace counterfoil {
namespace {

const std::string kOrigin = "zdar.example/storeroom";

PaperUse printed(std::vector<int> used, int sheets = 1) {
  return {"drawer 2", "a4-2x4", 8, std::nullopt, {}, sheets, std::move(used)};
}
PaperUse seen(std::optional<int> first, std::vector<int> spoiled) {
  return {"drawer 2", "a4-2x4", 8, first, std::move(spoiled), 0, {}};
}

std::map<std::string, Stack, std::less<>> replayed(const std::vector<PaperUse>& uses) {
  std::vector<LoggedEvent> events;
  for (const auto& use : uses) {
    Event event = event_at(use.sheets > 0 ? Step::printing : Step::stock_taking, "2026-11-25T09:30:00Z");
    event.paper = use;
    events.push_back({{kOrigin, events.size()}, event});
  }
  return stacks_of(events, kOrigin);
}
Stack stack_after(const std::vector<PaperUse>& uses) { return replayed(uses).at("drawer 2"); }

TEST(Stack, GoesOnWhereTheLastPrintingEnded) {
  const Stack stack = stack_after({printed({1, 2, 3, 4}), printed({5, 6})});
  EXPECT_EQ(stack.gone, (std::set<int>{1, 2, 3, 4, 5, 6}));
  EXPECT_EQ(stack.next(), 7);
  EXPECT_EQ(stack.left(), 2);
  EXPECT_EQ(stack.sheets, 0u);
  EXPECT_EQ(stack.last.position, 1u);
}

TEST(Stack, SeveralSheetsLeaveOnlyTheLastOneBegun) {
  const Stack stack = stack_after({printed({1, 2}), printed({1, 2, 3, 4}, 3)});
  EXPECT_EQ(stack.next(), 5);
  EXPECT_EQ(stack.sheets, 2u);
}

TEST(Stack, AFullSheetLeavesAWholeOneOnTop) {
  const Stack stack = stack_after({printed({1, 2, 3, 4, 5, 6}), printed({7, 8})});
  EXPECT_FALSE(stack.is_begun());
  EXPECT_EQ(stack.next(), 1);
  EXPECT_EQ(stack.sheets, 1u);
}

TEST(Stack, SpoiledLabelsOfTheFirstSheetDoNotFollowToTheNext) {
  auto use = printed({1, 2}, 2);
  use.spoiled = {7};
  EXPECT_EQ(stack_after({use}).gone, (std::set<int>{1, 2}));
  use = printed({1, 2});
  use.spoiled = {7};
  EXPECT_EQ(stack_after({use}).gone, (std::set<int>{1, 2, 7}));
}

TEST(Stack, WhatAPersonSaysOfTheTopSheetReplacesWhatWasRemembered) {
  EXPECT_EQ(stack_after({printed({1, 2, 3, 4}), seen(3, {})}).gone, (std::set<int>{1, 2}));
  EXPECT_EQ(stack_after({printed({1, 2}), seen(std::nullopt, {5})}).gone, (std::set<int>{1, 2, 5}));
  const Stack thrown = stack_after({printed({1, 2, 3, 4}), seen(1, {})});
  EXPECT_FALSE(thrown.is_begun());
  EXPECT_EQ(thrown.sheets, 1u);
  EXPECT_EQ(stack_after({seen(1, {}), seen(1, {})}).sheets, 0u);
  EXPECT_EQ(stack_after({seen(1, {1, 2, 3, 4, 5, 6, 7, 8})}).sheets, 1u);
}

TEST(Stack, AnotherStockUnderTheNameIsANewStack) {
  auto other = seen(std::nullopt, {});
  other.stock = "letter-2x3";
  other.labels = 6;
  const Stack stack = stack_after({printed({1, 2}), other});
  EXPECT_EQ(stack.stock, "letter-2x3");
  EXPECT_EQ(stack.left(), 6);
  EXPECT_EQ(stack.sheets, 1u);
}

TEST(Stack, NamesAreApartAndOtherDesksDrawersAreTheirOwn) {
  auto other = printed({1});
  other.stack = "cupboard";
  EXPECT_EQ(replayed({printed({1, 2}), other}).size(), 2u);
  Event event = event_at(Step::printing, "2026-11-25T09:30:00Z");
  event.paper = printed({1, 2});
  EXPECT_TRUE(stacks_of({{{"kettle.example/vendor", 0}, event}}, kOrigin).empty());
}

// A naive drawer: every sheet a row of flags.
TEST(Stack, AgreesWithADrawerOfSheetsOverEveryShortStory) {
  const std::vector<PaperUse> moves = {printed({1, 2}), printed({3, 4}), printed({1, 2}, 2),
                                       seen(1, {}),     seen(2, {}),     seen(std::nullopt, {4})};
  for (std::size_t story = 0; story < 6 * 6 * 6 * 6; ++story) {
    std::vector<PaperUse> uses;
    std::vector<bool> top(4, false);
    for (std::size_t i = 0, rest = story; i < 4; ++i, rest /= 6) {
      PaperUse use = moves[rest % 6];
      use.labels = 4;
      uses.push_back(use);
      if (use.first)
        for (int label = 1; label <= 4; ++label)
          top[static_cast<std::size_t>(label - 1)] = label < *use.first;
      for (const int label : use.spoiled) top[static_cast<std::size_t>(label - 1)] = true;
      if (use.sheets > 1) top.assign(4, false);
      for (const int label : use.used) top[static_cast<std::size_t>(label - 1)] = true;
      if (top == std::vector<bool>(4, true)) top.assign(4, false);
    }
    std::set<int> gone;
    for (int label = 1; label <= 4; ++label)
      if (top[static_cast<std::size_t>(label - 1)]) gone.insert(label);
    ASSERT_EQ(stack_after(uses).gone, gone) << story;
  }
}

TEST(LabelList, IsReadAndSpokenAsPeopleWriteIt) {
  EXPECT_EQ(*parse_labels("7,9-10"), (std::vector<int>{7, 9, 10}));
  EXPECT_EQ(*parse_labels(" 10 "), (std::vector<int>{10}));
  EXPECT_EQ(*parse_labels("3, 1-3"), (std::vector<int>{1, 2, 3}));
  EXPECT_EQ(label_words({1, 2, 3, 7, 9, 10}), "1-3, 7, 9-10");
  EXPECT_EQ(label_words({}), "");
  for (const char* wrong : {"", ",", "7,", "0", "-3", "3-", "x", "1.5", "7-x", "40001", "1--2"})
    EXPECT_FALSE(parse_labels(wrong)) << wrong;
  EXPECT_EQ(parse_labels("10-9").error().hint, "write 9-10");
}

}  // namespace
}  // namespace counterfoil
