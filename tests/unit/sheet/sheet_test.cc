#include "sheet/sheet.h"

#include <gtest/gtest.h>

#include <clocale>
#include <cstdlib>
#include <ctime>
#include <filesystem>

#include "base/file.h"
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

TEST(Sheet, SameBytesInEveryTimeZoneAndLocale) {
  const TempFolder folder;
  const auto drawn_in = [&](const char* zone, const char* locale) {
    ::setenv("TZ", zone, 1);
    ::tzset();
    const char* const set = std::setlocale(LC_ALL, locale);
    const auto drawn = draw_sheet(sample_order("a4-2x4", SheetFormat::pdf, folder / "a.pdf"), pairs(2));
    std::setlocale(LC_ALL, "C");
    ::unsetenv("TZ");
    ::tzset();
    // Where a locale is not installed, only the zone is tried.
    return drawn ? bytes_of_file(drawn->files[0]) : std::string(set == nullptr ? "" : set);
  };
  const std::string first = drawn_in("UTC", "C");
  ASSERT_GT(first.size(), 1000u);
  EXPECT_TRUE(first == drawn_in("Pacific/Kiritimati", "C.UTF-8"));
  EXPECT_TRUE(first == drawn_in("America/St_Johns", "de_DE.UTF-8"));  // a comma before decimals
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

// What stands outside the labels must not keep a narrow stock from being printed.
TEST(Sheet, TheNoteAboveTheLabelsIsLeftOutWhereItHasNoRoom) {
  const TempFolder folder;
  const std::vector<SheetItem> items = {SingleItem{sample_tag(0, "BAG"), shipped_design("bag-medium")}};
  std::vector<std::uintmax_t> sizes;
  for (const double width_mm : {210.0, 146.0, 144.0, 120.0}) {
    auto order = sample_order("a4-2x4", SheetFormat::pdf, folder / "a.pdf");
    order.stock.page_width_mm = width_mm;
    order.stock.columns = 1;
    order.stock.pairing = Stock::Pairing::rows;
    order.bag = order.box = shipped_design("bag-medium");
    const auto drawn = draw_sheet(order, items);
    ASSERT_TRUE(drawn) << width_mm << " mm: " << drawn.error().message;
    sizes.push_back(std::filesystem::file_size(folder / "a.pdf"));
  }
  EXPECT_NEAR(static_cast<double>(sizes[0]), static_cast<double>(sizes[1]), 30);
  EXPECT_NEAR(static_cast<double>(sizes[2]), static_cast<double>(sizes[3]), 30);
  EXPECT_GT(sizes[1], sizes[2] + 1000);  // with the mono font's letters of the count
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

TEST(Sheet, SaysWhatWasChosenForEachSymbol) {
  const TempFolder folder;
  auto order = sample_order("roll-100x150", SheetFormat::pdf, folder / "a.pdf");
  order.dots_per_inch = 203.2;
  const auto drawn = draw_sheet(order, pairs(3));
  ASSERT_TRUE(drawn) << drawn.error().message;
  ASSERT_EQ(drawn->symbols.size(), 2u);
  // 25 modules and 8 of quiet zone at 8 dots a mm: 7 dots are 28.875 of 31 mm, 8 dots are 33 of 35.
  const SymbolReport& bag = drawn->symbols[0];
  EXPECT_EQ(bag.design, "bag-large");
  EXPECT_EQ(bag.slot, "symbol");
  EXPECT_EQ(bag.version, 2);
  EXPECT_EQ(bag.level, CorrectionLevel::high);
  EXPECT_EQ(bag.dots, 7);
  EXPECT_EQ(bag.tags, 3);
  EXPECT_DOUBLE_EQ(bag.slot_mm, 31);
  EXPECT_NEAR(bag.width_mm(), 25 * 0.875, 1e-9);
  EXPECT_NEAR(bag.reading_distance_mm(), 218.75, 1e-6);
  EXPECT_EQ(drawn->symbols[1].dots, 8);
}

TEST(Sheet, CheckFitAgreesWithDrawing) {
  const TempFolder folder;
  for (const auto& stock : value_of(load_stocks(kTemplates + "stocks"))) {
    auto order = sample_order("a4-2x4", SheetFormat::pdf, folder / "a.pdf");
    order.stock = stock;
    const auto fits = check_fit(order, pairs(2));
    const auto drawn = draw_sheet(order, pairs(2));
    ASSERT_EQ(static_cast<bool>(fits), static_cast<bool>(drawn)) << stock.name;
    if (fits) continue;
    EXPECT_TRUE(drawn.error().message.starts_with(fits.error().message)) << drawn.error().message;
  }
}

TEST(Sheet, SuccessiveLabelsTakeAPageForEachHalfAndPairsBeginTogether) {
  const TempFolder folder;
  auto order = sample_order("roll-4x3in", SheetFormat::png, folder / "a.png");
  order.dots_per_inch = 100;
  const auto drawn = draw_sheet(order, pairs(3));
  ASSERT_TRUE(drawn) << drawn.error().message;
  EXPECT_EQ(drawn->pages, 6);
  EXPECT_EQ(drawn->tags, 6);
  EXPECT_EQ(drawn->files.size(), 6u);
}

TEST(Sheet, ThePreviewIsOfTheFirstPagesAndLeavesTheSheetAsItIs) {
  const TempFolder folder, plain;
  auto order = sample_order("roll-4x3in", SheetFormat::pdf, folder / "a.pdf");
  order.preview = folder / "look.png";
  const auto drawn = draw_sheet(order, pairs(6));
  ASSERT_TRUE(drawn) << drawn.error().message;
  EXPECT_EQ(drawn->pages, 12);
  ASSERT_EQ(drawn->previews.size(), 10u);
  EXPECT_EQ(drawn->previews[9], folder / "look-10.png");
  auto without = sample_order("roll-4x3in", SheetFormat::pdf, plain / "a.pdf");
  ASSERT_TRUE(draw_sheet(without, pairs(6)));
  EXPECT_EQ(bytes_of_file(folder / "a.pdf"), bytes_of_file(plain / "a.pdf"));
}

TEST(Sheet, WithoutItsPreviewNothingIsLeft) {
  const TempFolder folder;
  auto order = sample_order("a4-2x4", SheetFormat::pdf, folder / "a.pdf");
  order.preview = folder / "absent/look.png";
  const auto drawn = draw_sheet(order, pairs(1));
  ASSERT_FALSE(drawn);
  EXPECT_EQ(drawn.error().kind, ErrorKind::unreadable);
  EXPECT_TRUE(is_empty(folder));
}

}  // namespace
}  // namespace counterfoil
