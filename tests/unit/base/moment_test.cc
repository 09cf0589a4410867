#include "base/moment.h"

#include <gtest/gtest.h>

#include <chrono>

namespace counterfoil {
namespace {

TEST(Moment, IsTakenInEachForm) {
  EXPECT_EQ(*parse_moment("2026-11-25"), (Moment{2026, 11, 25, 0, 0, 0, std::nullopt}));
  EXPECT_EQ(*parse_moment("2026-11-25T09:30"), (Moment{2026, 11, 25, 9, 30, 0, std::nullopt}));
  EXPECT_EQ(*parse_moment("2026-11-25 09:30:15"), (Moment{2026, 11, 25, 9, 30, 15, std::nullopt}));
  EXPECT_EQ(*parse_moment("2026-11-25T09:30Z"), (Moment{2026, 11, 25, 9, 30, 0, 0}));
  EXPECT_EQ(*parse_moment("2026-11-25T09:30:15+01:00"), (Moment{2026, 11, 25, 9, 30, 15, 60}));
  EXPECT_EQ(*parse_moment("2026-11-25T09:30:15-03:30"), (Moment{2026, 11, 25, 9, 30, 15, -210}));
  EXPECT_EQ(*parse_moment("2026-11-25T23:59:59+14:00"), (Moment{2026, 11, 25, 23, 59, 59, 840}));
}

TEST(Moment, ThatDoesNotExistIsRefused) {
  for (const char* text : {"",
                           "2026",
                           "2026-11",
                           "2026-11-25T",
                           "2026-11-25Z",
                           "2026-11-25T9:30",
                           "2026-11-25T09",
                           "2026-11-25T09:30:",
                           "2026-11-25T09:30:1",
                           "2026-11-25T24:00",
                           "2026-11-25T09:60",
                           "2026-11-25T23:59:60",
                           "2026-11-31",
                           "2026-02-29",
                           "1900-02-29",
                           "2026-00-10",
                           "2026-13-10",
                           "2026-10-00",
                           "1899-12-31",
                           "26-11-25",
                           "25.11.2026",
                           "2026/11/25",
                           "2026-11-25T09:30 Z",
                           "2026-11-25T09:30z",
                           "2026-11-25T09:30+1:00",
                           "2026-11-25T09:30+0100",
                           "2026-11-25T09:30+14:01",
                           "2026-11-25T09:30+01:60",
                           "2026-11-25T09:30+01:00x",
                           " 2026-11-25",
                           "2026-11-25 ",
                           "2026-11-25T09:30:15.5",
                           "-026-11-25"}) {
    const auto moment = parse_moment(text);
    ASSERT_FALSE(moment) << text;
    EXPECT_EQ(moment.error().kind, ErrorKind::malformed);
  }
  EXPECT_TRUE(parse_moment("2024-02-29"));
  EXPECT_TRUE(parse_moment("2000-02-29"));
}

TEST(Moment, ComesBackFromItsText) {
  for (const char* text : {"2026-11-25T09:30:15", "2026-11-25T09:30:15Z", "2026-01-02T03:04:05+01:00",
                           "2026-11-25T09:30:15-03:30", "1900-01-01T00:00:00+14:00"})
    EXPECT_EQ(to_text(*parse_moment(text)), text);
  EXPECT_EQ(to_text(*parse_moment("2026-11-25T09:30-00:00")), "2026-11-25T09:30:00Z");
  EXPECT_EQ(date_text(*parse_moment("2026-01-02T03:04")), "2026-01-02");
}

// Values of `date -u -d <text> +%s` (GNU coreutils 9.1).
TEST(Moment, SecondsAgreeWithAnotherProgram) {
  EXPECT_EQ(to_seconds(*parse_moment("1970-01-01T00:00:00Z")), 0);
  EXPECT_EQ(to_seconds(*parse_moment("2001-09-09T01:46:40Z")), 1000000000);
  EXPECT_EQ(to_seconds(*parse_moment("2038-01-19T03:14:08Z")), 2147483648);
  EXPECT_EQ(to_seconds(*parse_moment("1900-01-01T00:00:00Z")), -2208988800);
  EXPECT_EQ(to_seconds(*parse_moment("2024-02-29T12:00:00+05:45")), 1709187300);
  EXPECT_EQ(to_seconds(*parse_moment("2026-11-25T09:30:15-03:30")), 1795611615);
}

TEST(Moment, WithoutOffsetCountsAsUtc) {
  EXPECT_EQ(to_seconds(*parse_moment("2026-11-25T09:30")), to_seconds(*parse_moment("2026-11-25T09:30Z")));
}

TEST(Moment, EachDayOfTwoCenturiesFollowsTheOneBefore) {
  using namespace std::chrono;
  std::int64_t expected = to_seconds(*parse_moment("1900-01-01T23:59:59Z"));
  for (sys_days day = 1900y / 1 / 1; day < sys_days(2100y / 3 / 2); day += days(1), expected += 86400) {
    const year_month_day date(day);
    const Moment moment{static_cast<int>(date.year()),
                        static_cast<int>(unsigned{date.month()}),
                        static_cast<int>(unsigned{date.day()}),
                        23,
                        59,
                        59,
                        0};
    ASSERT_EQ(to_seconds(moment), expected);
    ASSERT_EQ(utc_from_seconds(expected), moment);
    ASSERT_EQ(*parse_moment(to_text(moment)), moment);
  }
}

}  // namespace
}  // namespace counterfoil
