// Inside the print check: a page of the sheet as it should come out, once for each side that a tag can say.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "grade/plane.h"
#include "sheet/page_picture.h"

namespace counterfoil {

// What a part of a tag is to people.
struct TagPart {
  enum class Kind { words, side_mark, match_bars, standing };

  Kind kind = Kind::words;
  std::string name;  // "pocket", "side mark", "match bars", "standing words"
};

// A tag's piece of the page; pixels of its planes are kPixelsPerMm.
struct DrawnTag {
  Box box;                        // that it takes of the page, mm
  std::size_t side = 0;           // of kSideNames
  std::array<Plane, 3> drawings;  // by side; 255 where nothing is printed
  std::vector<TagPart> parts;
  std::vector<std::int16_t>
      owner;  // which part each pixel belongs to; -1 for symbols and what is not the tag's
  std::vector<PixelBox> symbols;
};

inline constexpr std::int16_t kNobody = -1;
inline constexpr double kPixelsPerMm = 10;
inline constexpr std::array<const char*, 3> kSideNames{"suction", "discharge", ""};
inline constexpr std::size_t kNoSide = 2;

class DrawnPage {
 public:
  // `page`: from 0. Fails as picture_of_page does.
  static Result<DrawnPage> make(const SheetOrder& order, const std::vector<SheetItem>& items, int page);

  // Precondition: the page has it.
  DrawnTag tag(int label, bool box_half) const;

 private:
  std::array<PagePicture, 3> pages_;  // all tags as if of that side
  std::vector<std::string> sides_;    // of the tags, as the areas' designs follow each other
};

}  // namespace counterfoil
