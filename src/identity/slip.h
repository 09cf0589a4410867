// The slips of people who copy a number, and the numbers that one slip explains. For the error of
// Number::parse and for one_slip_away; not for numbers that were read by a camera.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "identity/number.h"

namespace counterfoil {

// Most likely first. A swap stands before a wrong character although people mistake more than they swap:
// there are 9 ways to swap neighbours and 310 to mistake a character, so a swap that checks is hardly ever
// chance.
enum class Slip { neighbours_swapped, one_wrong, one_missing, one_too_many, swapped_across, shifted };

struct Correction {
  Slip slip{};
  Number number;
};

// Every number that one slip turns into the folded text, by slip, then by number.
std::vector<Correction> corrections(std::string_view folded);

// Why the typed text is no number, for the person who typed it. Precondition: Number::parse refuses it.
Error explain_slip(std::string_view typed);

}  // namespace counterfoil
