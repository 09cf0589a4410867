#include "machine/pocket.h"

#include <gtest/gtest.h>

namespace counterfoil {
namespace {

TEST(Side, ComesBackFromItsText) {
  EXPECT_EQ(to_text(Side::suction), "suction");
  EXPECT_EQ(to_text(Side::discharge), "discharge");
  for (const Side side : {Side::suction, Side::discharge}) EXPECT_EQ(*parse_side(to_text(side)), side);
  EXPECT_EQ(*parse_side(" SUCTION\n"), Side::suction);
  EXPECT_EQ(*parse_side("Discharge"), Side::discharge);
}

TEST(Side, LoneLetterIsRefusedBecauseItIsEasilyMistaken) {
  for (const char* text : {"S", "d", " D "}) {
    const auto side = parse_side(text);
    ASSERT_FALSE(side) << text;
    EXPECT_NE(side.error().hint.find("whole word"), std::string::npos);
  }
}

TEST(Side, OtherWordsAreRefused) {
  for (const char* text : {"", "suct", "suctions", "inlet", "suction discharge"}) {
    const auto side = parse_side(text);
    ASSERT_FALSE(side) << text;
    EXPECT_EQ(side.error().kind, ErrorKind::malformed);
  }
}

TEST(Pocket, TextNamesUnitAndPlace) {
  EXPECT_EQ((Pocket{"U2", "2 HE S1", Side::suction}.text()), "U2 / 2 HE S1");
}

}  // namespace
}  // namespace counterfoil
