#include "workflow/print.h"

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
  EXPECT_EQ(again->before, printed_at);
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
  EXPECT_EQ(again->before, test.clock.moment);
}

}  // namespace
}  // namespace counterfoil
