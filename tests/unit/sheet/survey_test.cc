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
  EXPECT_NEAR(sheet.box_height_mm, 38.1 - 2 - 4.2, 1e-9);
}

TEST(Survey, GivesWholeDotsOfEachPrinterForADesignsSymbol) {
  // By hand: 16.9 mm over 33 modules; at 8, 11.81, 12 and 23.62 dots a mm.
  const auto small = module_sizes(shipped_design("bag-small"));
  ASSERT_EQ(small.size(), 4u);
  EXPECT_EQ(small[0].dots, 4);   // 4.10
  EXPECT_EQ(small[1].dots, 6);   // 6.05
  EXPECT_EQ(small[2].dots, 6);   // 6.15
  EXPECT_EQ(small[3].dots, 12);  // 12.10
  EXPECT_NEAR(small[0].module_mm, 0.5, 1e-9);
  const auto none =
      value_of(Design::parse("<svg xmlns='http://www.w3.org/2000/svg' width='9mm' height='9mm' "
                             "viewBox='0 0 9 9'><rect id='slot-symbol' width='9' height='9'/></svg>",
                             "fine"));
  EXPECT_EQ(module_sizes(none)[3].dots, 0);
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
