#include "workflow/log_subjects.h"

#include <algorithm>
#include <set>

#include "base/text.h"
#include "reader/image.h"
#include "workflow/candidates.h"
#include "workflow/evidence.h"
#include "workflow/issue.h"
#include "workflow/issued_texts.h"
#include "workflow/read.h"

namespace counterfoil {
namespace {

// For a command line that a person may copy.
std::string in_quotes(const std::string& file) {
  return file.find(' ') == std::string::npos ? file : "\"" + file + "\"";
}

// Adds what the photograph shows of a number to its subject.
void add_sighting(std::vector<LogSubject>& subjects, const TagSeen& tag, const Evidence& evidence,
                  const TagReading& reading, const std::string& file) {
  const Payload& payload = *tag.payload;
  auto same = [&](const LogSubject& subject) { return subject.number && *subject.number == payload.number; };
  auto found = std::find_if(subjects.begin(), subjects.end(), same);
  if (found == subjects.end()) {
    subjects.push_back({payload.number, {}, {}, std::nullopt, file, {}});
    found = subjects.end() - 1;
  }
  add_half(found->halves, {payload.half, payload.copy, tag.code.identified});
  if (std::find(found->evidence.begin(), found->evidence.end(), evidence) == found->evidence.end())
    found->evidence.push_back(evidence);
  if (!found->taken) found->taken = reading.words.taken;
}

// The bag half goes with the valve. Where a photograph shows bags, boxes of other numbers on it tell of no valve that
// was pulled or put in; they are told, and matching is where they are judged.
void add_sightings(std::vector<LogSubject>& subjects, const TagReading& reading, const Evidence& evidence,
                   const std::string& file, Step step) {
  std::set<Number> bags, boxes;
  for (const auto& tag : reading.tags)
    if (tag.payload) (tag.payload->half == Half::box ? boxes : bags).insert(tag.payload->number);
  const bool of_the_valve = step == Step::removing || step == Step::installing;
  std::string strangers;
  for (const auto& box : boxes)
    if (!bags.empty() && !bags.contains(box)) strangers += (strangers.empty() ? "" : ", ") + box.grouped();
  for (const auto& tag : reading.tags) {
    if (!tag.payload) continue;
    if (of_the_valve && !bags.empty() && !bags.contains(tag.payload->number)) continue;
    add_sighting(subjects, tag, evidence, reading, file);
  }
  for (auto& subject : subjects) {
    if (!subject.number || subject.file != file) continue;
    if (!reading.damage.empty()) subject.notes.push_back(reading.damage);
    if (reading.time_ran_out) subject.notes.push_back(file + ": " + std::string(kTimeRanOut));
    if (!reading.unread.empty())
      subject.notes.push_back(counted(reading.unread.size(), "more symbol") + " on " + file +
                              " could not be read; `counterfoil read " + in_quotes(file) +
                              "` says what is likely");
    if (!strangers.empty())
      subject.notes.push_back("THE HALVES DISAGREE: " + file + " also shows the box half of " + strangers +
                              "; look, and run `counterfoil match " + file + "`");
    if (of_the_valve && bags.empty())
      subject.notes.push_back("only the box half was seen; the bag half is what goes with the valve");
  }
}

// A photograph that gives no number, with what a person can do about it.
Error no_tag(const std::string& file, const TagReading& reading, Step step, const Record& record) {
  std::string hint =
      advice_after(reading, "take it again from nearer and straight on, or type the number from the tag");
  if (reading.unread.empty()) return refused("no tag was found on " + file, hint);
  for (const auto& unread : reading.unread) {
    if (unread.likely.empty()) continue;
    hint += "\n  hold these numbers against the tag, likeliest first (it may be none of them):";
    for (const auto& likely : unread.likely) {
      const ValveTrip* trip = record.find(likely.number);
      hint += "\n    ";
      hint += trip == nullptr ? likely.number.grouped() : tag_line(*trip);
    }
    hint += "\n  log the right one by number: counterfoil log " + std::string(to_text(step)) + " " +
            unread.likely.front().number.text() + " --photo " + in_quotes(file);
  }
  return refused(counted(reading.unread.size(), "symbol") + " seen on " + file +
                     " and not read; nothing was logged for it",
                 hint);
}

}  // namespace

Result<std::vector<LogSubject>> log_subjects(const Desk& desk, const LogOrder& order,
                                             std::vector<Error>& problems) {
  std::vector<LogSubject> subjects;
  auto numbers = parse_numbers(desk, order.numbers);
  if (!numbers) return numbers.error();
  for (auto& number : *numbers) {
    const auto same = [&](const LogSubject& subject) { return subject.number == number; };
    if (std::none_of(subjects.begin(), subjects.end(), same))
      subjects.push_back({std::move(number), {}, {}, std::nullopt, {}, {}});
  }
  const bool named_otherwise = !order.serial.empty() || order.label;
  TagsInUse in_use;
  if (!order.photos.empty()) {
    auto made = tags_in_use(desk);
    if (!made) return made.error();
    in_use = std::move(*made);
  }
  auto readings = read_all(order.photos, Sought::ours, order.reading, &in_use.texts);
  LogSubject other;
  std::vector<std::pair<Evidence, std::optional<Moment>>> shared;
  for (std::size_t i = 0; i < order.photos.size(); ++i) {
    const std::string& file = order.photos[i];
    const auto& reading = readings[i];
    if (!reading) {
      problems.push_back(reading.error());
      continue;
    }
    const bool ours = std::any_of(reading->tags.begin(), reading->tags.end(),
                                  [](const TagSeen& tag) { return tag.payload.has_value(); });
    if (!ours && !named_otherwise) {
      problems.push_back(no_tag(file, *reading, order.step, in_use.record));
      continue;
    }
    auto evidence = take_evidence(desk, file, order.copy_photos);
    if (!evidence) return evidence.error();
    if (!ours) shared.emplace_back(*evidence, reading->words.taken);
    add_sightings(subjects, *reading, *evidence, file, order.step);
  }
  for (const auto& file : order.evidence) {
    auto evidence = take_evidence(desk, file, order.copy_photos);
    if (!evidence) return evidence.error();
    const auto picture = open_picture(file);  // for its time; evidence need not be a picture
    shared.emplace_back(*evidence, picture ? (*picture)->words().taken : std::nullopt);
  }
  if (named_otherwise && subjects.empty()) subjects.push_back(other);
  for (auto& subject : subjects) {
    for (const auto& [evidence, taken] : shared) {
      if (std::find(subject.evidence.begin(), subject.evidence.end(), evidence) == subject.evidence.end())
        subject.evidence.push_back(evidence);
      if (!subject.taken) subject.taken = taken;
    }
  }
  return subjects;
}

}  // namespace counterfoil
