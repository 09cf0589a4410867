// Every shipped design on every stock that it fits, with the shortest texts and the longest, in Latin, Arabic and Hebrew,
// as Poppler draws it: what the readers get, and where the ink lies.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "roundtrip/raster.h"
#include "roundtrip/readers.h"
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

// The same payload with another number: two digits of it are the place.
std::string with_place(std::string payload, std::size_t place) {
  const std::string digits = std::to_string(10 + place);
  return payload.replace(payload.find(".K7") + 3, 2, digits);
}

// One tag of each filling; sides take turns, and the last has none.
std::vector<TagContent> tags_of(const Design& design) {
  const std::vector<std::pair<Filling, std::string>> all = {{Filling::longest, "discharge"},
                                                            {Filling::arabic, "suction"},
                                                            {Filling::hebrew, "discharge"},
                                                            {Filling::shortest, ""}};
  std::vector<TagContent> tags;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const auto& [filling, side] = all[i];
    const std::vector<std::string> languages = {"es", "ar", "cs", "es"};
    tags.push_back(filled(design, filling, side, design.has_second_language() ? languages[i] : ""));
    tags.back().payload = with_place(tags.back().payload, i);
  }
  return tags;
}

// What a person would hold in front of a camera: the label, and the paper of its margin.
Raster cropped(const Raster& page, const Box& box) {
  const int left = std::max(0, page.pixel(box.x_mm)), top = std::max(0, page.pixel(box.y_mm));
  Raster part;
  part.width = std::min(page.width, page.pixel(box.x_mm + box.width_mm)) - left;
  part.height = std::min(page.height, page.pixel(box.y_mm + box.height_mm)) - top;
  part.dots_per_inch = page.dots_per_inch;
  for (int y = top; y < top + part.height; ++y) {
    const auto row = page.grey.begin() + static_cast<std::ptrdiff_t>(y) * page.width + left;
    part.grey.insert(part.grey.end(), row, row + part.width);
  }
  return part;
}

std::vector<Raster> pages_of(const Stock& stock, const std::vector<SheetItem>& items, double dpi) {
  const TempFolder folder;
  const auto drawn =
      value_of(draw_sheet({stock, shipped_design("bag-large"), shipped_design("box-large"), dpi,
                           SheetFormat::pdf, folder / "tags.pdf", "Tags", "2026-11-25T09:30:15Z"},
                          items));
  return rasterised(drawn.files[0], dpi);
}

std::size_t symbols_on(const Design& design) {
  return static_cast<std::size_t>(std::count_if(design.data().slots.begin(), design.data().slots.end(),
                                                [](const Slot& slot) { return slot.is_symbol(); }));
}

// Where a slot of the tag on that place of the bench lies on its page.
Box on_bench(const Stock& stock, int place, const Box& slot) {
  const Box label = stock.label(place);
  return {label.x_mm + stock.margin_mm + slot.x_mm, label.y_mm + stock.margin_mm + slot.y_mm, slot.width_mm,
          slot.height_mm};
}

Box grown(const Box& box, double by_mm) {
  return {box.x_mm - by_mm, box.y_mm - by_mm, box.width_mm + 2 * by_mm, box.height_mm + 2 * by_mm};
}

class ShippedDesign : public testing::TestWithParam<std::string> {};
class SidedDesign : public testing::TestWithParam<std::string> {};  // a carton has no side

TEST_P(ShippedDesign, SymbolsAreReadByTwoReadersAtThreeResolutions) {
  const Design design = shipped_design(GetParam());
  std::vector<SheetItem> items;
  std::multiset<std::string> printed;
  for (const auto& tag : tags_of(design)) {
    items.emplace_back(SingleItem{tag, design});
    for (std::size_t i = 0; i < symbols_on(design); ++i) printed.insert(tag.payload);
  }
  const Stock bench = bench_stock(design.width_mm(), design.height_mm(), 2, 2);
  for (const double dpi : kSanitized ? std::vector{203.2} : std::vector{203.2, 300.0, 600.0}) {
    const auto pages = pages_of(bench, items, dpi);
    ASSERT_EQ(pages.size(), 1u);
    EXPECT_EQ(read_by_zxing(pages[0]), printed) << dpi;
    EXPECT_EQ(read_by_zbar(pages[0]), printed) << dpi;
  }
}

// The same tags with their texts and without: what the texts add lies in their slots, the drawing puts nothing there, and
// slots do not overlap; so nothing lies over anything.
TEST_P(ShippedDesign, TextsStayInTheirSlotsAndNothingElseIsDrawnThere) {
  const Design design = shipped_design(GetParam());
  std::vector<SheetItem> items;
  const auto tags = tags_of(design);
  for (const auto& tag : tags) items.emplace_back(SingleItem{tag, design});
  for (const auto& tag : tags) items.emplace_back(SingleItem{{tag.payload, {}, tag.side}, design});
  const Stock bench = bench_stock(design.width_mm(), design.height_mm(), 2, 2);
  const auto pages = pages_of(bench, items, kSanitized ? 203.2 : 300);
  ASSERT_EQ(pages.size(), 2u);
  const Raster& empty = pages[1];
  const double pixel = empty.mm(1);
  Raster texts = pages[0];
  for (std::size_t i = 0; i < texts.grey.size(); ++i)
    if (texts.grey[i] == empty.grey[i]) texts.grey[i] = 255;
  Raster outside = pages[0];
  for (int place = 0; place < 4; ++place) {
    outside.clear(grown(on_bench(bench, place, {0, 0, design.width_mm(), design.height_mm()}), pixel));
    for (const auto& slot : design.data().slots) {
      const Box box = on_bench(bench, place, slot.box);
      const bool has_text = tags[static_cast<std::size_t>(place)].texts.contains(slot.name);
      if (slot.is_symbol()) {
        // 25 modules in the middle of the slot, and nothing in the quiet zone of 4 around them.
        const Box ink = empty.ink_in(box);
        EXPECT_LE(ink.width_mm * 33 / 25, std::min(box.width_mm, box.height_mm) + 2 * pixel) << slot.id;
        EXPECT_NEAR(ink.width_mm, ink.height_mm, 1.5 * pixel) << slot.id;
        continue;
      }
      // Half a pixel may be its neighbour's.
      const Box drawn = empty.ink_in(grown(box, -pixel / 2));
      EXPECT_EQ(drawn.width_mm, 0) << "in slot " << slot.id << " of place " << place << ", from "
                                   << drawn.x_mm - box.x_mm << ", " << drawn.y_mm - box.y_mm;
      const Box ink = texts.ink_in(box);
      if (has_text) {
        EXPECT_GT(ink.width_mm, 0) << slot.id << " of place " << place;
      }
      texts.clear(grown(box, pixel));
    }
  }
  const Box stray = texts.ink_in({0, 0, bench.page_width_mm, bench.page_height_mm});
  EXPECT_EQ(stray.width_mm, 0) << "at " << stray.x_mm << ", " << stray.y_mm;
  EXPECT_EQ(outside.ink_in({0, 0, bench.page_width_mm, bench.page_height_mm}).width_mm, 0);
}

// Black without the word differs too: by the ends of the band, and by how much of it is ink.
TEST_P(SidedDesign, SidesDifferInInk) {
  const Design design = shipped_design(GetParam());
  const Stock bench = bench_stock(design.width_mm(), design.height_mm(), 2, 2);
  std::vector<SheetItem> items;
  for (const std::string side : {"suction", "discharge", ""})
    items.emplace_back(SingleItem{{"CF1.K74Q2M8X61.BAG1", {}, side}, design});
  const Raster page = pages_of(bench, items, 203.2)[0];
  std::vector<int> dark(3);
  for (int place = 0; place < 3; ++place) {
    const Box tag = on_bench(bench, place, {0, 0, design.width_mm(), design.height_mm()});
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

TEST_P(ShippedStock, EveryDesignThatFitsIsReadOnItAndKeepsToItsLabel) {
  const Stock stock = shipped_stock(GetParam());
  const Box place = tag_place(stock);
  std::vector<SheetItem> items;
  std::multiset<std::string> printed;
  std::vector<Design> all;
  for (const auto& name : designs_to_try()) all.push_back(shipped_design(name));
  for (const auto& design : all) {
    constexpr double kSlackMm = 1e-6;
    if (design.width_mm() > place.width_mm + kSlackMm || design.height_mm() > place.height_mm + kSlackMm)
      continue;
    TagContent tag = tags_of(design)[0];
    tag.payload = with_place(tag.payload, items.size());
    for (std::size_t i = 0; i < symbols_on(design); ++i) printed.insert(tag.payload);
    items.emplace_back(SingleItem{tag, design});
  }
  ASSERT_TRUE(kSanitized || !items.empty());
  if (items.empty()) GTEST_SKIP() << "none of the designs tried under sanitizers fits";
  std::multiset<std::string> by_zxing, by_zbar;
  for (const auto& page : pages_of(stock, items, 203.2)) {
    for (int i = 0; i < stock.labels_per_page(); ++i) {
      const Raster label = cropped(page, stock.label(i));
      by_zxing.merge(read_by_zxing(label));
      by_zbar.merge(read_by_zbar(label));
    }
    Raster rest = page;
    const int halves = std::max(1, stock.pairs_per_page());
    for (int i = 0; i < halves; ++i) {
      rest.clear(grown(stock.printable(stock.bag_label(i), stock.bag_half(i), false), page.mm(1)));
      rest.clear(grown(stock.printable(stock.box_label(i), stock.box_half(i), true), page.mm(1)));
    }
    for (int i = 0; i < stock.labels_per_page(); ++i) {
      const Box label = stock.label(i);
      // A cut line goes to the edges; labels that no pair takes have single tags.
      if (stock.pairing == Stock::Pairing::split)
        rest.clear({label.x_mm, label.y_mm + label.height_mm / 2 - 0.5, label.width_mm, 1});
      else
        rest.clear(grown(stock.printable(i, label, false), page.mm(1)));
    }
    rest.clear({0, 0, stock.page_width_mm, stock.top_mm - 1});
    EXPECT_EQ(rest.ink_in({0, 0, stock.page_width_mm, stock.page_height_mm}).width_mm, 0);
  }
  EXPECT_EQ(by_zxing, printed);
  EXPECT_EQ(by_zbar, printed);
}

INSTANTIATE_TEST_SUITE_P(All, ShippedStock, testing::ValuesIn(stock_names()),
                         [](const auto& stock) { return as_test_name(stock.param); });

// A drawing of ours with that inside, printed alone; 20 x 20 mm.
Raster drawn_alone(const std::string& inside, TagContent tag = {}) {
  const Design design =
      value_of(Design::parse("<svg xmlns='http://www.w3.org/2000/svg' "
                             "xmlns:xlink='http://www.w3.org/1999/xlink' width='20mm' height='20mm' "
                             "viewBox='0 0 20 20'>" +
                                 inside + "</svg>",
                             "own"));
  return pages_of(bench_stock(20, 20, 2, 1), {SingleItem{std::move(tag), design}}, 300)[0];
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
    EXPECT_NEAR(ink.x_mm, 7.5, 0.3) << link;
    EXPECT_NEAR(ink.y_mm, 7.5, 0.3) << link;
    EXPECT_NEAR(ink.width_mm, 4, 0.7) << link;
    EXPECT_NEAR(ink.height_mm, 4, 0.7) << link;
  }
  const Raster paths = drawn_alone(
      "<defs><path id='logo' d='M0 0 h3 v3 h-3 z'/></defs><use href='#logo' transform='translate(5 6)'/>");
  const Box ink = paths.ink_in({3, 3, 20, 20});
  EXPECT_NEAR(ink.x_mm, 8.5, 0.1);
  EXPECT_NEAR(ink.y_mm, 9.5, 0.1);
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
