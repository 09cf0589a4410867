#include "identity/smudge.h"

#include <algorithm>
#include <utility>

#include "identity/spelling.h"

namespace counterfoil {
namespace {

// O is folded to 0, I and L to 1.
constexpr std::string_view kShapes[] = {"0DQ", "0C", "06", "08", "09", "17", "1T", "1J", "2Z", "38", "3B",
                                        "4A",  "5S", "6G", "6B", "68", "7T", "8B", "8S", "9G", "CG", "EF",
                                        "HN",  "KX", "MN", "MW", "PR", "PF", "UV", "VY", "VW", "XY", "BR"};

bool fits(std::string_view pattern, std::string_view number) {
  for (std::size_t i = 0; i < number.size(); ++i)
    if (pattern[i] != '?' && pattern[i] != number[i]) return false;
  return true;
}

}  // namespace

bool look_alike(char a, char b) {
  return std::any_of(std::begin(kShapes), std::end(kShapes), [&](std::string_view shape) {
    return shape.find(a) != std::string_view::npos && shape.find(b) != std::string_view::npos;
  });
}

SmudgedNumber::SmudgedNumber(std::string_view typed)
    : folded_(fold(typed).substr(0, kNumberLength + 2)),
      has_gaps_(typed.find('?') != std::string_view::npos) {
  for (char& c : folded_)
    if (!is_number_character(c) && c != 'U') c = '?';
  const auto read_as = [this](Fit fit, std::string pattern) {
    readings_.push_back({fit, std::move(pattern)});
  };
  const auto swap_at = [&](Fit fit, std::size_t distance) {
    for (std::size_t i = 0; i + distance < folded_.size(); ++i) {
      std::string other = folded_;
      std::swap(other[i], other[i + distance]);
      if (other != folded_) read_as(fit, std::move(other));
    }
  };
  if (folded_.size() == kNumberLength) {
    read_as(Fit::as_typed, folded_);
    swap_at(Fit::neighbours_swapped, 1);
    for (std::size_t i = 0; i < folded_.size(); ++i) {
      if (folded_[i] == '?') continue;
      std::string other = folded_;
      other[i] = '?';
      read_as(Fit::one_wrong, std::move(other));
    }
    swap_at(Fit::swapped_across, 2);
    read_as(Fit::shifted, folded_.substr(1) + folded_[0]);
    read_as(Fit::shifted, folded_.back() + folded_.substr(0, kNumberLength - 1));
  } else if (folded_.size() + 1 == kNumberLength) {
    for (std::size_t i = 0; i <= folded_.size(); ++i)
      read_as(Fit::one_missing, std::string(folded_).insert(i, 1, '?'));
  } else if (folded_.size() == kNumberLength + 1) {
    for (std::size_t i = 0; i < folded_.size(); ++i)
      read_as(Fit::one_too_many, std::string(folded_).erase(i, 1));
  }
}

std::optional<Fit> SmudgedNumber::fit(const Number& number) const {
  std::optional<Fit> best;
  for (const auto& [fit, pattern] : readings_) {
    if (!fits(pattern, number.text())) continue;
    Fit found = fit;
    if (fit == Fit::one_wrong)
      for (std::size_t i = 0; i < pattern.size(); ++i)
        if (pattern[i] != folded_[i] && look_alike(folded_[i], number.text()[i])) found = Fit::look_alike;
    if (!best || found < *best) best = found;
  }
  return best;
}

}  // namespace counterfoil
