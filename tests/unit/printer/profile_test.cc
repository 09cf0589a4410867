#include "printer/profile.h"

#include <gtest/gtest.h>

#include <cmath>

namespace counterfoil {
namespace {

PrinterProfile sample() {
  PrinterProfile profile;
  profile.name = "Printer beside the scales";
  profile.dots_per_inch = 203.2;
  profile.offset_x_mm = 1.523;
  profile.offset_y_mm = -0.75;
  profile.scale_x = 0.961234;
  profile.scale_y = 1.004;
  profile.turn_deg = 0.4567;
  profile.shear_deg = -0.12;
  profile.dead_columns = {0, 211, 212};
  profile.unreached = PrinterProfile::Unreached{4.2, 4.2, 4.5, 12.7};
  profile.measured = "2026-11-28T09:00:00Z";
  profile.rests_on = "a scan at 600 dpi";
  return profile;
}

std::string message_of(std::string_view json) {
  const auto profile = parse_printer_profile(json);
  return profile ? "" : profile.error().message;
}

TEST(Profile, WrittenFileParsesToTheSame) {
  const auto again = parse_printer_profile(to_json(sample()));
  ASSERT_TRUE(again) << again.error().message;
  EXPECT_EQ(to_json(*again), to_json(sample()));
  EXPECT_EQ(*again, sample());
}

TEST(Profile, FigureThatIsLeftOutChangesNothing) {
  const auto profile = parse_printer_profile(R"({"name": "plain", "dots_per_inch": 300})");
  ASSERT_TRUE(profile);
  EXPECT_EQ(profile->map(), Affine{});
  EXPECT_TRUE(profile->dead_columns.empty());
  EXPECT_FALSE(profile->unreached);
}

TEST(Profile, SlipOfThePenIsNamed) {
  EXPECT_EQ(message_of(R"({"name": "a"})"), "printer profile: dots_per_inch is missing");
  EXPECT_EQ(message_of(R"({"dots_per_inch": 300})"), "printer profile: name is missing");
  EXPECT_EQ(message_of(R"({"name": "a", "dots_per_inch": 300, "ofset_x_mm": 1})"),
            "printer profile: ofset_x_mm is not a field of a profile");
  EXPECT_EQ(message_of(R"({"name": "a", "dots_per_inch": 300, "scale_x": 96})"),
            "printer profile: scale_x is 96, and has to be a number from 0.8 to 1.25");
  EXPECT_EQ(message_of(R"({"name": "a", "dots_per_inch": "300"})"),
            "printer profile: dots_per_inch is \"300\", and has to be a number from 72 to 4800");
  EXPECT_EQ(message_of(R"({"name": "a", "dots_per_inch": 300, "dead_columns": [5, 5]})"),
            "printer profile: dead_columns has to ascend, each column once");
  EXPECT_EQ(message_of(R"({"name": "a", "dots_per_inch": 300, "dead_columns": [1.5]})"),
            "printer profile: dead_columns has to be a list of whole numbers from 0 to 200000");
  EXPECT_EQ(message_of(R"({"name": "a", "dots_per_inch": 300, "unreached_mm": {"left": 4}})"),
            "printer profile: unreached_mm has to have left, top, right and bottom, and no more");
  EXPECT_NE(message_of(R"({"name": "a", "dots_per_inch": 300, "measured": "Monday"})")
                .find("printer profile: measured is no date"),
            std::string::npos);
  EXPECT_EQ(message_of("[]"), "printer profile: is not a JSON object");
  EXPECT_NE(message_of("{"), "");
}

// One degree is 17.452 mm in 1000 (tan 1 deg = 0.0174551).
TEST(Profile, MapIsMadeOfOffsetScaleTurnAndShear) {
  PrinterProfile profile;
  profile.turn_deg = 1;
  const PicturePoint far = profile.map()({1000, 0});
  EXPECT_NEAR(far.y / far.x, 0.0174551, 1e-7);
  EXPECT_NEAR(std::hypot(far.x, far.y), 1000, 1e-9);
  PrinterProfile other;
  other.set_map(sample().map());
  EXPECT_NEAR(other.scale_x, 0.961234, 1e-12);
  EXPECT_NEAR(other.scale_y, 1.004, 1e-12);
  EXPECT_NEAR(other.turn_deg, 0.4567, 1e-12);
  EXPECT_NEAR(other.shear_deg, -0.12, 1e-12);
  EXPECT_NEAR(other.offset_x_mm, 1.523, 1e-12);
}

}  // namespace
}  // namespace counterfoil
