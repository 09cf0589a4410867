// A pair of small tags as dots, spoiled in known ways, scanned, and held against the drawing of the pair that was meant.
#include "workflow/printed_ink.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>

#include "reader/image.h"
#include "support/sheet_samples.h"
#include "support/simulated_print.h"
#include "support/temp_folder.h"
#include "workflow/missing_dots.h"

namespace counterfoil {
namespace {

constexpr double kDotsPerMm = 300 / 25.4, kGlassMm = 6;

Stock small_stock() {
  Stock stock = shipped_stock("a4-2x4");
  stock.page_width_mm = 108;
  stock.page_height_mm = 28;
  stock.columns = 2;
  stock.rows = 1;
  stock.left_mm = stock.top_mm = 1;
  stock.gap_x_mm = stock.gap_y_mm = 0;
  stock.label_width_mm = 53;
  stock.label_height_mm = 26;
  return stock;
}

SheetOrder small_order() {
  SheetOrder order = sample_order("a4-2x4", SheetFormat::png, "");
  order.stock = small_stock();
  order.bag = shipped_design("bag-small");
  order.box = shipped_design("box-small");
  return order;
}

PairItem small_pair() {
  PairItem pair{{}, {}, 0x2d71b9c4u};
  for (TagContent* tag : {&pair.bag, &pair.box}) {
    tag->payload = tag == &pair.bag ? "CF1.K7QCHX65GA.BAG1" : "CF1.K7QCHX65GA.BOX1";
    tag->texts = {{"number", "K7QC HX65 GA"}, {"pocket", "2 HE S1"}};
    tag->side = "suction";
  }
  return pair;
}

GreyPicture printed(const PairItem& pair) {
  const TempFolder folder;
  SheetOrder order = small_order();
  order.path = folder.path() + "/sheet.png";
  if (auto drawn = draw_sheet(order, {pair}); !drawn) throw std::runtime_error(drawn.error().message);
  return value_of(load_picture(order.path, Channel::luma)).grey;
}

struct Scanned {
  double dots_per_inch = 300;
  SimulatedPrinter printer{};
  Optics optics{};
};

struct Outcome {
  std::vector<InkFinding> findings[2];  // of the bag half, of the box half
  std::vector<MissingDots> lines;
};

// What is found on a print of such dots, where the small pair was meant. The place is known to half a millimetre.
Outcome checked(const GreyPicture& dots, const Scanned& how = {},
                const std::function<void(GreyPicture&)>& spoil = {}) {
  static const DrawnPage kMeant = value_of(DrawnPage::make(small_order(), {small_pair()}, 0));
  const Paper paper{small_stock().page_width_mm, small_stock().page_height_mm};
  Glass glass;
  glass.dots_per_inch_x = glass.dots_per_inch_y = how.dots_per_inch;
  GreyPicture scan = scan_of(dots, how.printer, paper, glass, how.optics);
  if (spoil) spoil(scan);
  const double per_mm = how.dots_per_inch / 25.4;
  const Affine on_glass{per_mm, 0, per_mm * kGlassMm, 0, per_mm, per_mm * kGlassMm};
  const Affine exact = chained(how.printer.map, on_glass);
  Affine about = exact;
  about.x0 += 0.4 * per_mm;
  about.y0 -= 0.3 * per_mm;
  DrawnTag tags[2] = {kMeant.tag(0, false), kMeant.tag(1, true)};
  TagPrint prints[2] = {tag_print(scan, tags[0], about), tag_print(scan, tags[1], about)};
  const TagInk inks[2] = {measured_ink(tags[0], prints[0]), measured_ink(tags[1], prints[1])};
  std::vector<InkedTag> inked;
  for (int i = 0; i < 2; ++i)
    inked.push_back({&tags[i], &prints[i], &inks[i], chained(prints[i].map, exact.inverse())});
  Outcome result;
  result.lines = missing_dots(inked);
  overlook(result.lines, inked);
  for (int i = 0; i < 2; ++i)
    result.findings[i] = ink_findings(tags[i], prints[i], measured_ink(tags[i], prints[i]));
  return result;
}

std::string told(const std::vector<InkFinding>& findings) {
  std::string all;
  for (const auto& found : findings)
    all += (all.empty() ? "" : "; ") + std::string(to_text(found.finding.verdict)) + " " + found.finding.what;
  return all;
}

const GreyPicture& clean() {
  static const GreyPicture kClean = printed(small_pair());
  return kClean;
}

void fill(GreyPicture& dots, double x_mm, double y_mm, double width_mm, double height_mm, int grey) {
  for (int y = static_cast<int>(y_mm * kDotsPerMm); y < (y_mm + height_mm) * kDotsPerMm; ++y)
    for (int x = static_cast<int>(x_mm * kDotsPerMm); x < (x_mm + width_mm) * kDotsPerMm; ++x)
      dots.pixels[static_cast<std::size_t>(y) * static_cast<std::size_t>(dots.width) +
                  static_cast<std::size_t>(x)] = static_cast<std::uint8_t>(grey);
}

// Where the bag half has it, mm of the page.
Box part_box(const std::string& name) {
  for (const auto& area : value_of(picture_of_page(small_order(), {small_pair()}, 0, 1)).areas)
    if (area.name == name && !area.tag.box_half) return area.box;
  throw std::runtime_error("no part " + name);
}

TEST(DrawnPageTest, ATagIsDrawnWithEachSideAndKnowsItsOwn) {
  PairItem pair = small_pair();
  pair.bag.side = "discharge";
  pair.box.side = "";
  const DrawnPage page = value_of(DrawnPage::make(small_order(), {pair}, 0));
  const DrawnTag bag = page.tag(0, false), box = page.tag(1, true);
  EXPECT_EQ(bag.side, 1u);
  EXPECT_EQ(box.side, kNoSide);
  EXPECT_NE(bag.drawings[0].values, bag.drawings[1].values);
  EXPECT_NE(bag.drawings[1].values, bag.drawings[2].values);
  EXPECT_EQ(box.parts.size(),
            5u);  // standing words, side mark, number, pocket; and match bars, drawn with the box half
  EXPECT_EQ(bag.parts.size(), 4u);
}

TEST(PrintedInkTest, CleanPrintsAreNotBlamed) {
  Scanned off;
  off.printer.map = {1.002, -0.004, 0.6, 0.004, 0.998, -0.5};
  off.printer.spread_mm = 0.05;
  Scanned coarse;
  coarse.dots_per_inch = 200;
  coarse.optics = {1.1, 8, 3};
  const auto black_and_white = [](GreyPicture& scan) {
    for (auto& pixel : scan.pixels) pixel = pixel < 120 ? 0 : 255;
  };
  const auto dim = [](GreyPicture& scan) {  // darker to the right, on grey paper
    for (std::size_t i = 0; i < scan.pixels.size(); ++i) {
      const auto x = static_cast<double>(i % static_cast<std::size_t>(scan.width)) / scan.width;
      scan.pixels[i] = static_cast<std::uint8_t>(scan.pixels[i] * (0.8 - 0.3 * x));
    }
  };
  const Outcome results[] = {checked(clean()), checked(clean(), off), checked(clean(), coarse),
                             checked(clean(), {}, black_and_white), checked(clean(), off, dim)};
  for (const auto& result : results) {
    EXPECT_EQ(told(result.findings[0]), "");
    EXPECT_EQ(told(result.findings[1]), "");
    EXPECT_TRUE(result.lines.empty());
  }
}

TEST(PrintedInkTest, OneOtherLetterIsFoundAndNamedWithItsSlot) {
  PairItem other = small_pair();
  other.bag.texts["pocket"] = "2 HE S2";
  other.box.texts["number"] = "K7QC HX65 GB";
  const auto result = checked(printed(other));
  EXPECT_EQ(told(result.findings[0]), "reprint pocket: the printed words are not those of the order");
  EXPECT_EQ(told(result.findings[1]), "reprint number: the printed words are not those of the order");
}

TEST(PrintedInkTest, AnotherSideIsAlwaysToBePrintedAgain) {
  PairItem other = small_pair();
  other.bag.side = "discharge";
  other.box.side = "";
  const auto result = checked(printed(other));
  EXPECT_EQ(told(result.findings[0]),
            "reprint side mark: the discharge band is printed where the suction band is due");
  EXPECT_EQ(told(result.findings[1]),
            "reprint side mark: an empty band is printed where the suction band is due");
}

TEST(PrintedInkTest, WhatIsNotPrintedIsMissing) {
  GreyPicture dots = clean();
  const Box number = part_box("number"), pocket = part_box("pocket");
  // The side mark is right of the symbol, under the number.
  fill(dots, number.x_mm - 0.5, number.y_mm - 0.5, dots.width / kDotsPerMm / 2 - number.x_mm - 4,
       26 - number.y_mm, 255);
  fill(dots, pocket.x_mm, pocket.y_mm, pocket.width_mm, pocket.height_mm, 255);
  const auto result = checked(dots);
  for (const auto& line : result.lines)
    ADD_FAILURE() << (line.column ? "column " : "row ") << line.at_mm << " wide " << line.width_mm;
  EXPECT_NE(told(result.findings[0]).find("reprint side mark, number, pocket: missing"), std::string::npos)
      << told(result.findings[0]);
  EXPECT_EQ(told(result.findings[1]), "");
}

TEST(PrintedInkTest, AnotherPairsMatchBarsAreTold) {
  PairItem other = small_pair();
  other.match_mark = 0x9e3779b9u;
  const auto result = checked(printed(other));
  EXPECT_EQ(told(result.findings[0]), "");
  EXPECT_EQ(told(result.findings[1]).substr(0, 20), "reprint match bars: ") << told(result.findings[1]);
}

TEST(PrintedInkTest, WordsPrintedPalerThanTheRestAreTold) {
  GreyPicture dots = clean();
  const Box pocket = part_box("pocket");
  Scanned how;
  const auto pale = [&](GreyPicture& scan) {
    for (int y = 0; y < scan.height; ++y)
      for (int x = 0; x < scan.width; ++x) {
        const double mx = x / kDotsPerMm - kGlassMm, my = y / kDotsPerMm - kGlassMm;
        auto& pixel = scan.pixels[static_cast<std::size_t>(y) * static_cast<std::size_t>(scan.width) +
                                  static_cast<std::size_t>(x)];
        if (mx > pocket.x_mm && mx < pocket.right_mm() && my > pocket.y_mm && my < pocket.bottom_mm())
          pixel = static_cast<std::uint8_t>(225 - (225 - pixel) / 2);
      }
  };
  const auto result = checked(dots, how, pale);
  EXPECT_NE(told(result.findings[0]).find("pocket: paler than the rest of the tag"), std::string::npos)
      << told(result.findings[0]);
  EXPECT_EQ(told(result.findings[1]), "");
}

TEST(PrintedInkTest, ABlotOnTheWordsIsTold) {
  GreyPicture dots = clean();
  const Box pocket = part_box("pocket");
  fill(dots, pocket.right_mm() - 3, pocket.y_mm + 1, 1.5, 1.5, 0);
  const auto result = checked(dots);
  EXPECT_EQ(told(result.findings[0]),
            "reprint pocket: there is ink that should not be there, or another letter");
}

TEST(PrintedInkTest, ASmallFaultOfTheSideMarkIsAlwaysToBePrintedAgain) {
  GreyPicture dots = clean();
  const Box pocket = part_box("pocket");
  fill(dots, pocket.x_mm + 12, pocket.y_mm - 4, 0.4, 0.4, 0);  // in the band above the pocket
  EXPECT_EQ(told(checked(dots).findings[0]), "reprint side mark: there is ink that should not be there");
}

TEST(PrintedInkTest, InkBesideTheDesignIsNotTheTags) {
  GreyPicture dots = clean();
  for (const auto& area : value_of(picture_of_page(small_order(), {small_pair()}, 0, 1)).areas)
    if (area.kind == PageArea::Kind::design && area.tag.box_half)
      fill(dots, area.box.right_mm() + 0.15, area.box.y_mm, 0.8, area.box.height_mm, 0);
  EXPECT_EQ(told(checked(dots).findings[1]), "");
}

TEST(PrintedInkTest, LinesOfDotsAreFoundThroughWordsToo) {
  GreyPicture dots = clean();
  const Box number = part_box("number");
  // The column right of the symbol that has most ink.
  int column = 0;
  long most = 0;
  for (int x = static_cast<int>(number.x_mm * kDotsPerMm); x < dots.width / 2 - 4 * kDotsPerMm; ++x) {
    long ink = 0;
    for (int y = 0; y < dots.height; ++y)
      ink += dots.pixels[static_cast<std::size_t>(y) * static_cast<std::size_t>(dots.width) +
                         static_cast<std::size_t>(x)] == 0;
    if (ink > most) most = ink, column = x;
  }
  const int row = static_cast<int>((number.y_mm + 2.0) * kDotsPerMm);
  fill(dots, column / kDotsPerMm + 1e-6, 0, 0.5 / kDotsPerMm, 28, 255);
  fill(dots, 0, row / kDotsPerMm + 1e-6, 108, 0.5 / kDotsPerMm, 255);
  const auto result = checked(dots);
  ASSERT_EQ(result.lines.size(), 2u);
  EXPECT_TRUE(result.lines[0].column);
  EXPECT_NEAR(result.lines[0].at_mm, (column + 0.5) / kDotsPerMm, .05);
  EXPECT_EQ(result.lines[0].tags, 1);
  EXPECT_FALSE(result.lines[1].column);
  EXPECT_NEAR(result.lines[1].at_mm, (row + 0.5) / kDotsPerMm, .05);
  EXPECT_EQ(result.lines[1].tags, 2);
  // They are blamed once, not on the tags as well.
  EXPECT_EQ(told(result.findings[0]), "");
  EXPECT_EQ(told(result.findings[1]), "");
}

TEST(PrintedInkTest, AScanThatIsTooCoarseIsNotJudged) {
  PairItem other = small_pair();
  other.bag.side = "discharge";
  Scanned how;
  how.dots_per_inch = 100;
  EXPECT_EQ(told(checked(printed(other), how).findings[0]), "");
  how.dots_per_inch = 150;
  EXPECT_NE(told(checked(printed(other), how).findings[0]), "");
}

}  // namespace
}  // namespace counterfoil
