// Sheets as a printer and a reader see them: rendered by Poppler, read by ZXing-cpp and ZBar, measured in
// pixels.
#include <zbar.h>

// ZBar first: it has a class of a name that ZXing-cpp defines as a macro.
#include <ZXing/ReadBarcode.h>
#include <ZXing/TextUtfEncoding.h>
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <map>
#include <set>

#include "reader/image.h"
#include "roundtrip/raster.h"
#include "sheet/slot.h"
#include "support/sheet_samples.h"
#include "support/temp_folder.h"

namespace counterfoil {
namespace {

// From the drawings: where the symbol slots' middles lie from the designs' top left corners.
constexpr double kDesignWidth = 91, kDesignHeight = 63.6;
constexpr double kBagSymbolX = 12.3 + 31 / 2.0, kBagSymbolY = 31 / 2.0;
constexpr double kBoxSymbolX = 35 / 2.0, kBoxSymbolY = 35 / 2.0;

struct Sheet {
  SheetOrder order;
  int pairs = 0;
  std::vector<Raster> pages;
};

Sheet sheet_of(const std::string& stock, double printer_dpi, double raster_dpi) {
  const TempFolder folder;
  Sheet sheet{sample_order(stock, SheetFormat::pdf, folder / "sheet.pdf"), 0, {}};
  sheet.order.dots_per_inch = printer_dpi;
  sheet.pairs = std::max(3, sheet.order.stock.pairs_per_page());
  std::vector<SheetItem> items;
  for (int i = 0; i < sheet.pairs; ++i) items.emplace_back(sample_pair(i));
  const auto drawn = value_of(draw_sheet(sheet.order, items));
  sheet.pages = rasterised(drawn.files[0], raster_dpi);
  return sheet;
}

std::multiset<std::string> read_by_zxing(const Raster& page) {
  const auto found = ZXing::ReadBarcodes({page.grey.data(), page.width, page.height, ZXing::ImageFormat::Lum},
                                         ZXing::DecodeHints().setTryHarder(true));
  std::multiset<std::string> texts;
  for (const auto& symbol : found) texts.insert(ZXing::TextUtfEncoding::ToUtf8(symbol.text()));
  return texts;
}

std::multiset<std::string> read_by_zbar(const Raster& page) {
  zbar::ImageScanner scanner;
  zbar::Image image(static_cast<unsigned>(page.width), static_cast<unsigned>(page.height), "Y800",
                    page.grey.data(), page.grey.size());
  scanner.scan(image);
  std::multiset<std::string> texts;
  for (auto symbol = image.symbol_begin(); symbol != image.symbol_end(); ++symbol)
    texts.insert(symbol->get_data());
  return texts;
}

std::multiset<std::string> printed_on(const Sheet& sheet, std::size_t page) {
  std::multiset<std::string> texts;
  const int per_page = sheet.order.stock.pairs_per_page();
  for (int i = 0; i < per_page; ++i) {
    const int pair = static_cast<int>(page) * per_page + i;
    if (pair >= sheet.pairs) break;
    texts.insert(sample_tag(pair, "BAG").payload);
    texts.insert(sample_tag(pair, "BOX").payload);
  }
  return texts;
}

class OnStock : public testing::TestWithParam<const char*> {};

TEST_P(OnStock, EverySymbolReadsByTwoReadersAndNothingElseDoes) {
  for (const double dpi : {203.2, 300.0, 600.0}) {
    const Sheet sheet = sheet_of(GetParam(), dpi, dpi);
    for (std::size_t page = 0; page < sheet.pages.size(); ++page) {
      EXPECT_EQ(read_by_zxing(sheet.pages[page]), printed_on(sheet, page)) << dpi << " dpi, page " << page;
      EXPECT_EQ(read_by_zbar(sheet.pages[page]), printed_on(sheet, page)) << dpi << " dpi, page " << page;
    }
  }
}

TEST_P(OnStock, SymbolsLieWhereTheStockSaysWithinATenthOfAMillimetre) {
  for (const double dpi : {203.2, 300.0, 600.0}) {
    // Whole pixels a dot, so that only what we do can shift a symbol.
    const Sheet sheet = sheet_of(GetParam(), dpi, dpi * std::round(600 / dpi));
    const Stock& stock = sheet.order.stock;
    for (int i = 0; i < stock.pairs_per_page(); ++i)
      for (const bool is_bag : {true, false}) {
        const Box half = is_bag ? stock.printable(stock.bag_label(i), stock.bag_half(i), false)
                                : stock.printable(stock.box_label(i), stock.box_half(i), true);
        const double x =
            half.x_mm + (half.width_mm - kDesignWidth) / 2 + (is_bag ? kBagSymbolX : kBoxSymbolX);
        const double y =
            half.y_mm + (half.height_mm - kDesignHeight) / 2 + (is_bag ? kBagSymbolY : kBoxSymbolY);
        const double slot = is_bag ? 31 : 35;
        // 25 modules of whole dots, with 4 on each side for the quiet zone.
        const double module = std::floor(slot / 33 / 25.4 * dpi + 1e-9) * 25.4 / dpi;
        const Box ink = sheet.pages[0].ink_in({x - slot / 2, y - slot / 2, slot, slot});
        EXPECT_NEAR(ink.width_mm, 25 * module, 0.1) << dpi;
        EXPECT_NEAR(ink.height_mm, 25 * module, 0.1) << dpi;
        EXPECT_NEAR(ink.x_mm + ink.width_mm / 2, x, 0.1) << dpi;
        EXPECT_NEAR(ink.y_mm + ink.height_mm / 2, y, 0.1) << dpi;
        EXPECT_GE(module, is_bag ? 0.5 : 0.75);
      }
  }
}

TEST_P(OnStock, NoInkOutsideItsLabelButTheMarkTheCutAndTheScaleLine) {
  const Sheet sheet = sheet_of(GetParam(), 300, 300);
  const Stock& stock = sheet.order.stock;
  for (const auto& page : sheet.pages) {
    Raster rest = page;
    const double margin = stock.margin_mm;
    for (int i = 0; i < stock.pairs_per_page(); ++i) {
      const Box bag = stock.bag_half(i), box = stock.box_half(i);
      for (const Box& half : {bag, box})
        rest.clear({half.x_mm + margin, half.y_mm + margin, half.width_mm - 2 * margin,
                    half.height_mm - 2 * margin});
      constexpr double kReach = 3.5;
      if (stock.pairing == Stock::Pairing::split)
        rest.clear({bag.x_mm, box.y_mm - kReach, bag.width_mm, 2 * kReach});
      else
        rest.clear({bag.x_mm + bag.width_mm - kReach, bag.y_mm,
                    box.x_mm - bag.x_mm - bag.width_mm + 2 * kReach, bag.height_mm});
    }
    rest.clear({0, 0, stock.page_width_mm, stock.top_mm - 1});
    EXPECT_EQ(rest.ink_in({0, 0, stock.page_width_mm, stock.page_height_mm}).width_mm, 0);
  }
}

INSTANTIATE_TEST_SUITE_P(Sheets, OnStock,
                         testing::Values("letter-2x3", "a4-2x4", "roll-4x6in", "roll-100x150"),
                         [](const auto& stock) {
                           std::string name = stock.param;
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

bool drawable(const Design& design, const TagContent& tag) {
  const TempFolder folder;
  return static_cast<bool>(draw_sheet(sample_order("roll-100x150", SheetFormat::pdf, folder / "tag.pdf"),
                                      {SingleItem{tag, design}}));
}

// One tag alone on the roll, on its first half.
Raster tag_alone(const Design& design, const TagContent& tag, double dpi) {
  const TempFolder folder;
  auto order = sample_order("roll-100x150", SheetFormat::pdf, folder / "tag.pdf");
  const auto drawn = value_of(draw_sheet(order, {SingleItem{tag, design}}));
  return rasterised(drawn.files[0], dpi)[0];
}

Box on_roll(const Box& slot) {
  return {slot.x_mm + (100 - kDesignWidth) / 2, slot.y_mm + (75 - kDesignHeight) / 2, slot.width_mm,
          slot.height_mm};
}

class OfDesign : public testing::TestWithParam<const char*> {};

TEST_P(OfDesign, NothingIsPrintedInATextSlotButItsText) {
  const Design design = shipped_design(GetParam());
  for (const std::string side : {"suction", "discharge", ""}) {
    const Raster page = tag_alone(design, {"CF1.K74Q2M8X61.BAG1", {}, side}, 300);
    for (const auto& slot : design.data().slots) {
      if (slot.is_symbol()) continue;
      EXPECT_EQ(page.ink_in(on_roll(slot.box)).width_mm, 0) << slot.id << " " << side;
    }
  }
}

TEST_P(OfDesign, LongestTextsStayInTheirSlotsAndAreNeverUnder2_8Millimetres) {
  const Design design = shipped_design(GetParam());
  for (const auto& slot : design.data().slots) {
    if (slot.is_symbol()) continue;
    // The longest row of H that the slot takes.
    TagContent tag{"CF1.K74Q2M8X61.BAG1", {}, ""};
    std::string text = slot.first_word > 1 ? "H H H" : "H";
    for (tag.texts[slot.name] = text; drawable(design, tag); tag.texts[slot.name] = text + "H")
      text = tag.texts[slot.name];
    ASSERT_GT(text.size(), 1u) << slot.id;
    tag.texts[slot.name] = text;
    // What the text adds to the page.
    Raster page = tag_alone(design, tag, 600);
    tag.texts.clear();
    const Raster empty = tag_alone(design, tag, 600);
    for (std::size_t i = 0; i < page.grey.size(); ++i)
      if (page.grey[i] == empty.grey[i]) page.grey[i] = 255;
    // The same text's other slots are looked at in their turn.
    for (const auto& other : design.data().slots)
      if (other.name == slot.name && other.id != slot.id) page.clear(on_roll(other.box));
    const Box room = on_roll(slot.box);
    const Box ink = page.ink_in({room.x_mm - 1, room.y_mm - 1, room.width_mm + 2, room.height_mm + 2});
    EXPECT_GE(ink.height_mm, 2.8 - 0.05) << slot.id << " " << text;
    EXPECT_GE(ink.x_mm, room.x_mm - 0.05) << slot.id;
    EXPECT_GE(ink.y_mm, room.y_mm - 0.05) << slot.id;
    EXPECT_LE(ink.x_mm + ink.width_mm, room.x_mm + room.width_mm + 0.05) << slot.id;
    EXPECT_LE(ink.y_mm + ink.height_mm, room.y_mm + room.height_mm + 0.05) << slot.id;
    EXPECT_GT(ink.width_mm, 0.6 * room.width_mm) << slot.id << " " << text;
  }
}

TEST_P(OfDesign, LongNamesOfUnitsPocketsPartsAndTurnaroundsFit) {
  const Design design = shipped_design(GetParam());
  const std::map<std::string, std::vector<std::string>> texts = {
      {"unit", {"HHHHHHHHHHHHHHHH", "Ångerm. 5", "U-Compressor", "Συμπιεστής 4"}},
      {"pocket", {"HHHHHHHHHHHH HHHHHHHHHHHH", "2. st. př. sání 1", "1st stage, crank end, upper suction 2"}},
      {"part", {"HHHHHHHHHHHHHHHHHHHH", "PN 8842-XY-0001928"}},
      {"turnaround", {"HHHHHHHHHHHHHHHH", "2026-Q4-TURN"}}};
  for (const auto& [name, long_ones] : texts)
    for (const auto& text : long_ones)
      EXPECT_TRUE(drawable(design, {"CF1.K74Q2M8X61.BAG1", {{name, text}}, ""})) << name << " " << text;
}

// Unit "4" and pocket "2 HE D2" in one row read as unit 42.
TEST_P(OfDesign, UnitAndPocketShareNoRow) {
  const Design design = shipped_design(GetParam());
  std::map<std::string, Box> boxes;
  for (const auto& slot : design.data().slots) boxes[slot.id] = slot.box;
  const Box &unit = boxes.at("unit"), &pocket = boxes.at("pocket");
  EXPECT_LE(unit.y_mm + unit.height_mm, pocket.y_mm);
  // The line between the two is also what a spare tag's unit is written on.
  const Raster page = tag_alone(design, {"CF1.K74Q2M8X61.BAG1", {}, ""}, 600);
  const double between = unit.y_mm + unit.height_mm;
  EXPECT_GT(page.ink_in(on_roll({unit.x_mm, between, unit.width_mm, pocket.y_mm - between})).width_mm, 45);
}

TEST_P(OfDesign, ContaminationHasALineToWriteOn) {
  const Raster page = tag_alone(shipped_design(GetParam()), {"CF1.K74Q2M8X61.BAG1", {}, ""}, 600);
  EXPECT_GE(page.ink_in(on_roll({60, 59.85, 31, 0.4})).width_mm, 25);
  EXPECT_EQ(page.ink_in(on_roll({66, 57.1, 25, 2.6})).width_mm, 0);
}

TEST_P(OfDesign, StandingWordsAreNeverUnder2_8Millimetres) {
  const Raster page = tag_alone(shipped_design(GetParam()), {"CF1.K74Q2M8X61.BAG1", {}, "suction"}, 600);
  // The lowest line of every design has capitals only: IDENTIFICATION ONLY - NOT A LOCK-OUT TAG.
  const Box line = page.ink_in(on_roll({0, 60.5, 91, 3.1}));
  EXPECT_GE(line.height_mm, 2.8 - 0.05);
  EXPECT_LE(line.height_mm, 3.2);
  EXPECT_GT(line.width_mm, 70);
}

INSTANTIATE_TEST_SUITE_P(Designs, OfDesign, testing::Values("bag", "box", "label"),
                         [](const auto& design) { return std::string(design.param); });

TEST(Tag, NumberIsNineMillimetresHighAndTheHoleIsKeptClear) {
  const Raster bag = tag_alone(shipped_design("bag"), sample_tag(0, "BAG"), 600);
  const Box number = bag.ink_in(on_roll({45, 0, 33, 10.4}));  // its first line
  EXPECT_NEAR(number.height_mm, 9, 0.35);                     // round letters overshoot
  const Raster box = tag_alone(shipped_design("box"), sample_tag(0, "BOX"), 600);
  EXPECT_GE(box.ink_in(on_roll({37, 0, 41, 10.3})).height_mm, 9);
  const Box hole = bag.ink_in(on_roll({0, 19.5, 14, 18}));
  EXPECT_NEAR(hole.width_mm, 6.3, 0.15);
  EXPECT_NEAR(hole.height_mm, 6.3, 0.15);
  // Nothing else stands at the hole's end.
  EXPECT_EQ(bag.ink_in(on_roll({0, 0, 15.9, 25})).width_mm, 0);
  EXPECT_EQ(bag.ink_in(on_roll({0, 32, 15.9, 31.6})).width_mm, 0);
}

TEST(Tag, ZerosOfTheNumberAreSlashedAndCopyAsZeros) {
  const TempFolder folder;
  auto order = sample_order("roll-100x150", SheetFormat::pdf, folder / "tag.pdf");
  TagContent tag{"CF1.K74Q2M8X61.BAG1", {{"number", "0000 K74Q 08"}}, ""};
  const auto drawn = value_of(draw_sheet(order, {SingleItem{tag, order.bag}}));
  const Raster page = rasterised(drawn.files[0], 600)[0];
  const Box first_line = page.ink_in(on_roll({45, 0, 33, 10}));
  // Four zeros: the middle of the first lies an eighth along, and only a stroke through it has ink there.
  const Box middle{first_line.x_mm + first_line.width_mm / 8 - 0.7,
                   first_line.y_mm + first_line.height_mm / 2 - 0.2, 1.0, 0.4};
  EXPECT_GT(page.ink_in(middle).width_mm, 0.5);
  const std::string text = folder / "tag.txt";
  ASSERT_EQ(std::system(("pdftotext '" + drawn.files[0] + "' '" + text + "'").c_str()), 0);
  std::ifstream in(text);
  const std::string copied{std::istreambuf_iterator<char>(in), {}};
  EXPECT_NE(copied.find("0000\nK74Q\n08"), std::string::npos) << copied;
}

TEST(Tag, SidesDifferInInkShapeAndBorder) {
  std::map<std::string, double> cover;
  for (const std::string side : {"suction", "discharge", ""}) {
    const Raster page = tag_alone(shipped_design("bag"), {"CF1.K74Q2M8X61.BAG1", {}, side}, 300);
    const Box band = on_roll({79.5, 0, 11.5, 57});
    int ink = 0, all = 0;
    for (int y = page.pixel(band.y_mm); y < page.pixel(band.y_mm + band.height_mm); ++y)
      for (int x = page.pixel(band.x_mm); x < page.pixel(band.x_mm + band.width_mm); ++x, ++all)
        ink += page.ink(x, y);
    cover[side] = static_cast<double>(ink) / all;
    // Round ends of suction leave the corner white.
    EXPECT_EQ(page.ink_in(on_roll({79.6, 0.1, 0.8, 0.8})).width_mm > 0, side != "suction");
  }
  EXPECT_GT(cover["discharge"], 0.6);
  EXPECT_LT(cover["suction"], 0.5);
  EXPECT_LT(cover[""], 0.1);
}

TEST(Sheet, ModulesOfThePngAreWholeDotsAndItReads) {
  const TempFolder folder;
  auto order = sample_order("roll-100x150", SheetFormat::png, folder / "a.png");
  order.dots_per_inch = 203.2;
  const auto drawn = value_of(draw_sheet(order, {sample_pair(0)}));
  const auto picture = value_of(load_picture(drawn.files[0], Channel::luma));
  const Raster page{picture.width, picture.height, 203.2, picture.grey.pixels};
  ASSERT_EQ(page.width, 800);
  ASSERT_EQ(page.height, 1200);
  EXPECT_EQ(read_by_zxing(page),
            (std::multiset<std::string>{sample_tag(0, "BAG").payload, sample_tag(0, "BOX").payload}));
  // 8 dots a mm: modules of 7 dots on the bag half (31 mm for 33) and of 8 on the box half (35 mm).
  for (const auto& [slot, dots] : {std::pair{Box{12.3, 0, 31, 31}, 7}, {Box{0, 75, 35, 35}, 8}}) {
    const Box symbol = page.ink_in(on_roll(slot));
    ASSERT_NEAR(symbol.width_mm, 25 * dots / 8.0, 1e-9);
    const int left = page.pixel(symbol.x_mm + 1e-6), top = page.pixel(symbol.y_mm + 1e-6);
    for (int y = 0; y < 25 * dots; ++y)
      for (int x = 0; x < 25 * dots; ++x)
        ASSERT_EQ(page.ink(left + x, top + y), page.ink(left + x / dots * dots, top + y / dots * dots));
  }
}

}  // namespace
}  // namespace counterfoil
