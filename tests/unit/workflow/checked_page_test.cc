// Our own sheet as dots, spoiled in known ways, and what the check makes of it. What a reader would have read, and about
// where, is put in by hand, a little off, and moved as the picture is; tests/stories reads such pictures.
#include "workflow/checked_page.h"

#include <gtest/gtest.h>

#include <cmath>

#include "reader/image.h"
#include "support/sheet_samples.h"
#include "support/temp_folder.h"

namespace counterfoil {
namespace {

constexpr double kDotsPerMm = 300 / 25.4;

TagContent content(const char* number, Half half) {
  TagContent tag;
  const auto parsed = value_of(Number::parse(number));
  tag.payload = write_payload({parsed, half, 1});
  tag.texts = {{"number", parsed.grouped()}};
  return tag;
}

// Two pairs, one above the other: bag, box; bag, box.
Stock small_stock(double gap_mm = 0) {
  Stock stock = shipped_stock("a4-2x4");
  stock.name = gap_mm == 0 ? "close" : "apart";
  stock.page_width_mm = 206;
  stock.page_height_mm = 146;
  stock.columns = stock.rows = 2;
  stock.left_mm = stock.top_mm = 2;
  stock.gap_x_mm = 0;
  stock.gap_y_mm = gap_mm;
  return stock;
}

struct Sheet {
  Sheet() : order(sample_order("a4-2x4", SheetFormat::png, "")) {
    order.stock = small_stock();
    items = {PairItem{content("K7QCHX65GA", Half::bag), content("K7QCHX65GA", Half::box), 1},
             PairItem{content("K7ES3TCAZC", Half::bag), content("K7ES3TCAZC", Half::box), 2}};
    const TempFolder folder;
    order.path = folder.path() + "/sheet.png";
    if (auto drawn = draw_sheet(order, items); !drawn) throw std::runtime_error(drawn.error().message);
    page = value_of(load_picture(order.path, Channel::luma)).grey;
    for (const auto& symbol : value_of(symbols_of(order, items))) {
      const auto& [x, y, width, height] = symbol.box;
      TagSeen seen{{symbol.payload, "QR Code", {}, "plain"}, value_of(parse_payload(symbol.payload))};
      const double off = 0.4 * width / symbol.matrix.modules;
      const double left = x + off, top = y - off, right = x + width - off, bottom = y + height;
      seen.code.corners = {{{left, top}, {right, top}, {right, bottom}, {left, bottom}}};
      for (auto& corner : seen.code.corners) corner = {corner.x * kDotsPerMm, corner.y * kDotsPerMm};
      tags.push_back(std::move(seen));
    }
  }

  PageTruth truth() const {
    PageTruth truth;
    truth.stock = &order.stock;
    truth.symbols = value_of(symbols_of(order, items));
    SheetOrder apart = order;
    apart.stock = small_stock(6);
    truth.others = {{apart.stock, value_of(symbols_of(apart, items))}};
    return truth;
  }

  SheetOrder order;
  std::vector<SheetItem> items;
  GreyPicture page;
  std::vector<TagSeen> tags;
};

const Sheet& sheet() {
  static const Sheet kSheet;
  return kSheet;
}

// The page again, each dot taken from where `from` says it was; white beyond the page.
template <typename From>
GreyPicture redrawn(const GreyPicture& page, From from) {
  GreyPicture out{page.width, page.height, std::vector<std::uint8_t>(page.pixels.size(), 255)};
  std::size_t i = 0;
  for (int y = 0; y < page.height; ++y)
    for (int x = 0; x < page.width; ++x, ++i) {
      const PicturePoint p = from(x + 0.5, y + 0.5);
      if (p.x >= 0 && p.y >= 0 && p.x < page.width && p.y < page.height)
        out.pixels[i] = page.pixels[static_cast<std::size_t>(p.y) * static_cast<std::size_t>(page.width) +
                                    static_cast<std::size_t>(p.x)];
    }
  return out;
}

CheckedPage checked(double scale_x, double scale_y, double shift_x_mm = 0, double shift_y_mm = 0) {
  const double dx = shift_x_mm * kDotsPerMm, dy = shift_y_mm * kDotsPerMm;
  const auto picture = redrawn(sheet().page, [&](double x, double y) {
    return PicturePoint{(x - dx) / scale_x, (y - dy) / scale_y};
  });
  auto tags = sheet().tags;
  for (auto& tag : tags)
    for (auto& corner : tag.code.corners) corner = {corner.x * scale_x + dx, corner.y * scale_y + dy};
  return check_page(picture, tags, sheet().truth());
}

bool tells(const std::vector<PrintFinding>& findings, std::string_view words) {
  return std::any_of(findings.begin(), findings.end(), [&](const auto& f) {
    return (f.what + ": " + f.advice).find(words) != std::string::npos;
  });
}

TEST(CheckedPageTest, WhatWasDrawnIsGoodAndExactlyInItsPlace) {
  ASSERT_EQ(sheet().tags.size(), 4u);
  const auto page = check_page(sheet().page, sheet().tags, sheet().truth());
  EXPECT_EQ(page.verdict, PrintVerdict::good);
  EXPECT_EQ(page.page, 1);
  EXPECT_TRUE(page.findings.empty());
  ASSERT_TRUE(page.geometry && page.geometry->offset_mm);
  EXPECT_EQ(page.geometry->dots_per_inch, 300);
  EXPECT_NEAR(page.geometry->scale_x, 1, 1e-4);
  EXPECT_NEAR(page.geometry->offset_mm->x, 0, 0.01);
  EXPECT_LT(page.rms_mm, 0.01);
  ASSERT_EQ(page.tags.size(), 4u);
  for (const auto& tag : page.tags) {
    ASSERT_TRUE(tag.check);
    EXPECT_TRUE(tag.read);
    EXPECT_EQ(tag.check->grade, 4);
    EXPECT_TRUE(tag.findings.empty());
  }
  EXPECT_EQ(page.tags[1].payload->half, Half::box);
  EXPECT_EQ(page.tags[3].label, 4);
}

TEST(CheckedPageTest, AShrunkenPageIsToBePrintedAgain) {
  const auto page = checked(.961, .961);
  EXPECT_EQ(page.verdict, PrintVerdict::reprint);
  EXPECT_NEAR(page.geometry->scale_x, .961, .0005);
  EXPECT_NEAR(page.geometry->scale_y, .961, .0005);
  EXPECT_TRUE(tells(page.findings, "printed at 96.1 %: the driver scaled it, so print at actual size"));
  for (const auto& tag : page.tags) EXPECT_EQ(tag.verdict, PrintVerdict::good);
}

// .07 / 1.035 = .0676
TEST(CheckedPageTest, AStretchedPageIsToldBySizeAndBySymbols) {
  const auto page = checked(1, 1.07);
  EXPECT_NEAR(page.geometry->scale_y, 1.07, .0005);
  EXPECT_TRUE(tells(page.findings, "100.0 % across and 107.0 % down"));
  EXPECT_NEAR((*page.tags[0].check)[Parameter::axial]->value, .0676, .001);
  EXPECT_TRUE(tells(page.tags[0].findings, "stretched down (axial non-uniformity 0.06"));
}

TEST(CheckedPageTest, AShiftedPageIsUsableToTwoMillimetres) {
  const auto page = checked(1, 1, 1.5, -0.4);
  EXPECT_EQ(page.verdict, PrintVerdict::usable);
  EXPECT_NEAR(page.geometry->offset_mm->x, 1.5, .05);
  EXPECT_NEAR(page.geometry->offset_mm->y, -0.4, .05);
  EXPECT_EQ(checked(1, 1, 0.8).verdict, PrintVerdict::good);
  EXPECT_EQ(checked(1, 1, 0, 2.3).verdict, PrintVerdict::reprint);
}

// (235 - 160) / 255 = .294: grade 1
TEST(CheckedPageTest, APalePrintIsToBePrintedAgainDarker) {
  auto picture = sheet().page;
  for (auto& pixel : picture.pixels) pixel = pixel < 128 ? 160 : 235;
  const auto page = check_page(picture, sheet().tags, sheet().truth());
  EXPECT_EQ(page.verdict, PrintVerdict::reprint);
  EXPECT_EQ(page.tags[2].check->weakest, Parameter::contrast);
  EXPECT_TRUE(tells(page.tags[2].findings, "too pale (symbol contrast 0.294, grade 1): raise the darkness"));
}

TEST(CheckedPageTest, ASmearedPrintIsToldByItsSpread) {
  const auto& page = sheet().page;
  GreyPicture picture = page;
  constexpr int kReach = 3;  // of 11 dots a module: dark is 6 / 11 of a module wider
  std::vector<std::uint8_t> across = page.pixels;
  const auto run = [&](const std::vector<std::uint8_t>& from, std::vector<std::uint8_t>& to, int step) {
    for (int i = kReach * page.width; i < page.width * (page.height - kReach); ++i)
      for (int d = -kReach; d <= kReach; ++d)
        to[static_cast<std::size_t>(i)] =
            std::min(to[static_cast<std::size_t>(i)], from[static_cast<std::size_t>(i + d * step)]);
  };
  run(page.pixels, across, 1);
  picture.pixels = across;
  run(across, picture.pixels, page.width);
  const auto checked = check_page(picture, sheet().tags, sheet().truth());
  EXPECT_EQ(checked.verdict, PrintVerdict::reprint);
  EXPECT_NEAR(checked.tags[0].check->grid.growth_x(), 6 / 11.0, .02);
  EXPECT_TRUE(tells(checked.tags[0].findings, "dark runs out by 0.55 of a module"));
}

TEST(CheckedPageTest, ATagThatIsMissingOrSpoiledIsToBePrintedAgain) {
  auto picture = sheet().page;
  auto tags = sheet().tags;
  const auto blank = [&](const PhotoCode& code, std::uint8_t grey) {
    const int left = static_cast<int>(code.corners[0].x), top = static_cast<int>(code.corners[0].y);
    const int side = static_cast<int>(code.corners[1].x) - left;
    for (int y = top - 5; y < top + side + 5; ++y)
      for (int x = left - 5; x < left + side + 5; ++x)
        if (grey == 255 || (x + 2 * y) % 40 < 12)
          picture.pixels[static_cast<std::size_t>(y) * static_cast<std::size_t>(picture.width) +
                         static_cast<std::size_t>(x)] = grey;
  };
  blank(tags[0].code, 255);
  tags.erase(tags.begin());
  const auto page = check_page(picture, tags, sheet().truth());
  EXPECT_EQ(page.verdict, PrintVerdict::reprint);
  EXPECT_TRUE(tells(page.tags[0].findings, "missing"));
  EXPECT_FALSE(page.tags[0].check);
  EXPECT_EQ(page.tags[1].verdict, PrintVerdict::good);
}

TEST(CheckedPageTest, HalvesThatChangedPlacesAreTold) {
  // The right half of the sheet upside down by halves: the box halves change places.
  const auto& page = sheet().page;
  const int half = static_cast<int>(std::lround(67.7 * kDotsPerMm)), top = static_cast<int>(2 * kDotsPerMm);
  const double middle = page.width / 2.0;
  const auto moved = [&](double x, double y) {
    if (x < middle || y < top || y >= top + 2 * half) return PicturePoint{x, y};
    return PicturePoint{x, y < top + half ? y + half : y - half};
  };
  const auto picture = redrawn(page, moved);
  auto tags = sheet().tags;
  for (auto& tag : tags)
    for (auto& corner : tag.code.corners) corner = moved(corner.x, corner.y);
  const auto result = check_page(picture, tags, sheet().truth());
  EXPECT_EQ(result.verdict, PrintVerdict::reprint);
  EXPECT_TRUE(
      tells(result.tags[1].findings, "K7ES 3TCA ZC box half lies in its place, beside the other half"));
  EXPECT_TRUE(tells(result.tags[3].findings, "K7QC HX65 GA box half lies in its place"));
  EXPECT_NEAR(std::abs(result.tags[1].stray_mm->y), 67.7, .1);
}

TEST(CheckedPageTest, AnotherStockIsNamedWhereItFits) {
  const auto& page = sheet().page;
  const double split = (2 + 67.7) * kDotsPerMm, gap = 6 * kDotsPerMm;
  const auto picture = redrawn(page, [&](double x, double y) {
    return PicturePoint{x, y < split ? y : y < split + gap ? -1 : y - gap};
  });
  auto tags = sheet().tags;
  for (auto& tag : tags)
    for (auto& corner : tag.code.corners) corner.y += corner.y < split ? 0 : gap;
  const auto result = check_page(picture, tags, sheet().truth());
  EXPECT_EQ(result.verdict, PrintVerdict::reprint);
  EXPECT_TRUE(tells(result.findings, "the tags lie as on stock apart, not as on close"));
  for (const auto& tag : result.tags) EXPECT_EQ(tag.verdict, PrintVerdict::good);
}

TEST(CheckedPageTest, ATagThatIsNotOfTheOrderIsTold) {
  auto tags = sheet().tags;
  tags[3].code.text = write_payload({value_of(Number::parse("K7MYSHYS4E")), Half::box, 1});
  tags[3].payload = value_of(parse_payload(tags[3].code.text));
  const auto page = check_page(sheet().page, tags, sheet().truth());
  EXPECT_TRUE(tells(page.findings, "K7MY SHYS 4E box half is there, and is not of this order"));
  EXPECT_EQ(page.verdict, PrintVerdict::reprint);
  const auto none = check_page(sheet().page, {}, sheet().truth());
  EXPECT_EQ(none.page, 0);
  EXPECT_EQ(none.verdict, PrintVerdict::reprint);
}

TEST(CheckedPageTest, AnotherCopyOfATagIsCalledSo) {
  auto tags = sheet().tags;
  tags[3].code.text = write_payload({value_of(Number::parse("K7ES3TCAZC")), Half::box, 2});
  tags[3].payload = value_of(parse_payload(tags[3].code.text));
  const auto page = check_page(sheet().page, tags, sheet().truth());
  EXPECT_TRUE(tells(page.tags[3].findings,
                    "another copy of K7ES 3TCA ZC box half (copy 2 where copy 1 is due) lies in its place"));
  EXPECT_FALSE(tells(page.tags[3].findings, "missing"));
  EXPECT_TRUE(page.findings.empty());
}

TEST(CheckedPageTest, ATagOfAnotherTurnaroundIsCalledSo) {
  auto tags = sheet().tags;
  tags[3].code.text = write_payload({value_of(Number::parse("K7MYSHYS4E")), Half::box, 1});
  tags[3].payload = value_of(parse_payload(tags[3].code.text));
  PageTruth truth = sheet().truth();
  truth.turnaround_of = [](const Number& number) { return number.text() == "K7MYSHYS4E" ? "TA25" : ""; };
  EXPECT_TRUE(tells(check_page(sheet().page, tags, truth).findings,
                    "K7MY SHYS 4E box half is there, and is not of this order but of turnaround TA25"));
}

TEST(CheckedPageTest, ATurnedScanIsTheSamePage) {
  const auto& page = sheet().page;
  GreyPicture picture{page.height, page.width, {}};  // a quarter clockwise
  for (int y = 0; y < picture.height; ++y)
    for (int x = 0; x < picture.width; ++x)
      picture.pixels.push_back(
          page.pixels[static_cast<std::size_t>(page.height - 1 - x) * static_cast<std::size_t>(page.width) +
                      static_cast<std::size_t>(y)]);
  auto tags = sheet().tags;
  for (auto& tag : tags)
    for (auto& corner : tag.code.corners) corner = {page.height - corner.y, corner.x};
  const auto result = check_page(picture, tags, sheet().truth());
  EXPECT_EQ(result.verdict, PrintVerdict::good);
  ASSERT_TRUE(result.geometry && result.geometry->offset_mm);
  EXPECT_NEAR(result.geometry->offset_mm->x, 0, .05);
  EXPECT_NEAR(result.geometry->turn_deg, 0, .01);
}

}  // namespace
}  // namespace counterfoil
