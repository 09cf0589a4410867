#include "custody/time_order.h"

#include <gtest/gtest.h>

#include "story.h"

namespace counterfoil {
namespace {

bool before(const std::string& first, const std::string& second) {
  return surely_before(event_at(Step::packing, first), event_at(Step::packing, second));
}

TEST(TimeOrderTest, OffsetsAreReckonedWith) {
  EXPECT_TRUE(before("2026-11-25T09:30:00+01:00", "2026-11-25T09:00:00Z"));
  EXPECT_FALSE(before("2026-11-25T09:00:00Z", "2026-11-25T09:30:00+01:00"));
}

TEST(TimeOrderTest, AFewMinutesDecideNothing) {
  EXPECT_FALSE(before("2026-11-25T09:00:00Z", "2026-11-25T09:10:00Z"));
  EXPECT_TRUE(before("2026-11-25T09:00:00Z", "2026-11-25T09:10:01Z"));
}

TEST(TimeOrderTest, TwoTimesWithoutOffsetAreOfOnePlace) {
  EXPECT_TRUE(before("2026-11-25T09:00:00", "2026-11-25T10:00:00"));
}

TEST(TimeOrderTest, ATimeWithoutOffsetMayBeFourteenHoursOff) {
  EXPECT_FALSE(before("2026-11-25T09:00:00", "2026-11-25T23:00:00Z"));
  EXPECT_FALSE(before("2026-11-25T09:00:00Z", "2026-11-25T23:10:00"));
  EXPECT_TRUE(before("2026-11-25T09:00:00Z", "2026-11-25T23:11:00"));
}

TEST(TimeOrderTest, ABareDateIsTheWholeDay) {
  EXPECT_FALSE(before("2026-11-25", "2026-11-25T23:00:00"));
  EXPECT_TRUE(before("2026-11-25", "2026-11-26T06:00:00"));
  EXPECT_EQ(spoken_time(event_at(Step::packing, "2026-11-25")), "on 2026-11-25");
}

TEST(TimeOrderTest, MidnightOfACameraIsMidnight) {
  Event photo = event_at(Step::packing, "2026-11-25T00:00:00");
  photo.known = TimeSource::photo;
  EXPECT_TRUE(surely_before(photo, event_at(Step::packing, "2026-11-25T01:00:00")));
  EXPECT_EQ(spoken_time(photo), "at 2026-11-25 00:00");
}

TEST(TimeOrderTest, AheadOfItsLoggingOnlyBeyondTheSkew) {
  Event event = event_at(Step::packing, "2026-11-30T12:10:00Z");  // logged at 12:00
  EXPECT_FALSE(surely_ahead(event));
  event.at = moment("2026-11-30T12:11:00Z");
  EXPECT_TRUE(surely_ahead(event));
  event.at = moment("2026-11-30T23:00:00");  // 09:00 UTC at the earliest place
  EXPECT_FALSE(surely_ahead(event));
}

}  // namespace
}  // namespace counterfoil
