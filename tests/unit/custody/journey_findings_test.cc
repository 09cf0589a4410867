// Contradictions in the journey of one valve, each raised when it should be and not raised when it should
// not.
#include <gtest/gtest.h>

#include "story.h"

namespace counterfoil {
namespace {

using Refs = std::vector<EventRef>;
const Number kA = number_of(0);
const Number kB = number_of(1);

// The one finding of the kind; fails when there is another number of them.
Finding only(const Story& story, FindingKind kind) {
  auto found = story.of_kind(kind);
  EXPECT_EQ(found.size(), 1u) << to_text(kind) << " among: " << kinds(story.findings());
  return found.empty() ? Finding{} : found.front();
}

TEST(RemovedTwiceTest, NamesBothRemovals) {
  Story story;
  story.issue(kA);
  const auto first = story.step(Step::removing, kA, "2026-11-25T09:30:00+01:00", suction());
  const auto second = story.step(Step::removing, kA, "2026-11-25T11:10:00+01:00", discharge());
  const auto finding = only(story, FindingKind::removed_twice);
  EXPECT_EQ(finding.events, (Refs{first, second}));
  EXPECT_EQ(finding.subject, kA.grouped());
  EXPECT_EQ(finding.turnaround, "TA26");
  EXPECT_EQ(finding.what,
            kA.grouped() +
                " was removed from U2 / 2 HE S1 at 2026-11-25 09:30 and again from U2 / 1 CE D1 "
                "at 2026-11-25 11:10 with no installation between");
  EXPECT_EQ(finding.next, "find both valves; if two valves carry this number, issue a new tag for one");
}

TEST(RemovedTwiceTest, OneRemovalLoggedByTwoIsSaidToBePerhapsOne) {
  Story story;
  story.issue(kA);
  story.step(Step::removing, kA, "2026-11-25T09:30:00Z", suction());
  story.step(Step::removing, kA, "2026-11-25T09:40:00Z", suction());
  EXPECT_NE(only(story, FindingKind::removed_twice).next.find("one removal"), std::string::npos);
  EXPECT_TRUE(story.of_kind(FindingKind::pocket_twice).empty());
}

TEST(RemovedTwiceTest, StandsForALabelToo) {
  Story story;
  story.label(kA);
  story.step(Step::removing, kA, "2026-11-25T09:30:00Z");
  story.step(Step::removing, kA, "2026-11-26T09:30:00Z");
  only(story, FindingKind::removed_twice);
}

TEST(AfterEndTest, ATagIsUsedUpByTheInstallation) {
  Story story;
  story.issue(kA);
  story.step(Step::removing, kA, "2026-11-25T09:30:00Z", suction());
  const auto installing = story.step(Step::installing, kA, "2026-11-26T09:30:00Z", suction());
  EXPECT_EQ(kinds(story.findings()), "");
  const auto again = story.step(Step::removing, kA, "2026-11-27T09:30:00Z", suction());
  const auto finding = only(story, FindingKind::after_end);
  EXPECT_EQ(finding.events, (Refs{installing, again}));
  EXPECT_NE(finding.what.find("one tag used twice"), std::string::npos);
  EXPECT_TRUE(story.of_kind(FindingKind::removed_twice).empty());
}

TEST(AfterEndTest, NothingComesAfterDestruction) {
  Story story;
  story.issue(kA);
  story.step(Step::removing, kA, "2026-11-25T09:30:00Z");
  const auto destroying = story.step(Step::destroying, kA, "2026-11-26T09:30:00Z");
  EXPECT_EQ(kinds(story.findings()), "");
  const auto storing = story.step(Step::storing, kA, "2026-11-27T09:30:00Z");
  EXPECT_EQ(only(story, FindingKind::after_end).events, (Refs{destroying, storing}));
}

TEST(AfterEndTest, AStepAfterTheVoidingIsNamedWithItsReason) {
  Story story;
  story.issue(kA);
  const auto voiding = story.voiding(kA, "2026-11-24T08:00:00Z");
  EXPECT_EQ(kinds(story.findings()), "");
  const auto removing = story.step(Step::removing, kA, "2026-11-25T09:30:00Z");
  const auto finding = only(story, FindingKind::after_end);
  EXPECT_EQ(finding.events, (Refs{voiding, removing}));
  EXPECT_NE(finding.what.find("washed out"), std::string::npos);
}

TEST(AfterEndTest, ALateEntryOfBeforeTheVoidingIsNone) {
  Story story;
  story.issue(kA);
  story.voiding(kA, "2026-11-26T08:00:00Z");
  story.step(Step::removing, kA, "2026-11-25T09:30:00Z");
  EXPECT_TRUE(story.of_kind(FindingKind::after_end).empty());
}

struct Hole {
  const char* name;
  std::vector<Step> steps;  // the last one is the one that does not follow
  const char* missing;
  bool one_event;
};

class OutOfOrderTest : public testing::TestWithParam<Hole> {};

TEST_P(OutOfOrderTest, SaysWhatIsMissing) {
  const auto& hole = GetParam();
  Story story;
  story.issue(kA);
  Refs refs;
  int hour = 8;
  for (const Step step : hole.steps) {
    EXPECT_TRUE(story.of_kind(FindingKind::step_out_of_order).empty());
    refs.push_back(story.step(
        step, kA, "2026-11-25T" + std::string(hour < 10 ? "0" : "") + std::to_string(hour) + ":00Z"));
    ++hour;
  }
  const auto finding = only(story, FindingKind::step_out_of_order);
  EXPECT_NE(finding.what.find(hole.missing), std::string::npos) << finding.what;
  EXPECT_FALSE(finding.next.empty());
  if (hole.one_event) {
    EXPECT_EQ(finding.events, Refs{refs.back()});
  } else {
    EXPECT_EQ(finding.events, (Refs{refs[refs.size() - 2], refs.back()}));
  }
}

INSTANTIATE_TEST_SUITE_P(
    Holes, OutOfOrderTest,
    testing::Values(
        Hole{"InstalledNeverRemoved", {Step::installing}, "no removal is logged before it", true},
        Hole{"PackedNeverRemoved", {Step::packing}, "no removal is logged before it", true},
        Hole{"ReceivedNeverRemoved", {Step::receiving}, "no removal is logged before it", true},
        Hole{"ReceivedNeverShipped",
             {Step::removing, Step::packing, Step::receiving},
             "no shipping between",
             false},
        Hole{"ShippedNeverPacked", {Step::removing, Step::shipping}, "no packing between", false},
        Hole{"UnpackedNeverPacked", {Step::removing, Step::unpacking}, "no packing between", false},
        Hole{"InspectedInTheBox",
             {Step::removing, Step::packing, Step::inspecting},
             "no unpacking between",
             false},
        Hole{"InspectedOnTheRoad",
             {Step::removing, Step::packing, Step::shipping, Step::inspecting},
             "no receiving between",
             false},
        Hole{"ShippedTwice",
             {Step::removing, Step::packing, Step::shipping, Step::shipping},
             "no receiving between",
             false},
        Hole{"ReceivedTwice",
             {Step::removing, Step::packing, Step::shipping, Step::receiving, Step::receiving},
             "no shipping between",
             false},
        Hole{"PackedWhileInstalled",
             {Step::removing, Step::installing, Step::packing},
             "no removal between",
             false},
        Hole{"InstalledTwice",
             {Step::removing, Step::installing, Step::installing},
             "no removal between",
             false}),
    [](const auto& test) { return test.param.name; });

TEST(StepOrderTest, OneHoleIsToldOfOnce) {
  Story story;
  story.issue(kA);
  story.step(Step::packing, kA, "2026-11-25T10:00:00Z");
  story.step(Step::shipping, kA, "2026-11-25T11:00:00Z");
  story.step(Step::receiving, kA, "2026-11-26T11:00:00Z");
  EXPECT_EQ(kinds(story.findings()), "step out of order");
}

TEST(StepOrderTest, TwoCartonsAtOnceContradict) {
  for (const std::string second : {"C1", "C2", ""}) {
    Story story;
    story.issue(kA);
    story.step(Step::removing, kA, "2026-11-25T09:00:00Z");
    Event packing = event_at(Step::packing, "2026-11-25T10:00:00Z");
    packing.number = kA;
    packing.carton = "C1";
    story.log(packing);
    packing.carton = second;
    story.log(packing);
    EXPECT_EQ(kinds(story.findings()), second == "C2" ? "step out of order" : "") << second;
  }
}

TEST(WrongPocketTest, RemovedFromAnotherPocketThanMeant) {
  Story story;
  story.issue(kA, suction());
  const auto removing = story.step(Step::removing, kA, "2026-11-25T09:00:00Z", suction("2 HE S2"));
  const auto finding = only(story, FindingKind::wrong_pocket);
  EXPECT_EQ(finding.events, Refs{removing});
  EXPECT_EQ(
      finding.what,
      kA.grouped() + " is meant for U2 / 2 HE S1 and was removed from U2 / 2 HE S2 at 2026-11-25 09:00");
}

TEST(WrongPocketTest, InstalledElsewhereThanItCameFrom) {
  for (const char* pocket : {"2 HE S1", "2 HE S2", "2 HE S3"}) {
    Story story;
    story.issue(kA, suction("2 HE S1"));
    story.step(Step::removing, kA, "2026-11-25T09:00:00Z", suction("2 HE S2"));
    story.step(Step::installing, kA, "2026-11-26T09:00:00Z", suction(pocket));
    EXPECT_EQ(story.of_kind(FindingKind::wrong_pocket).size(), std::string(pocket) == "2 HE S3" ? 2u : 1u)
        << pocket;
  }
}

TEST(WrongPocketTest, ATagForNoPocketFitsAll) {
  Story story;
  story.issue(kA);
  story.step(Step::removing, kA, "2026-11-25T09:00:00Z", suction());
  EXPECT_TRUE(story.of_kind(FindingKind::wrong_pocket).empty());
}

TEST(TimeTest, AStepBeforeTheOneItFollows) {
  Story story;
  story.issue(kA);
  const auto removing = story.step(Step::removing, kA, "2026-11-25T09:00:00Z");
  const auto packing = story.step(Step::packing, kA, "2026-11-25T08:49:00Z");
  EXPECT_EQ(only(story, FindingKind::time_runs_back).events, (Refs{removing, packing}));
}

TEST(TimeTest, ClocksThatDifferByMinutesAreFine) {
  Story story;
  story.issue(kA);
  story.step(Step::removing, kA, "2026-11-25T09:00:00Z");
  story.step(Step::packing, kA, "2026-11-25T08:51:00Z");
  EXPECT_EQ(kinds(story.findings()), "");
}

TEST(TimeTest, APhotographOfATagFromBeforeItWasIssued) {
  for (const bool tag_seen : {true, false}) {
    Story story;
    const auto issue = story.issue(kA);
    Event event = event_at(Step::removing, "2026-11-18T09:00:00Z");
    event.known = TimeSource::photo;
    event.number = kA;
    if (tag_seen) event.halves = {{Half::bag, 1}};
    const auto removing = story.log(event);
    if (tag_seen) {
      EXPECT_EQ(only(story, FindingKind::time_runs_back).events, (Refs{issue, removing}));
    } else {
      EXPECT_EQ(kinds(story.findings()), "");  // pulled first, tagged later
    }
  }
}

TEST(TimeTest, AheadOfTheLogging) {
  for (const char* at : {"2026-11-30T12:05:00Z", "2026-12-24T18:00:00Z"}) {
    Story story;
    story.issue(kA);
    const auto removing = story.step(Step::removing, kA, at);
    const bool ahead = std::string(at) > "2026-12";
    EXPECT_EQ(kinds(story.findings()), ahead ? "time ahead" : "");
    if (ahead) {
      EXPECT_EQ(only(story, FindingKind::time_ahead).events, Refs{removing});
    }
  }
}

// An installation of the wrong side, with a second person.
EventRef install_wrongly(Story& story) {
  Event event = event_at(Step::installing, "2026-11-26T09:00:00Z");
  event.number = kA;
  event.pocket = discharge();
  event.second = "Åse";
  event.reason = "the map is wrong";
  return story.log(event);
}

TEST(SideDisagreementTest, IsTheWorstAndNamesTheSecondPerson) {
  Story story;
  story.issue(kA, suction());
  story.step(Step::removing, kA, "2026-11-25T09:00:00Z", suction());
  const auto installing = install_wrongly(story);
  ASSERT_FALSE(story.findings().empty());
  const auto finding = story.findings().front();
  EXPECT_EQ(finding.kind, FindingKind::side_disagreement);
  EXPECT_EQ(finding.events, Refs{installing});
  EXPECT_NE(finding.what.find("second person: Åse; reason: the map is wrong"), std::string::npos);
}

TEST(SideDisagreementTest, ARightInstallationPutsItRight) {
  Story story;
  story.issue(kA, suction());
  story.step(Step::removing, kA, "2026-11-25T09:00:00Z", suction());
  install_wrongly(story);
  story.step(Step::installing, kA, "2026-11-26T15:00:00Z", suction());
  EXPECT_TRUE(story.of_kind(FindingKind::side_disagreement).empty());
}

TEST(SideDisagreementTest, EmptyingThePocketPutsItRight) {
  for (const char* pocket : {"1 CE D1", "1 CE D2"}) {
    Story story;
    story.issue(kA, suction());
    story.step(Step::removing, kA, "2026-11-25T09:00:00Z", suction());
    install_wrongly(story);
    story.issue(kB);
    story.step(Step::removing, kB, "2026-11-27T09:00:00Z", discharge(pocket));
    EXPECT_EQ(story.of_kind(FindingKind::side_disagreement).size(),
              std::string(pocket) == "1 CE D1" ? 0u : 1u);
  }
}

TEST(SideDisagreementTest, ARemovalCanDisagreeWithTheTag) {
  Story story;
  story.issue(kA, suction());
  const auto removing = story.step(Step::removing, kA, "2026-11-25T09:00:00Z", discharge());
  EXPECT_EQ(only(story, FindingKind::side_disagreement).events, Refs{removing});
}

TEST(SideDisagreementTest, VoidingTheNumberDoesNotTakeTheValveOut) {
  Story story;
  story.issue(kA, suction());
  story.step(Step::removing, kA, "2026-11-25T09:00:00Z", suction());
  install_wrongly(story);
  story.voiding(kA);
  only(story, FindingKind::side_disagreement);
  story.settle(kA);
  EXPECT_TRUE(story.of_kind(FindingKind::side_disagreement).empty());
}

TEST(OtherPartTest, APartThatIsNotTheTags) {
  for (const char* part : {"P-77", "P-78"}) {
    Story story;
    story.issue(kA, suction(), "P-77");
    Event event = event_at(Step::removing, "2026-11-25T09:00:00Z");
    event.number = kA;
    event.part = part;
    const auto removing = story.log(event);
    const auto found = story.of_kind(FindingKind::other_part);
    ASSERT_EQ(found.size(), std::string(part) == "P-78" ? 1u : 0u);
    if (!found.empty()) {
      EXPECT_EQ(found[0].events, Refs{removing});
    }
  }
}

TEST(OtherPartTest, ALookAlikeInTheWrongPocket) {
  Story story;
  story.issue(kA, suction("2 HE S1"), "P-77");
  story.issue(kB, suction("1 HE S1"), "P-78");
  story.step(Step::removing, kA, "2026-11-25T09:00:00Z");
  const auto installing = story.step(Step::installing, kA, "2026-11-26T09:00:00Z", suction("1 HE S1"));
  EXPECT_EQ(only(story, FindingKind::other_part).events, Refs{installing});
}

TEST(OtherPartTest, ARepairMayChangeIt) {
  Story story;
  story.issue(kA, std::nullopt, "P-77");
  story.step(Step::removing, kA, "2026-11-25T09:00:00Z");
  Event event = event_at(Step::repairing, "2026-11-26T09:00:00Z");
  event.number = kA;
  event.part = "P-77A";
  story.log(event);
  EXPECT_EQ(kinds(story.findings()), "");
  EXPECT_EQ(story.trip(kA).part, "P-77A");
}

}  // namespace
}  // namespace counterfoil
