// What comes first when entries are logged late or without a time, and entries that complete another.
#include <gtest/gtest.h>

#include "story.h"

namespace counterfoil {
namespace {

using Refs = std::vector<EventRef>;
const Number kA = number_of(0);
const Number kB = number_of(1);

// When: a stated time, or "logged 02:12".
Event event_when(Step step, const std::string& when) {
  const bool logged = when.starts_with("logged ");
  const std::string time = "2026-11-25T" + when.substr(logged ? 7 : 0) + ":00Z";
  Event event = event_at(step, time);
  event.logged = moment(logged ? time : "2026-11-25T12:00:00Z");
  event.known = logged ? TimeSource::logged : TimeSource::stated;
  return event;
}
EventRef tell(Story& story, Step step, const Number& number, const std::string& when,
              std::optional<Pocket> pocket = std::nullopt, const std::string& origin = Story::kOrigin) {
  Event event = event_when(step, when);
  event.number = number;
  event.pocket = std::move(pocket);
  return story.log(event, origin);
}
EventRef tell_serial(Story& story, Step step, const std::string& serial, const std::string& when,
                     std::optional<Pocket> pocket = std::nullopt) {
  Event event = event_when(step, when);
  event.serial = serial;
  event.pocket = std::move(pocket);
  return story.log(event);
}

struct Times {
  const char* name;
  const char* in;
  const char* out;
};
const Times kTimes[] = {{"BothStated", "01:00", "02:12"},
                        {"BothLogged", "logged 01:00", "logged 02:12"},
                        {"StatedThenLogged", "01:00", "logged 02:12"},
                        {"LoggedThenStated", "logged 01:00", "02:12"},
                        {"LoggedThenLoggedByASlowClock", "logged 02:12", "logged 01:00"}};

class InAndOutTest : public testing::TestWithParam<Times> {};
INSTANTIATE_TEST_SUITE_P(Times, InAndOutTest, testing::ValuesIn(kTimes),
                         [](const auto& test) { return test.param.name; });

// A removal with no time but that of its logging was put before the installation: the valve stayed installed.
TEST_P(InAndOutTest, ARemovalAfterTheInstallationLeavesTheValveOut) {
  Story story;
  story.issue(kA, suction());
  const auto in = tell(story, Step::installing, kA, GetParam().in, suction());
  const auto out = tell(story, Step::removing, kA, GetParam().out, suction());
  EXPECT_EQ(story.trip(kA).whereabouts, Whereabouts::pulled);
  EXPECT_EQ(story.trip(kA).journey, (Refs{in, out}));
  EXPECT_EQ(story.trip(kA).installed_in, std::nullopt);
  const auto open = story.of_kind(FindingKind::pocket_open);
  ASSERT_EQ(open.size(), 1u);
  EXPECT_EQ(open[0].events, Refs{out});
}

TEST_P(InAndOutTest, TheNextValveIsNotInstalledTwice) {
  for (const bool named : {true, false}) {
    Story story;
    const std::optional<Pocket> from = named ? std::optional(suction()) : std::nullopt;
    tell_serial(story, Step::installing, "KV 1", GetParam().in, suction());
    tell_serial(story, Step::removing, "KV 1", GetParam().out, from);
    const auto trips = story.record.with_serial("KV 1");
    ASSERT_EQ(trips.size(), 2u);
    EXPECT_EQ(trips[1]->whereabouts, Whereabouts::pulled);
    EXPECT_EQ(trips[1]->removed_from, suction());
    EXPECT_EQ(trips[1]->side(), Side::suction);
    EXPECT_EQ(story.of_kind(FindingKind::pocket_open).size(), 1u);
    tell_serial(story, Step::installing, "KV 2", "03:00", suction());
    EXPECT_TRUE(story.of_kind(FindingKind::pocket_twice).empty()) << named;
    EXPECT_TRUE(story.of_kind(FindingKind::pocket_open).empty()) << named;
  }
}

// The removal was logged an hour late, so that the next valve was in by the time of its logging.
TEST(PocketOrderTest, ALoggedRemovalComesBeforeTheInstallationThatFollowsIt) {
  for (const std::string out : {"logged 02:12", "02:12"}) {
    Story story;
    tell_serial(story, Step::installing, "KV 1", "01:00", suction());
    tell_serial(story, Step::removing, "KV 1", out, suction());
    tell_serial(story, Step::installing, "KV 2", "01:30", suction());
    EXPECT_EQ(story.of_kind(FindingKind::pocket_twice).size(), out == "02:12" ? 1u : 0u);
    EXPECT_EQ(story.of_kind(FindingKind::pocket_open).size(), out == "02:12" ? 1u : 0u);
  }
}

TEST(LateRemovalTest, AStatedTimePutsItBeforeTheInstallation) {
  for (const bool numbered : {true, false}) {
    for (const std::string in : {"02:00", "logged 02:00"}) {
      Story story;
      story.issue(kA, suction());
      if (numbered) {
        tell(story, Step::installing, kA, in, suction());
        tell(story, Step::removing, kA, "01:00", suction());
      } else {
        tell_serial(story, Step::installing, "KV 1", in, suction());
        tell_serial(story, Step::removing, "KV 1", "01:00", suction());
      }
      const auto& trip = numbered ? story.trip(kA) : *story.record.with_serial("KV 1").at(0);
      EXPECT_EQ(trip.whereabouts, Whereabouts::installed);
      EXPECT_EQ(trip.removed_from, suction());
      EXPECT_EQ(kinds(story.findings()), "");
    }
  }
}

TEST(LateRemovalTest, ALoggingInAnotherLogCanBeSurelyEarlier) {
  for (const std::string origin : {"kettle.example/vendor", Story::kOrigin}) {
    Story story;
    story.found("kettle.example/vendor", "Kettle Valve Works", "vendor", "V2");
    story.issue(kA);
    tell(story, Step::packing, kA, "logged 02:00");
    tell(story, Step::removing, kA, "logged 01:00", std::nullopt, origin);
    EXPECT_EQ(story.trip(kA).whereabouts,
              origin == Story::kOrigin ? Whereabouts::pulled : Whereabouts::packed);
  }
}

TEST(CompletionTest, ARemovalToldAgainWithItsPocketIsOneRemoval) {
  for (const std::string again : {"01:00", "logged 02:30", "00:30", "03:00"}) {
    Story story;
    story.issue(kA);
    const auto first = tell(story, Step::removing, kA, "logged 02:00");
    const auto second = tell(story, Step::removing, kA, again, suction());
    EXPECT_EQ(kinds(story.findings()), "pocket open") << again;
    EXPECT_EQ(story.findings().at(0).events, Refs{second});
    EXPECT_EQ(story.trip(kA).removed_from, suction());
    EXPECT_EQ(story.trip(kA).whereabouts, Whereabouts::pulled);
    EXPECT_EQ(story.trip(kA).journey, (Refs{first, second}));
    EXPECT_EQ(to_text(*story.trip(kA).since),
              again == "logged 02:30" ? "2026-11-25T02:00:00Z" : "2026-11-25T" + again + ":00Z");
    tell(story, Step::installing, kA, "04:00", suction());
    EXPECT_EQ(kinds(story.findings()), "");
  }
}

TEST(CompletionTest, OfASerialAndOfALabelToo) {
  Story story;
  story.label(kA);
  tell(story, Step::removing, kA, "01:00");
  tell(story, Step::removing, kA, "01:00", suction());
  EXPECT_EQ(kinds(story.findings()), "pocket open");
  tell_serial(story, Step::removing, "KV 1", "01:00");
  tell_serial(story, Step::removing, "KV 1", "01:00", discharge());
  EXPECT_EQ(kinds(story.findings()), "pocket open, pocket open");
  EXPECT_EQ(story.record.with_serial("KV 1").size(), 1u);
}

TEST(CompletionTest, AnyOtherSecondRemovalContradicts) {
  const std::optional<Pocket> none;
  const std::pair<std::optional<Pocket>, std::optional<Pocket>> cases[] = {
      {suction("2 HE S1"), suction("2 HE S2")}, {suction(), none}, {none, none}, {suction(), suction()}};
  for (const auto& [one, other] : cases) {
    Story story;
    story.issue(kA);
    const auto first = tell(story, Step::removing, kA, "01:00", one);
    const auto second = tell(story, Step::removing, kA, "01:00", other);
    const auto found = story.of_kind(FindingKind::removed_twice);
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].events, (Refs{first, second}));
  }
}

TEST(CompletionTest, NotOverAStepBetweenNorTwice) {
  Story story;
  story.issue(kA);
  tell(story, Step::removing, kA, "01:00");
  tell(story, Step::packing, kA, "02:00");
  tell(story, Step::removing, kA, "03:00", suction());
  EXPECT_EQ(story.of_kind(FindingKind::removed_twice).size(), 1u);
  story.issue(kB);
  tell(story, Step::removing, kB, "01:00");
  const auto second = tell(story, Step::removing, kB, "01:00", discharge());
  const auto third = tell(story, Step::removing, kB, "02:00", discharge());
  const auto found = story.of_kind(FindingKind::removed_twice);
  ASSERT_EQ(found.size(), 2u);
  EXPECT_EQ(found[1].events, (Refs{second, third}));
}

TEST(CompletionTest, ThePocketOfTheTagIsClosedAgainWhenItWasAnother) {
  for (const char* pocket : {"2 HE S1", "2 HE S2"}) {
    Story story;
    story.issue(kA, suction("2 HE S1"));
    tell(story, Step::removing, kA, "01:00");
    tell(story, Step::removing, kA, "01:00", suction(pocket));
    const auto open = story.of_kind(FindingKind::pocket_open);
    ASSERT_EQ(open.size(), 1u);
    EXPECT_EQ(open[0].subject, suction(pocket).text());
  }
}

TEST(CompletionTest, AnInstallationToldAgainWithItsPocketIsOneInstallation) {
  Story story;
  story.issue(kA, suction());
  tell(story, Step::removing, kA, "01:00", suction());
  tell(story, Step::installing, kA, "logged 02:00");
  EXPECT_EQ(kinds(story.findings()), "side not checked, pocket open");
  tell(story, Step::installing, kA, "logged 02:30", suction());
  EXPECT_EQ(kinds(story.findings()), "");
  EXPECT_EQ(story.trip(kA).installed_in, suction());
}

}  // namespace
}  // namespace counterfoil
