// Every shipped design on every stock that it fits, with the shortest texts and the longest, in Latin, Arabic and Hebrew,
// as Poppler draws it: what the readers get, and where the ink lies.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "roundtrip/raster.h"
#include "roundtrip/sheet_proof.h"
#include "support/design_samples.h"
#include "support/sanitized.h"
#include "support/temp_folder.h"

namespace counterfoil {
namespace {

// Sanitizers make pages ten times as slow: with them every fifth design is tried, at 203.2 dpi only.

std::vector<std::string> designs_to_try() {
  std::vector<std::string> names = shipped_design_names();
  if (!kSanitized) return names;
  std::vector<std::string> some;
  for (std::size_t i = 0; i < names.size(); i += 5) some.push_back(names[i]);
  return some;
}

// A printing program's page of such items, by Poppler.
Raster page_of(const Stock& stock, const std::vector<SheetItem>& items, double dpi) {
  const TempFolder folder;
  const auto drawn =
      value_of(draw_sheet({stock, shipped_design("bag-large"), shipped_design("box-large"), dpi,
                           SheetFormat::pdf, folder / "tags.pdf", "Tags", "2026-11-25T09:30:15Z"},
                          items));
  return rasterised(drawn.files[0], dpi).at(0);
}

class ShippedDesign : public testing::TestWithParam<std::string> {};
class SidedDesign : public testing::TestWithParam<std::string> {};  // a carton has no side

void expect_no_fault(const SheetProof& proof, double dpi) {
  EXPECT_GE(proof.symbols, proof.tags);
  for (const auto& fault : proof.faults) ADD_FAILURE() << dpi << " dpi: " << fault;
}

// All specimens at 203.2 and at 300 dpi. Symbols do not depend on the texts: at 600, where a page costs most, one specimen,
// another from design to design.
TEST_P(ShippedDesign, IsReadByTwoReadersAndKeepsItsTextsInTheirSlots) {
  const Design design = shipped_design(GetParam());
  std::vector<SheetItem> items;
  for (int which = 0; which < kSpecimens; ++which)
    items.emplace_back(specimen({design}, which, static_cast<std::size_t>(which)));
  const Stock bench = bench_stock(design.width_mm(), design.height_mm(), 2, 2);
  const SheetProof coarse = prove_sheet(bench, items, 203.2, kSanitized);
  EXPECT_EQ(coarse.tags, kSpecimens);
  expect_no_fault(coarse, 203.2);
  if (kSanitized) return;
  expect_no_fault(prove_sheet(bench, items, 300, true), 300);
  const auto names = shipped_design_names();
  const auto turn = std::find(names.begin(), names.end(), GetParam()) - names.begin();
  const Stock narrow_bench = bench_stock(design.width_mm(), design.height_mm(), 2, 1);
  expect_no_fault(prove_sheet(narrow_bench, {items[static_cast<std::size_t>(turn % kSpecimens)]}, 600, true),
                  600);
}

// Black without the word differs too: by the ends of the band, and by how much of it is ink.
TEST_P(SidedDesign, SidesDifferInInk) {
  const Design design = shipped_design(GetParam());
  const Stock bench = bench_stock(design.width_mm(), design.height_mm(), 2, 2);
  std::vector<SheetItem> items;
  for (const std::string side : {"suction", "discharge", ""})
    items.emplace_back(SingleItem{{"CF1.K74Q2M8X61.BAG1", {}, side}, design});
  const Raster page = page_of(bench, items, 203.2);
  std::vector<int> dark(3);
  for (int place = 0; place < 3; ++place) {
    const Box tag = bench.label(place);
    for (int y = page.pixel(tag.y_mm); y < page.pixel(tag.y_mm + tag.height_mm); ++y)
      for (int x = page.pixel(tag.x_mm); x < page.pixel(tag.x_mm + tag.width_mm); ++x)
        dark[static_cast<std::size_t>(place)] += page.ink(x, y);
  }
  EXPECT_GT(dark[1], dark[0] * 1.03);
  EXPECT_GT(dark[0], dark[2]);
}

std::string as_test_name(std::string name) {
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
}

std::vector<std::string> sided_designs() {
  std::vector<std::string> names = designs_to_try();
  std::erase_if(names, [](const auto& name) { return kind_of(name) == "carton"; });
  return names;
}

INSTANTIATE_TEST_SUITE_P(All, ShippedDesign, testing::ValuesIn(designs_to_try()),
                         [](const auto& design) { return as_test_name(design.param); });
INSTANTIATE_TEST_SUITE_P(All, SidedDesign, testing::ValuesIn(sided_designs()),
                         [](const auto& design) { return as_test_name(design.param); });

std::vector<std::string> stock_names() {
  std::vector<std::string> names;
  for (const auto& stock : value_of(load_stocks(kTemplates + "stocks"))) names.push_back(stock.name);
  return names;
}

class ShippedStock : public testing::TestWithParam<std::string> {};

// A group of outlines with its drawings, which take ten times as long to load.
DesignGroup drawn(const DesignGroup& outlines) {
  DesignGroup group{shipped_design(outlines.first.name())};
  if (outlines.box) group.box = shipped_design(outlines.box->name());
  return group;
}

// A part of what prove_designs tries: every other design with one filling at 203.2 dpi, and one of them at 300 and at 600;
// designs and fillings take turns from stock to stock.
TEST_P(ShippedStock, DesignsThatFitAreReadOnItAndKeepToTheirPlaces) {
  const Stock stock = shipped_stock(GetParam());
  const auto names = stock_names();
  const auto turn =
      static_cast<std::size_t>(std::find(names.begin(), names.end(), stock.name) - names.begin());
  std::vector<Design> designs;
  for (const auto& name : designs_to_try())
    if (Design outline = value_of(Design::outline(design_file(name))); fits(outline, stock))
      designs.push_back(std::move(outline));
  ASSERT_TRUE(kSanitized || !designs.empty());
  if (designs.empty()) GTEST_SKIP() << "none of the designs tried under sanitizers fits";
  std::vector<SheetItem> items;
  const auto groups = grouped(designs);
  for (std::size_t i = kSanitized ? 0 : turn % 2; i < groups.size(); i += kSanitized ? 1 : 2)
    items.emplace_back(specimen(drawn(groups[i]), static_cast<int>((turn + i / 2) % kSpecimens), i));
  expect_no_fault(prove_sheet(stock, items, 203.2, false), 203.2);
  if (kSanitized) return;
  for (const double dpi : {300.0, 600.0})
    expect_no_fault(prove_sheet(stock, {items[turn % items.size()]}, dpi, true), dpi);
}

INSTANTIATE_TEST_SUITE_P(All, ShippedStock, testing::ValuesIn(stock_names()),
                         [](const auto& stock) { return as_test_name(stock.param); });

// A drawing of ours with that inside, printed alone; 20 x 20 mm, 4.2 mm from the corner of the page.
Raster drawn_alone(const std::string& inside, TagContent tag = {}) {
  const Design design =
      value_of(Design::parse("<svg xmlns='http://www.w3.org/2000/svg' "
                             "xmlns:xlink='http://www.w3.org/1999/xlink' width='20mm' height='20mm' "
                             "viewBox='0 0 20 20'>" +
                                 inside + "</svg>",
                             "own"));
  return page_of(bench_stock(20, 20, 2, 1), {SingleItem{std::move(tag), design}}, 300);
}

// An 8 x 8 picture of one black and three white quarters, made with Python's zlib after W3C PNG.
constexpr const char* kLogo =
    "data:image/png;base64,\niVBORw0KGgoAAAANSUhEUgAAAAgAAAAICAAAAADhZOFXAAAAFUlEQVR42mNgAIL/QMCAh/EfCvAwAHsT"
    "L9FnBTGcAAAAAElFTkSuQmCC";

TEST(OnesOwnDesign, LogoAsAPictureOrAsPathsIsPrinted) {
  const std::string at = "x='4' y='4' width='8' height='8' style='image-rendering:pixelated'";
  for (const std::string link : {"href", "xlink:href"}) {
    const Raster page = drawn_alone("<image " + at + " " + link + "='" + kLogo + "'/>");
    const Box ink = page.ink_in({3, 3, 20, 20});
    EXPECT_NEAR(ink.x_mm, 8.2, 0.3) << link;
    EXPECT_NEAR(ink.y_mm, 8.2, 0.3) << link;
    EXPECT_NEAR(ink.width_mm, 4, 0.7) << link;
    EXPECT_NEAR(ink.height_mm, 4, 0.7) << link;
  }
  const Raster paths = drawn_alone(
      "<defs><path id='logo' d='M0 0 h3 v3 h-3 z'/></defs><use href='#logo' transform='translate(5 6)'/>");
  const Box ink = paths.ink_in({3, 3, 20, 20});
  EXPECT_NEAR(ink.x_mm, 9.2, 0.1);
  EXPECT_NEAR(ink.y_mm, 10.2, 0.1);
  EXPECT_NEAR(ink.width_mm, 3, 0.1);
}

// Where each of two texts has its ink: how many columns of dots differ.
int differing_columns(const Raster& a, const Raster& b) {
  int columns = 0;
  for (int x = 0; x < a.width; ++x)
    for (int y = 0; y < a.height; ++y)
      if (a.ink(x, y) != b.ink(x, y)) {
        ++columns;
        break;
      }
  return columns;
}

Raster note(const std::string& text, int lines = 1) {
  return drawn_alone("<rect id='slot-note' width='20' height='" + std::to_string(6 * lines) +
                         "' data-largest-mm='2.8' data-lines='" + std::to_string(lines) + "'/>",
                     {"", {{"note", text}}, ""});
}

// UAX #9: the text's first strong letter decides; the marks of direction (U+2067 isolate to the right, U+2069 its end;
// U+200E, U+200F) say the same in so many words. So the program's choice is held against Pango's own bidi with them.
TEST(OnesOwnDesign, MixedTextsGoTheWayOfTheirFirstLetter) {
  // A number and an ending that stand left in a text from right to left.
  EXPECT_EQ(differing_columns(note("\u05d0\u05d1 2."), note("\u200f\u05d0\u05d1 2.")), 0);
  EXPECT_GT(differing_columns(note("\u05d0\u05d1 2."), note("\u200e\u05d0\u05d1 2.")), 0);
  // And one that begins in Latin.
  EXPECT_EQ(differing_columns(note("HE \u0633\u062d\u0628 2"), note("\u200eHE \u0633\u062d\u0628 2")), 0);
  EXPECT_GT(differing_columns(note("HE \u0633\u062d\u0628 2"), note("\u200fHE \u0633\u062d\u0628 2")), 0);
  // A digit has no way of its own.
  EXPECT_EQ(differing_columns(note("2. \u05d0\u05d1"), note("\u200f2. \u05d0\u05d1")), 0);
}

// A second line keeps to the paragraph's way, although it begins in Latin letters.
TEST(OnesOwnDesign, LaterLinesGoTheWayOfTheWholeText) {
  const std::string first = "\u05d0\u05d1\u05d2\u05d3\u05d4\u05d5\u05d6\u05d7 ";
  const Raster page = note(first + "ABCD.", 2);
  EXPECT_EQ(differing_columns(page, note(first + "\u200fABCD.", 2)), 0);
  EXPECT_GT(differing_columns(page, note(first + "ABCD.\u200e", 2)), 0);
}

}  // namespace
}  // namespace counterfoil
