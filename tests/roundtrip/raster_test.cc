#include "roundtrip/raster.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <stdexcept>

#include "support/temp_folder.h"

namespace counterfoil {

Box Raster::ink_in(const Box& box) const {
  int left = width, right = -1, top = height, bottom = -1;
  for (int y = std::max(0, pixel(box.y_mm)); y < std::min(height, pixel(box.y_mm + box.height_mm)); ++y)
    for (int x = std::max(0, pixel(box.x_mm)); x < std::min(width, pixel(box.x_mm + box.width_mm)); ++x)
      if (ink(x, y)) {
        left = std::min(left, x), right = std::max(right, x);
        top = std::min(top, y), bottom = std::max(bottom, y);
      }
  if (right < 0) return {};
  return {mm(left), mm(top), mm(right - left + 1), mm(bottom - top + 1)};
}

void Raster::clear(const Box& box) {
  for (int y = std::max(0, pixel(box.y_mm)); y < std::min(height, pixel(box.y_mm + box.height_mm)); ++y)
    for (int x = std::max(0, pixel(box.x_mm)); x < std::min(width, pixel(box.x_mm + box.width_mm)); ++x)
      grey[static_cast<std::size_t>(y * width + x)] = 255;
}

std::vector<Raster> rasterised(const std::string& pdf, double dots_per_inch) {
  const TempFolder folder;
  const std::string command =
      "pdftoppm -gray -r " + std::to_string(dots_per_inch) + " '" + pdf + "' '" + (folder / "page") + "'";
  if (std::system(command.c_str()) != 0) throw std::runtime_error("cannot run pdftoppm (poppler-utils)");
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder.path())) files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  std::vector<Raster> pages;
  for (const auto& file : files) {
    std::ifstream in(file, std::ios::binary);
    std::string magic;
    int most = 0;
    Raster page;
    in >> magic >> page.width >> page.height >> most;
    in.get();
    page.dots_per_inch = dots_per_inch;
    page.grey.resize(static_cast<std::size_t>(page.width) * static_cast<std::size_t>(page.height));
    in.read(reinterpret_cast<char*>(page.grey.data()), static_cast<std::streamsize>(page.grey.size()));
    if (magic != "P5" || !in) throw std::runtime_error("pdftoppm wrote no grey picture");
    pages.push_back(std::move(page));
  }
  return pages;
}

namespace {

TEST(Raster, InkIsMeasuredToThePixel) {
  Raster page{40, 20, 254, std::vector<std::uint8_t>(800, 255)};  // 10 pixels a mm
  for (int x = 12; x < 20; ++x) page.grey[static_cast<std::size_t>(5 * 40 + x)] = 0;
  const Box ink = page.ink_in({1, 0, 3, 2});
  EXPECT_NEAR(ink.x_mm, 1.2, 1e-9);
  EXPECT_NEAR(ink.width_mm, 0.8, 1e-9);
  EXPECT_NEAR(ink.height_mm, 0.1, 1e-9);
  EXPECT_EQ(page.ink_in({2, 0, 2, 2}).width_mm, 0);
}

}  // namespace
}  // namespace counterfoil
