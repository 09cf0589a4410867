#include "roundtrip/raster.h"

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

Raster Raster::cropped(const Box& box) const {
  const int left = std::max(0, pixel(box.x_mm)), top = std::max(0, pixel(box.y_mm));
  Raster part;
  part.width = std::min(width, pixel(box.right_mm())) - left;
  part.height = std::min(height, pixel(box.bottom_mm())) - top;
  part.dots_per_inch = dots_per_inch;
  for (int y = top; y < top + part.height; ++y) {
    const auto row = grey.begin() + static_cast<std::ptrdiff_t>(y) * width + left;
    part.grey.insert(part.grey.end(), row, row + part.width);
  }
  return part;
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

}  // namespace counterfoil
