#include "workflow/log.h"

#include <algorithm>
#include <map>

#include "base/text.h"
#include "workflow/evidence.h"
#include "workflow/issue.h"
#include "workflow/read.h"

namespace counterfoil {
namespace {

// One valve to log, and what showed it.
struct Subject {
  std::optional<Number> number;
  std::vector<HalfSeen> halves;
  std::vector<Evidence> evidence;
  std::optional<Moment> taken;
  std::string file;  // the photograph that showed it first
};

// The order with its texts checked and parsed.
struct CheckedOrder {
  Event common;  // all that the valves' events share
  std::optional<Moment> stated;
};

Result<CheckedOrder> checked(const LogOrder& order) {
  CheckedOrder out;
  Event& event = out.common;
  event.step = order.step;
  const std::pair<const std::string*, std::pair<std::string*, const char*>> texts[] = {
      {&order.serial, {&event.serial, "the serial"}},
      {&order.turnaround, {&event.turnaround, "the turnaround"}},
      {&order.part, {&event.part, "the part number"}},
      {&order.by, {&event.by, "the name"}},
      {&order.second, {&event.second, "the second person's name"}},
      {&order.reason, {&event.reason, "the reason"}},
      {&order.from, {&event.from, "the sender"}},
      {&order.to, {&event.to, "the place or receiver"}},
      {&order.carton, {&event.carton, "the carton"}},
      {&order.condition, {&event.condition, "the condition"}},
      {&order.outcome, {&event.outcome, "the outcome"}},
      {&order.note, {&event.note, "the note"}},
  };
  for (const auto& [typed, target] : texts) {
    auto text = check_text(*typed, target.second);
    if (!text) return text.error();
    *target.first = *text;
  }
  if (!event.second.empty() && event.second == event.by)
    return malformed("the second person must be another one than " + event.by);
  if (!order.time.empty()) {
    auto time = parse_moment(trimmed(order.time));
    if (!time) return time.error();
    out.stated = *time;
  }
  if (!order.due.empty()) {
    auto due = parse_moment(trimmed(order.due));
    if (!due) return due.error();
    event.due = date_text(*due);
  }
  if (!order.pocket.empty() || !order.unit.empty() || !order.side.empty()) {
    auto unit = check_text(order.unit, "the unit");
    if (!unit) return unit.error();
    auto name = check_text(order.pocket, "the pocket");
    if (!name) return name.error();
    event.pocket = Pocket{*unit, *name, std::nullopt};
    if (!order.side.empty()) {
      auto side = parse_side(order.side);
      if (!side) return side.error();
      event.pocket->side = *side;
    }
  }
  if (event.pocket && order.step != Step::removing && order.step != Step::installing)
    return malformed("a pocket goes with removing and installing only",
                     "for " + std::string(to_text(order.step)) + " say where with --to");
  if (order.label && order.step != Step::removing)
    return malformed("--label goes with removing: it is for a valve that will not be tracked");
  if (order.label && (!order.numbers.empty() || !order.serial.empty()))
    return malformed("--label takes a number of its own, so it goes with neither a number nor --serial");
  return out;
}

// Adds what the photograph shows of a number to its subject.
void add_sighting(std::vector<Subject>& subjects, const Payload& payload, const Evidence& evidence,
                  const TagReading& reading, const std::string& file) {
  auto same = [&](const Subject& subject) { return subject.number && *subject.number == payload.number; };
  auto found = std::find_if(subjects.begin(), subjects.end(), same);
  if (found == subjects.end()) {
    subjects.push_back({payload.number, {}, {}, std::nullopt, file});
    found = subjects.end() - 1;
  }
  const HalfSeen half{payload.half, payload.copy};
  if (std::find(found->halves.begin(), found->halves.end(), half) == found->halves.end())
    found->halves.push_back(half);
  if (std::find(found->evidence.begin(), found->evidence.end(), evidence) == found->evidence.end())
    found->evidence.push_back(evidence);
  if (!found->taken) found->taken = reading.taken;
}

// Reads the photographs; those that give no number become problems. With a serial or a label, photographs
// without a tag are evidence of that valve.
Result<std::vector<Subject>> subjects_of(const Desk& desk, const LogOrder& order,
                                         std::vector<Error>& problems) {
  std::vector<Subject> subjects;
  auto numbers = parse_numbers(desk, order.numbers);
  if (!numbers) return numbers.error();
  for (auto& number : *numbers) {
    const auto same = [&](const Subject& subject) { return subject.number == number; };
    if (std::none_of(subjects.begin(), subjects.end(), same))
      subjects.push_back({std::move(number), {}, {}, std::nullopt, {}});
  }
  const bool named_otherwise = !order.serial.empty() || order.label;
  Subject other;
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
    if (!ours) shared.emplace_back(*evidence, reading->taken);
    for (const auto& tag : reading->tags)
      if (tag.payload) add_sighting(subjects, *tag.payload, *evidence, *reading, file);
  }
  for (const auto& file : order.evidence) {
    auto evidence = take_evidence(desk, file, order.copy_photos);
    if (!evidence) return evidence.error();
    const auto reading = read_tags(file);  // for its time; evidence need not be a picture
    shared.emplace_back(*evidence, reading ? reading->taken : std::nullopt);
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

// Completes the pocket that was typed, or takes the tag's for a removal.
Result<void> settle_pocket(Event& event, const ValveTrip* trip, std::vector<std::string>& notes) {
  if (event.step != Step::removing && event.step != Step::installing) return {};
  const std::optional<Pocket> on_tag =
      trip == nullptr ? std::nullopt : (trip->meant_for ? trip->meant_for : trip->removed_from);
  if (!event.pocket || event.pocket->name.empty()) {
    const auto stated_side = event.pocket ? event.pocket->side : std::nullopt;
    if (event.pocket && !event.pocket->unit.empty() && event.step == Step::installing)
      return malformed("the pocket is missing", "give --pocket, as the unit's map names it");
    if (event.step == Step::removing && on_tag) {
      event.pocket = on_tag;
      if (stated_side) event.pocket->side = stated_side;
      notes.push_back("pocket taken from the tag: " + on_tag->text());
      return {};
    }
    if (event.pocket && stated_side)
      return malformed("a side without a pocket says nothing", "give --pocket too");
    event.pocket.reset();
    notes.push_back(
        "no pocket was stated; say it with --unit and --pocket, so that the pocket's record closes");
    return {};
  }
  if (event.pocket->unit.empty()) {
    if (!on_tag)
      return malformed("the unit is missing",
                       "give --unit: pocket " + event.pocket->name + " may be on several");
    event.pocket->unit = on_tag->unit;
  }
  return {};
}

Error stop(const std::string& disagreement) {
  return refused(
      "STOP: " + disagreement + "; nothing was logged",
      "look at the valve before you go on: a valve on the wrong side can wreck the machine and hurt people. "
      "If the entry is right all the same, a second person looks too; then log it with "
      "--second NAME --reason TEXT");
}

bool same_photo_logged(const std::vector<LoggedEvent>& before, const Event& event, EventRef& where) {
  if (event.evidence.empty()) return false;
  for (const auto& logged : before) {
    if (logged.event.step != event.step || logged.event.number != event.number ||
        (!event.number && logged.event.serial != event.serial))
      continue;
    const auto& kept = logged.event.evidence;
    const bool all = std::all_of(event.evidence.begin(), event.evidence.end(), [&](const Evidence& evidence) {
      return std::any_of(kept.begin(), kept.end(),
                         [&](const Evidence& k) { return k.sha256 == evidence.sha256; });
    });
    if (all) {
      where = logged.ref;
      return true;
    }
  }
  return false;
}

void settle_time(Event& event, const CheckedOrder& order, const Subject& subject, const Moment& now,
                 std::vector<std::string>& notes) {
  if (order.stated) {
    event.at = *order.stated;
    event.known = TimeSource::stated;
  } else if (subject.taken) {
    event.at = *subject.taken;
    event.known = TimeSource::photo;
  } else {
    event.at = now;
    event.known = TimeSource::logged;
    if (!subject.evidence.empty())
      notes.push_back(
          "the photograph does not tell its time; the time of logging was taken, state it with --time");
  }
}

}  // namespace

Result<LogReport> log_step(Desk& desk, const LogOrder& order) {
  auto terms = checked(order);
  if (!terms) return terms.error();
  LogReport report;
  auto subjects = subjects_of(desk, order, report.problems);
  if (!subjects) return subjects.error();
  if (subjects->empty()) {
    if (!report.problems.empty()) return report;
    return malformed("nothing to log: no number, photograph or serial was given",
                     "type a number, name photographs, or give --serial or --label");
  }
  if (subjects->size() > 1 && !terms->common.serial.empty())
    return malformed("one serial cannot belong to " + counted(subjects->size(), "number"),
                     "log them one by one");
  if (subjects->size() > 1 && terms->common.pocket && !terms->common.pocket->name.empty())
    return malformed("one pocket cannot take " + counted(subjects->size(), "valve"), "log them one by one");

  auto first = desk.append([&]() -> Result<std::vector<Event>> {
    report.lines.clear();
    std::vector<Event> events;
    for (const auto& subject : *subjects) {
      LogLine line;
      Event event = terms->common;
      event.number = subject.number;
      event.halves = subject.halves;
      event.evidence = subject.evidence;
      std::vector<std::string> words;
      if (event.number) words.push_back("number:" + event.number->text());
      if (!event.serial.empty()) words.push_back("serial:" + event.serial);
      auto before = desk.events_with(words);
      if (!before) return before.error();
      if (same_photo_logged(*before, event, line.logged.ref)) {
        line.already = true;
        line.logged.event = event;
        report.lines.push_back(std::move(line));
        continue;
      }
      Record record = replay(*before);
      const ValveTrip* trip = event.number ? record.find(*event.number) : nullptr;
      if (trip == nullptr && !event.serial.empty()) {
        const auto trips = record.with_serial(event.serial);
        if (!trips.empty()) trip = trips.back();
      }
      if (event.number && (trip == nullptr || !trip->issued))
        line.notes.push_back(
            "this number was not issued by this desk; it was logged, and stands in the findings");
      if (trip != nullptr && trip->voided)
        line.notes.push_back("this number is voided (" + trip->void_reason +
                             "); it was logged, and stands in the findings");
      if (trip != nullptr && event.turnaround.empty()) event.turnaround = trip->turnaround;
      if (auto settled = settle_pocket(event, trip, line.notes); !settled) return settled.error();
      if (event.pocket) {
        auto there = desk.events_with({"pocket:" + event.pocket->text()});
        if (!there) return there.error();
        const auto recorded = replay(*there).side_of(*event.pocket);
        const auto conflict = side_conflict(event, trip, recorded);
        if (conflict && (event.second.empty() || event.reason.empty())) return stop(*conflict);
        if (conflict) line.notes.push_back(*conflict + "; logged because " + event.second + " confirmed it");
        if (!event.pocket->side) event.pocket->side = recorded;
      }
      settle_time(event, *terms, subject, desk.now(), line.notes);
      if (order.label) {
        auto fresh = take_numbers(desk, 1);
        if (!fresh) return fresh.error();
        Event issued;
        issued.step = Step::commissioning;
        issued.at = desk.now();
        issued.number = event.number = fresh->front().number;
        issued.counter = fresh->front().counter;
        issued.halves = event.halves = {{Half::label, 1}};
        issued.turnaround = event.turnaround;
        issued.by = event.by;
        events.push_back(std::move(issued));
      }
      line.logged.ref.position = events.size();  // within this transaction; made whole below
      line.logged.event = event;
      events.push_back(std::move(event));
      report.lines.push_back(std::move(line));
    }
    return events;
  });
  if (!first) return first.error();
  for (auto& line : report.lines) {
    if (line.already) continue;
    line.logged.ref = {desk.ledger().own().name, *first + line.logged.ref.position};
  }
  return report;
}

}  // namespace counterfoil
