#include "custody/event.h"

#include <algorithm>
#include <array>

#include "base/text.h"

namespace counterfoil {
namespace {

constexpr std::size_t kLongestTextBytes = 200;
constexpr std::size_t kDigestHexDigits = 64;
constexpr std::uint64_t kLargestSize = std::uint64_t{1} << 53;  // what every JSON reader keeps exactly

// In the order of the enums. Do not change: embedded in logs.
constexpr std::array<std::string_view, 18> kSteps = {
    "founding",  "commissioning", "printing",  "reprinting", "voiding",    "matching",
    "settling",  "stock_taking",  "removing",  "packing",    "shipping",   "receiving",
    "unpacking", "inspecting",    "repairing", "storing",    "installing", "destroying"};
constexpr std::array<std::string_view, 3> kTimeSources = {"photo", "stated", "logged"};
constexpr std::array<std::string_view, 8> kVerdicts = {"matched", "swapped", "alone",    "doubled",
                                                       "crowded", "voided",  "old copy", "not issued"};

template <typename Enum, std::size_t N>
Result<Enum> parse_word(const std::array<std::string_view, N>& words, std::string_view text,
                        std::string_view what) {
  const auto found = std::find(words.begin(), words.end(), to_lower(trimmed(text)));
  if (found != words.end()) return static_cast<Enum>(found - words.begin());
  std::string hint = "one of:";
  for (const auto word : words) hint += " " + std::string(word) + (word == words.back() ? "" : ",");
  return malformed("\"" + std::string(text) + "\" is not a " + std::string(what), hint);
}

template <typename Enum, std::size_t N>
std::string_view word_of(const std::array<std::string_view, N>& words, Enum value) {
  return words.at(static_cast<std::size_t>(value));
}

bool is_clean(std::string_view text) { return is_utf8(text) && !has_control_characters(text); }

bool is_digest(std::string_view text) {
  return text.size() == kDigestHexDigits &&
         text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

bool is_date(std::string_view text) {
  const auto moment = parse_moment(text);
  return moment && date_text(*moment) == text;
}

// The members that the step cannot do without; empty when all are there.
std::string_view missing(const Event& event) {
  const bool numbered = event.number.has_value();
  switch (event.step) {
    case Step::founding:
      return event.desk ? "" : "desk";
    case Step::printing:
      return "";
    case Step::stock_taking:
      return event.paper ? "" : "paper";
    case Step::commissioning:
      if (!numbered) return "number";
      if (!event.counter) return "counter";
      return event.halves.empty() ? "halves" : "";
    case Step::reprinting:
      if (!numbered) return "number";
      return event.halves.empty() ? "halves" : "";
    case Step::voiding:
      if (!numbered) return "number";
      return event.reason.empty() ? "reason" : "";
    case Step::matching:
      if (!numbered) return "number";
      return event.verdict ? "" : "verdict";
    case Step::settling:
      if (!numbered && event.serial.empty() && !event.pocket) return "number, serial or pocket";
      return event.reason.empty() ? "reason" : "";
    default:
      return numbered || !event.serial.empty() ? "" : "number or serial";
  }
}

Result<void> check_texts(const Event& event) {
  const std::pair<std::string_view, const std::string*> texts[] = {{"serial", &event.serial},
                                                                   {"turnaround", &event.turnaround},
                                                                   {"part", &event.part},
                                                                   {"by", &event.by},
                                                                   {"second", &event.second},
                                                                   {"reason", &event.reason},
                                                                   {"from", &event.from},
                                                                   {"to", &event.to},
                                                                   {"carton", &event.carton},
                                                                   {"due", &event.due},
                                                                   {"condition", &event.condition},
                                                                   {"outcome", &event.outcome},
                                                                   {"note", &event.note}};
  for (const auto& [name, text] : texts)
    if (!is_clean(*text)) return malformed("\"" + std::string(name) + "\" is no plain text");
  if (!event.due.empty() && !is_date(event.due)) return malformed("\"due\" is not a date like 2026-12-20");
  if (event.pocket) {
    if (event.pocket->unit.empty() || event.pocket->name.empty())
      return malformed("\"pocket\" lacks unit or name");
    if (!is_clean(event.pocket->unit) || !is_clean(event.pocket->name))
      return malformed("\"pocket\" is no plain text");
  }
  return {};
}

Result<void> check_desk(const DeskCard& desk) {
  for (const auto* text : {&desk.name, &desk.role, &desk.prefix, &desk.key}) {
    if (text->empty()) return malformed("\"desk\" lacks name, role, prefix or key");
    if (!is_clean(*text)) return malformed("\"desk\" is no plain text");
  }
  if (!is_clean(desk.host)) return malformed("\"desk\" is no plain text");
  const auto prefix = parse_prefix(desk.prefix);
  if (!prefix || *prefix != desk.prefix)
    return malformed("the desk's prefix is not two characters of a number");
  return {};
}

bool are_labels(const std::vector<int>& list, int labels) {
  return std::adjacent_find(list.begin(), list.end(), std::greater_equal<>()) == list.end() &&
         (list.empty() || (list.front() >= 1 && list.back() <= labels));
}

Result<void> check_paper(const PaperUse& paper) {
  if (paper.stack.empty() || paper.stock.empty()) return malformed("\"paper\" lacks stack or stock");
  if (!is_clean(paper.stack) || !is_clean(paper.stock)) return malformed("\"paper\" is no plain text");
  if (paper.labels < 1 || paper.labels > kMostLabels) return malformed("\"labels\" is out of range");
  if (paper.first && (*paper.first < 1 || *paper.first > paper.labels))
    return malformed("\"first\" is not a label of the sheet");
  if (!are_labels(paper.spoiled, paper.labels) || !are_labels(paper.used, paper.labels))
    return malformed("\"spoiled\" or \"used\" are not labels of the sheet in ascending order");
  if (paper.sheets < 0 || paper.sheets > kMostSheets) return malformed("\"sheets\" is out of range");
  if (paper.used.empty() != (paper.sheets == 0)) return malformed("\"used\" does not agree with \"sheets\"");
  return {};
}

}  // namespace

std::string_view to_text(Step step) { return word_of(kSteps, step); }
Result<Step> parse_step(std::string_view text) { return parse_word<Step>(kSteps, text, "step"); }

bool is_journey_step(Step step) { return step >= Step::removing; }

const std::vector<Step>& journey_steps() {
  static const std::vector<Step> steps = {
      Step::removing,   Step::packing,   Step::shipping, Step::receiving,  Step::unpacking,
      Step::inspecting, Step::repairing, Step::storing,  Step::installing, Step::destroying};
  return steps;
}

std::string_view to_text(TimeSource source) { return word_of(kTimeSources, source); }
Result<TimeSource> parse_time_source(std::string_view text) {
  return parse_word<TimeSource>(kTimeSources, text, "way to know a time");
}

std::string_view to_text(Verdict verdict) { return word_of(kVerdicts, verdict); }
Result<Verdict> parse_verdict(std::string_view text) {
  return parse_word<Verdict>(kVerdicts, text, "verdict");
}

Result<std::string> check_text(std::string_view text, std::string_view what) {
  const auto kept = trimmed(text);
  const std::string name(what);
  if (!is_utf8(kept)) return malformed(name + " is not UTF-8 text");
  if (has_control_characters(kept))
    return malformed(name + " holds a control character, such as a line break or a tab");
  if (kept.size() > kLongestTextBytes)
    return malformed(name + " is longer than " + std::to_string(kLongestTextBytes) + " bytes", "shorten it");
  return composed(kept);
}

Result<void> check_event(const Event& event) {
  if (const auto lacks = missing(event); !lacks.empty())
    return malformed("an event of step " + std::string(to_text(event.step)) + " lacks " + std::string(lacks));
  if (!event.logged.offset_minutes) return malformed("\"logged\" lacks its offset from UTC");
  if (const auto texts = check_texts(event); !texts) return texts.error();
  if (event.counter && (*event.counter == 0 || *event.counter >= kCounterEnd))
    return malformed("\"counter\" is out of range");
  for (const auto& half : event.halves)
    if (half.copy < 1 || half.copy > kLastCopy) return malformed("\"copy\" is out of range");
  for (const auto& evidence : event.evidence)
    if (!is_digest(evidence.sha256) || !is_clean(evidence.name))
      return malformed("\"evidence\" is not a SHA-256 digest and a plain name");
  for (const auto& log : event.sees)
    if (log.origin.empty() || !is_clean(log.origin) || !is_digest(log.root) || log.size > kLargestSize)
      return malformed("\"sees\" is not an origin, a size and a root");
  if (event.desk)
    if (auto checked = check_desk(*event.desk); !checked) return checked;
  if (event.paper) return check_paper(*event.paper);
  return {};
}

void add_half(std::vector<HalfSeen>& halves, const HalfSeen& seen) {
  for (auto& half : halves) {
    if (half.half != seen.half || half.copy != seen.copy) continue;
    half.by_likeness = half.by_likeness && seen.by_likeness;
    return;
  }
  halves.push_back(seen);
}

std::string likeness_words(const std::vector<HalfSeen>& halves) {
  std::string words;
  for (const auto& half : halves) {
    if (!half.by_likeness) continue;
    words += (words.empty() ? "" : ", ") +
             (half.half == Half::label ? "label" : std::string(to_text(half.half)) + " half");
  }
  return words.empty() ? words : words + " read by likeness";
}

std::vector<std::string> event_words(const Event& event) {
  std::vector<std::string> words = {"step:" + std::string(to_text(event.step))};
  if (event.step == Step::commissioning) words.push_back("issued");
  if (event.number) words.push_back("number:" + event.number->text());
  if (event.other) words.push_back("number:" + event.other->text());
  if (!event.serial.empty()) words.push_back("serial:" + event.serial);
  if (event.pocket) words.push_back("pocket:" + event.pocket->text());
  if (!event.turnaround.empty()) words.push_back("turnaround:" + event.turnaround);
  if (!event.carton.empty()) words.push_back("carton:" + event.carton);
  if (event.paper) words.push_back("stack:" + event.paper->stack);
  for (const auto& evidence : event.evidence) words.push_back("photo:" + evidence.sha256);
  std::sort(words.begin(), words.end());
  words.erase(std::unique(words.begin(), words.end()), words.end());
  return words;
}

}  // namespace counterfoil
