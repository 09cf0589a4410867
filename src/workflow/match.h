// Matching: which bag goes with which box. Holds the halves that were read or typed against each other and
// against the record, and writes what it found as events.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "custody/event.h"
#include "workflow/desk.h"
#include "workflow/read.h"

namespace counterfoil {

// Halves that were found in one place: read on one photograph, or typed as belonging together.
struct MatchGroup {
  std::vector<Payload> halves;  // one per physical tag
  std::vector<Evidence> evidence;
  std::string where;                   // the photograph, or "typed"
  std::vector<Payload> by_likeness{};  // those of the halves that were not decoded
};

// What is said of one number.
struct MatchLine {
  Verdict verdict{};
  Number number;
  std::optional<Number> other;   // swapped, crowded: the number of the half it was found with
  std::vector<HalfSeen> halves;  // of this number, all that were seen
  std::vector<Evidence> evidence;
  std::string what;  // one sentence, plain words
  std::string next;  // what to do; empty for matched
  std::vector<std::string> where;
};

struct MatchReport {
  std::vector<MatchLine> lines;      // matched ones last, else worst first
  std::vector<Error> unreadable;     // photographs that gave no tag of ours, and why
  std::vector<std::string> foreign;  // symbols beside ours that are not: "IMG_2.jpg: QR Code \"...\""
  std::vector<std::string> damaged;  // photographs that could be read in part only, and why
  std::vector<std::string> unread;   // symbols beside ours that were seen and not read, in words for people
  bool all_matched() const;
};

// Pure: groups against the record. `expected`: numbers whose absence is said too (those of a turnaround, when
// given).
std::vector<MatchLine> match_halves(const std::vector<MatchGroup>& groups, const Record& record,
                                    const std::vector<Number>& expected);

struct MatchOrder {
  std::vector<std::string> photos;
  std::vector<std::pair<std::string, std::string>> pairs;  // typed: this bag was in this box
  std::vector<std::string> bags, boxes;                    // typed: seen, each by itself
  std::string turnaround;                                  // also name its pairs of which nothing was seen
  std::string by;
  bool copy_photos = true;
  bool dry_run = false;  // say it, write nothing
  ReadingTerms reading;  // of the photographs
};
Result<MatchReport> match_photos(Desk& desk, const MatchOrder& order);

}  // namespace counterfoil
