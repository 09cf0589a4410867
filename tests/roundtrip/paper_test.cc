// Cards and lists as a printer and a reader see them: rasterised and copied out by Poppler, read by ZXing-cpp.
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <set>

#include "reader/decode.h"
#include "roundtrip/raster.h"
#include "support/paper_samples.h"
#include "support/sheet_samples.h"
#include "support/temp_folder.h"

namespace counterfoil {
namespace {

// What Poppler copies out of each page.
std::vector<std::string> copied_pages(const TempFolder& folder, const std::string& pdf) {
  const std::string text = folder / "copied.txt";
  EXPECT_EQ(std::system(("pdftotext -layout '" + pdf + "' '" + text + "'").c_str()), 0);
  std::ifstream in(text);
  std::vector<std::string> pages;
  for (std::string page; std::getline(in, page, '\f');) pages.push_back(page);
  return pages;
}

int times(const std::string& text, const std::string& word) {
  int count = 0;
  for (auto at = text.find(word); at != std::string::npos; at = text.find(word, at + word.size())) ++count;
  return count;
}

// By strips of two rows of a list: a plain call of ZXing-cpp 1.4 reads none of a page with thirty finder patterns.
std::set<std::string> symbols_on(const Raster& page, double strip_mm) {
  std::set<std::string> texts;
  const int high = page.pixel(strip_mm), step = page.pixel(strip_mm / 3);
  for (int top = 0; top < page.height; top += step) {
    const GreyView strip(page.grey.data() + static_cast<std::ptrdiff_t>(top) * page.width, page.width,
                         std::min(high, page.height - top));
    for (const auto& code : decode_symbols(strip, Tones::grey, Symbologies::qr)) texts.insert(code.text);
  }
  return texts;
}

void expect_clear_margins(const Raster& page) {
  const double width = page.mm(page.width), height = page.mm(page.height);
  const double margin = kPaperMarginMm - 0.2;
  for (const Box& edge : {Box{0, 0, width, margin}, Box{0, height - margin, width, margin},
                          Box{0, 0, margin, height}, Box{width - margin, 0, margin, height}})
    EXPECT_EQ(page.ink_in(edge).width_mm, 0) << "ink in the margin";
}

// Each page has its number, its date and the standing words.
void expect_foot(const std::vector<std::string>& pages) {
  for (std::size_t i = 0; i < pages.size(); ++i) {
    EXPECT_EQ(times(pages[i], "page " + std::to_string(i + 1) + " of " + std::to_string(pages.size())), 1);
    EXPECT_EQ(times(pages[i], "made 2026-11-25"), 1);
    for (const char* words : {"maker's manual", "procedure", "licensed", "right."})
      EXPECT_EQ(times(pages[i], words), 1) << words;
  }
}

TEST(CartonListOnPaper, EveryRowIsThereOnceAndItsSymbolReads) {
  const TempFolder folder;
  const CartonList carton = sample_carton(14);
  const auto drawn =
      value_of(draw_list(sample_paper(SheetFormat::pdf, folder / "carton.pdf"), paper_list(carton)));
  ASSERT_EQ(drawn.pages, 2);
  EXPECT_EQ(drawn.symbols, 14);
  const auto pages = copied_pages(folder, drawn.files[0]);
  ASSERT_EQ(pages.size(), 2u);
  expect_foot(pages);
  std::string all;
  for (const auto& page : pages) {
    EXPECT_EQ(times(page, "RECEIVED"), 1) << "headings are repeated";
    EXPECT_EQ(times(page, "Carton C3"), 1);
    all += page;
  }
  int suction = 0, discharge = 0;
  std::set<std::string> printed, read;
  for (const auto& line : carton.lines) {
    EXPECT_EQ(times(all, line.number), 1) << line.number;
    printed.insert(line.payload);
    suction += line.side == "suction" ? 1 : 0;
    discharge += line.side == "discharge" ? 1 : 0;
  }
  EXPECT_EQ(times(all, "SUCTION"), suction);
  EXPECT_EQ(times(all, "DISCHARGE"), discharge);
  EXPECT_EQ(times(all, "CV-118-B SP3"), 14);
  EXPECT_EQ(times(all, "cooler"), 3) << "the long pocket, wrapped";
  for (const auto& page : rasterised(drawn.files[0], 300)) {
    expect_clear_margins(page);
    const auto here = symbols_on(page, 42);
    read.insert(here.begin(), here.end());
  }
  EXPECT_EQ(read, printed);
}

TEST(PickListOnPaper, KeepsTheOrderOfTheWalk) {
  const TempFolder folder;
  const PickList pick = sample_pick(12);
  const auto drawn =
      value_of(draw_list(sample_paper(SheetFormat::pdf, folder / "pick.pdf"), paper_list(pick)));
  const auto pages = copied_pages(folder, drawn.files[0]);
  expect_foot(pages);
  std::string all;
  for (const auto& page : pages) all += page;
  std::size_t at = 0;
  for (const auto& line : pick.lines) {
    const auto found = all.find(line.number);
    ASSERT_NE(found, std::string::npos) << line.number;
    EXPECT_GT(found, at) << line.number;
    at = found;
    EXPECT_EQ(times(all, line.part), times(all, line.part + "\n") + times(all, line.part + " "));
  }
}

TEST(PocketMapOnPaper, ShowsEveryPocketWithItsSideAndHowItIsSeen) {
  const TempFolder folder;
  const PocketMap map = sample_map(3);
  const auto drawn = value_of(draw_pocket_map(sample_paper(SheetFormat::pdf, folder / "map.pdf"), map));
  const auto pages = copied_pages(folder, drawn.files[0]);
  expect_foot(pages);
  std::string all;
  for (const auto& page : pages) {
    EXPECT_EQ(times(page, "clockwise"), 1);
    EXPECT_EQ(times(page, map.valid_from), 1);
    all += page;
  }
  int suction = 0, discharge = 0;
  for (const auto& cylinder : map.cylinders) {
    EXPECT_EQ(times(all, cylinder.name), 1) << cylinder.name;
    for (const auto& pocket : cylinder.pockets) {
      EXPECT_EQ(times(all, pocket.name), pocket.second.empty() ? 1 : 2) << pocket.name;
      suction += pocket.side == "suction" ? 1 : 0;
      discharge += pocket.side == "discharge" ? 1 : 0;
    }
  }
  EXPECT_EQ(times(all, "SUCTION"), suction);
  EXPECT_EQ(times(all, "DISCHARGE"), discharge);
  EXPECT_EQ(times(all, "πίσω"), 6);
  for (const auto& page : rasterised(drawn.files[0], 100)) expect_clear_margins(page);
}

TEST(TrayCardOnPaper, ReadsAndIsWhole) {
  const TempFolder folder;
  const auto cards = sample_trays();
  const auto drawn =
      value_of(draw_tray_cards(sample_tray_paper(SheetFormat::pdf, folder / "tray.pdf"), cards));
  const auto pages = copied_pages(folder, drawn.files[0]);
  ASSERT_EQ(pages.size(), cards.size());
  expect_foot(pages);
  const auto pictures = rasterised(drawn.files[0], 150);
  for (std::size_t i = 0; i < cards.size(); ++i) {
    EXPECT_EQ(times(pages[i], cards[i].number), 1);
    EXPECT_EQ(times(pages[i], "KEEP WITH THE PARTS"), 1);
    for (const char* word :
         {"photographed", "counted", "itself", "dried", "inspected", "plates", "remembered"})
      EXPECT_EQ(times(pages[i], word), 1) << word;
    EXPECT_EQ(symbols_on(pictures[i], 150), std::set<std::string>{cards[i].payload});
    expect_clear_margins(pictures[i]);
  }
}

}  // namespace
}  // namespace counterfoil
