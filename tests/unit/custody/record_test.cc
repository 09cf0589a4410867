#include "custody/record.h"

#include <gtest/gtest.h>

#include "story.h"

namespace counterfoil {
namespace {

const Number kA = number_of(0);
const Number kB = number_of(1);

// The way of one valve through the shop and back, two weeks long.
void tell_full_journey(Story& story, const Number& number, const Pocket& pocket) {
  story.step(Step::removing, number, "2026-11-21T09:30:00Z", pocket);
  story.step(Step::packing, number, "2026-11-21T10:30:00Z");
  story.match(number, Verdict::matched);
  Event shipping = event_at(Step::shipping, "2026-11-22T08:00:00Z");
  shipping.number = number;
  shipping.to = "Kettle Valve Works";
  shipping.due = "2026-11-29";
  story.log(shipping);
  story.step(Step::receiving, number, "2026-11-23T08:00:00Z");
  story.step(Step::unpacking, number, "2026-11-23T09:00:00Z");
  story.step(Step::inspecting, number, "2026-11-23T10:00:00Z");
  story.step(Step::repairing, number, "2026-11-24T10:00:00Z");
  story.step(Step::packing, number, "2026-11-25T10:00:00Z");
  story.step(Step::shipping, number, "2026-11-26T10:00:00Z");
  story.step(Step::receiving, number, "2026-11-27T10:00:00Z");
  story.step(Step::storing, number, "2026-11-27T11:00:00Z");
  story.step(Step::installing, number, "2026-11-28T10:00:00Z", pocket);
}

TEST(RecordTest, AFullJourneyHasNoFindings) {
  Story story;
  story.issue(kA, suction(), "P-77");
  tell_full_journey(story, kA, suction());
  EXPECT_EQ(kinds(story.findings()), "");
  EXPECT_EQ(story.trip(kA).whereabouts, Whereabouts::installed);
  EXPECT_EQ(story.trip(kA).installed_in, suction());
  EXPECT_EQ(story.trip(kA).history.size(), 14u);
  EXPECT_EQ(story.trip(kA).journey.size(), 12u);
}

TEST(RecordTest, AnEntryTwiceChangesNothing) {
  Story story;
  const auto ref = story.issue(kA);
  story.record.apply(ref, story.record.event(ref)->event);
  EXPECT_EQ(kinds(story.findings()), "");
  EXPECT_EQ(story.trip(kA).history, std::vector<EventRef>{ref});
}

TEST(RecordTest, EventsAreFoundByTheirEntry) {
  Story story;
  const auto ref = story.step(Step::removing, kA, "2026-11-25T09:30:00Z");
  ASSERT_NE(story.record.event(ref), nullptr);
  EXPECT_EQ(story.record.event(ref)->event.step, Step::removing);
  EXPECT_EQ(story.record.event({ref.origin, 99}), nullptr);
  EXPECT_EQ(story.record.event({"elsewhere", 0}), nullptr);
}

TEST(RecordTest, DesksAreKnownByTheirLog) {
  Story story;
  ASSERT_EQ(story.record.desks().size(), 1u);
  EXPECT_EQ(story.record.desks().at(Story::kOrigin).prefix, "K7");
}

TEST(RecordTest, NameIsTheNumberInGroupsOrElseTheSerial) {
  Story story;
  story.issue(kA);
  story.serial_step(Step::removing, "KV 0412", "2026-11-25T09:30:00Z");
  EXPECT_EQ(story.trip(kA).name(), kA.grouped());
  EXPECT_EQ(story.record.with_serial("KV 0412").at(0)->name(), "KV 0412");
}

TEST(RecordTest, ARemovalWithoutAPocketIsFromTheOneTheTagIsMeantFor) {
  Story story;
  story.issue(kA, suction());
  story.step(Step::removing, kA, "2026-11-25T09:30:00Z");
  EXPECT_EQ(story.trip(kA).removed_from, suction());
  EXPECT_EQ(story.trip(kA).side(), Side::suction);
}

TEST(RecordTest, PlaceAndDueFollowTheLastStatement) {
  Story story;
  story.issue(kA);
  story.step(Step::removing, kA, "2026-11-25T09:30:00Z");
  story.step(Step::packing, kA, "2026-11-25T09:45:00Z");
  Event shipping = event_at(Step::shipping, "2026-11-25T10:00:00Z");
  shipping.number = kA;
  shipping.to = "Kettle Valve Works";
  shipping.due = "2026-12-20";
  story.log(shipping);
  EXPECT_EQ(story.trip(kA).place, "Kettle Valve Works");
  EXPECT_EQ(story.trip(kA).due, "2026-12-20");
  story.step(Step::receiving, kA, "2026-12-01T10:00:00Z");
  EXPECT_EQ(story.trip(kA).due, "");
}

TEST(RecordTest, TheVendorsReceivingLeavesTheDueDate) {
  Story story;
  story.found("kettle.example/vendor", "Kettle Valve Works", "vendor", "V2");
  story.issue(kA);
  story.step(Step::removing, kA, "2026-11-25T09:30:00Z");
  story.step(Step::packing, kA, "2026-11-25T09:45:00Z");
  Event event = event_at(Step::shipping, "2026-11-25T10:00:00Z");
  event.number = kA;
  event.due = "2026-12-20";
  story.log(event);
  event = event_at(Step::receiving, "2026-11-26T10:00:00Z");
  event.number = kA;
  story.log(event, "kettle.example/vendor");
  EXPECT_EQ(story.trip(kA).due, "2026-12-20");
}

TEST(RecordTest, AnIdentificationLabelIsUntrackedOnceTheValveIsOut) {
  Story story;
  story.label(kA);
  EXPECT_TRUE(story.trip(kA).label);
  story.step(Step::removing, kA, "2026-11-25T09:30:00Z");
  EXPECT_EQ(story.trip(kA).whereabouts, Whereabouts::untracked);
  story.step(Step::storing, kA, "2026-11-25T10:30:00Z");
  EXPECT_EQ(story.trip(kA).whereabouts, Whereabouts::untracked);
  EXPECT_EQ(kinds(story.findings()), "");
}

TEST(RecordTest, CopiesAreTheNewest) {
  Story story;
  story.issue(kA);
  story.reprint(kA, Half::box, 3);
  story.reprint(kA, Half::box, 2);
  EXPECT_EQ(story.trip(kA).bag_copy, 1);
  EXPECT_EQ(story.trip(kA).box_copy, 3);
}

TEST(LateEntryTest, FillsTheHoleAndMovesNothing) {
  Story story;
  story.issue(kA);
  story.step(Step::removing, kA, "2026-11-25T09:00:00Z");
  story.step(Step::packing, kA, "2026-11-25T10:00:00Z");
  story.step(Step::receiving, kA, "2026-11-26T10:00:00Z");
  EXPECT_EQ(kinds(story.findings()), "step out of order");
  story.step(Step::shipping, kA, "2026-11-25T12:00:00Z");
  EXPECT_EQ(kinds(story.findings()), "");
  EXPECT_EQ(story.trip(kA).whereabouts, Whereabouts::received);
}

TEST(LateEntryTest, ARemovalLoggedAfterThePackingComesFirst) {
  Story story;
  story.issue(kA, suction());
  story.step(Step::packing, kA, "2026-11-25T10:00:00Z");
  story.step(Step::removing, kA, "2026-11-25T09:00:00Z");
  EXPECT_EQ(kinds(story.findings()), "pocket open");
  EXPECT_EQ(story.trip(kA).whereabouts, Whereabouts::packed);
  EXPECT_EQ(story.trip(kA).removed_from, suction());
}

TEST(LateEntryTest, AWrongClockDoesNotFreezeTheValve) {
  // The camera's clock says 2020, but the step follows by the log: it counts, and the time is told of.
  Story story;
  story.issue(kA);
  story.step(Step::removing, kA, "2026-11-25T09:00:00Z");
  story.step(Step::packing, kA, "2020-01-01T00:10:00Z");
  EXPECT_EQ(story.trip(kA).whereabouts, Whereabouts::packed);
  EXPECT_EQ(kinds(story.findings()), "time runs back");
}

TEST(AliasTest, ASerialAloneIsATrip) {
  Story story;
  story.serial_step(Step::removing, "KV 0412", "2026-11-25T09:30:00Z", suction());
  ASSERT_TRUE(story.record.trips().contains("serial:KV 0412"));
  story.serial_step(Step::packing, "KV 0412", "2026-11-25T10:30:00Z");
  const auto trips = story.record.with_serial("KV 0412");
  ASSERT_EQ(trips.size(), 1u);
  EXPECT_EQ(trips[0]->whereabouts, Whereabouts::packed);
  EXPECT_TRUE(story.record.with_serial("KV 0413").empty());
}

TEST(AliasTest, TheNextRemovalIsANewTrip) {
  Story story;
  for (const char* day : {"2026-11-21", "2026-11-25"}) {
    story.serial_step(Step::removing, "KV 0412", std::string(day) + "T09:30:00Z", suction());
    story.serial_step(Step::installing, "KV 0412", std::string(day) + "T12:30:00Z", suction());
  }
  EXPECT_EQ(story.record.with_serial("KV 0412").size(), 2u);
  EXPECT_EQ(kinds(story.findings()), "");
}

TEST(AliasTest, ANewValveKnownBySerialMayComeFromAnywhere) {
  Story story;
  story.serial_step(Step::receiving, "KV 0500", "2026-11-21T09:30:00Z");
  story.serial_step(Step::installing, "KV 0500", "2026-11-21T12:30:00Z", suction());
  EXPECT_EQ(kinds(story.findings()), "side not checked");
}

TEST(AliasTest, AnEventWithBothTiesTheSerialToTheNumber) {
  Story story;
  story.issue(kA);
  story.tied_step(Step::removing, kA, "KV 0412", "2026-11-25T09:30:00Z");
  story.serial_step(Step::packing, "KV 0412", "2026-11-25T10:30:00Z");
  EXPECT_EQ(story.record.trips().size(), 1u);
  EXPECT_EQ(story.trip(kA).whereabouts, Whereabouts::packed);
  EXPECT_EQ(story.record.with_serial("KV 0412"), std::vector<const ValveTrip*>{&story.trip(kA)});
}

TEST(AliasTest, ATripBegunBySerialMovesToItsNumber) {
  Story story;
  const auto removal = story.serial_step(Step::removing, "KV 0412", "2026-11-25T09:30:00Z", suction());
  const auto issue = story.issue(kA);
  const auto packing = story.tied_step(Step::packing, kA, "KV 0412", "2026-11-25T10:30:00Z");
  EXPECT_EQ(story.record.trips().size(), 1u);
  EXPECT_EQ(story.trip(kA).removed_from, suction());
  EXPECT_EQ(story.trip(kA).history, (std::vector<EventRef>{removal, issue, packing}));
  EXPECT_EQ(kinds(story.findings()), "pocket open");
  EXPECT_EQ(story.findings()[0].events, std::vector<EventRef>{removal});
}

TEST(AliasTest, ANewTagForAValveWhoseTagWasVoidedCarriesItOn) {
  Story story;
  story.issue(kA);
  story.tied_step(Step::removing, kA, "KV 0412", "2026-11-25T09:30:00Z");
  story.step(Step::packing, kA, "2026-11-25T10:30:00Z");
  story.voiding(kA, "2026-11-26T08:00:00Z");
  EXPECT_EQ(kinds(story.findings()), "untagged");
  story.issue(kB);
  story.tied_step(Step::shipping, kB, "KV 0412", "2026-11-26T10:30:00Z");
  EXPECT_EQ(kinds(story.findings()), "");
  EXPECT_EQ(story.trip(kB).began, Whereabouts::packed);
  EXPECT_EQ(story.trip(kB).whereabouts, Whereabouts::in_transit);
}

TEST(AliasTest, AValveWhoseTagWasVoidedGoesOnByItsSerial) {
  Story story;
  story.issue(kA);
  story.tied_step(Step::removing, kA, "KV 0412", "2026-11-25T09:30:00Z", suction());
  story.voiding(kA, "2026-11-26T08:00:00Z");
  story.serial_step(Step::packing, "KV 0412", "2026-11-26T10:30:00Z");
  EXPECT_EQ(kinds(story.findings()), "pocket open");
  EXPECT_EQ(story.record.with_serial("KV 0412").at(1)->side(), Side::suction);
}

TEST(SideTest, ThePocketListRulesOverWhatIsSaidInPassing) {
  Story story;
  EXPECT_EQ(story.record.side_of(suction()), std::nullopt);
  story.serial_step(Step::removing, "KV 0412", "2026-11-25T09:30:00Z",
                    Pocket{"U2", "2 HE S1", Side::discharge});
  EXPECT_EQ(story.record.side_of(suction()), Side::discharge);
  story.issue(kA, suction());
  EXPECT_EQ(story.record.side_of(suction()), Side::suction);
  EXPECT_EQ(story.record.side_of({"U1", "2 HE S1", std::nullopt}), std::nullopt);
}

struct SideCase {
  Step step;
  std::optional<Side> meant, from, stated, recorded;
  const char* conflict;  // nullptr: none
};

TEST(SideTest, EveryDisagreementIsNamed) {
  constexpr auto s = Side::suction;
  constexpr auto d = Side::discharge;
  constexpr auto none = std::nullopt;
  const SideCase cases[] = {
      {Step::removing, s, none, s, s, nullptr},
      {Step::removing, s, none, none, none, nullptr},
      {Step::removing, none, none, d, none, nullptr},
      {Step::removing, s, none, d, none, "the tag "},
      {Step::removing, s, none, none, d, "the tag "},
      {Step::removing, none, none, s, d, "by the record"},
      {Step::removing, none, s, d, none, "the valve "},  // removed once already, from the other side
      {Step::installing, s, none, d, none, "the valve "},
      {Step::installing, s, d, d, none, nullptr},  // what it came from outweighs what the tag was for
      {Step::installing, s, d, s, none, "the valve "},
      {Step::installing, none, s, none, d, "the valve "},
      {Step::installing, none, s, none, s, nullptr},
      {Step::installing, none, none, d, s, "by the record"},
      {Step::storing, s, s, d, d, nullptr},
  };
  for (const auto& c : cases) {
    ValveTrip trip;
    trip.number = kA;
    if (c.meant) trip.meant_for = Pocket{"U2", "P", c.meant};
    if (c.from) trip.removed_from = Pocket{"U2", "P", c.from};
    Event event = event_at(c.step, "2026-11-25T09:30:00Z");
    event.pocket = Pocket{"U2", "Q", c.stated};
    const auto conflict = side_conflict(event, &trip, c.recorded);
    const auto index = &c - cases;
    if (c.conflict == nullptr) {
      EXPECT_EQ(conflict, std::nullopt) << index;
    } else {
      EXPECT_NE(conflict.value_or("").find(c.conflict), std::string::npos)
          << index << ": " << conflict.value_or("none");
    }
  }
}

TEST(SideTest, WithoutAPocketOrAValveNothingDisagrees) {
  Event event = event_at(Step::installing, "2026-11-25T09:30:00Z");
  EXPECT_EQ(side_conflict(event, nullptr, Side::suction), std::nullopt);
  event.pocket = suction();
  EXPECT_EQ(side_conflict(event, nullptr, std::nullopt), std::nullopt);
  EXPECT_EQ(side_conflict(event, nullptr, Side::discharge),
            "U2 / 2 HE S1 is a discharge pocket by the record, and a suction pocket by this entry");
}

}  // namespace
}  // namespace counterfoil
