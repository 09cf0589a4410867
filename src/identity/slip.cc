#include "identity/slip.h"

#include <algorithm>
#include <utility>

#include "base/text.h"
#include "identity/spelling.h"

namespace counterfoil {
namespace {

constexpr std::size_t kMostShown = 24;       // characters of the text in the message
constexpr std::size_t kMostSuggestions = 3;  // beyond that a list helps nobody

std::string shown(std::string_view folded) {
  return "number " + in_groups(folded.substr(0, kMostShown)) + (folded.size() > kMostShown ? "..." : "");
}

// The first character, all its bytes, that no number has; empty when there is none.
std::string_view first_unused(std::string_view typed) {
  const bool utf8 = is_utf8(typed);
  for (std::size_t i = 0, end = 1; i < typed.size(); i = end++) {
    while (utf8 && end < typed.size() && (static_cast<unsigned char>(typed[end]) & 0xc0) == 0x80) ++end;
    const auto character = typed.substr(i, end - i);
    const std::string folded = fold(character);
    if (!folded.empty() && !is_number_character(folded[0])) return character;
  }
  return {};
}

// With '?' as people type it for a character that they cannot read.
bool has_gap(std::string_view typed) { return typed.find('?') != std::string_view::npos; }

std::string complaint_about(std::string_view unused) {
  if (to_upper(unused) == "U") return " holds U, a letter that is never used";
  if (is_utf8(unused) && !has_control_characters(unused))
    return " holds \"" + std::string(unused) + "\", which no number has";
  return " holds a character that cannot be shown";
}

std::string_view description(Slip slip) {
  switch (slip) {
    case Slip::neighbours_swapped:
      return "two neighbouring characters look swapped";
    case Slip::one_wrong:
      return "one character looks wrong";
    case Slip::one_missing:
      return "one character looks left out";
    case Slip::one_too_many:
      return "one character looks typed too many";
    case Slip::swapped_across:
      return "two characters look swapped across the one between them";
    case Slip::shifted:
      return "all characters look shifted by one place";
  }
  return {};
}

std::string suggestion(const std::vector<Correction>& found) {
  if (found.empty() || found.size() > kMostSuggestions) return "read the number from the tag again";
  if (found.size() == 1) return "did you mean " + found[0].number.grouped() + "?";
  std::string list = found[0].number.grouped();
  for (std::size_t i = 1; i < found.size(); ++i)
    list += (i + 1 < found.size() ? ", " : " or ") + found[i].number.grouped();
  return "it may be " + list + ": read the number from the tag again";
}

}  // namespace

std::vector<Correction> corrections(std::string_view folded) {
  std::vector<Correction> out;
  const auto offer = [&out](Slip slip, std::string_view text) {
    if (auto number = Number::from_exact(text)) out.push_back({slip, *std::move(number)});
  };
  const std::string typed(folded.substr(0, kNumberLength + 2));
  const auto offer_swaps = [&](Slip slip, std::size_t distance) {
    for (std::size_t i = 0; i + distance < typed.size(); ++i) {
      if (typed[i] == typed[i + distance]) continue;
      std::string other = typed;
      std::swap(other[i], other[i + distance]);
      offer(slip, other);
    }
  };
  if (typed.size() == kNumberLength) {
    offer_swaps(Slip::neighbours_swapped, 1);
    offer_swaps(Slip::swapped_across, 2);
    for (std::size_t i = 0; i < typed.size(); ++i) {
      for (const char c : kNumberAlphabet) {
        std::string other = typed;
        other[i] = c;
        if (c != typed[i]) offer(Slip::one_wrong, other);
      }
    }
    offer(Slip::shifted, typed.substr(1) + typed[0]);
    offer(Slip::shifted, typed.back() + typed.substr(0, kNumberLength - 1));
  } else if (typed.size() + 1 == kNumberLength) {
    for (std::size_t i = 0; i <= typed.size(); ++i)
      for (const char c : kNumberAlphabet) offer(Slip::one_missing, std::string(typed).insert(i, 1, c));
  } else if (typed.size() == kNumberLength + 1) {
    for (std::size_t i = 0; i < typed.size(); ++i) offer(Slip::one_too_many, std::string(typed).erase(i, 1));
  }
  // Leaving out either of two equal characters is one slip, and a shift may also be a swap: each number once.
  std::sort(out.begin(), out.end(), [](const auto& a, const auto& b) {
    return std::pair(a.slip, a.number) < std::pair(b.slip, b.number);
  });
  std::vector<Correction> distinct;
  for (auto& candidate : out) {
    const auto same = [&](const Correction& other) { return other.number == candidate.number; };
    if (std::none_of(distinct.begin(), distinct.end(), same)) distinct.push_back(std::move(candidate));
  }
  return distinct;
}

Error explain_slip(std::string_view typed) {
  const std::string folded = fold(typed);
  if (folded.empty()) return malformed("the number is empty");
  const auto found = corrections(folded);
  const std::string hint = suggestion(found);
  if (has_gap(typed) && folded.size() == kNumberLength)
    return malformed(shown(folded) + " is not read in full", hint);
  if (const auto unused = first_unused(typed); !unused.empty() && unused != "?")
    return malformed(shown(folded) + complaint_about(unused), hint);
  if (folded.size() != kNumberLength)
    return malformed(shown(folded) + (folded.size() < kNumberLength ? " is too short: " : " is too long: ") +
                         counted(folded.size(), "character") + ", not " + std::to_string(kNumberLength),
                     has_gap(typed) ? "write one ? for each character that cannot be read" : hint);
  return malformed(shown(folded) + " does not check: " +
                       std::string(found.empty() ? "no single slip explains it" : description(found[0].slip)),
                   hint);
}

std::vector<Number> one_slip_away(std::string_view typed) {
  std::vector<Number> out;
  for (auto& candidate : corrections(fold(typed))) out.push_back(std::move(candidate.number));
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace counterfoil
