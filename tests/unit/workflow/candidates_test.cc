#include "workflow/candidates.h"

#include "support/test_desk.h"

namespace counterfoil {
namespace {

class Candidates : public testing::Test {
 protected:
  Candidates() : numbers(test.issue(40)) {}

  std::string with(std::size_t i, std::size_t place, char c) const {
    std::string text = numbers[i].text();
    text[place] = c;
    return text;
  }
  void retire(std::size_t i) {
    ASSERT_TRUE(void_numbers(*test.desk, {{numbers[i].text()}, "tag torn", "Jana"}));
  }

  TestDesk test;
  std::vector<Number> numbers;
};

TEST_F(Candidates, TheNumberWithAGapComesFirst) {
  const Record record = *test.desk->record();
  const auto found = candidates(record, with(3, 5, '?'));
  ASSERT_FALSE(found.empty());
  EXPECT_EQ(found.front().trip->number, numbers[3]);
  EXPECT_EQ(found.front().fit, Fit::as_typed);
}

TEST_F(Candidates, RetiredNumbersStandBehindThoseInUseAndSaySo) {
  retire(0);
  const Record record = *test.desk->record();
  const auto found = candidates(record, "??????????");
  ASSERT_EQ(found.size(), numbers.size());
  EXPECT_EQ(found.back().trip->number, numbers[0]);
  EXPECT_EQ(found.back().retired, "voided: tag torn");
  EXPECT_TRUE(found.front().retired.empty());
  EXPECT_NE(tag_line(*found.back().trip).find("RETIRED, voided: tag torn"), std::string::npos);
}

TEST_F(Candidates, ALookAlikeStandsBeforeAnotherSlip) {
  const Record record = *test.desk->record();
  for (const auto& number : numbers) {
    for (std::size_t place = 2; place < 8; ++place) {
      std::string typed = number.text();
      if (typed[place] != '8') continue;
      typed[place] = 'B';
      const auto found = candidates(record, typed);
      ASSERT_FALSE(found.empty());
      EXPECT_EQ(found.front().fit, Fit::look_alike);
      return;
    }
  }
  FAIL() << "no number of forty has an 8";
}

TEST_F(Candidates, TheListEndsAtTwentyAndCountsTheRest) {
  const Record record = *test.desk->record();
  const auto list = candidate_list(candidates(record, "??????????"), false);
  EXPECT_NE(list.find("... and 20 more"), std::string::npos) << list;
  EXPECT_NE(list.find(" S1 (suction), TA26, tag only"), std::string::npos) << list;
}

// A number that one candidate alone fits is still for a person to say.
TEST_F(Candidates, ANumberWithAGapIsNeverTaken) {
  const auto number = parse_number(*test.desk, with(3, 5, '?'));
  ASSERT_FALSE(number);
  EXPECT_EQ(number.error().kind, ErrorKind::malformed);
  EXPECT_NE(number.error().message.find("is not read in full"), std::string::npos) << number.error().message;
  EXPECT_NE(number.error().hint.find(numbers[3].grouped()), std::string::npos) << number.error().hint;
}

TEST_F(Candidates, ASlipThatOnlyARetiredNumberExplainsSaysThatItIsRetired) {
  retire(3);
  std::string typed = numbers[3].text();
  std::swap(typed[4], typed[5]);
  if (typed == numbers[3].text()) FAIL() << "two equal neighbours";
  const auto number = parse_number(*test.desk, typed);
  ASSERT_FALSE(number);
  EXPECT_NE(number.error().hint.find("RETIRED"), std::string::npos) << number.error().hint;
}

}  // namespace
}  // namespace counterfoil
