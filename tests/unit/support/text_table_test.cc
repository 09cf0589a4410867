#include "support/text_table.h"

#include <gtest/gtest.h>

namespace counterfoil {
namespace {

// The nearest-rank example of textbooks, from memory.
TEST(TextTable, PercentileIsTheNearestRank) {
  const std::vector<double> values{50, 15, 40, 20, 35};
  EXPECT_EQ(percentile(values, 0.05), 15);
  EXPECT_EQ(percentile(values, 0.30), 20);
  EXPECT_EQ(percentile(values, 0.40), 20);
  EXPECT_EQ(percentile(values, 0.50), 35);
  EXPECT_EQ(percentile(values, 1.00), 50);
  EXPECT_EQ(percentile({}, 0.5), 0);
}

TEST(TextTable, PercentOfNoneIsADash) {
  EXPECT_EQ(percent(2, 3), "66.7");
  EXPECT_EQ(percent(3, 3, 0), "100");
  EXPECT_EQ(percent(0, 0), "-");
}

TEST(TextTable, FirstColumnIsAlignedLeftAndTheOthersRight) {
  TextTable table;
  table.add({"set", "codes", ""});
  table.add({"oil", "5", "x"});
  table.add({"combined"});
  EXPECT_EQ(table.text(),
            "set       codes\n"
            "oil           5  x\n"
            "combined\n");
}

}  // namespace
}  // namespace counterfoil
