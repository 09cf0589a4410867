#include "workflow/paper.h"

#include <filesystem>

#include "support/sheet_samples.h"
#include "support/test_desk.h"
#include "workflow/print.h"

namespace counterfoil {
namespace {

PrintTerms terms_of(const TestDesk& test, const std::string& stack) {
  PrintTerms terms;
  terms.templates = kTemplates;
  terms.path = test.folder / "tags.pdf";
  terms.paper.stack = stack;
  return terms;
}

Result<Printed> print_some(TestDesk& test, std::vector<std::string> numbers, PrintTerms terms) {
  return print_pairs(*test.desk, {std::move(terms), "", std::move(numbers), "Jana"});
}

TEST(Paper, WhatIsLeftFollowsFromTheLogOfADeskThatWasOpenedAgain) {
  TestDesk test;
  const auto numbers = test.issue(3);
  ASSERT_TRUE(print_some(test, {numbers[0].text(), numbers[1].text(), numbers[2].text()},
                         terms_of(test, "drawer 2")));
  auto again = Desk::open(test.folder.path(), "", test.clock);
  ASSERT_TRUE(again);
  const auto stacks = stacks_on_record(*again);
  ASSERT_TRUE(stacks);
  EXPECT_EQ(stacks->at("drawer 2").next(), 7);
  const auto printed = print_some(test, {numbers[0].text()}, terms_of(test, " drawer 2 "));
  ASSERT_TRUE(printed) << printed.error().message;
  EXPECT_EQ(printed->sheet.first_label, 7);
  EXPECT_FALSE(printed->stack->is_begun());
  EXPECT_EQ(printed->stack->sheets, 1u);
}

TEST(Paper, WithoutAStackThePrintingTakesNoPaper) {
  TestDesk test;
  const auto numbers = test.issue(1);
  auto terms = terms_of(test, "");
  terms.paper.start_at = 3;
  const auto printed = print_some(test, {numbers[0].text()}, terms);
  ASSERT_TRUE(printed) << printed.error().message;
  EXPECT_EQ(printed->paper, "starts at label 3 of the part sheet; leaves 4 labels (5-8)");
  ASSERT_EQ(test.desk->all_events()->size(), 3u);
  const Event event = test.desk->all_events()->back().event;
  EXPECT_EQ(event.step, Step::printing);
  EXPECT_EQ(event.number, numbers[0]);
  EXPECT_FALSE(event.paper);
}

TEST(Paper, ADrawingThatFailsTakesNothing) {
  TestDesk test;
  const auto numbers = test.issue(1);
  auto terms = terms_of(test, "drawer 2");
  terms.path = test.folder / "absent/tags.pdf";
  EXPECT_FALSE(print_some(test, {numbers[0].text()}, terms));
  EXPECT_TRUE(stacks_on_record(*test.desk)->empty());
  EXPECT_EQ(test.desk->all_events()->size(), 2u);
}

TEST(Paper, APrintingThatCannotBeLoggedLeavesNoSheet) {
  TestDesk test;
  const auto numbers = test.issue(1);
  std::filesystem::remove(test.desk->paths().key);
  EXPECT_FALSE(print_some(test, {numbers[0].text()}, terms_of(test, "drawer 2")));
  EXPECT_FALSE(std::filesystem::exists(test.folder / "tags.pdf"));
}

TEST(Paper, OneEntryOfSeveralReprintsTakesTheSheet) {
  TestDesk test;
  const auto numbers = test.issue(2);
  const auto printed = reprint_halves(
      *test.desk,
      {terms_of(test, "drawer 2"), {numbers[0].text(), numbers[1].text()}, Half::bag, "washed out", ""});
  ASSERT_TRUE(printed) << printed.error().message;
  const auto events = *test.desk->all_events();
  ASSERT_EQ(events.size(), 5u);
  EXPECT_EQ(events[3].event.paper, (PaperUse{"drawer 2", "a4-2x4", 8, std::nullopt, {}, 1, {1, 2}}));
  EXPECT_FALSE(events[4].event.paper);
}

TEST(Paper, WhatAPersonSaysIsKeptWithWhoAndWhy) {
  TestDesk test;
  StackOrder order;
  order.paper = {"drawer 2", kNotSaid, "7,8"};
  order.stock = "a4-2x4";
  order.templates = kTemplates;
  order.by = "Jana";
  order.reason = "oil on it";
  const auto stack = correct_stack(*test.desk, order);
  ASSERT_TRUE(stack) << stack.error().message;
  ASSERT_TRUE(*stack);
  EXPECT_EQ((*stack)->gone, (std::set<int>{7, 8}));
  const Event event = test.desk->all_events()->back().event;
  EXPECT_EQ(event.step, Step::stock_taking);
  EXPECT_EQ(event.by, "Jana");
  EXPECT_EQ(event.reason, "oil on it");
  EXPECT_EQ(*event.paper, (PaperUse{"drawer 2", "a4-2x4", 8, std::nullopt, {7, 8}, 0, {}}));
}

// "Next label 2" was said of a sheet whose next pair comes on 3 and 4.
TEST(Paper, TheNextPairIsWhereBothItsLabelsAreFree) {
  const auto with_gone = [](std::set<int> gone) {
    Stack stack;
    stack.name = "drawer 2";
    stack.stock = "a4-2x4";
    stack.labels = 8;
    stack.gone = std::move(gone);
    const auto pair = next_pair(stack, kTemplates);
    return pair ? *pair : throw std::runtime_error(pair.error().message);
  };
  EXPECT_EQ(with_gone({}), 1);
  EXPECT_EQ(with_gone({1}), 3);
  EXPECT_EQ(with_gone({1, 2, 4}), 5);
  EXPECT_EQ(with_gone({1, 4, 6, 7}), std::nullopt);
  Stack own;
  own.stock = "shelf";
  EXPECT_FALSE(next_pair(own, kTemplates));
}

TEST(Paper, AWholeSheetOnAWholeSheetIsNoEntry) {
  TestDesk test;
  StackOrder order;
  order.paper.stack = "drawer 2";
  order.stock = "a4-2x4";
  order.templates = kTemplates;
  ASSERT_TRUE(correct_stack(*test.desk, order));
  order.new_sheet = true;
  const auto again = correct_stack(*test.desk, order);
  ASSERT_TRUE(again) << again.error().message;
  EXPECT_FALSE(*again);
  EXPECT_EQ(test.desk->all_events()->size(), 2u);
  order.paper.spoiled = "2";
  ASSERT_TRUE(*correct_stack(*test.desk, order));
  EXPECT_EQ(test.desk->all_events()->size(), 3u);
}

TEST(Paper, ARollIsNoStack) {
  TestDesk test;
  StackOrder order;
  order.paper.stack = "roll";
  order.stock = "roll-4x6in";
  order.templates = kTemplates;
  EXPECT_FALSE(correct_stack(*test.desk, order));
  EXPECT_EQ(test.desk->all_events()->size(), 1u);
}

}  // namespace
}  // namespace counterfoil
