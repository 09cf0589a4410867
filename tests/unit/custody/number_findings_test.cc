// Numbers, halves, serials and due dates: each finding raised when it should be and not raised when it should
// not.
#include <gtest/gtest.h>

#include "story.h"

namespace counterfoil {
namespace {

using Refs = std::vector<EventRef>;
const Number kA = number_of(0);
const Number kB = number_of(1);

TEST(NumberTest, NeverIssuedWhenTheDeskIsKnown) {
  Story story;
  const auto removing = story.step(Step::removing, kA, "2026-11-25T09:00:00Z");
  const auto found = story.findings();
  ASSERT_EQ(kinds(found), "never issued");
  EXPECT_EQ(found[0].events, Refs{removing});
  story.issue(kA);  // the entry came later, from another log
  EXPECT_EQ(kinds(story.findings()), "");
}

TEST(NumberTest, IssuedElsewhereWhenItIsNot) {
  Story story;
  story.step(Step::removing, number_of(0, "V2"), "2026-11-25T09:00:00Z");
  EXPECT_EQ(kinds(story.findings()), "issued elsewhere");
  story.found("kettle.example/vendor", "Kettle Valve Works", "vendor", "V2");
  EXPECT_EQ(kinds(story.findings()), "never issued");
}

// A record of one desk; the story's own storeroom is left out.
std::string kinds_at(const std::string& role, const std::vector<Step>& steps, const Number& number) {
  Record record;
  Event founding = event_at(Step::founding, "2026-11-20T07:00:00Z");
  founding.desk = DeskCard{"Kettle Valve Works", role, "V2", "verifier key", ""};
  std::uint64_t position = 0;
  record.apply({"kettle.example/vendor", position++}, founding);
  for (const Step step : steps) {
    Event event = event_at(step, "2026-11-25T09:00:00Z");
    event.number = number;
    record.apply({"kettle.example/vendor", position++}, event);
  }
  return kinds(record.findings(moment("2026-11-26T12:00:00Z"), 14));
}

TEST(ForeignNumberTest, IsTheOrdinaryWorkOfVendorsAndMechanics) {
  for (const Step first : {Step::receiving, Step::unpacking, Step::packing, Step::removing}) {
    for (const char* role : {"vendor", "mechanic"}) EXPECT_EQ(kinds_at(role, {first}, kA), "") << role;
    EXPECT_EQ(kinds_at("storeroom", {first}, kA),
              first == Step::removing ? "issued elsewhere" : "step out of order, issued elsewhere");
  }
  EXPECT_EQ(kinds_at("vendor", {Step::receiving, Step::unpacking, Step::repairing, Step::packing}, kA), "");
}

TEST(ForeignNumberTest, OnlyWhatWentBeforeIsToldElsewhere) {
  EXPECT_EQ(kinds_at("vendor", {Step::receiving, Step::receiving}, kA), "step out of order");
}

TEST(ForeignNumberTest, ANumberOfTheDesksOwnIsNone) {
  EXPECT_EQ(kinds_at("vendor", {Step::receiving}, number_of(0, "V2")), "step out of order, never issued");
}

TEST(ForeignNumberTest, AStoreroomInTheRecordWantsToKnow) {
  Story story;
  story.found("kettle.example/vendor", "Kettle Valve Works", "vendor", "V2");
  Event event = event_at(Step::receiving, "2026-11-25T09:00:00Z");
  event.number = number_of(0, "M4");
  story.log(event, "kettle.example/vendor");
  EXPECT_EQ(kinds(story.findings()), "step out of order, issued elsewhere");
}

TEST(NumberTest, IssuedTwice) {
  Story story;
  const auto first = story.issue(kA);
  EXPECT_EQ(kinds(story.findings()), "");
  const auto second = story.issue(kA);
  const auto found = story.findings();
  ASSERT_EQ(kinds(found), "issued twice");
  EXPECT_EQ(found[0].events, (Refs{first, second}));
}

TEST(NumberTest, TwoDesksWithOnePrefix) {
  Story story;
  const auto second = story.found("kettle.example/vendor", "Kettle Valve Works", "vendor", "K7");
  const auto found = story.findings();
  ASSERT_EQ(kinds(found), "shared prefix");
  EXPECT_EQ(found[0].events.back(), second);
}

TEST(NumberTest, UntaggedOnlyWhileTheValveIsOut) {
  Story story;
  story.issue(kA);
  story.issue(kB);
  story.voiding(kB);
  EXPECT_EQ(kinds(story.findings()), "");
  const auto removing = story.step(Step::removing, kA, "2026-11-25T09:00:00Z", suction());
  const auto voiding = story.voiding(kA);
  const auto found = story.of_kind(FindingKind::untagged);
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].events, (Refs{removing, voiding}));
}

TEST(NumberTest, ANewTagFromTheSamePocketEndsUntagged) {
  Story story;
  story.issue(kA);
  story.step(Step::removing, kA, "2026-11-25T09:00:00Z", suction());
  story.voiding(kA);
  story.issue(kB);
  story.step(Step::removing, kB, "2026-11-25T09:00:00Z", suction());
  EXPECT_EQ(kinds(story.findings()), "pocket open");
  story.step(Step::installing, kB, "2026-11-29T09:00:00Z", suction());
  EXPECT_EQ(kinds(story.findings()), "");
}

TEST(CopyTest, AnOldCopyOnTheRoad) {
  for (const int copy : {1, 2, 3}) {
    Story story;
    story.issue(kA);
    story.reprint(kA, Half::bag, 2);
    Event event = event_at(Step::removing, "2026-11-25T09:00:00Z");
    event.number = kA;
    event.halves = {{Half::bag, copy}};
    const auto removing = story.log(event);
    const auto found = story.findings();
    ASSERT_EQ(kinds(found), copy == 1 ? "old copy" : copy == 3 ? "never issued" : "");
    if (!found.empty()) {
      EXPECT_EQ(found[0].events, Refs{removing});
    }
  }
}

TEST(SerialTest, TwoSerialsUnderOneNumber) {
  Story story;
  story.issue(kA);
  const auto first = story.tied_step(Step::removing, kA, "KV 1", "2026-11-25T09:00:00Z");
  story.tied_step(Step::packing, kA, "KV 1", "2026-11-25T10:00:00Z");
  EXPECT_EQ(kinds(story.findings()), "");
  const auto second = story.tied_step(Step::packing, kA, "KV 2", "2026-11-25T10:00:00Z");
  const auto found = story.findings();
  ASSERT_EQ(kinds(found), "two serials");
  EXPECT_EQ(found[0].events, (Refs{first, second}));
}

TEST(SerialTest, OneSerialOnTwoTripsAtOnce) {
  for (const bool ended : {false, true}) {
    Story story;
    story.issue(kA);
    story.issue(kB);
    const auto first = story.tied_step(Step::removing, kA, "KV 1", "2026-11-25T09:00:00Z", suction());
    if (ended) story.step(Step::installing, kA, "2026-11-25T10:00:00Z", suction());
    const auto second = story.tied_step(Step::removing, kB, "KV 1", "2026-11-26T09:00:00Z", suction());
    const auto found = story.of_kind(FindingKind::serial_twice);
    ASSERT_EQ(found.size(), ended ? 0u : 1u);
    if (!ended) {
      EXPECT_EQ(found[0].events, (Refs{first, second}));
    }
  }
}

TEST(SerialTest, AVoidedNumberEndsIt) {
  Story story;
  story.issue(kA);
  story.issue(kB);
  story.tied_step(Step::removing, kA, "KV 1", "2026-11-25T09:00:00Z");
  story.tied_step(Step::removing, kB, "KV 1", "2026-11-26T09:00:00Z");
  story.voiding(kB);
  EXPECT_TRUE(story.of_kind(FindingKind::serial_twice).empty());
}

TEST(SerialTest, InstalledHereAndRemovedThere) {
  for (const char* pocket : {"2 HE S1", "2 HE S2"}) {
    Story story;
    story.serial_step(Step::removing, "KV 1", "2026-11-21T09:00:00Z", suction());
    const auto installing = story.serial_step(Step::installing, "KV 1", "2026-11-22T09:00:00Z", suction());
    const auto removing = story.serial_step(Step::removing, "KV 1", "2026-11-25T09:00:00Z", suction(pocket));
    const auto found = story.of_kind(FindingKind::wrong_pocket);
    ASSERT_EQ(found.size(), std::string(pocket) == "2 HE S2" ? 1u : 0u);
    if (!found.empty()) {
      EXPECT_EQ(found[0].events, (Refs{installing, removing}));
    }
  }
}

TEST(MatchingTest, EachVerdictStandsUntilALaterOneSaysMatched) {
  const std::pair<Verdict, const char*> cases[] = {
      {Verdict::matched, ""},          {Verdict::swapped, "swapped"}, {Verdict::alone, "alone"},
      {Verdict::doubled, "doubled"},   {Verdict::crowded, "crowded"}, {Verdict::voided, "after its end"},
      {Verdict::old_copy, "old copy"}, {Verdict::not_issued, ""}};
  for (const auto& [verdict, expected] : cases) {
    Story story;
    story.issue(kA);
    const auto matching = story.match(kA, verdict);
    const auto found = story.findings();
    EXPECT_EQ(kinds(found), expected) << to_text(verdict);
    if (!found.empty()) {
      EXPECT_EQ(found[0].events, Refs{matching});
    }
    story.match(kA, Verdict::matched);
    EXPECT_EQ(kinds(story.findings()), "") << to_text(verdict);
  }
}

TEST(MatchingTest, SwapsComeInTwos) {
  Story story;
  story.issue(kA);
  story.issue(kB);
  const auto one = story.match(kA, Verdict::swapped, kB);
  const auto other = story.match(kB, Verdict::swapped, kA);
  const auto found = story.findings();
  ASSERT_EQ(kinds(found), "swapped, swapped");
  for (const auto& finding : found) EXPECT_EQ(finding.events, (Refs{one, other}));
  EXPECT_NE(found[0].what.find(kB.grouped()), std::string::npos);
  EXPECT_EQ(story.trip(kA).history.back(), other);
}

TEST(MatchingTest, AHalfThatNobodyIssuedIsNeverIssued) {
  Story story;
  const auto matching = story.match(kA, Verdict::not_issued);
  const auto found = story.findings();
  ASSERT_EQ(kinds(found), "never issued");
  EXPECT_EQ(found[0].events, Refs{matching});
}

TEST(MatchingTest, VoidingEndsWhatTheMatchingFound) {
  Story story;
  story.issue(kA);
  story.match(kA, Verdict::alone);
  story.voiding(kA);
  EXPECT_EQ(kinds(story.findings()), "");
  story.match(kA, Verdict::voided);
  EXPECT_EQ(kinds(story.findings()), "after its end");
}

// Shipped on 25 November; `due` may be empty.
EventRef ship(Story& story, const std::string& due) {
  story.issue(kA);
  story.step(Step::removing, kA, "2026-11-25T09:00:00Z");
  story.step(Step::packing, kA, "2026-11-25T10:00:00Z");
  Event event = event_at(Step::shipping, "2026-11-25T12:00:00Z");
  event.number = kA;
  event.due = due;
  event.to = "Kettle Valve Works";
  return story.log(event);
}

TEST(NotBackTest, FromTheDayAfterTheDueDate) {
  Story story;
  const auto shipping = ship(story, "2026-12-20");
  EXPECT_EQ(kinds(story.findings("2026-12-20T23:00:00Z", 3)), "");
  const auto found = story.findings("2026-12-21T00:00:00Z", 3);
  ASSERT_EQ(kinds(found), "not back");
  EXPECT_EQ(found[0].events, Refs{shipping});
  EXPECT_NE(found[0].what.find("Kettle Valve Works"), std::string::npos);
}

TEST(NotBackTest, WithoutADueDateAfterTheTransitDays) {
  Story story;
  ship(story, "");
  EXPECT_EQ(kinds(story.findings("2026-11-28T12:00:00Z", 3)), "");
  EXPECT_EQ(kinds(story.findings("2026-11-29T12:00:00Z", 3)), "not back");
}

TEST(NotBackTest, NotOnceTheStoreroomReceivedIt) {
  Story story;
  ship(story, "2026-12-20");
  story.step(Step::receiving, kA, "2026-12-18T12:00:00Z");
  EXPECT_TRUE(story.of_kind(FindingKind::not_back, "2027-01-10T00:00:00Z").empty());
}

TEST(SettlingTest, ClosesWhatWasAndNotWhatComes) {
  Story story;
  story.issue(kA);
  story.step(Step::removing, kA, "2026-11-25T09:00:00Z");
  story.step(Step::removing, kA, "2026-11-25T09:10:00Z");
  ASSERT_EQ(kinds(story.findings()), "removed twice");
  story.settle(kB);
  EXPECT_EQ(kinds(story.findings()), "removed twice");
  story.settle(kA);
  EXPECT_EQ(kinds(story.findings()), "");
  story.step(Step::removing, kA, "2026-11-25T09:20:00Z");
  EXPECT_EQ(kinds(story.findings()), "removed twice");
}

TEST(SettlingTest, OfAnUnknownNumberMakesNoTrip) {
  Story story;
  story.settle(kA);
  EXPECT_TRUE(story.record.trips().empty());
}

TEST(SettlingTest, BySerialAndByPocket) {
  Story story;
  story.serial_step(Step::removing, "KV 1", "2026-11-25T09:00:00Z", suction());
  story.serial_step(Step::removing, "KV 1", "2026-11-25T10:00:00Z", suction());
  EXPECT_EQ(kinds(story.findings()), "removed twice, pocket open");
  Event event = event_at(Step::settling, "2026-11-29T08:00:00Z");
  event.serial = "KV 1";
  event.reason = "logged by two";
  story.log(event);
  EXPECT_EQ(kinds(story.findings()), "pocket open");
  event.serial.clear();
  event.pocket = Pocket{"U2", "2 HE S1", std::nullopt};
  event.reason = "blanked off";
  story.log(event);
  EXPECT_EQ(kinds(story.findings()), "");
}

}  // namespace
}  // namespace counterfoil
