// Issuing: numbers for the tag pairs of a turnaround, in one transaction; and withdrawing one for ever.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "custody/event.h"
#include "workflow/desk.h"

namespace counterfoil {

inline constexpr std::size_t kLargestBatch = 100'000;

// What one pair is meant for; all of it may be unknown.
struct PlannedPair {
  std::optional<Pocket> pocket;
  std::string part;
};

// A list of pockets: CSV with the columns unit, pocket, side and part, the last two of which may be absent or
// empty. Errors name the line; one pocket twice is an error, and so are two sides for one pocket.
Result<std::vector<PlannedPair>> parse_pocket_list(std::string_view csv);

struct IssueOrder {
  std::string turnaround;
  std::vector<PlannedPair> pairs;
  std::string by;
  std::string second{}, reason{};  // when the list turns a pocket's side round
};
// Refuses a pocket that has a pair in this turnaround already, unless that pair is voided; and a side that is not the
// one on record, unless a second person has looked at the unit's map and says why. Pockets that the record spells a
// little otherwise are taken as it spells them.
// Returns the commissioning events in the order of the pairs.
Result<std::vector<LoggedEvent>> issue_pairs(Desk& desk, const IssueOrder& order);

// `count` fresh numbers of this desk and the counters they come from, for use inside Desk::append's compose
// only.
struct FreshNumber {
  Number number;
  std::uint32_t counter;
};
Result<std::vector<FreshNumber>> take_numbers(const Desk& desk, std::size_t count);

struct VoidOrder {
  std::vector<std::string> numbers;  // as typed
  std::string reason, by;
};
// Refuses numbers that are not issued or are voided already; then nothing is voided.
Result<std::vector<Number>> void_numbers(Desk& desk, const VoidOrder& order);

// Events of the number, replayed; `refused` when this desk's record does not have it issued.
Result<ValveTrip> issued_trip(const Desk& desk, const Number& number);

// A turnaround as typed, trimmed; `refused` when the record has none of that name (an answer about nothing would read
// as all clear). Empty stands for all.
Result<std::string> known_turnaround(const Record& record, const std::string& typed);

// A typed number, checked. One that does not check, or that has '?' for characters which could not be read, is
// `malformed` however few numbers on record it can stand for: the check characters are few, and to guess is to log for
// another valve. The error's hint lists the numbers on record that are near (candidates.h).
Result<Number> parse_number(const Record& record, const std::string& typed);
Result<Number> parse_number(const Desk& desk, const std::string& typed);
// Each of them; the first that does not check is the error.
Result<std::vector<Number>> parse_numbers(const Desk& desk, const std::vector<std::string>& typed);

}  // namespace counterfoil
