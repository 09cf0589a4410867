// A contradiction or a hole that the record turned up, in words for the person who has to put it right.
#pragma once

#include <compare>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace counterfoil {

// Which entry of which log.
struct EventRef {
  std::string origin;
  std::uint64_t position = 0;
  friend auto operator<=>(const EventRef&, const EventRef&) = default;
};

// Worst first: findings are listed in this order.
enum class FindingKind {
  side_disagreement,  // a suction valve logged into a discharge pocket or the reverse
  pocket_two_sides,   // one pocket is suction by one entry and discharge by another
  side_unchecked,     // a valve was installed, and its side or the pocket's is not known
  removed_twice,      // a second removal with no installation between
  issued_twice,       // two tags were issued with one number
  after_end,  // a step, or a tag seen, after the valve was destroyed or the number voided; a tag used again
  serial_twice,  // one serial on two trips at the same time
  two_serials,   // two serials under one number
  other_valve,   // another serial came out of a pocket than went in
  swapped,
  crowded,
  doubled,
  alone,              // these four from matchings that later ones have not put right
  pocket_twice,       // one pocket emptied twice, or filled twice, with nothing between
  wrong_pocket,       // removed from, or installed in, another pocket than it is meant for
  other_part,         // another part number than the tag or the pocket has
  step_out_of_order,  // received but never shipped, installed but never removed, packed while installed, ...
  never_issued,       // a number of a known prefix, or a copy, that no event issues
  issued_elsewhere,   // a number of a prefix whose desk is not in the record
  shared_prefix,      // two desks that issue with one prefix
  old_copy,           // an older copy of a half seen after a newer one was printed
  untagged,           // the number of a valve that is out was voided, and nothing carries the valve on
  time_runs_back,     // an event says it happened before the one it must follow
  time_ahead,         // an event says it happened after it was logged
  not_back,           // its due date has passed, or, without one, it is in transit for too long
  not_removed,        // planned for the turnaround, others are out, this one has no removal
  pocket_open,        // a valve was removed, none was installed since
};
std::string_view to_text(FindingKind kind);  // plain words: "removed twice"

struct Finding {
  FindingKind kind{};
  std::string subject;           // number (grouped), serial or pocket
  std::string turnaround;        // may be empty
  std::string what;              // one sentence, plain words
  std::string next;              // what to do, one sentence
  std::vector<EventRef> events;  // that make it, in order; never empty
};

}  // namespace counterfoil
