// A tag design: an SVG drawing in millimetres that anyone can edit in a drawing program. Rectangles with an
// id such as "slot-number" are slots that are filled for each tag; groups with an id "side-suction",
// "side-discharge" and "side-none" are drawn for tags of that side only; everything else is background, drawn
// once and reused. templates/README.md has the slots and their attributes.
#pragma once

#include <memory>
#include <string>
#include <string_view>

#include "base/result.h"

namespace counterfoil {

// The drawing itself is kept out of this header (librsvg, Cairo).
class Design {
 public:
  // Refuses scripts, references to files or other places, entities, an unknown slot and a slot outside the
  // drawing.
  static Result<Design> parse(std::string_view svg, std::string_view name);
  static Result<Design> load(const std::string& path);
  // Its size and slots only, refused as above: what a choice among many needs, at a tenth of the time. It has no drawing
  // to print.
  static Result<Design> outline(const std::string& path);

  const std::string& name() const;
  double width_mm() const;
  double height_mm() const;
  // Whether it has slots for words of a second language.
  bool has_second_language() const;

  struct Data;  // sheet/slot.h, for the sheet room only
  const Data& data() const { return *data_; }

 private:
  static Result<Design> made(std::string_view svg, std::string_view name, bool drawn);
  explicit Design(std::shared_ptr<const Data> data) : data_(std::move(data)) {}
  std::shared_ptr<const Data> data_;
};

}  // namespace counterfoil
