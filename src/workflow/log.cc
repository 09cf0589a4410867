#include "workflow/log.h"

#include <utility>

#include "base/text.h"
#include "workflow/issue.h"
#include "workflow/known_names.h"
#include "workflow/log_checks.h"
#include "workflow/log_subjects.h"

namespace counterfoil {
namespace {

// The order with its texts checked and parsed.
struct CheckedOrder {
  Event common;  // all that the valves' events share
  std::optional<Moment> stated;
  bool stated_date_only = false;
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
  if (!event.second.empty() && event.by.empty())
    return malformed("a second person goes with a first one", "give --by NAME too");
  if (!event.second.empty() && folded(event.second) == folded(event.by))
    return malformed("the second person must be another one than " + event.by);
  if (!order.time.empty()) {
    auto time = parse_moment(trimmed(order.time));
    if (!time) return time.error();
    out.stated = *time;
    out.stated_date_only = trimmed(order.time).size() == std::string_view("2026-11-25").size();
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

void settle_time(Event& event, const CheckedOrder& order, const LogSubject& subject, const Moment& now,
                 std::vector<std::string>& notes) {
  if (order.stated) {
    event.at = *order.stated;
    // Typed at this desk: its own zone is meant. A bare date stays one.
    if (!event.at.offset_minutes && !order.stated_date_only) event.at.offset_minutes = now.offset_minutes;
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

// What must be known: of a pocket or a serial the whole record, since its other spellings can be anywhere in it; else
// the numbers' own events.
Result<Record> record_for(const Desk& desk, const LogOrder& order, const std::vector<LogSubject>& subjects) {
  if (order.step == Step::removing || order.step == Step::installing || !order.serial.empty())
    return desk.record();
  std::vector<std::string> words;
  for (const auto& subject : subjects)
    if (subject.number) words.push_back("number:" + subject.number->text());
  auto events = desk.events_with(words);
  if (!events) return events.error();
  return replay(*events);
}

}  // namespace

Result<LogReport> log_step(Desk& desk, const LogOrder& order) {
  auto terms = checked(order);
  if (!terms) return terms.error();
  LogReport report;
  auto subjects = log_subjects(desk, order, report.problems);
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
    auto record = record_for(desk, order, *subjects);
    if (!record) return record.error();
    std::vector<Event> events;
    for (const auto& subject : *subjects) {
      LogLine line;
      Event event = terms->common;
      event.number = subject.number;
      event.halves = subject.halves;
      event.evidence = subject.evidence;
      const KnownNames known(*record);
      if (!event.serial.empty()) {
        const auto spelled = known.serial(event.serial);
        if (spelled && *spelled != event.serial)
          line.notes.push_back("taken for serial " + *spelled + ", as the record spells it");
        if (spelled) event.serial = *spelled;
        const auto number = Number::parse(event.serial);
        if (number && record->find(*number) != nullptr)
          return malformed(number->grouped() + " is the number of a tag, not a serial",
                           "give it without --serial");
      }
      std::vector<std::string> words;
      if (event.number) words.push_back("number:" + event.number->text());
      if (!event.serial.empty()) words.push_back("serial:" + event.serial);
      auto before = desk.events_with(words);
      if (!before) return before.error();
      settle_time(event, *terms, subject, desk.now(), line.notes);
      if (const auto where = logged_before(*before, event)) {
        line.already = true;
        line.logged.ref = *where;
        line.logged.event = event;
        report.lines.push_back(std::move(line));
        continue;
      }
      const ValveTrip* trip = event.number ? record->find(*event.number) : nullptr;
      if (trip == nullptr && !event.serial.empty()) {
        const auto trips = record->with_serial(event.serial);
        if (!trips.empty()) trip = trips.back();
      }
      line.notes.insert(line.notes.end(), subject.notes.begin(), subject.notes.end());
      if (const auto likeness = likeness_words(event.halves); !likeness.empty())
        line.notes.push_back(likeness +
                             " to the tags in use, not decoded: compare the number printed on the tag "
                             "with " +
                             event.number->grouped());
      note_tag(desk, event, trip, line.notes);
      if (trip != nullptr && event.turnaround.empty()) event.turnaround = trip->turnaround;
      if (auto settled = settle_pocket(event, trip, known, line.notes); !settled) return settled.error();
      if (auto checked_side = check_side(event, trip, *record, line.notes); !checked_side)
        return checked_side.error();
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
