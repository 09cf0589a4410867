#include "workflow/issued_texts.h"

#include <algorithm>

#include "support/test_desk.h"
#include "workflow/log.h"

namespace counterfoil {
namespace {

class IssuedTexts : public testing::Test {
 protected:
  IssuedTexts() : numbers(test.issue(3)) {}

  std::vector<std::string> texts() const { return issued_texts(*test.desk->record()); }
  bool has(const std::string& text) const {
    const auto all = texts();
    return std::find(all.begin(), all.end(), text) != all.end();
  }
  void log(Step step, std::size_t i) {
    LogOrder order;
    order.step = step;
    order.numbers = {numbers[i].text()};
    order.unit = "U2";
    order.pocket = i % 2 == 0 ? "1 S1" : "1 D1";
    if (step == Step::destroying) order.unit = order.pocket = "";
    const auto done = log_step(*test.desk, order);
    ASSERT_TRUE(done) << done.error().message;
  }
  void reprint(std::size_t i) {
    ASSERT_TRUE(test.desk->append([&]() -> Result<std::vector<Event>> {
      Event event;
      event.step = Step::reprinting;
      event.at = test.desk->now();
      event.number = numbers[i];
      event.halves = {{Half::bag, 2}};
      return std::vector<Event>{event};
    }));
  }

  TestDesk test;
  std::vector<Number> numbers;
};

TEST_F(IssuedTexts, BothHalvesOfEachNumberAreKnown) {
  EXPECT_EQ(texts().size(), 6u);
  EXPECT_TRUE(has("CF1." + numbers[0].text() + ".BAG1"));
  EXPECT_TRUE(has("CF1." + numbers[2].text() + ".BOX1"));
}

TEST_F(IssuedTexts, EachCopyThatWasPrintedIsOutThere) {
  reprint(1);
  EXPECT_EQ(texts().size(), 7u);
  EXPECT_TRUE(has("CF1." + numbers[1].text() + ".BAG1"));
  EXPECT_TRUE(has("CF1." + numbers[1].text() + ".BAG2"));
  EXPECT_FALSE(has("CF1." + numbers[1].text() + ".BOX2"));
}

TEST_F(IssuedTexts, RetiredNumbersAreNotAmongThem) {
  ASSERT_TRUE(void_numbers(*test.desk, {{numbers[0].text()}, "tag torn", ""}));
  log(Step::removing, 1);
  EXPECT_TRUE(has("CF1." + numbers[1].text() + ".BAG1")) << "out and under way";
  log(Step::installing, 1);
  log(Step::destroying, 2);
  EXPECT_TRUE(texts().empty());
}

TEST_F(IssuedTexts, LabelsAreKnownUntilTheyAreVoided) {
  LogOrder order;
  order.label = true;
  order.unit = "U2";
  order.pocket = "1 S1";
  const auto done = log_step(*test.desk, order);
  ASSERT_TRUE(done) << done.error().message;
  const Number label = *done->lines.front().logged.event.number;
  EXPECT_TRUE(has("CF1." + label.text() + ".LBL1"));
  EXPECT_FALSE(has("CF1." + label.text() + ".BAG1"));
  ASSERT_TRUE(void_numbers(*test.desk, {{label.text()}, "lost", ""}));
  EXPECT_FALSE(has("CF1." + label.text() + ".LBL1"));
}

TEST_F(IssuedTexts, AnotherDesksNumberIsNotInUseHere) {
  LogOrder order;
  order.step = Step::receiving;
  order.numbers = {number_at("QX", 5)->text()};
  ASSERT_TRUE(log_step(*test.desk, order));
  EXPECT_EQ(texts().size(), 6u);
}

TEST(IssuedTextsOfAHost, TagsOfADeskWithAHostBearItsLink) {
  const TempFolder folder;
  const StoppedClock clock;
  auto desk = Desk::create(folder.path(), {"Sklad", "storeroom", "K7", "tags.example.com"}, "", clock);
  ASSERT_TRUE(desk);
  const auto issued = issue_pairs(*desk, {"TA26", {PlannedPair{}}, "Marek"});
  ASSERT_TRUE(issued);
  const std::string number = issued->front().event.number->text();
  EXPECT_EQ(issued_texts(*desk->record()),
            (std::vector<std::string>{"HTTPS://TAGS.EXAMPLE.COM/CF1/" + number + "/BAG1",
                                      "HTTPS://TAGS.EXAMPLE.COM/CF1/" + number + "/BOX1"}));
}

}  // namespace
}  // namespace counterfoil
