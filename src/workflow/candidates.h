// The numbers on record that a smudged or mistyped number can stand for. A person chooses; nothing here does.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "custody/record.h"
#include "identity/smudge.h"

namespace counterfoil {

struct Candidate {
  const ValveTrip* trip = nullptr;  // in the record
  Fit fit{};
  std::string retired;  // why no valve should bear this number any more; empty when one may
};

// Those that fit as typed before those that take a slip, of each first the ones in use, by likelihood, then by
// number. The record must outlive them.
std::vector<Candidate> candidates(const Record& record, std::string_view typed);

// Beyond that a list helps nobody.
inline constexpr std::size_t kMostCandidates = 20;

// Why the number is used up: "voided: tag torn"; empty when it is in use.
std::string retirement(const ValveTrip& trip);
// One line on a number that a person has to tell from others: "K74Q 2B8X 61  U2 / 1 HE D1 (discharge), TA26, pulled,
// not packed".
std::string tag_line(const ValveTrip& trip);

// For an error's hint: at most kMostCandidates lines, and how many more there are; empty when there is none.
// `whole`: no '?' was typed, so that each takes a slip.
std::string candidate_list(const std::vector<Candidate>& found, bool whole);

}  // namespace counterfoil
