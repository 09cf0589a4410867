// One thing that was seen to happen, and its canonical bytes: RFC 8785 JSON of strings, integers, arrays and
// objects only. Optional members that say nothing are left out. Do not change the meaning of a member:
// embedded in logs; readers refuse a "counterfoil" version that they do not know and keep members that they
// do not know.
//
//   {"counterfoil":1, "step":"removing", "logged":"2026-11-25T10:02:11Z",
//    "at":"2026-11-25T09:30:00+01:00", "known":"photo",
//    "number":"K74Q2B8X61", "halves":[{"half":"bag","copy":1,"read":"by likeness"}], "serial":"...", "turnaround":"TA26",
//    "pocket":{"unit":"U2","name":"2 HE S1","side":"suction"}, "part":"...",
//    "by":"...", "second":"...", "reason":"...", "from":"...", "to":"...", "carton":"...",
//    "due":"2026-12-20", "condition":"...", "outcome":"...", "note":"...",
//    "evidence":[{"sha256":"<64 hex>","name":"IMG_0412.jpg"}],
//    "counter":17, "verdict":"swapped", "other":"K7...",
//    "desk":{"name":"...","role":"storeroom","prefix":"K7","key":"<verifier key>","host":"..."},
//    "paper":{"stack":"drawer 2","stock":"a4-2x4","labels":8,"first":5,"spoiled":[7],"sheets":2,"used":[1,2]},
//    "sees":[{"origin":"...","size":12,"root":"<64 hex>"}]}
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/moment.h"
#include "base/result.h"
#include "identity/number.h"
#include "identity/payload.h"
#include "machine/pocket.h"

namespace counterfoil {

// The journey's steps bear the names of the GS1 Core Business Vocabulary where it has one; founding,
// printing, reprinting, voiding, matching and settling are our own.
enum class Step {
  founding,       // a desk begins its log
  commissioning,  // a number is issued: as a tag pair, or as an identification label
  printing,       // a batch's sheet was made
  reprinting,     // the next copy of a half
  voiding,        // a number is withdrawn for ever
  matching,       // bag and box halves were held against each other
  settling,  // a person looked into the findings of a number, serial or pocket and says why they are closed
  stock_taking,  // a person looked at a stack of label sheets and says what its top one has left
  removing,
  packing,
  shipping,
  receiving,
  unpacking,
  inspecting,
  repairing,
  storing,
  installing,
  destroying,
};
std::string_view to_text(Step step);
// Any case.
Result<Step> parse_step(std::string_view text);
// removing .. destroying: what `log` takes.
bool is_journey_step(Step step);
const std::vector<Step>& journey_steps();

// How the time of an event is known.
enum class TimeSource {
  photo,   // the camera's EXIF
  stated,  // a person said so
  logged,  // nothing but the logging itself
};
std::string_view to_text(TimeSource source);
Result<TimeSource> parse_time_source(std::string_view text);

// How a batch of valves was matched; also the words of a match report.
enum class Verdict { matched, swapped, alone, doubled, crowded, voided, old_copy, not_issued };
std::string_view to_text(Verdict verdict);  // "old copy", "not issued": plain words
Result<Verdict> parse_verdict(std::string_view text);

// Do not change: embedded in logs.
inline constexpr int kMostLabels = 40'000;     // on one sheet
inline constexpr int kMostSheets = 1'000'000;  // of one printing

struct HalfSeen {
  Half half = Half::bag;
  int copy = 1;
  // The symbol could not be decoded; it was told by its likeness to the tags in use.
  bool by_likeness = false;
  friend bool operator==(const HalfSeen&, const HalfSeen&) = default;
};
struct Evidence {
  std::string sha256;  // 64 hex digits
  std::string name;    // the file's name when it was taken in, without folder
  friend bool operator==(const Evidence&, const Evidence&) = default;
};
struct SeenLog {
  std::string origin;
  std::uint64_t size = 0;
  std::string root;  // 64 hex digits
  friend bool operator==(const SeenLog&, const SeenLog&) = default;
};
// What a printing took from a stack of label sheets, or what a person says of its top sheet. Labels are counted
// from 1, row by row; lists ascend. What is left follows from all events of the stack: custody/stack.h.
struct PaperUse {
  std::string stack;  // the desk's own name for it
  std::string stock;
  int labels = 0;            // on one sheet
  std::optional<int> first;  // stated: the labels before it are gone, and it and those behind it are there
  std::vector<int> spoiled;  // stated, of the sheet that was on top
  int sheets = 0;            // printed on; 0: nothing was printed
  std::vector<int> used;     // labels printed on, of the last of these sheets
  friend bool operator==(const PaperUse&, const PaperUse&) = default;
};
struct DeskCard {
  std::string name;
  std::string role;  // "storeroom", "mechanic", "vendor"
  std::string prefix;
  std::string key;   // verifier key
  std::string host;  // for link payloads, may be empty
  friend bool operator==(const DeskCard&, const DeskCard&) = default;
};

struct Event {
  Step step = Step::founding;
  Moment logged;  // with offset: the desk's clock when it was written down
  Moment at;      // when it happened
  TimeSource known = TimeSource::logged;
  std::optional<Number> number;
  std::vector<HalfSeen> halves;  // commissioning: the halves made (bag and box, or label)
  std::string serial;
  std::string turnaround;
  std::optional<Pocket> pocket;
  std::string part;
  std::string by, second, reason;
  std::string from, to, carton;
  std::string due;  // date
  std::string condition, outcome, note;
  std::vector<Evidence> evidence;
  std::optional<std::uint32_t> counter;
  std::optional<Verdict> verdict;
  std::optional<Number> other;
  std::optional<DeskCard> desk;
  std::optional<PaperUse> paper;
  std::vector<SeenLog> sees;

  friend bool operator==(const Event&, const Event&) = default;
};

// Whether the event can be written and read again: it has the members that its step cannot do without, texts
// are UTF-8 without control characters, digests are 64 lower-case hex digits, copies and counters are in
// range, `logged` has an offset, `due` is a date.
Result<void> check_event(const Event& event);

// Aborts when check_event refuses: an entry that nobody can read must not get into a log.
std::string event_bytes(const Event& event);

// `malformed` when the bytes are not canonical, hold anything but strings, integers, arrays and objects, a
// known member is of the wrong type, empty or out of range, or one is missing that the step cannot do
// without. Members that this version does not know are let pass: the exact bytes stay in the log.
Result<Event> parse_event(std::string_view bytes);

// For texts that people enter: trims, puts in Normalization Form C; refuses invalid UTF-8, control characters
// and more than 200 bytes. `what` names the field in the error.
Result<std::string> check_text(std::string_view text, std::string_view what);

// Takes in a half that was seen: each half and copy once, and as decoded when it was decoded anywhere.
void add_half(std::vector<HalfSeen>& halves, const HalfSeen& seen);
// "bag half read by likeness", for sentences; empty when all were decoded.
std::string likeness_words(const std::vector<HalfSeen>& halves);

// What the event is found by in a ledger: "step:removing", "number:...", "serial:...", "pocket:U2 / 2 HE S1",
// "turnaround:...", "carton:...", "stack:...", "photo:<sha256>"; for a commissioning also "issued". Sorted, without
// doubles. The other number of a matching counts as a number.
std::vector<std::string> event_words(const Event& event);

}  // namespace counterfoil
