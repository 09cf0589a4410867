// A preview as an eye sees it, held against the sheet itself.
#include <gtest/gtest.h>

#include <algorithm>

#include "reader/image.h"
#include "roundtrip/raster.h"
#include "support/sheet_samples.h"
#include "support/temp_folder.h"

namespace counterfoil {
namespace {

Raster picture_of(const std::string& path, double page_width_mm) {
  const auto picture = value_of(load_picture(path, Channel::luma));
  Raster raster;
  raster.width = picture.width;
  raster.height = picture.height;
  raster.dots_per_inch = picture.width / page_width_mm * 25.4;
  raster.grey.assign(picture.grey.pixels.begin(), picture.grey.pixels.end());
  return raster;
}

int grey_pixels(const Raster& page) {
  return static_cast<int>(
      std::count_if(page.grey.begin(), page.grey.end(), [](int grey) { return grey > 210 && grey < 245; }));
}

TEST(Preview, HasTheSheetsInkAndTheOutlinesInGrey) {
  const TempFolder folder;
  auto order = sample_order("a4-2x4", SheetFormat::pdf, folder / "sheet.pdf");
  order.preview = folder / "look.png";
  const auto drawn = value_of(draw_sheet(order, {sample_pair(0), sample_pair(1)}));
  const Raster look = picture_of(drawn.previews.at(0), order.stock.page_width_mm);
  EXPECT_NEAR(look.dots_per_inch, 100, 1);
  EXPECT_EQ(look.width, 827);  // 210 mm at 100 dpi
  const Raster sheet = rasterised(drawn.files[0], 100)[0];
  for (int pair = 0; pair < 2; ++pair)
    for (const Box& half : {order.stock.bag_half(pair), order.stock.box_half(pair)}) {
      const Box there = sheet.ink_in(half), here = look.ink_in(half);
      EXPECT_NEAR(here.x_mm, there.x_mm, 0.6);
      EXPECT_NEAR(here.y_mm, there.y_mm, 0.6);
      EXPECT_NEAR(here.width_mm, there.width_mm, 0.9);
      EXPECT_NEAR(here.height_mm, there.height_mm, 0.9);
    }
  // Margins of 2 mm round eight labels are about a tenth of the page.
  EXPECT_GT(grey_pixels(look), look.width * look.height / 20);
  // The labels that nothing is printed on are outlined, and empty on the sheet.
  const Box empty = order.stock.label(7);
  EXPECT_EQ(sheet.ink_in(empty).width_mm, 0);
  EXPECT_EQ(look.ink_in({empty.x_mm + 3, empty.y_mm + 3, empty.width_mm - 6, empty.height_mm - 6}).width_mm,
            0);
}

TEST(Preview, LabelsThatAreUsedOrSpoiledAreHatched) {
  const TempFolder folder;
  auto order = sample_order("a4-2x4", SheetFormat::pdf, folder / "sheet.pdf");
  order.preview = folder / "look.png";
  order.part = {3, {5}};
  std::vector<SheetItem> pairs;
  for (int i = 0; i < 4; ++i) pairs.emplace_back(sample_pair(i));  // more than the first sheet has left
  const auto drawn = value_of(draw_sheet(order, pairs));
  ASSERT_EQ(drawn.previews.size(), 2u);
  const Raster sheet = rasterised(drawn.files[0], 100)[0];
  for (const std::size_t page : {0u, 1u}) {
    const Raster look = picture_of(drawn.previews[page], order.stock.page_width_mm);
    for (const int label : {1, 2, 3, 4, 5, 6, 7, 8}) {
      const Box box = order.stock.label(label - 1);
      int grey = 0;
      for (int y = look.pixel(box.y_mm + 4); y < look.pixel(box.bottom_mm() - 4); ++y)
        for (int x = look.pixel(box.x_mm + 10); x < look.pixel(box.x_mm + 14); ++x)
          grey += look.grey[static_cast<std::size_t>(y * look.width + x)] < 210;
      const bool used = page == 0 && (label <= 2 || label == 5);
      // Label 6 is free and stays empty: a pair takes two side by side.
      const bool is_empty = used || (page == 0 && label == 6) || (page == 1 && label > 4);
      if (is_empty) {
        EXPECT_EQ(grey > 500, used) << "page " << page << ", label " << label;
      }
      if (used) {
        EXPECT_EQ(sheet.ink_in(box).width_mm, 0) << "the hatching is printed";
      }
    }
  }
}

TEST(Preview, SmallLabelsAreShownLargeEnoughToLookAt) {
  const TempFolder folder;
  auto order = sample_order("roll-100x150", SheetFormat::png, folder / "sheet.png");
  order.preview = folder / "look.png";
  const auto drawn = value_of(draw_sheet(order, {sample_pair(0)}));
  EXPECT_EQ(picture_of(drawn.previews.at(0), 100).height, 600);
}

}  // namespace
}  // namespace counterfoil
