#include "grade/find_symbol.h"

#include <algorithm>
#include <cmath>

#include "recovery/finder_pattern.h"

namespace counterfoil {
namespace {

constexpr double kAround = 0.15;       // of the larger side, kept around the outline
constexpr double kLargestOff = 0.125;  // of a corner, in sides

struct Piece {
  int left = 0, top = 0;
  GreyPicture grey, black_and_white;
};

Piece cut_out(GreyView picture, double left, double top, double right, double bottom) {
  const auto inside = [](double at, int size) { return static_cast<int>(std::clamp(at, 0.0, size - 1.0)); };
  Piece piece;
  piece.left = inside(left, picture.width);
  piece.top = inside(top, picture.height);
  piece.grey.width = inside(right, picture.width) - piece.left + 1;
  piece.grey.height = inside(bottom, picture.height) - piece.top + 1;
  for (int y = 0; y < piece.grey.height; ++y) {
    const auto* row =
        picture.pixels + static_cast<std::ptrdiff_t>(piece.top + y) * picture.width + piece.left;
    piece.grey.pixels.insert(piece.grey.pixels.end(), row, row + piece.grey.width);
  }
  const auto [least, largest] = std::minmax_element(piece.grey.pixels.begin(), piece.grey.pixels.end());
  const int threshold = (*least + *largest + 1) / 2;
  piece.black_and_white = piece.grey;
  for (auto& pixel : piece.black_and_white.pixels) pixel = pixel < threshold ? 0 : 255;
  return piece;
}

void move_by(Projective& place, double x, double y) {
  for (std::size_t i = 0; i < 3; ++i) {
    place.m[i] += x * place.m[6 + i];
    place.m[3 + i] += y * place.m[6 + i];
  }
}

}  // namespace

std::optional<Framing> find_symbol(GreyView picture, const std::array<PicturePoint, 4>& outline,
                                   int modules) {
  if (picture.empty()) return std::nullopt;
  double left = 1e9, top = 1e9, right = -1e9, bottom = -1e9;
  for (const auto& corner : outline) {
    if (!(std::abs(corner.x) < 1e9 && std::abs(corner.y) < 1e9)) return std::nullopt;
    left = std::min(left, corner.x), right = std::max(right, corner.x);
    top = std::min(top, corner.y), bottom = std::max(bottom, corner.y);
  }
  const double side = std::max(right - left, bottom - top), around = kAround * side;
  const Piece piece = cut_out(picture, left - around, top - around, right + around, bottom + around);
  std::vector<FinderPattern> patterns;
  std::vector<TriedPlace> tried;
  add_finder_patterns(
      patterns, tried, piece.black_and_white, piece.grey, Proposed::crossed,
      [](PicturePoint) { return false; }, 12);
  for (Framing& framing : framings(piece.grey, patterns, 12)) {
    if (framing.inverted || (modules != 0 && framing.modules != modules)) continue;
    move_by(framing.place, piece.left, piece.top);
    const double n = framing.modules;
    const std::array<PicturePoint, 4> corners{framing.place(0, 0), framing.place(n, 0), framing.place(n, n),
                                              framing.place(0, n)};
    const bool fits = std::equal(corners.begin(), corners.end(), outline.begin(), [&](auto a, auto b) {
      return std::hypot(a.x - b.x, a.y - b.y) < kLargestOff * side;
    });
    if (fits) return framing;
  }
  if (modules == 0) return std::nullopt;
  const double n = modules;
  const std::array<Anchor, 4> anchors{
      {{0, 0, outline[0]}, {n, 0, outline[1]}, {n, n, outline[2]}, {0, n, outline[3]}}};
  const auto place = fit_projective(anchors);
  if (!place || !place->is_sane(n)) return std::nullopt;
  return Framing{modules, *place, 0, false};
}

}  // namespace counterfoil
