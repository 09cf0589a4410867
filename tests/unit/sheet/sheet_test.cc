#include "sheet/sheet.h"

#include <gtest/gtest.h>

#include <filesystem>

#include "base/file.h"
#include "sheet/match_mark.h"
#include "support/sheet_samples.h"
#include "support/temp_folder.h"

namespace counterfoil {
namespace {

std::string bytes_of_file(const std::string& path) { return value_of(read_file(path, 100 << 20)); }

bool is_empty(const TempFolder& folder) { return std::filesystem::is_empty(folder.path()); }

std::vector<SheetItem> pairs(int count) {
  std::vector<SheetItem> items;
  for (int i = 0; i < count; ++i) items.emplace_back(sample_pair(i));
  return items;
}

TEST(Sheet, SameInputAndDateGiveTheSameBytes) {
  const TempFolder folder;
  for (const auto& [format, ending] :
       {std::pair{SheetFormat::pdf, ".pdf"}, {SheetFormat::png, ".png"}, {SheetFormat::svg, ".svg"}}) {
    const auto first =
        draw_sheet(sample_order("a4-2x4", format, folder / std::string("one") + ending), pairs(4));
    const auto again =
        draw_sheet(sample_order("a4-2x4", format, folder / std::string("two") + ending), pairs(4));
    ASSERT_TRUE(first && again);
    ASSERT_EQ(first->files.size(), 1u);
    EXPECT_TRUE(bytes_of_file(first->files[0]) == bytes_of_file(again->files[0])) << ending;
    auto other_items = pairs(4);
    std::get<PairItem>(other_items[3]).match_mark ^= 1;
    const auto other =
        draw_sheet(sample_order("a4-2x4", format, folder / std::string("three") + ending), other_items);
    ASSERT_TRUE(other);
    EXPECT_FALSE(bytes_of_file(first->files[0]) == bytes_of_file(other->files[0])) << ending;
  }
}

TEST(Sheet, PdfCarriesTheOrdersDateAndNotTheClocks) {
  const TempFolder folder;
  const auto drawn = draw_sheet(sample_order("roll-4x6in", SheetFormat::pdf, folder / "a.pdf"), pairs(1));
  ASSERT_TRUE(drawn) << drawn.error().message;
  const std::string pdf = bytes_of_file(drawn->files[0]);
  EXPECT_NE(pdf.find("/CreationDate (D:20261125093015Z)"), std::string::npos);
  EXPECT_NE(pdf.find("/ModDate (D:20261125093015Z)"), std::string::npos);
}

TEST(Sheet, PngIsOneBitADotAndStatesTheResolution) {
  const TempFolder folder;
  auto order = sample_order("roll-100x150", SheetFormat::png, folder / "a.png");
  order.dots_per_inch = 203.2;
  const auto drawn = draw_sheet(order, pairs(1));
  ASSERT_TRUE(drawn) << drawn.error().message;
  const std::string png = bytes_of_file(drawn->files[0]);
  // W3C PNG 11.2.2 and 11.3.5.3: 800 x 1200 dots (100 x 150 mm at 8 a mm), depth 1, grey; 8000 dots a metre.
  EXPECT_EQ(png.substr(8, 4), std::string("\0\0\0\x0d", 4));
  EXPECT_EQ(png.substr(12, 14), std::string("IHDR\0\0\x03\x20\0\0\x04\xb0\x01\0", 14));
  EXPECT_EQ(png.substr(33, 17), std::string("\0\0\0\x09pHYs\0\0\x1f\x40\0\0\x1f\x40\x01", 17));
  // CRC-32 of that chunk, computed with Python's zlib.crc32.
  EXPECT_EQ(png.substr(50, 4), std::string("\x93\xa8\x5b\xa7", 4));
}

TEST(Sheet, PagesOfPictureFilesAreNumberedBeforeTheEnding) {
  const TempFolder folder;
  const auto drawn = draw_sheet(sample_order("a4-2x4", SheetFormat::svg, folder / "sheet.svg"), pairs(5));
  ASSERT_TRUE(drawn) << drawn.error().message;
  EXPECT_EQ(drawn->pages, 2);
  EXPECT_EQ(drawn->tags, 10);
  EXPECT_EQ(drawn->files, (std::vector<std::string>{folder / "sheet-1.svg", folder / "sheet-2.svg"}));
  for (const auto& file : drawn->files) EXPECT_TRUE(std::filesystem::exists(file)) << file;
}

TEST(Sheet, SinglesTakeOneHalfEachAndPairsStartOnABagHalf) {
  const TempFolder folder;
  std::vector<SheetItem> items = {sample_label(), sample_pair(0), sample_label(), sample_label(),
                                  sample_pair(1)};
  const auto drawn = draw_sheet(sample_order("roll-100x150", SheetFormat::pdf, folder / "a.pdf"), items);
  ASSERT_TRUE(drawn) << drawn.error().message;
  EXPECT_EQ(drawn->pages, 4);
  EXPECT_EQ(drawn->tags, 7);
}

TEST(Sheet, ReportsTheSmallestModule) {
  const TempFolder folder;
  auto order = sample_order("a4-2x4", SheetFormat::pdf, folder / "a.pdf");
  order.dots_per_inch = 203.2;
  const auto drawn = draw_sheet(order, pairs(1));
  ASSERT_TRUE(drawn);
  EXPECT_NEAR(drawn->least_module_mm, 0.875, 1e-9);  // 7 dots of 1/8 mm: 33 of them fit 31 mm
}

TEST(Sheet, TextThatDoesNotFitIsRefusedByNameAndLeavesNoFile) {
  const TempFolder folder;
  auto items = pairs(6);
  std::get<PairItem>(items[5]).box.texts["part"] = "CV-118-B SP3 WITH A VERY LONG NAME THAT NOBODY CAN READ";
  for (const auto format : {SheetFormat::pdf, SheetFormat::png, SheetFormat::svg}) {
    const auto drawn = draw_sheet(sample_order("a4-2x4", format, folder / "a.out"), items);
    ASSERT_FALSE(drawn);
    EXPECT_NE(drawn.error().message.find("design box"), std::string::npos) << drawn.error().message;
    EXPECT_NE(drawn.error().message.find("slot part"), std::string::npos) << drawn.error().message;
    EXPECT_NE(drawn.error().message.find("VERY LONG NAME"), std::string::npos) << drawn.error().message;
    const std::string number = std::get<PairItem>(items[5]).box.texts.at("number");
    EXPECT_TRUE(drawn.error().message.ends_with(" on the tag " + number)) << drawn.error().message;
    EXPECT_TRUE(is_empty(folder));
  }
}

TEST(Sheet, WhatCannotBeShownWholeIsRefused) {
  const TempFolder folder;
  const auto fault_of = [&](auto change) {
    auto items = pairs(1);
    change(std::get<PairItem>(items[0]).bag);
    const auto drawn = draw_sheet(sample_order("a4-2x4", SheetFormat::pdf, folder / "a.pdf"), items);
    EXPECT_TRUE(is_empty(folder));
    return drawn ? std::string("drawn") : drawn.error().message;
  };
  EXPECT_NE(fault_of([](auto& tag) { tag.texts["number"] = "K74Q 2M8X 61 9"; }).find("last words"),
            std::string::npos);
  EXPECT_NE(fault_of([](auto& tag) { tag.texts["colour"] = "red"; }).find("no slot \"colour\""),
            std::string::npos);
  EXPECT_NE(fault_of([](auto& tag) { tag.texts["pocket"] = "a\nb"; }).find("control"), std::string::npos);
  EXPECT_NE(fault_of([](auto& tag) { tag.texts["pocket"] = "\xc3"; }).find("UTF-8"), std::string::npos);
  EXPECT_NE(fault_of([](auto& tag) { tag.texts["pocket"] = "\U0001F9FF\U000E0FFF"; }).find("no font"),
            std::string::npos);
  EXPECT_NE(fault_of([](auto& tag) { tag.payload = ""; }).find("needs a text"), std::string::npos);
  EXPECT_NE(fault_of([](auto& tag) { tag.payload = std::string(600, 'K'); }).find("0.5 mm is the least"),
            std::string::npos);
  EXPECT_NE(fault_of([](auto& tag) { tag.side = "left"; }).find("suction, discharge"), std::string::npos);
}

TEST(Sheet, DesignLargerThanItsPlaceIsRefusedWithBothSizes) {
  const TempFolder folder;
  auto order = sample_order("a4-2x4", SheetFormat::pdf, folder / "a.pdf");
  order.stock.margin_mm = 4.1;  // 99.1 - 8.2 = 90.9 mm for 91
  const auto drawn = draw_sheet(order, pairs(1));
  ASSERT_FALSE(drawn);
  EXPECT_EQ(drawn.error().kind, ErrorKind::refused);
  EXPECT_NE(drawn.error().message.find("91 x 63.6 mm"), std::string::npos) << drawn.error().message;
  EXPECT_NE(drawn.error().message.find("90.9 x 59.5 mm"), std::string::npos) << drawn.error().message;
}

TEST(Sheet, UnusableOrdersAreRefused) {
  const TempFolder folder;
  auto order = sample_order("a4-2x4", SheetFormat::pdf, folder / "a.pdf");
  EXPECT_FALSE(draw_sheet(order, {}));
  order.dots_per_inch = 0;
  EXPECT_FALSE(draw_sheet(order, pairs(1)));
  order.dots_per_inch = 300;
  order.created = "yesterday";
  EXPECT_FALSE(draw_sheet(order, pairs(1)));
  order.created = "2026-11-25";
  order.path = folder / "absent/a.pdf";
  const auto drawn = draw_sheet(order, pairs(1));
  ASSERT_FALSE(drawn);
  EXPECT_EQ(drawn.error().kind, ErrorKind::unreadable);
}

TEST(MatchMark, EveryBitChangesExactlyOneBar) {
  const CutLine cut = cut_between({0, 0, 99.1, 67.7}, {101.6, 0, 99.1, 67.7});
  EXPECT_TRUE(cut.upright);
  EXPECT_NEAR(cut.at_mm, 100.35, 1e-9);
  const auto widths = [&](std::uint32_t mark) {
    std::vector<double> out;
    const auto bars = match_bars(mark, cut);
    for (std::size_t i = 0; i < bars.lengths_mm.size(); i += 2) out.push_back(bars.lengths_mm[i]);
    return out;
  };
  const auto none = widths(0);
  ASSERT_EQ(none.size(), 16u);
  for (int bit = 0; bit < 32; ++bit) {
    const auto some = widths(1u << bit);
    int changed = 0;
    for (std::size_t i = 0; i < 16; ++i) changed += std::abs(some[i] - none[i]) > 0.4;
    EXPECT_EQ(changed, 1) << bit;
  }
}

TEST(MatchMark, ReachesThreeMillimetresIntoBothHalves) {
  const auto bars = match_bars(0xffffffff, cut_between({0, 0, 99.1, 67.7}, {101.6, 0, 99.1, 67.7}));
  EXPECT_GE(bars.reach_mm, 2.5 / 2 + 3);
  EXPECT_GT(bars.from_mm, 0);
  EXPECT_LT(bars.to_mm, 67.7);
}

}  // namespace
}  // namespace counterfoil
