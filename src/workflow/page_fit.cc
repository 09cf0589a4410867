#include "workflow/page_fit.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "printer/fit.h"
#include "printer/profile.h"

namespace counterfoil {
namespace {

constexpr double kTogetherMm = 1.5;  // symbols that lie within so much of where another has them go with it
constexpr double kMmPerInch = 25.4;
constexpr std::array kUsualDotsPerInch{150.0, 200.0, 240.0, 300.0, 400.0, 600.0, 800.0, 1200.0, 2400.0};
constexpr double kNear = 0.08;      // of a usual resolution: pages are scaled by some percent
constexpr double kPageSlackMm = 3;  // a scan is as large as the page

PicturePoint middle_mm(const Box& box) { return {box.x_mm + box.width_mm / 2, box.y_mm + box.height_mm / 2}; }

PicturePoint middle_pixels(const ReferenceGrid& grid) {
  return grid.ideal(grid.modules() / 2.0, grid.modules() / 2.0);
}

double distance(PicturePoint a, PicturePoint b) { return std::hypot(a.x - b.x, a.y - b.y); }

// The map by one symbol alone.
Affine map_of(const FoundSymbol& symbol) {
  const double n = symbol.grid.modules();
  const PicturePoint origin = symbol.grid.ideal(0, 0), right = symbol.grid.ideal(n, 0),
                     below = symbol.grid.ideal(0, n);
  const Box& box = symbol.box;
  Affine map{(right.x - origin.x) / box.width_mm, (below.x - origin.x) / box.height_mm, 0,
             (right.y - origin.y) / box.width_mm, (below.y - origin.y) / box.height_mm, 0};
  const PicturePoint start = map({box.x_mm, box.y_mm});
  map.x0 = origin.x - start.x;
  map.y0 = origin.y - start.y;
  return map;
}

double pixels_per_mm(const Affine& map) { return std::sqrt(std::abs(map.determinant())); }

}  // namespace

std::optional<PageFit> fit_page(const std::vector<FoundSymbol>& symbols) {
  PageFit best;
  std::size_t most = 0;
  for (const auto& symbol : symbols) {
    const Affine map = map_of(symbol);
    const double reach = kTogetherMm * pixels_per_mm(map);
    std::vector<std::size_t> stray;
    for (std::size_t i = 0; i < symbols.size(); ++i)
      if (!(distance(map(middle_mm(symbols[i].box)), middle_pixels(symbols[i].grid)) <= reach))
        stray.push_back(i);
    if (symbols.size() - stray.size() <= most) continue;
    most = symbols.size() - stray.size();
    best = {map, 0, std::move(stray)};
  }
  if (most == 0) return std::nullopt;
  std::vector<Correspondence> places;
  for (std::size_t i = 0; i < symbols.size(); ++i) {
    if (std::find(best.stray.begin(), best.stray.end(), i) != best.stray.end()) continue;
    const auto& [box, grid] = symbols[i];
    const double n = grid.modules();
    for (const auto& [u, v] : std::array<std::pair<double, double>, 4>{{{0, 0}, {1, 0}, {1, 1}, {0, 1}}})
      places.push_back(
          {{box.x_mm + u * box.width_mm, box.y_mm + v * box.height_mm}, grid.ideal(u * n, v * n)});
  }
  const double scale = pixels_per_mm(best.map);
  if (auto fit = fit_affine(places, kTogetherMm * scale)) {
    best.map = fit->map;
    best.rms_mm = fit->rms / scale;
  } else {  // by the one symbol that most agree with
    double sum = 0;
    for (const auto& place : places) sum += std::pow(distance(best.map(place.meant), place.measured), 2);
    best.rms_mm = std::sqrt(sum / static_cast<double>(places.size())) / scale;
  }
  return best;
}

std::optional<PageGeometry> geometry_of(const Affine& map, const Stock& stock, int width, int height,
                                        double dots_per_inch) {
  PageGeometry geometry;
  const double measured = pixels_per_mm(map) * kMmPerInch;
  geometry.dots_per_inch = dots_per_inch;
  if (dots_per_inch == 0) {
    const auto near = std::find_if(kUsualDotsPerInch.begin(), kUsualDotsPerInch.end(),
                                   [&](double usual) { return std::abs(measured / usual - 1) < kNear; });
    if (near == kUsualDotsPerInch.end()) return std::nullopt;
    geometry.dots_per_inch = *near;
  }
  // Pixels to mm, and the scan turned by quarters until the page stands upright.
  const double mm = kMmPerInch / geometry.dots_per_inch;
  double across = width * mm, down = height * mm;
  Affine upright{map.xx * mm, map.xy * mm, map.x0 * mm, map.yx * mm, map.yy * mm, map.y0 * mm};
  for (int quarter = 0; quarter < 4 && !(upright.xx >= std::abs(upright.yx)); ++quarter) {
    // Anticlockwise: what was right is the top now.
    upright = {upright.yx, upright.yy, upright.y0, -upright.xx, -upright.xy, across - upright.x0};
    std::swap(across, down);
  }
  PrinterProfile profile;
  profile.set_map(upright);
  geometry.scale_x = profile.scale_x;
  geometry.scale_y = profile.scale_y;
  geometry.turn_deg = profile.turn_deg;
  geometry.shear_deg = profile.shear_deg;
  if (std::abs(across - stock.page_width_mm) < kPageSlackMm &&
      std::abs(down - stock.page_height_mm) < kPageSlackMm) {
    const double turn = -profile.turn_deg * std::numbers::pi / 180;
    const double x = upright.x0 - across / 2, y = upright.y0 - down / 2;
    geometry.offset_mm = PicturePoint{std::cos(turn) * x - std::sin(turn) * y + across / 2,
                                      std::sin(turn) * x + std::cos(turn) * y + down / 2};
  }
  return geometry;
}

}  // namespace counterfoil
