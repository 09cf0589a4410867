#include "workflow/log_subjects.h"

#include <algorithm>
#include <set>

#include "workflow/evidence.h"
#include "workflow/issue.h"
#include "workflow/read.h"

namespace counterfoil {
namespace {

// Adds what the photograph shows of a number to its subject.
void add_sighting(std::vector<LogSubject>& subjects, const Payload& payload, const Evidence& evidence,
                  const TagReading& reading, const std::string& file) {
  auto same = [&](const LogSubject& subject) { return subject.number && *subject.number == payload.number; };
  auto found = std::find_if(subjects.begin(), subjects.end(), same);
  if (found == subjects.end()) {
    subjects.push_back({payload.number, {}, {}, std::nullopt, file, {}});
    found = subjects.end() - 1;
  }
  const HalfSeen half{payload.half, payload.copy};
  if (std::find(found->halves.begin(), found->halves.end(), half) == found->halves.end())
    found->halves.push_back(half);
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
    add_sighting(subjects, *tag.payload, evidence, reading, file);
  }
  for (auto& subject : subjects) {
    if (!subject.number || subject.file != file) continue;
    if (!reading.damage.empty()) subject.notes.push_back(reading.damage);
    if (!strangers.empty())
      subject.notes.push_back("THE HALVES DISAGREE: " + file + " also shows the box half of " + strangers +
                              "; look, and run `counterfoil match " + file + "`");
    if (of_the_valve && bags.empty())
      subject.notes.push_back("only the box half was seen; the bag half is what goes with the valve");
  }
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
  LogSubject other;
  std::vector<std::pair<Evidence, std::optional<Moment>>> shared;
  for (const auto& file : order.photos) {
    auto reading = read_tags(file);
    if (!reading) {
      problems.push_back(reading.error());
      continue;
    }
    const bool ours = std::any_of(reading->tags.begin(), reading->tags.end(),
                                  [](const TagSeen& tag) { return tag.payload.has_value(); });
    if (!ours && !named_otherwise) {
      problems.push_back(
          refused("no tag was found on " + file,
                  "take it again from nearer and straight on, or type the number from the tag"));
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
    const auto reading = read_tags(file);  // for its time; evidence need not be a picture
    shared.emplace_back(*evidence, reading ? reading->words.taken : std::nullopt);
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
