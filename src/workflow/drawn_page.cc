#include "workflow/drawn_page.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace counterfoil {
namespace {

constexpr double kMarginMm = 2;  // around a tag, for what lies off its place
constexpr float kDiffers = 40;   // grey; drawings of two sides

std::vector<SheetItem> with_side(std::vector<SheetItem> items, const std::string& side) {
  for (auto& item : items) {
    if (auto* single = std::get_if<SingleItem>(&item)) single->tag.side = side;
    if (auto* pair = std::get_if<PairItem>(&item)) pair->bag.side = pair->box.side = side;
  }
  return items;
}

Box hull(const Box& a, const Box& b) {
  const double left = std::min(a.x_mm, b.x_mm), top = std::min(a.y_mm, b.y_mm);
  return {left, top, std::max(a.right_mm(), b.right_mm()) - left,
          std::max(a.bottom_mm(), b.bottom_mm()) - top};
}

PixelBox pixels_of(const Box& box, const Box& frame, const Plane& plane) {
  const auto pixel = [](double mm, int most) {
    return std::clamp(static_cast<int>(std::lround(mm * kPixelsPerMm)), 0, most);
  };
  return {pixel(box.x_mm - frame.x_mm, plane.width), pixel(box.y_mm - frame.y_mm, plane.height),
          pixel(box.right_mm() - frame.x_mm, plane.width), pixel(box.bottom_mm() - frame.y_mm, plane.height)};
}

// Beyond the page nothing is printed.
Plane piece_of(const GreyPicture& page, const Box& frame) {
  const int left = static_cast<int>(std::lround(frame.x_mm * kPixelsPerMm)),
            top = static_cast<int>(std::lround(frame.y_mm * kPixelsPerMm));
  Plane piece(static_cast<int>(std::lround(frame.width_mm * kPixelsPerMm)),
              static_cast<int>(std::lround(frame.height_mm * kPixelsPerMm)), 255);
  for (int y = std::max(0, -top); y < std::min(piece.height, page.height - top); ++y)
    for (int x = std::max(0, -left); x < std::min(piece.width, page.width - left); ++x)
      piece.at(x, y) = static_cast<float>(
          page.pixels[static_cast<std::size_t>(y + top) * static_cast<std::size_t>(page.width) +
                      static_cast<std::size_t>(x + left)]);
  return piece;
}

// Where the drawings of two sides differ; empty where they do not.
PixelBox side_mark_of(const DrawnTag& tag, const PixelBox& design) {
  PixelBox mark{tag.drawings[0].width, tag.drawings[0].height, 0, 0};
  for (int y = design.top; y < design.bottom; ++y)
    for (int x = design.left; x < design.right; ++x) {
      const float a = tag.drawings[0].at(x, y), b = tag.drawings[1].at(x, y), c = tag.drawings[2].at(x, y);
      if (std::max({a, b, c}) - std::min({a, b, c}) < kDiffers) continue;
      mark = {std::min(mark.left, x), std::min(mark.top, y), std::max(mark.right, x + 1),
              std::max(mark.bottom, y + 1)};
    }
  if (mark.right <= mark.left) return {};
  constexpr int kGrown = 3;  // pixels, for another side's that lies a little off
  return {std::max(mark.left - kGrown, design.left), std::max(mark.top - kGrown, design.top),
          std::min(mark.right + kGrown, design.right), std::min(mark.bottom + kGrown, design.bottom)};
}

// Gives the box's pixels to the part, as far as they are the design's own or nobody's.
void give(DrawnTag& tag, const PixelBox& box, std::int16_t part) {
  for (int y = box.top; y < box.bottom; ++y)
    for (int x = box.left; x < box.right; ++x) tag.owner[tag.drawings[0].index(x, y)] = part;
}

std::int16_t part_named(DrawnTag& tag, TagPart::Kind kind, const std::string& name) {
  const auto found = std::find_if(tag.parts.begin(), tag.parts.end(), [&](const TagPart& part) {
    return part.kind == kind && part.name == name;
  });
  if (found != tag.parts.end()) return static_cast<std::int16_t>(found - tag.parts.begin());
  tag.parts.push_back({kind, name});
  return static_cast<std::int16_t>(tag.parts.size() - 1);
}

}  // namespace

Result<DrawnPage> DrawnPage::make(const SheetOrder& order, const std::vector<SheetItem>& items, int page) {
  DrawnPage drawn;
  for (std::size_t i = 0; i < kSideNames.size(); ++i) {
    auto picture = picture_of_page(order, with_side(items, kSideNames[i]), page, kPixelsPerMm);
    if (!picture) return picture.error();
    drawn.pages_[i] = std::move(*picture);
  }
  for (const auto& area : drawn.pages_[0].areas)
    if (area.kind == PageArea::Kind::design)
      drawn.sides_.push_back(tag_at(order, items[area.tag.item], area.tag.box_half).content.side);
  return drawn;
}

DrawnTag DrawnPage::tag(int label, bool box_half) const {
  std::vector<const PageArea*> areas;
  std::size_t index = 0, seen = 0;
  for (const auto& area : pages_[0].areas) {
    if (area.kind == PageArea::Kind::design) ++seen;
    if (area.tag.label != label || area.tag.box_half != box_half) continue;
    areas.push_back(&area);
    index = seen - 1;
  }
  if (areas.empty()) std::abort();
  DrawnTag tag;
  const auto side = std::find(kSideNames.begin(), kSideNames.end(), sides_[index]);
  tag.side = static_cast<std::size_t>(side - kSideNames.begin());
  tag.box = areas.front()->box;
  for (const auto* area : areas) tag.box = hull(tag.box, area->box);
  const auto whole = [](double mm) { return std::round(mm * kPixelsPerMm) / kPixelsPerMm; };
  tag.box = {whole(tag.box.x_mm - kMarginMm), whole(tag.box.y_mm - kMarginMm),
             whole(tag.box.width_mm + 2 * kMarginMm), whole(tag.box.height_mm + 2 * kMarginMm)};
  for (std::size_t i = 0; i < pages_.size(); ++i) tag.drawings[i] = piece_of(pages_[i].grey, tag.box);
  tag.owner.assign(tag.drawings[0].values.size(), kNobody);

  const PixelBox design = pixels_of(areas.front()->box, tag.box, tag.drawings[0]);
  give(tag, design, part_named(tag, TagPart::Kind::standing, "standing words"));
  const PixelBox mark = side_mark_of(tag, design);
  if (!mark.empty()) give(tag, mark, part_named(tag, TagPart::Kind::side_mark, "side mark"));
  for (const auto* area : areas) {
    const PixelBox box = pixels_of(area->box, tag.box, tag.drawings[0]);
    if (area->kind == PageArea::Kind::text) give(tag, box, part_named(tag, TagPart::Kind::words, area->name));
    if (area->kind == PageArea::Kind::match_bars)
      give(tag, box, part_named(tag, TagPart::Kind::match_bars, "match bars"));
    if (area->kind == PageArea::Kind::symbol) give(tag, box, kNobody);
  }
  return tag;
}

}  // namespace counterfoil
