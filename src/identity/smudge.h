// A number that a person could not read in full: '?' for each character that cannot be read, and perhaps one slip
// besides. Says which numbers it can stand for; whoever asks holds it against the numbers that there are.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "identity/number.h"

namespace counterfoil {

// How what was typed becomes the number, likeliest first. Look-alikes (0 and D, 8 and B, 5 and S, ...) stand before
// all other slips, which stand as in slip.h. Which shapes look alike is common practice, not a measurement.
enum class Fit {
  as_typed,
  look_alike,  // one character mistaken for one of its shape
  neighbours_swapped,
  one_wrong,
  one_missing,
  one_too_many,
  swapped_across,
  shifted,
};

class SmudgedNumber {
 public:
  // As typed: any case, spaces and hyphens skipped, O as 0, I and L as 1, what no number has as '?'.
  explicit SmudgedNumber(std::string_view typed);

  // Whether a character of it was given as '?'.
  bool has_gaps() const { return has_gaps_; }
  // The likeliest way; nothing when it takes more than one slip.
  std::optional<Fit> fit(const Number& number) const;

 private:
  struct Reading {
    Fit fit{};
    std::string pattern;  // kNumberLength characters; '?' fits any
  };
  std::string folded_;
  bool has_gaps_ = false;
  std::vector<Reading> readings_;  // likeliest first
};

// Whether two characters of typed or printed numbers are easily taken for each other.
bool look_alike(char a, char b);

}  // namespace counterfoil
