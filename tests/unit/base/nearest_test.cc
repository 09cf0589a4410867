#include "base/nearest.h"

#include <gtest/gtest.h>

namespace counterfoil {
namespace {

TEST(Nearest, ASlipFindsTheWord) {
  const std::vector<std::string> known = {"TA26", "TA30", "spring outage", "a4-2x4", "label_width_mm"};
  EXPECT_EQ(nearest("TA62", known), "TA26");  // neighbours swapped
  EXPECT_EQ(nearest("ta 26", known), "TA26");
  EXPECT_EQ(nearest("sprnig outages", known), "spring outage");
  EXPECT_EQ(nearest("A4_2x4", known), "a4-2x4");
  EXPECT_EQ(nearest("label_widht_mm", known), "label_width_mm");
}

TEST(Nearest, WhatIsFarFindsNothing) {
  const std::vector<std::string> known = {"TA26", "large"};
  for (const char* typed : {"", "T", "TB99", "lump", "\xff\xfe", "TA262626"})
    EXPECT_EQ(nearest(typed, known), "") << typed;
  EXPECT_EQ(nearest("TA26", {}), "");
}

TEST(Nearest, OfEqualsTheFirst) { EXPECT_EQ(nearest("bat", {"bag", "cat"}), "bag"); }

TEST(Nearest, HintsAreWholeSentences) {
  EXPECT_EQ(did_you_mean("lrage", {"large", "small"}), "did you mean large? ");
  EXPECT_EQ(did_you_mean("huge", {"large", "small"}), "");
  EXPECT_EQ(listed({"large", "small"}), "large, small");
}

}  // namespace
}  // namespace counterfoil
