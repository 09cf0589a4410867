#include "sheet/survey.h"

#include <gtest/gtest.h>

#include "support/sheet_samples.h"

namespace counterfoil {
namespace {

bool says(const Survey& survey, const std::string& words) {
  for (const auto& remark : survey.remarks)
    if (remark.find(words) != std::string::npos) return true;
  return false;
}

TEST(Survey, MeasuresWhatIsLeftOver) {
  const Survey sheet = survey(shipped_stock("a4-3x7"));
  EXPECT_NEAR(sheet.left_over_right_mm, 7.25, 1e-9);
  EXPECT_NEAR(sheet.left_over_bottom_mm, 15.15, 1e-9);
  EXPECT_EQ(sheet.single_labels, 3);
  // 63.5 less the margin on both sides; 38.1 less margin and mark.
  EXPECT_NEAR(sheet.bag_width_mm, 59.5, 1e-9);
  EXPECT_NEAR(sheet.box_height_mm, 38.1 - 2 - 3.4, 1e-9);
}

TEST(Survey, GivesWholeDotsOfEachPrinter) {
  // By hand for 2 x 1 in: 25.4 - 1 - 3.4 = 21 mm over 33 modules; at 8, 11.81, 12 and 23.62 dots a mm.
  const Survey roll = survey(shipped_stock("roll-2x1in"));
  ASSERT_EQ(roll.modules.size(), 4u);
  EXPECT_EQ(roll.modules[0].dots, 5);   // 5.09
  EXPECT_EQ(roll.modules[1].dots, 7);   // 7.51
  EXPECT_EQ(roll.modules[2].dots, 7);   // 7.63
  EXPECT_EQ(roll.modules[3].dots, 15);  // 15.03
  EXPECT_NEAR(roll.modules[0].module_mm, 0.625, 1e-9);
}

TEST(Survey, ShippedStocksGiveNoRemark) {
  for (const auto& stock : value_of(load_stocks(kTemplates + "stocks")))
    for (const auto& remark : survey(stock).remarks) ADD_FAILURE() << stock.name << ": " << remark;
}

TEST(Survey, RemarksOnWhatIsAllowedAndLooksWrong) {
  Stock stock = shipped_stock("a4-2x4");
  stock.left_mm = 3.4;
  EXPECT_TRUE(says(survey(stock), "3.4 mm left of the labels (left_mm) and 5.9 mm right of them"));
  stock.left_mm = 4.4;
  EXPECT_TRUE(survey(stock).remarks.empty());
  stock.top_mm = 12;
  EXPECT_TRUE(says(survey(stock), "12 mm above the labels (top_mm) and 14.2 mm below them"));

  Stock butted = shipped_stock("a4-2x2");
  butted.margin_mm = 2.5;
  EXPECT_TRUE(says(survey(butted), "as near as 2.5 mm to the page's edge"));
  butted.margin_mm = 0;
  EXPECT_TRUE(says(survey(butted), "margin_mm is 0 mm"));

  Stock tag = shipped_stock("tag-1");
  tag.hole->clear_mm = 0;
  EXPECT_TRUE(says(survey(tag), "no hole_clear_mm"));
  tag.blank_left_mm = tag.blank_right_mm = tag.blank_top_mm = tag.blank_bottom_mm = 1;
  EXPECT_TRUE(says(survey(tag), "no edge is free for the match mark"));

  Stock small = shipped_stock("roll-2x1in");
  small.blank_bottom_mm = 9;
  EXPECT_TRUE(says(survey(small), "does not get its 0.5 mm a module at 203.2 dpi"));
}

}  // namespace
}  // namespace counterfoil
