// Pockets and the plan of a turnaround: each finding raised when it should be and not raised when it should
// not.
#include <gtest/gtest.h>

#include "story.h"

namespace counterfoil {
namespace {

using Refs = std::vector<EventRef>;
const Number kA = number_of(0);
const Number kB = number_of(1);

TEST(PocketTest, OpenUntilAValveIsInstalled) {
  Story story;
  story.issue(kA);
  story.issue(kB);
  const auto removing = story.step(Step::removing, kA, "2026-11-25T09:00:00Z", suction());
  const auto found = story.findings();
  ASSERT_EQ(kinds(found), "pocket open");
  EXPECT_EQ(found[0].events, Refs{removing});
  EXPECT_EQ(found[0].subject, "U2 / 2 HE S1");
  EXPECT_EQ(found[0].turnaround, "TA26");
  story.step(Step::removing, kB, "2026-11-25T10:00:00Z", discharge());
  story.step(Step::installing, kA, "2026-11-26T09:00:00Z", suction());
  EXPECT_EQ(kinds(story.findings()), "pocket open");
  EXPECT_EQ(story.findings()[0].subject, "U2 / 1 CE D1");
}

TEST(PocketTest, ALateRemovalDoesNotOpenAFilledPocket) {
  Story story;
  story.serial_step(Step::installing, "KV 500", "2026-11-26T09:00:00Z", suction());
  story.issue(kA);
  story.step(Step::removing, kA, "2026-11-25T09:00:00Z", suction());
  EXPECT_EQ(kinds(story.findings()), "side not checked");  // of KV 500
}

TEST(PocketTest, EmptiedTwice) {
  Story story;
  story.issue(kA);
  story.issue(kB);
  const auto first = story.step(Step::removing, kA, "2026-11-25T09:00:00Z", suction());
  const auto second = story.step(Step::removing, kB, "2026-11-25T10:00:00Z", suction());
  const auto found = story.of_kind(FindingKind::pocket_twice);
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].events, (Refs{first, second}));
  EXPECT_NE(found[0].what.find("no installation between"), std::string::npos);
}

TEST(PocketTest, FilledTwice) {
  Story story;
  const auto first = story.serial_step(Step::installing, "KV 1", "2026-11-25T09:00:00Z", suction());
  const auto second = story.serial_step(Step::installing, "KV 2", "2026-11-25T12:00:00Z", suction());
  const auto found = story.of_kind(FindingKind::pocket_twice);
  ASSERT_EQ(kinds(found), "pocket twice");
  EXPECT_EQ(found[0].events, (Refs{first, second}));
  EXPECT_NE(found[0].what.find("no removal between"), std::string::npos);
}

TEST(PocketTest, OutAndInAndOutIsTheWayOfPockets) {
  Story story;
  story.issue(kA);
  story.issue(kB);
  story.step(Step::removing, kA, "2026-11-25T09:00:00Z", suction());
  story.step(Step::installing, kA, "2026-11-25T12:00:00Z", suction());
  story.step(Step::removing, kB, "2026-11-26T12:00:00Z", suction());
  EXPECT_EQ(kinds(story.findings()), "pocket open");
}

TEST(PocketTest, AnotherSerialCameOutThanWentIn) {
  for (const char* serial : {"KV 1", "KV 2"}) {
    Story story;
    const auto in = story.serial_step(Step::installing, "KV 1", "2026-11-21T09:00:00Z", suction());
    const auto out = story.serial_step(Step::removing, serial, "2026-11-25T09:00:00Z", suction());
    const auto found = story.of_kind(FindingKind::other_valve);
    ASSERT_EQ(found.size(), std::string(serial) == "KV 2" ? 1u : 0u);
    if (!found.empty()) {
      EXPECT_EQ(found[0].events, (Refs{in, out}));
    }
  }
}

TEST(NotRemovedTest, OnlyWhileOthersOfTheTurnaroundAreOut) {
  Story story;
  story.issue(kA, discharge());
  const auto planned = story.issue(kB, suction());
  EXPECT_EQ(kinds(story.findings()), "");
  const auto removing = story.step(Step::removing, kA, "2026-11-25T09:00:00Z");
  const auto found = story.of_kind(FindingKind::not_removed);
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].subject, kB.grouped());
  EXPECT_EQ(found[0].events, (Refs{planned, removing}));
}

TEST(NotRemovedTest, NotForSparesVoidedPairsAndOtherTurnarounds) {
  Story story;
  story.issue(kA, discharge());
  story.issue(number_of(2));  // a spare
  story.issue(kB, suction());
  story.voiding(kB);
  Event event = event_at(Step::commissioning, "2026-11-20T08:00:00Z");
  event.number = number_of(3);
  event.counter = 3;
  event.halves = {{Half::bag, 1}, {Half::box, 1}};
  event.turnaround = "TA30";
  event.pocket = suction("2 HE S2");
  story.log(event);
  story.step(Step::removing, kA, "2026-11-25T09:00:00Z");
  EXPECT_TRUE(story.of_kind(FindingKind::not_removed).empty());
}

TEST(NotRemovedTest, APairUsedAnyHowIsNotMissing) {
  Story story;
  story.issue(kA, discharge());
  story.issue(kB, suction());
  story.step(Step::removing, kA, "2026-11-25T09:00:00Z");
  story.step(Step::packing, kB, "2026-11-25T09:00:00Z");
  EXPECT_TRUE(story.of_kind(FindingKind::not_removed).empty());
}

}  // namespace
}  // namespace counterfoil
