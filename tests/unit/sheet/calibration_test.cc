#include "sheet/calibration.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>

#include "support/sheet_samples.h"
#include "support/temp_folder.h"

namespace counterfoil {
namespace {

TEST(CalibrationCode, SaysPageDotsAndWhichSymbol) {
  const CalibrationCode code{215.9, 279.4, 203.2, 3, false};
  EXPECT_EQ(write_calibration_code(code), "CF.CAL1/21590X27940/20320/3");
  const auto again = parse_calibration_code("CF.CAL1/21590X27940/20320/3");
  ASSERT_TRUE(again);
  EXPECT_EQ(again->width_mm, 215.9);
  EXPECT_EQ(again->height_mm, 279.4);
  EXPECT_EQ(again->dots_per_inch, 203.2);
  EXPECT_EQ(again->symbol, 3);
  EXPECT_FALSE(again->corrected);
  EXPECT_TRUE(parse_calibration_code("CF.CHK1/21590X27940/20320/3")->corrected);
}

TEST(CalibrationCode, OtherTextsAreRefusedAndBrokenOnesMalformed) {
  for (const char* foreign :
       {"", "CF1.K74Q2M8X61.BAG1", "HTTPS://EXAMPLE.ORG/CF1/K74Q2M8X61/BAG1", "CF.CAL2/1X1/1/1"})
    EXPECT_EQ(parse_calibration_code(foreign).error().kind, ErrorKind::refused) << foreign;
  for (const char* broken :
       {"CF.CAL1/", "CF.CAL1/21000X29700/30000", "CF.CAL1/21000X29700/30000/0", "CF.CAL1/21000X29700/30000/5",
        "CF.CAL1/21000/30000/1", "CF.CAL1/0X29700/30000/1", "CF.CAL1/21000X9999999/30000/1",
        "CF.CAL1/21000X29700/100/1", "CF.CAL1/21000X29700/30000/1/2", "CF.CAL1/2e4X29700/30000/1"})
    EXPECT_EQ(parse_calibration_code(broken).error().kind, ErrorKind::malformed) << broken;
}

void expect_sound(const CalibrationPlan& plan, const std::string& what) {
  const double dot = 25.4 / plan.dots_per_inch;
  EXPECT_GE(plan.discs.size(), 6u) << what;
  double left = plan.width_mm, right = 0, top = plan.height_mm, bottom = 0;
  for (const auto& disc : plan.discs) {
    EXPECT_NEAR(disc.x / dot, std::round(disc.x / dot), 1e-6) << what;
    for (const auto& symbol : plan.symbols) {
      // The quiet zone of four modules too (ISO/IEC 18004:2015, 6.3.8).
      const double half = (symbol.modules + 8) * symbol.dots_per_module * dot / 2;
      EXPECT_GT(std::max(std::abs(disc.x - symbol.middle_x_mm), std::abs(disc.y - symbol.middle_y_mm)),
                half + plan.disc_mm / 2)
          << what;
    }
    for (const auto& other : plan.discs)
      EXPECT_TRUE(&disc == &other ||
                  std::hypot(disc.x - other.x, disc.y - other.y) > plan.clear_mm + plan.disc_mm / 2)
          << what;
    EXPECT_LT(disc.y + plan.clear_mm, plan.bar.y_mm) << what;
    left = std::min(left, disc.x), right = std::max(right, disc.x);
    top = std::min(top, disc.y), bottom = std::max(bottom, disc.y);
  }
  // Scales are known as well as the discs lie far apart.
  EXPECT_GT(right - left, plan.width_mm / 2) << what;
  EXPECT_GT(bottom - top, plan.height_mm / 3) << what;
  EXPECT_LE(plan.bar.y_mm + plan.bar.height_mm, plan.height_mm - 2) << what;
  for (const auto& symbol : plan.symbols) EXPECT_GE(symbol.dots_per_module * dot, 0.38) << what;
}

TEST(CalibrationPlan, HoldsOnEveryShippedStockAndOnSmallRolls) {
  for (const double dpi : {203.2, 300.0, 304.8, 600.0}) {
    for (const auto& stock : value_of(load_stocks(kTemplates + "stocks"))) {
      const auto plan = plan_calibration(stock.page_width_mm, stock.page_height_mm, dpi);
      // A stock that is too small says so.
      if (!plan && std::min(stock.page_width_mm, stock.page_height_mm) < 35) continue;
      ASSERT_TRUE(plan) << stock.name << ": " << plan.error().message;
      expect_sound(*plan, stock.name);
    }
    const auto small = plan_calibration(57, 34, dpi);
    ASSERT_TRUE(small) << dpi << ": " << small.error().message;
    expect_sound(*small, "57 x 34 mm");
  }
}

TEST(CalibrationPlan, PageThatIsTooSmallIsRefusedWithOneThatWouldDo) {
  const auto plan = plan_calibration(30, 20, 300);
  ASSERT_FALSE(plan);
  EXPECT_EQ(plan.error().kind, ErrorKind::refused);
  EXPECT_EQ(plan.error().message,
            "a page of 30 x 20 mm is too small for a calibration sheet at 300 dots per inch");
  // 2 x 1 in was told that 50 x 25 mm would do.
  for (const double dpi : {203.2, 300.0, 600.0}) {
    const auto roll = plan_calibration(50.8, 25.4, dpi);
    ASSERT_FALSE(roll);
    double width = 0, height = 0;
    ASSERT_EQ(std::sscanf(roll.error().hint.c_str(), "%lf x %lf mm would do", &width, &height), 2)
        << roll.error().hint;
    EXPECT_EQ(width, 50.8);
    EXPECT_LE(height, 32);
    EXPECT_TRUE(plan_calibration(width, height, dpi));
    EXPECT_FALSE(plan_calibration(width, height - 1, dpi));
  }
}

TEST(CalibrationPlan, TagsSayHowTheyArePrintedWhereNothingElseLies) {
  for (const std::string name : {"tag-1", "tag-3", "tag-5", "tag-8", "roll-100x50", "roll-4x3in"}) {
    const Stock stock = shipped_stock(name);
    for (const double dpi : {203.2, 300.0, 304.8, 600.0}) {
      const auto plan = value_of(plan_calibration(stock.page_width_mm, stock.page_height_mm, dpi));
      const Box& words = plan.words;
      ASSERT_GT(words.width_mm, 0) << name << " " << dpi;
      EXPECT_LE(words.right_mm(), plan.width_mm - plan.edge_mm) << name;
      EXPECT_LE(words.bottom_mm(), plan.bar.y_mm) << name;
      for (const auto& disc : plan.discs)
        EXPECT_TRUE(disc.x + plan.clear_mm <= words.x_mm + 1e-9 ||
                    disc.x - plan.clear_mm >= words.right_mm() - 1e-9 ||
                    disc.y + plan.clear_mm <= words.y_mm + 1e-9 ||
                    disc.y - plan.clear_mm >= words.bottom_mm() - 1e-9)
            << name << " " << dpi;
      if (dpi != 300) continue;
      const TempFolder folder;
      DocumentOrder order;
      order.page_width_mm = stock.page_width_mm;
      order.page_height_mm = stock.page_height_mm;
      order.dots_per_inch = dpi;
      order.format = SheetFormat::svg;
      order.path = folder / "sheet.svg";
      order.created = "2026-11-25T09:30:15Z";
      const auto drawn = draw_calibration(order, {});
      EXPECT_TRUE(drawn) << name << ": " << drawn.error().message;
    }
  }
}

TEST(Correction, TagThatItMovesOffThePageIsRefusedAndNothingIsLeft) {
  const TempFolder folder;
  auto order = sample_order("roll-100x150", SheetFormat::png, folder / "a.png");
  order.correction = Affine{1.1, 0, 0, 0, 1.1, 0};
  const auto drawn = draw_sheet(order, {sample_pair(0)});
  ASSERT_FALSE(drawn);
  EXPECT_EQ(drawn.error().kind, ErrorKind::refused);
  EXPECT_NE(drawn.error().message.find("beyond the page"), std::string::npos);
  EXPECT_TRUE(std::filesystem::is_empty(folder.path()));
  order.correction = Affine{0, 0, 0, 0, 0, 0};
  EXPECT_FALSE(draw_sheet(order, {sample_pair(0)}));
}

TEST(Correction, SymbolsKeepOffDeadColumnsOrAreCounted) {
  const TempFolder folder;
  auto order = sample_order("roll-100x150", SheetFormat::png, folder / "a.png");
  EXPECT_EQ(value_of(draw_sheet(order, {sample_pair(0)})).on_dead_columns, 0);
  int spoiled = 0, kept_off = 0;
  for (int column = 0; column < 420; column += 30) {
    order.dead_columns = {column};
    (value_of(draw_sheet(order, {sample_label()})).on_dead_columns > 0 ? spoiled : kept_off) += 1;
  }
  EXPECT_GT(spoiled, 0);
  EXPECT_GT(kept_off, 0);
}

TEST(Correction, TagsWhereThePrinterDoesNotReachAreCounted) {
  const TempFolder folder;
  auto order = sample_order("roll-100x150", SheetFormat::png, folder / "a.png");
  order.reached = Box{0, 0, 100, 150};
  EXPECT_EQ(value_of(draw_sheet(order, {sample_pair(0)})).out_of_reach, 0);
  order.reached = Box{0, 30, 100, 120};
  EXPECT_EQ(value_of(draw_sheet(order, {sample_pair(0)})).out_of_reach, 1);
}

}  // namespace
}  // namespace counterfoil
