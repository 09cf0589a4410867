// Inside the sheet room: a place of a design that is filled for each tag. How a slot is written in a design:
// templates/README.md.
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "sheet/backdrop.h"
#include "sheet/design.h"
#include "sheet/stock.h"

namespace counterfoil {

// Nothing on a tag has letters lower than this: they are read at arm's length, in bad light.
inline constexpr double kLeastLetterMm = 2.8;

struct Slot {
  enum class Align { start, middle, end };

  std::string id;    // "number-2", as the design has it behind "slot-"
  std::string name;  // "number": what fills it
  Box box;           // from the design's top left corner

  bool is_symbol() const { return name == "symbol"; }
  double least_module_mm = 0;  // symbol only

  // Text only; heights are those of capitals.
  Align align = Align::start;
  bool mono = false;
  bool bold = false;
  int first_word = 1, last_word = 0;  // which words of the text it shows; last_word 0: all
  bool stacked = false;               // one line a word
  int lines = 1;
  double leading = 1.5;  // from baseline to baseline, in heights
  double largest_mm = 0;
  double least_mm = kLeastLetterMm;
  std::string before, after;  // drawn with the text, left out without it
};

// Slots for the standing words of a second language begin so: "second-side".
inline constexpr std::string_view kSecondPrefix = "second-";

// The names that a slot may have, besides "symbol".
bool is_text_slot_name(std::string_view name);

struct Design::Data {
  std::string name;
  double width_mm = 0, height_mm = 0;
  std::vector<Slot> slots;
  std::vector<Backdrop> backdrops;  // in the order of kSides
};

inline constexpr std::array<std::string_view, 3> kSides = {"suction", "discharge", "none"};

}  // namespace counterfoil
