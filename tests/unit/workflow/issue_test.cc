#include "workflow/issue.h"

#include <set>

#include "support/test_desk.h"

namespace counterfoil {
namespace {

TEST(IssuePairs, NumbersAreFreshAcrossBatchesAndOpenings) {
  TestDesk test;
  std::set<Number> all;
  for (int batch = 0; batch < 20; ++batch) {
    auto desk = Desk::open(test.folder.path(), "", test.clock);
    ASSERT_TRUE(desk);
    auto issued = issue_pairs(*desk, {"TA" + std::to_string(batch), std::vector<PlannedPair>(50), ""});
    ASSERT_TRUE(issued);
    for (const auto& logged : *issued) {
      EXPECT_TRUE(all.insert(*logged.event.number).second);
      EXPECT_EQ(logged.event.number->prefix(), "K7");
    }
  }
  EXPECT_EQ(all.size(), 1000u);
}

TEST(IssuePairs, NeighboursInABatchDifferInThreeCharactersOfTheBody) {
  TestDesk test;
  auto issued = issue_pairs(*test.desk, {"TA26", std::vector<PlannedPair>(5000), ""});
  ASSERT_TRUE(issued);
  for (std::size_t i = 1; i < issued->size(); ++i) {
    const auto& a = (*issued)[i - 1].event.number->text();
    const auto& b = (*issued)[i].event.number->text();
    int differ = 0;
    for (std::size_t c = 0; c < 8; ++c) differ += a[c] != b[c] ? 1 : 0;
    ASSERT_GE(differ, 3) << a << " " << b;
  }
}

TEST(IssuePairs, OneBatchIsOneTransaction) {
  TestDesk test;
  test.issue(6);
  const auto report = test.desk->ledger().verify();
  ASSERT_TRUE(report);
  EXPECT_EQ(report->entries, 7u);
  EXPECT_EQ(report->checkpoints, 2u);  // the founding, the batch
}

TEST(IssuePairs, ATakenPocketRefusesTheWholeBatch) {
  TestDesk test;
  const auto numbers = test.issue(2);
  IssueOrder order{
      "TA26", {{Pocket{"U2", "9 S1", Side::suction}, ""}, {Pocket{"U2", "1 D1", Side::discharge}, ""}}, ""};
  const auto refused = issue_pairs(*test.desk, order);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().kind, ErrorKind::refused);
  EXPECT_NE(refused.error().message.find(numbers[1].grouped()), std::string::npos) << refused.error().message;
  EXPECT_EQ(test.desk->all_events()->size(), 3u);

  // Free again once the pair is voided, and free in another turnaround.
  ASSERT_TRUE(void_numbers(*test.desk, {{numbers[1].text()}, "torn", "Marek"}));
  EXPECT_TRUE(issue_pairs(*test.desk, order));
  order.turnaround = "TA27";
  EXPECT_TRUE(issue_pairs(*test.desk, order));
}

// One wrong word in a list once turned a pocket's side round, unseen.
TEST(IssuePairs, AListThatTurnsAPocketsSideRoundStops) {
  TestDesk test;
  test.issue(2);
  IssueOrder order{"TA27", {{Pocket{"u2", "1 d1", Side::suction}, ""}}, "Marek"};
  const auto stopped = issue_pairs(*test.desk, order);
  ASSERT_FALSE(stopped);
  EXPECT_TRUE(stopped.error().message.starts_with("STOP")) << stopped.error().message;
  order.reason = "unit was re-staged";
  order.second = "marek";
  EXPECT_FALSE(issue_pairs(*test.desk, order));
  EXPECT_EQ(test.desk->all_events()->size(), 3u);
  order.second = "Jana";
  const auto issued = issue_pairs(*test.desk, order);
  ASSERT_TRUE(issued);
  EXPECT_EQ(issued->front().event.second, "Jana");
  EXPECT_EQ(issued->front().event.pocket->text(), "U2 / 1 D1") << "as the record spells it";
}

TEST(IssuePairs, AskingForNothingOrTooMuchIsRefused) {
  TestDesk test;
  EXPECT_FALSE(issue_pairs(*test.desk, {"TA26", {}, ""}));
  EXPECT_FALSE(issue_pairs(*test.desk, {"", std::vector<PlannedPair>(1), ""}));
  EXPECT_FALSE(issue_pairs(*test.desk, {"TA26", std::vector<PlannedPair>(kLargestBatch + 1), ""}));
  EXPECT_EQ(test.desk->all_events()->size(), 1u);
}

TEST(VoidNumbers, AllOrNone) {
  TestDesk test;
  const auto numbers = test.issue(3);
  ASSERT_TRUE(void_numbers(*test.desk, {{numbers[0].text()}, "torn", ""}));
  EXPECT_FALSE(void_numbers(*test.desk, {{numbers[1].text(), numbers[0].text()}, "torn", ""}));
  EXPECT_TRUE(
      void_numbers(*test.desk, {{numbers[1].text(), numbers[2].text(), numbers[1].text()}, "torn", ""}));
  EXPECT_FALSE(void_numbers(*test.desk, {{numbers[2].text()}, "", ""}));
  const auto record = test.desk->record();
  ASSERT_TRUE(record);
  for (const auto& number : numbers) {
    EXPECT_TRUE(record->find(number)->voided);
    EXPECT_EQ(record->find(number)->void_reason, "torn");
  }
}

TEST(PocketList, TakesColumnsInAnyOrderAndSpreadsheetSeparators) {
  const auto pairs = parse_pocket_list("Pocket;Side;Unit\r\n2 HE S1;Suction;U2\r\n2 HE D1;;U2\r\n");
  ASSERT_TRUE(pairs);
  ASSERT_EQ(pairs->size(), 2u);
  EXPECT_EQ((*pairs)[0].pocket, (Pocket{"U2", "2 HE S1", Side::suction}));
  EXPECT_EQ((*pairs)[1].pocket, (Pocket{"U2", "2 HE D1", std::nullopt}));
}

TEST(PocketList, ErrorsNameTheLine) {
  const auto message = [](std::string_view csv) {
    const auto pairs = parse_pocket_list(csv);
    return pairs ? std::string("no error") : pairs.error().message;
  };
  EXPECT_EQ(message("unit,pocket\nU2,A\nU2,A\n"), "line 3: pocket U2 / A is on line 2 already");
  EXPECT_EQ(message("unit,pocket\nU2,\n"), "line 2: unit or pocket is empty");
  EXPECT_TRUE(message("unit,pocket,side\nU2,A,S\n").starts_with("line 2: "))
      << message("unit,pocket,side\nU2,A,S\n");
  EXPECT_EQ(message("unit,pocket,colour\nU2,A,red\n"), "line 1 has a column \"colour\" that is not known");
  EXPECT_EQ(message("pocket\nA\n"), "line 1 must name the columns unit and pocket");
  EXPECT_EQ(message("unit,pocket\n"), "the list has no pockets");
  EXPECT_TRUE(message("unit,pocket\nU2,\"A\nB\"\n").starts_with("line 2: "))
      << message("unit,pocket\nU2,\"A\nB\"\n");
}

}  // namespace
}  // namespace counterfoil
