// Sides that nobody could check, pockets with two sides, and what is told of a valve that was logged against
// its side more than once.
#include <gtest/gtest.h>

#include "story.h"

namespace counterfoil {
namespace {

using Refs = std::vector<EventRef>;
const Number kA = number_of(0);
const Number kB = number_of(1);
const Pocket kUnknown = {"U2", "1 HE D9", std::nullopt};

EventRef settle_pocket(Story& story, const Pocket& pocket) {
  Event event = event_at(Step::settling, "2026-11-29T08:00:00Z");
  event.pocket = pocket;
  event.reason = "looked at it";
  return story.log(event);
}

TEST(SideUncheckedTest, ThePocketsSideIsNotKnown) {
  Story story;
  story.issue(kA, discharge());
  story.step(Step::removing, kA, "2026-11-25T09:00:00Z", discharge());
  const auto installing = story.step(Step::installing, kA, "2026-11-26T09:00:00Z", kUnknown);
  const auto found = story.of_kind(FindingKind::side_unchecked);
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].subject, kA.grouped());
  EXPECT_EQ(found[0].what,
            kA.grouped() +
                " was installed in U2 / 1 HE D9, whose side is not known: suction or discharge "
                "was not checked");
  EXPECT_EQ(found[0].next, "look at the valve and the pocket; then settle it with what was seen");
  EXPECT_EQ(found[0].events, Refs{installing});
}

TEST(SideUncheckedTest, TheValvesSideIsNotKnown) {
  Story story;
  story.serial_step(Step::installing, "KV 1", "2026-11-26T09:00:00Z", discharge());
  const auto found = story.findings();
  ASSERT_EQ(kinds(found), "side not checked");
  EXPECT_EQ(found[0].what,
            "KV 1 was installed in U2 / 1 CE D1, and the valve's own side is not known: suction or discharge "
            "was not checked");
}

TEST(SideUncheckedTest, NeitherSideIsKnown) {
  Story story;
  story.serial_step(Step::installing, "KV 1", "2026-11-26T09:00:00Z", kUnknown);
  ASSERT_EQ(kinds(story.findings()), "side not checked");
  EXPECT_NE(story.findings()[0].what.find("whose side is not known, and the valve's own side is not known:"),
            std::string::npos);
}

TEST(SideUncheckedTest, WhatTheRecordLearnsLaterDecides) {
  for (const auto& [side, expected] :
       {std::pair{Side::discharge, ""}, std::pair{Side::suction, "side disagreement"}}) {
    Story story;
    story.issue(kA, discharge());
    story.step(Step::removing, kA, "2026-11-25T09:00:00Z", discharge());
    const auto installing = story.step(Step::installing, kA, "2026-11-26T09:00:00Z", kUnknown);
    story.issue(kB, Pocket{"U2", "1 HE D9", side});
    EXPECT_TRUE(story.of_kind(FindingKind::side_unchecked).empty());
    const auto found = story.of_kind(FindingKind::side_disagreement);
    EXPECT_EQ(kinds(found), expected);
    if (!found.empty()) {
      EXPECT_EQ(found[0].events, Refs{installing});
    }
  }
}

TEST(SideUncheckedTest, ALateRemovalDoesNotHideIt) {
  for (const bool known : {true, false}) {
    Story story;
    story.issue(kA);
    story.step(Step::installing, kA, "2026-11-26T09:00:00Z", discharge());
    story.step(Step::removing, kA, "2026-11-25T09:00:00Z", known ? discharge() : kUnknown);
    EXPECT_EQ(story.of_kind(FindingKind::side_unchecked).size(), known ? 0u : 1u);
  }
}

TEST(SideUncheckedTest, IsPutRightByRemovalOrSettlingAndNotByVoiding) {
  for (const std::string how : {"removed", "emptied", "settled", "pocket settled", "voided"}) {
    Story story;
    story.issue(kA);
    story.issue(kB);
    story.step(Step::installing, kA, "2026-11-25T09:00:00Z", discharge());
    ASSERT_EQ(story.of_kind(FindingKind::side_unchecked).size(), 1u);
    if (how == "removed") story.step(Step::removing, kA, "2026-11-26T09:00:00Z", discharge());
    if (how == "emptied") story.step(Step::removing, kB, "2026-11-26T09:00:00Z", discharge());
    if (how == "settled") story.settle(kA);
    if (how == "pocket settled") settle_pocket(story, discharge());
    if (how == "voided") story.voiding(kA);
    EXPECT_EQ(story.of_kind(FindingKind::side_unchecked).size(), how == "voided" ? 1u : 0u) << how;
  }
}

TEST(SerialSideTest, AnInstallationTeachesItForLaterTrips) {
  for (const bool removed : {true, false}) {
    Story story;
    story.serial_step(Step::installing, "KV 1", "2026-11-25T09:00:00Z", discharge());
    if (removed) story.serial_step(Step::removing, "KV 1", "2026-11-26T09:00:00Z", discharge());
    const ValveTrip* trip = story.record.with_serial("KV 1").back();
    EXPECT_EQ(trip->side(), Side::discharge);
    Event event = event_at(Step::installing, "2026-11-27T09:00:00Z");
    event.serial = "KV 1";
    event.pocket = suction();
    EXPECT_EQ(side_conflict(event, trip, std::nullopt),
              "the valve KV 1 is for discharge, and U2 / 2 HE S1 is a suction pocket");
    story.log(event);
    EXPECT_EQ(story.of_kind(FindingKind::side_disagreement).size(), 1u);
  }
}

TEST(SerialSideTest, ItGoesOnThroughARemovalFromAPocketOfUnknownSide) {
  Story story;
  story.serial_step(Step::removing, "KV 1", "2026-11-21T09:00:00Z", discharge());
  story.serial_step(Step::installing, "KV 1", "2026-11-22T09:00:00Z", kUnknown);
  story.serial_step(Step::removing, "KV 1", "2026-11-23T09:00:00Z", kUnknown);
  EXPECT_EQ(story.record.with_serial("KV 1").back()->side(), Side::discharge);
  story.issue(kA);
  story.tied_step(Step::packing, kA, "KV 1", "2026-11-24T09:00:00Z");
  EXPECT_EQ(story.trip(kA).side(), Side::discharge);
}

TEST(SerialSideTest, ItGoesOnUnderATag) {
  Story story;
  story.serial_step(Step::installing, "KV 1", "2026-11-22T09:00:00Z", discharge());
  story.issue(kA);
  story.tied_step(Step::removing, kA, "KV 1", "2026-11-23T09:00:00Z");
  EXPECT_EQ(story.trip(kA).removed_from, discharge());
  EXPECT_EQ(story.trip(kA).side(), Side::discharge);
}

// An installation against the valve's side, with a second person.
EventRef override_side(Story& story, Step step, const std::string& at, const Pocket& pocket) {
  Event event = event_at(step, at);
  event.number = kA;
  event.pocket = pocket;
  event.second = "Åse";
  event.reason = "the map is wrong";
  return story.log(event);
}

TEST(OverrideTest, TakingTheValveOutOfTheWrongPocketIsNoneAndPutsItRight) {
  Story story;
  story.issue(kA, suction());
  story.step(Step::removing, kA, "2026-11-25T09:00:00Z", suction());
  override_side(story, Step::installing, "2026-11-26T09:00:00Z", discharge());
  EXPECT_EQ(story.of_kind(FindingKind::side_disagreement).size(), 1u);
  story.step(Step::removing, kA, "2026-11-27T09:00:00Z", discharge());
  EXPECT_TRUE(story.of_kind(FindingKind::side_disagreement).empty());
}

TEST(OverrideTest, AnotherValvesRemovalOfBeforeDoesNotPutItRight) {
  for (const char* day : {"2026-11-24", "2026-11-27"}) {
    Story story;
    story.issue(kA, suction());
    story.issue(kB);
    story.step(Step::removing, kA, "2026-11-25T09:00:00Z", suction());
    override_side(story, Step::installing, "2026-11-26T09:00:00Z", discharge());
    story.step(Step::removing, kB, std::string(day) + "T09:00:00Z", discharge());
    EXPECT_EQ(story.of_kind(FindingKind::side_disagreement).size(),
              std::string(day) == "2026-11-24" ? 1u : 0u);
  }
}

TEST(OverrideTest, TwoAreBothNamed) {
  Story story;
  story.issue(kA, suction());
  const auto first = override_side(story, Step::removing, "2026-11-25T09:00:00Z", discharge());
  const auto second = override_side(story, Step::installing, "2026-11-26T09:00:00Z", suction());
  const auto found = story.of_kind(FindingKind::side_disagreement);
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].events, (Refs{first, second}));
  EXPECT_NE(found[0].what.find("also was removed from U2 / 1 CE D1 at 2026-11-25 09:00"), std::string::npos);
}

TEST(OverrideTest, OneThatWasPutRightOrSettledIsNotNamedAgain) {
  for (const bool settled : {true, false}) {
    Story story;
    story.issue(kA, suction());
    story.step(Step::removing, kA, "2026-11-25T09:00:00Z", suction());
    override_side(story, Step::installing, "2026-11-26T09:00:00Z", discharge());
    if (settled)
      story.settle(kA);
    else
      story.step(Step::installing, kA, "2026-11-27T09:00:00Z", suction());
    const auto last = override_side(story, Step::installing, "2026-11-28T09:00:00Z", discharge("1 CE D2"));
    const auto found = story.of_kind(FindingKind::side_disagreement);
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].events, Refs{last});
  }
}

TEST(PocketTwoSidesTest, ByTwoPairs) {
  Story story;
  const auto first = story.issue(kA, discharge("1 HE D1"));
  EXPECT_EQ(kinds(story.findings()), "");
  const auto second = story.issue(kB, suction("1 HE D1"));
  const auto found = story.findings();
  ASSERT_EQ(kinds(found), "pocket with two sides");
  EXPECT_EQ(found[0].subject, "U2 / 1 HE D1");
  EXPECT_EQ(found[0].what, "U2 / 1 HE D1 is discharge by entry 1 and suction by entry 2");
  EXPECT_EQ(found[0].next,
            "look at the unit's map and at the pocket; void the pairs that show the wrong side");
  EXPECT_EQ(found[0].events, (Refs{first, second}));
  EXPECT_EQ(story.record.side_of(kUnknown), std::nullopt);
  EXPECT_EQ(story.record.side_of({"U2", "1 HE D1", std::nullopt}), Side::suction);
}

TEST(PocketTwoSidesTest, ByAStep) {
  Story story;
  story.issue(kA, discharge("1 HE D1"));
  story.serial_step(Step::removing, "KV 1", "2026-11-25T09:00:00Z", suction("1 HE D1"));
  EXPECT_EQ(kinds(story.findings()), "side disagreement, pocket with two sides, pocket open");
}

TEST(PocketTwoSidesTest, TheLogIsNamedWhenThereAreTwo) {
  Story story;
  story.found("kettle.example/vendor", "Kettle Valve Works", "vendor", "V2");
  story.issue(kA, discharge("1 HE D1"));
  Event event = event_at(Step::storing, "2026-11-25T09:00:00Z");
  event.serial = "KV 1";
  event.pocket = suction("1 HE D1");
  story.log(event, "kettle.example/vendor");
  const auto found = story.of_kind(FindingKind::pocket_two_sides);
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].what,
            "U2 / 1 HE D1 is discharge by entry 1 of Žďár storeroom and suction by entry 1 of Kettle Valve "
            "Works");
}

TEST(PocketTwoSidesTest, EndsWhenThePairsOfOneSideAreAllVoided) {
  Story story;
  story.issue(kA, discharge("1 HE D1"));
  story.issue(kB, suction("1 HE D1"));
  story.issue(number_of(2), suction("1 HE D1"));
  story.voiding(kB);
  EXPECT_EQ(kinds(story.findings()), "pocket with two sides");
  story.voiding(number_of(2));
  EXPECT_EQ(kinds(story.findings()), "");
}

TEST(PocketTwoSidesTest, SettlingThePocketClosesWhatWasSaid) {
  Story story;
  story.issue(kA, discharge("1 HE D1"));
  story.issue(kB, suction("1 HE D1"));
  settle_pocket(story, discharge("1 HE D2"));
  EXPECT_EQ(kinds(story.findings()), "pocket with two sides");
  settle_pocket(story, discharge("1 HE D1"));
  EXPECT_EQ(kinds(story.findings()), "");
  story.issue(number_of(2), suction("1 HE D1"));
  EXPECT_EQ(kinds(story.findings()), "");
  story.issue(number_of(3), discharge("1 HE D1"));
  EXPECT_EQ(kinds(story.findings()), "pocket with two sides");
}

}  // namespace
}  // namespace counterfoil
