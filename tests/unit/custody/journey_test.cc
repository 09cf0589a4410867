#include "custody/journey.h"

#include <gtest/gtest.h>

#include "story.h"

namespace counterfoil {
namespace {

TEST(JourneyTest, TheWholeWayThroughTheShopIsAllowed) {
  auto whereabouts = Whereabouts::tag_only;
  const std::pair<Step, Whereabouts> way[] = {
      {Step::removing, Whereabouts::pulled},     {Step::packing, Whereabouts::packed},
      {Step::shipping, Whereabouts::in_transit}, {Step::receiving, Whereabouts::received},
      {Step::unpacking, Whereabouts::on_bench},  {Step::inspecting, Whereabouts::on_bench},
      {Step::repairing, Whereabouts::on_bench},  {Step::packing, Whereabouts::packed},
      {Step::shipping, Whereabouts::in_transit}, {Step::receiving, Whereabouts::received},
      {Step::storing, Whereabouts::stored},      {Step::installing, Whereabouts::installed},
      {Step::inspecting, Whereabouts::installed}};
  for (const auto& [step, expected] : way) {
    EXPECT_TRUE(may_follow(whereabouts, step)) << to_text(whereabouts) << ", " << to_text(step);
    whereabouts = after(whereabouts, step);
    EXPECT_EQ(whereabouts, expected) << to_text(step);
  }
}

TEST(JourneyTest, HandOversHaveTwoSides) {
  for (const auto w :
       {Whereabouts::tag_only, Whereabouts::pulled, Whereabouts::packed, Whereabouts::received,
        Whereabouts::on_bench, Whereabouts::stored, Whereabouts::installed, Whereabouts::destroyed})
    EXPECT_FALSE(may_follow(w, Step::receiving)) << to_text(w);
  for (const Step step : journey_steps())
    EXPECT_EQ(may_follow(Whereabouts::in_transit, step), step == Step::receiving) << to_text(step);
}

TEST(JourneyTest, NothingFollowsDestruction) {
  for (const Step step : journey_steps())
    EXPECT_FALSE(may_follow(Whereabouts::destroyed, step)) << to_text(step);
}

TEST(JourneyTest, OnlyATagWithoutAValveIsRemoved) {
  for (int w = 0; w <= static_cast<int>(Whereabouts::untracked); ++w)
    EXPECT_EQ(may_follow(static_cast<Whereabouts>(w), Step::removing), w == 0) << w;
}

TEST(JourneyTest, OutIsFromPulledToStored) {
  for (int w = 0; w <= static_cast<int>(Whereabouts::untracked); ++w)
    EXPECT_EQ(is_out(static_cast<Whereabouts>(w)), w >= 1 && w <= 6) << w;
}

TEST(JourneyTest, SentencesTellWhereAndWhen) {
  Event event = event_at(Step::removing, "2026-11-25T09:30:00+01:00");
  event.pocket = suction();
  EXPECT_EQ(told(event), "removed from U2 / 2 HE S1 at 2026-11-25 09:30");
  event.step = Step::installing;
  EXPECT_EQ(told(event), "installed in U2 / 2 HE S1 at 2026-11-25 09:30");
  event = event_at(Step::shipping, "2026-11-25");
  event.to = "Kettle Valve Works";
  EXPECT_EQ(told(event), "shipped to Kettle Valve Works on 2026-11-25");
}

}  // namespace
}  // namespace counterfoil
