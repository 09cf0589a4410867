#include "workflow/print.h"

#include <filesystem>

#include "support/sheet_samples.h"
#include "support/test_desk.h"

namespace counterfoil {
namespace {

Result<Printed> print(TestDesk& test, const std::string& turnaround, std::vector<std::string> numbers) {
  PrintTerms terms;
  terms.templates = kTemplates;
  terms.path = test.folder / "tags.pdf";
  return print_pairs(*test.desk, {std::move(terms), turnaround, std::move(numbers), "Jana"});
}

// Pairs that were printed by their numbers left no trace, and could be printed again and again without a word.
TEST(Print, APairPrintedByItsNumberIsLoggedAndRemembered) {
  TestDesk test;
  const auto numbers = test.issue(2);
  const auto first = print(test, "", {numbers[0].text()});
  ASSERT_TRUE(first) << first.error().message;
  EXPECT_FALSE(first->before);
  const Event event = test.desk->all_events()->back().event;
  EXPECT_EQ(event.step, Step::printing);
  EXPECT_EQ(event.number, numbers[0]);
  EXPECT_EQ(event.by, "Jana");
  const auto printed_at = test.clock.moment;
  test.clock.moment.hour = 11;
  const auto again = print(test, "", {numbers[0].text()});
  ASSERT_TRUE(again) << again.error().message;
  ASSERT_TRUE(again->before);
  EXPECT_EQ(again->before->last, printed_at);
  const auto other = print(test, "", {numbers[1].text()});
  ASSERT_TRUE(other) << other.error().message;
  EXPECT_FALSE(other->before);
}

TEST(Print, APairPrintedWithItsTurnaroundIsRemembered) {
  TestDesk test;
  const auto numbers = test.issue(2);
  ASSERT_TRUE(print(test, "TA26", {}));
  const auto again = print(test, "", {numbers[1].text()});
  ASSERT_TRUE(again) << again.error().message;
  ASSERT_TRUE(again->before);
  EXPECT_EQ(again->before->last, test.clock.moment);
  EXPECT_EQ(again->before->pairs, std::vector<Number>{numbers[1]});
}

// Of forty pairs two were printed before, and all forty were to be destroyed.
TEST(Print, OnlyThePairsThatCameOutAreSaidToHave) {
  TestDesk test;
  const auto first = test.issue(2);
  ASSERT_TRUE(print(test, "TA26", {}));
  IssueOrder more{"TA26", {{std::nullopt, "V-17"}, {std::nullopt, "V-17"}}, "Marek"};
  const auto issued = issue_pairs(*test.desk, more);
  ASSERT_TRUE(issued) << issued.error().message;
  const auto all = print(test, "TA26", {});
  ASSERT_TRUE(all) << all.error().message;
  EXPECT_EQ(all->numbers.size(), 4u);
  ASSERT_TRUE(all->before);
  EXPECT_EQ(all->before->pairs, first);
}

TEST(Print, ANumberTypedTwiceIsPrintedOnceAndTold) {
  TestDesk test;
  const auto numbers = test.issue(2);
  const auto printed =
      print(test, "", {numbers[1].text(), numbers[0].text(), numbers[1].grouped(), numbers[1].text()});
  ASSERT_TRUE(printed) << printed.error().message;
  EXPECT_EQ(printed->numbers, (std::vector<Number>{numbers[1], numbers[0]}));
  EXPECT_EQ(printed->sheet.tags, 4);
  EXPECT_EQ(printed->named_again, std::vector<Number>{numbers[1]});
}

// One tag was refused after the other, each with another run.
TEST(Print, AllTextsWithoutRoomAreToldAtOnceWithAStockThatHasIt) {
  TestDesk test;
  const std::string name = "upper deck, outer row, first from the north";
  IssueOrder order{"TA26", {{Pocket{"U2", "1 S1", Side::suction}, "V-17"}}, "Marek"};
  for (const char* letter : {" A", " B"})
    order.pairs.push_back({Pocket{"U2", name + letter, Side::suction}, "V-17"});
  const auto issued = issue_pairs(*test.desk, order);
  ASSERT_TRUE(issued) << issued.error().message;
  const auto told = names_without_room(*test.desk, *issued, kTemplates, "letter-3x10");
  ASSERT_TRUE(told) << told.error().message;
  ASSERT_TRUE(*told);

  PrintTerms terms;
  terms.templates = kTemplates;
  terms.stock = "letter-3x10";
  terms.path = test.folder / "tags.pdf";
  const auto refused = print_pairs(*test.desk, {terms, "TA26", {}, "Jana"});
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().kind, ErrorKind::refused);
  EXPECT_EQ(refused.error().message, (*told)->message);
  EXPECT_EQ(refused.error().hint, (*told)->hint);
  for (std::size_t i : {1u, 2u}) {
    EXPECT_NE(refused.error().hint.find((*issued)[i].event.number->grouped()), std::string::npos);
    EXPECT_NE(refused.error().hint.find((*issued)[i].event.pocket->name), std::string::npos);
  }
  EXPECT_EQ(refused.error().hint.find((*issued)[0].event.number->grouped()), std::string::npos);
  const auto stock = refused.error().hint.find("--stock ");
  ASSERT_NE(stock, std::string::npos) << refused.error().hint;
  terms.stock = refused.error().hint.substr(stock + 8);
  const auto printed = print_pairs(*test.desk, {terms, "TA26", {}, "Jana"});
  EXPECT_TRUE(printed) << printed.error().message;
}

TEST(Print, ALookLeavesNoEntryAndNoSheet) {
  TestDesk test;
  const auto numbers = test.issue(3);
  const auto entries = test.desk->all_events()->size();
  PrintTerms terms;
  terms.templates = kTemplates;
  terms.path = test.folder / "tags.pdf";
  terms.preview = test.folder / "look.png";
  terms.preview_only = true;
  terms.paper.stack = "drawer";
  const auto looked = print_pairs(*test.desk, {terms, "TA26", {}, "Jana"});
  ASSERT_TRUE(looked) << looked.error().message;
  EXPECT_FALSE(looked->logged);
  EXPECT_EQ(looked->sheet.tags, 6);
  EXPECT_TRUE(looked->sheet.files.empty());
  EXPECT_TRUE(std::filesystem::exists(terms.preview));
  EXPECT_FALSE(std::filesystem::exists(terms.path));
  ASSERT_TRUE(reprint_halves(*test.desk, {terms, {numbers[0].text()}, Half::bag, "torn", "Jana"}));
  EXPECT_EQ(test.desk->all_events()->size(), entries);
  EXPECT_TRUE(stacks_on_record(*test.desk)->empty());
  const auto again = reprint_halves(*test.desk, {terms, {numbers[0].text()}, Half::bag, "torn", "Jana"});
  ASSERT_TRUE(again);
  EXPECT_EQ(again->copies.at(0).halves.at(0).copy, 2);
}

}  // namespace
}  // namespace counterfoil
