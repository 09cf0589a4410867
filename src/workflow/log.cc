#include "workflow/log.h"

#include <algorithm>
#include <set>

#include "base/text.h"
#include "workflow/evidence.h"
#include "workflow/issue.h"
#include "workflow/known_names.h"
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
  std::vector<std::string> notes;
};

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

// Adds what the photograph shows of a number to its subject.
void add_sighting(std::vector<Subject>& subjects, const Payload& payload, const Evidence& evidence,
                  const TagReading& reading, const std::string& file) {
  auto same = [&](const Subject& subject) { return subject.number && *subject.number == payload.number; };
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
  if (!found->taken) found->taken = reading.taken;
}

// The bag half goes with the valve. Where a photograph shows bags, boxes of other numbers on it tell of no valve that
// was pulled or put in; they are told, and matching is where they are judged.
void add_sightings(std::vector<Subject>& subjects, const TagReading& reading, const Evidence& evidence,
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
    if (!strangers.empty())
      subject.notes.push_back("THE HALVES DISAGREE: " + file + " also shows the box half of " + strangers +
                              "; look, and run `counterfoil match " + file + "`");
    if (of_the_valve && bags.empty())
      subject.notes.push_back("only the box half was seen; the bag half is what goes with the valve");
  }
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
      subjects.push_back({std::move(number), {}, {}, std::nullopt, {}, {}});
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
    add_sightings(subjects, *reading, *evidence, file, order.step);
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

// Completes the pocket that was typed and spells it as the record does, or takes the tag's for a removal.
Result<void> settle_pocket(Event& event, const ValveTrip* trip, const KnownNames& known,
                           std::vector<std::string>& notes) {
  if (event.step != Step::removing && event.step != Step::installing) return {};
  const std::optional<Pocket> on_tag =
      trip == nullptr ? std::nullopt : (trip->meant_for ? trip->meant_for : trip->removed_from);
  if (!event.pocket || event.pocket->name.empty()) {
    const auto stated_side = event.pocket ? event.pocket->side : std::nullopt;
    if (event.pocket && !event.pocket->unit.empty())
      return malformed("the pocket is missing", "give --pocket, as the unit's map names it");
    // Where the record says that it sits; a tag only tells where it was first.
    const auto sits = trip != nullptr && trip->installed_in ? trip->installed_in : on_tag;
    if (event.step == Step::removing && sits) {
      event.pocket = sits;
      if (stated_side) event.pocket->side = stated_side;
      notes.push_back((sits == on_tag ? "pocket taken from the tag: " : "pocket taken from the record: ") +
                      sits->text());
      return {};
    }
    if (event.pocket && stated_side)
      return malformed("a side without a pocket says nothing", "give --pocket too");
    event.pocket.reset();
    notes.push_back(
        "NO POCKET WAS STATED, so the side was not checked; log it again with --unit and --pocket");
    return {};
  }
  Pocket& pocket = *event.pocket;
  if (pocket.unit.empty()) {
    // The tag's unit is meant when it has such a pocket; else a guess would put the valve somewhere else.
    if (!on_tag || !known.pocket(on_tag->unit, pocket.name)) {
      std::string units;
      for (const auto& unit : known.units_with(pocket.name)) units += (units.empty() ? "" : ", ") + unit;
      return malformed("the unit is missing",
                       units.empty() ? "give --unit: no unit on record has a pocket " + pocket.name
                                     : "give --unit; " + units + " has a pocket of that name");
    }
    pocket.unit = on_tag->unit;
    notes.push_back("unit taken from the tag: " + pocket.unit);
  }
  const auto meant = known.pocket(pocket.unit, pocket.name);
  if (meant && (meant->unit != pocket.unit || meant->name != pocket.name))
    notes.push_back("taken for " + meant->text() + ", as the record spells it");
  if (meant) {
    pocket.unit = meant->unit;
    pocket.name = meant->name;
    return {};
  }
  std::string names;
  for (const auto& name : known.pockets_of(pocket.unit)) names += (names.empty() ? "" : ", ") + name;
  notes.push_back("pocket " + pocket.text() + " is new to the record" +
                  (names.empty() ? "" : "; " + pocket.unit + " has " + names));
  return {};
}

Error stop(const std::string& disagreement) {
  return refused(
      "STOP: " + disagreement + "; nothing was logged",
      "look at the valve before you go on: a valve on the wrong side can wreck the machine and hurt people. "
      "If the entry is right all the same, a second person looks too; then log it with "
      "--second NAME --reason TEXT");
}

// Stops where suction and discharge disagree and no second person has looked; says so where it could not be checked.
Result<void> check_side(Event& event, const ValveTrip* trip, const Record& record,
                        std::vector<std::string>& notes) {
  if (!event.pocket) return {};
  const auto recorded = record.side_of(*event.pocket);
  const auto conflict = side_conflict(event, trip, recorded);
  if (conflict && (event.second.empty() || event.reason.empty())) return stop(*conflict);
  if (conflict) notes.push_back(*conflict + "; logged because " + event.second + " confirmed it");
  if (!event.pocket->side) event.pocket->side = recorded;
  if (event.step != Step::installing) return {};
  if (!event.pocket->side)
    notes.push_back("SIDE NOT CHECKED: the record does not know the side of " + event.pocket->text() +
                    "; look, and say it with --side");
  else if (trip == nullptr || !trip->side())
    notes.push_back(
        "SIDE NOT CHECKED: the record does not know whether this valve is suction or discharge; look");
  return {};
}

// What the tag itself tells against its use.
void note_tag(const Desk& desk, const Event& event, const ValveTrip* trip, std::vector<std::string>& notes) {
  if (event.number && (trip == nullptr || !trip->issued)) {
    if (event.number->prefix() == desk.card().prefix)
      notes.push_back("this desk never issued this number; it was logged, and stands in the findings");
    else if (desk.card().role == "storeroom")
      notes.push_back("another desk issued this number; it was logged, and stands in the findings");
  }
  if (trip == nullptr) return;
  if (trip->voided)
    notes.push_back("this number is voided (" + trip->void_reason +
                    "); it was logged, and stands in the findings");
  for (const auto& seen : event.halves) {
    const int newest = seen.half == Half::bag   ? trip->bag_copy
                       : seen.half == Half::box ? trip->box_copy
                                                : trip->label_copy;
    if (seen.copy < newest)
      notes.push_back("the " + std::string(to_text(seen.half)) + " half is copy " +
                      std::to_string(seen.copy) + "; copy " + std::to_string(newest) +
                      " was printed since: put that one on and destroy this one");
  }
}

// The same step of the same valve by the same photographs, or without any at the same stated time.
bool logged_before(const std::vector<LoggedEvent>& before, const Event& event, EventRef& where) {
  for (const auto& logged : before) {
    if (logged.event.step != event.step || logged.event.number != event.number ||
        (!event.number && logged.event.serial != event.serial))
      continue;
    // Logged again to say which pocket it was: that is something new.
    if (event.pocket && !event.pocket->name.empty() && !logged.event.pocket) continue;
    const auto& kept = logged.event.evidence;
    const bool all = std::all_of(event.evidence.begin(), event.evidence.end(), [&](const Evidence& evidence) {
      return std::any_of(kept.begin(), kept.end(),
                         [&](const Evidence& k) { return k.sha256 == evidence.sha256; });
    });
    const bool same = event.evidence.empty()
                          ? event.known == TimeSource::stated && logged.event.known == TimeSource::stated &&
                                logged.event.at == event.at
                          : all;
    if (!same) continue;
    where = logged.ref;
    return true;
  }
  return false;
}

void settle_time(Event& event, const CheckedOrder& order, const Subject& subject, const Moment& now,
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
    // The whole record: a pocket's or a serial's other spellings can be anywhere in it.
    auto record = desk.record();
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
      if (logged_before(*before, event, line.logged.ref)) {
        line.already = true;
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
