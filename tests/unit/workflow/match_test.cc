#include "workflow/match.h"

#include "support/test_desk.h"

namespace counterfoil {
namespace {

class MatchHalves : public testing::Test {
 protected:
  MatchHalves() : numbers(test.issue(6)) {}

  Payload bag(std::size_t i, int copy = 1) const { return {numbers[i], Half::bag, copy}; }
  Payload box(std::size_t i, int copy = 1) const { return {numbers[i], Half::box, copy}; }
  static MatchGroup photo(std::vector<Payload> halves) { return {std::move(halves), {}, "photo"}; }

  std::vector<MatchLine> match(const std::vector<MatchGroup>& groups) const {
    return match_halves(groups, *test.desk->record(), {});
  }
  const MatchLine& line(const std::vector<MatchLine>& lines, std::size_t i) const {
    for (const auto& line : lines)
      if (line.number == numbers[i]) return line;
    throw std::runtime_error("no line for that number");
  }

  TestDesk test;
  std::vector<Number> numbers;
};

TEST_F(MatchHalves, BagWithItsOwnBoxIsMatched) {
  const auto lines = match({photo({bag(0), box(0)})});
  ASSERT_EQ(lines.size(), 1u);
  EXPECT_EQ(lines[0].verdict, Verdict::matched);
  EXPECT_TRUE(lines[0].next.empty());
}

TEST_F(MatchHalves, HalvesSeenEachByItselfAreMatchedByNumber) {
  const auto lines = match({photo({box(1)}), photo({bag(1)})});
  ASSERT_EQ(lines.size(), 1u);
  EXPECT_EQ(lines[0].verdict, Verdict::matched);
}

TEST_F(MatchHalves, ASwapNamesBothWhenBothWereSeen) {
  const auto lines = match({photo({bag(0), box(1)}), photo({bag(1), box(0)}), photo({bag(2), box(2)})});
  ASSERT_EQ(lines.size(), 3u);
  EXPECT_EQ(line(lines, 0).verdict, Verdict::swapped);
  EXPECT_EQ(line(lines, 0).other, numbers[1]);
  EXPECT_EQ(line(lines, 1).verdict, Verdict::swapped);
  EXPECT_EQ(line(lines, 1).other, numbers[0]);
  EXPECT_NE(line(lines, 0).what.find("and box " + numbers[0].grouped() + " with bag " + numbers[1].grouped()),
            std::string::npos)
      << line(lines, 0).what;
  EXPECT_EQ(line(lines, 2).verdict, Verdict::matched);
  EXPECT_EQ(lines.back().verdict, Verdict::matched) << "what is right comes last";
}

TEST_F(MatchHalves, OneSideOfASwapTellsWhereToLookForTheOther) {
  const auto lines = match({photo({bag(0), box(1)})});
  ASSERT_EQ(lines.size(), 2u);
  EXPECT_EQ(line(lines, 0).verdict, Verdict::swapped);
  EXPECT_NE(
      line(lines, 0).next.find("bag " + numbers[1].grouped() + ", likely with box " + numbers[0].grouped()),
      std::string::npos)
      << line(lines, 0).next;
  EXPECT_EQ(line(lines, 1).verdict, Verdict::swapped);
  EXPECT_NE(
      line(lines, 1).next.find("bag " + numbers[1].grouped() + ", likely with box " + numbers[0].grouped()),
      std::string::npos)
      << line(lines, 1).next;
}

TEST_F(MatchHalves, AHalfWithoutItsTwinIsAlone) {
  const auto lines = match({photo({box(3)})});
  ASSERT_EQ(lines.size(), 1u);
  EXPECT_EQ(lines[0].verdict, Verdict::alone);
  EXPECT_NE(lines[0].what.find("no bag half"), std::string::npos) << lines[0].what;
  EXPECT_NE(lines[0].next.find("U2 / 2 D1"), std::string::npos)
      << "the pocket helps to find it: " << lines[0].next;
}

TEST_F(MatchHalves, OneHalfTwiceOnAPhotographIsDoubled) {
  EXPECT_EQ(match({photo({bag(0), bag(0), box(0)})})[0].verdict, Verdict::doubled);
}

TEST_F(MatchHalves, TwoPhotographsOfOnePairAreNotDoubled) {
  EXPECT_EQ(match({photo({bag(0), box(0)}), photo({bag(0), box(0)}), photo({bag(0)})})[0].verdict,
            Verdict::matched);
}

TEST_F(MatchHalves, ABagWithTwoBoxesIsDoubled) {
  const auto lines = match({photo({bag(0), box(0)}), photo({bag(0), box(1)})});
  EXPECT_EQ(line(lines, 0).verdict, Verdict::doubled);
}

TEST_F(MatchHalves, ABoxWithTwoBagsIsCrowded) {
  const auto lines = match({photo({bag(0), bag(1), box(0)})});
  EXPECT_EQ(line(lines, 0).verdict, Verdict::crowded);
  EXPECT_EQ(line(lines, 0).other, numbers[1]);
}

TEST_F(MatchHalves, AVoidedNumberIsToldWithItsReason) {
  ASSERT_TRUE(void_numbers(*test.desk, {{numbers[0].text()}, "box crushed", ""}));
  const auto lines = match({photo({bag(0), box(0)})});
  EXPECT_EQ(lines[0].verdict, Verdict::voided);
  EXPECT_NE(lines[0].what.find("box crushed"), std::string::npos);
}

TEST_F(MatchHalves, AnOldCopyIsToldFromTheNewest) {
  ASSERT_TRUE(test.desk->append([&]() -> Result<std::vector<Event>> {
    Event event;
    event.step = Step::reprinting;
    event.at = test.clock.now();
    event.number = numbers[0];
    event.halves = {{Half::bag, 2}};
    event.reason = "washed out";
    return std::vector<Event>{event};
  }));
  EXPECT_EQ(match({photo({bag(0, 1), box(0)})})[0].verdict, Verdict::old_copy);
  EXPECT_EQ(match({photo({bag(0, 2), box(0)})})[0].verdict, Verdict::matched);
  EXPECT_EQ(match({photo({bag(0, 2), box(0)}), photo({bag(0, 1)})})[0].verdict, Verdict::doubled)
      << "both copies are about";
}

// A vendor's daily work is numbers that others issued; "not issued" once hid their swaps.
TEST_F(MatchHalves, NumbersOfAnotherDeskAreJudgedByNumber) {
  std::vector<Number> foreign;
  for (std::uint32_t counter = 1; foreign.size() < 2; ++counter)
    if (auto number = number_at("Q2", counter)) foreign.push_back(*number);
  const auto right = match({photo({{foreign[0], Half::bag, 1}, {foreign[0], Half::box, 1}})});
  ASSERT_EQ(right.size(), 1u);
  EXPECT_EQ(right[0].verdict, Verdict::matched);
  EXPECT_NE(right[0].what.find("issued by desk Q2"), std::string::npos) << right[0].what;
  const auto crossed = match({photo({{foreign[0], Half::bag, 1}, {foreign[1], Half::box, 1}})});
  ASSERT_EQ(crossed.size(), 2u);
  EXPECT_EQ(crossed[0].verdict, Verdict::swapped);
  EXPECT_EQ(crossed[1].verdict, Verdict::swapped);
}

TEST_F(MatchHalves, ANumberOfOurPrefixThatWasNeverIssuedIsNot) {
  std::optional<Number> never;
  for (std::uint32_t counter = 500; !never; ++counter) never = number_at("K7", counter);
  EXPECT_EQ(match({photo({{*never, Half::bag, 1}, {*never, Half::box, 1}})})[0].verdict, Verdict::not_issued);
}

TEST_F(MatchHalves, ExpectedNumbersThatNothingShowsAreAlone) {
  const auto lines = match_halves({photo({bag(0), box(0)})}, *test.desk->record(), {numbers[0], numbers[5]});
  ASSERT_EQ(lines.size(), 2u);
  EXPECT_EQ(line(lines, 5).verdict, Verdict::alone);
  EXPECT_TRUE(line(lines, 5).halves.empty());
}

// Property: whatever permutation of boxes the bags lie in, exactly the displaced ones are swapped.
TEST_F(MatchHalves, EveryPermutationOfFourBoxesIsToldRight) {
  std::vector<std::size_t> boxes = {0, 1, 2, 3};
  do {
    std::vector<MatchGroup> groups;
    for (std::size_t i = 0; i < boxes.size(); ++i) groups.push_back(photo({bag(i), box(boxes[i])}));
    const auto lines = match(groups);
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      const bool right = boxes[i] == i;
      ASSERT_EQ(line(lines, i).verdict, right ? Verdict::matched : Verdict::swapped);
      if (!right) {
        ASSERT_EQ(line(lines, i).other, numbers[boxes[i]]);
      }
    }
  } while (std::next_permutation(boxes.begin(), boxes.end()));
}

TEST(MatchPhotos, TypedPairsAreLoggedAsEvents) {
  TestDesk test;
  const auto numbers = test.issue(2);
  MatchOrder order;
  order.pairs = {{numbers[0].grouped(), numbers[1].text()}, {numbers[1].text(), numbers[0].text()}};
  order.by = "Marek";
  order.dry_run = true;
  ASSERT_TRUE(match_photos(*test.desk, order));
  EXPECT_EQ(test.desk->all_events()->size(), 3u) << "a dry run writes nothing";
  order.dry_run = false;
  const auto report = match_photos(*test.desk, order);
  ASSERT_TRUE(report);
  EXPECT_FALSE(report->all_matched());
  const auto events = test.desk->all_events();
  ASSERT_EQ(events->size(), 5u);
  EXPECT_EQ(events->back().event.step, Step::matching);
  EXPECT_EQ(events->back().event.verdict, Verdict::swapped);

  order.pairs = {{numbers[0].text(), numbers[0].text()}, {numbers[1].text(), numbers[1].text()}};
  const auto put_right = match_photos(*test.desk, order);
  ASSERT_TRUE(put_right);
  EXPECT_TRUE(put_right->all_matched());
  EXPECT_TRUE(test.desk->record()->findings(test.clock.now(), 7).empty());
}

TEST(MatchPhotos, ATypingErrorLogsNothing) {
  TestDesk test;
  const auto numbers = test.issue(1);
  MatchOrder order;
  order.pairs = {{numbers[0].text(), "K7"}};
  EXPECT_FALSE(match_photos(*test.desk, order));
  EXPECT_FALSE(match_photos(*test.desk, {}));
  EXPECT_EQ(test.desk->all_events()->size(), 2u);
}

}  // namespace
}  // namespace counterfoil
