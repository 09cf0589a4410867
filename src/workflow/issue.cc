#include "workflow/issue.h"

#include <map>
#include <set>

#include "base/csv.h"
#include "base/nearest.h"
#include "base/text.h"
#include "workflow/candidates.h"
#include "workflow/known_names.h"

namespace counterfoil {
namespace {

std::string on_line(std::size_t line) { return "line " + std::to_string(line) + ": "; }

// The pocket as the record spells it; stops where its side is turned round.
Result<Pocket> checked_pocket(const Record& record, const Pocket& typed, bool confirmed) {
  Pocket pocket = typed;
  if (const auto known = KnownNames(record).pocket(typed.unit, typed.name)) {
    pocket.unit = known->unit;
    pocket.name = known->name;
  }
  const auto recorded = record.side_of(pocket);
  if (!pocket.side) pocket.side = recorded;
  if (recorded && *pocket.side != *recorded && !confirmed)
    return refused(
        "STOP: " + pocket.text() + " is a " + std::string(to_text(*recorded)) +
            " pocket on record, and the list says " + std::string(to_text(*pocket.side)) +
            "; nothing was issued",
        "look at the unit's map and at the pocket. If the list is right, a second person looks too; then "
        "issue with --by NAME --second NAME --reason TEXT");
  return pocket;
}

// The pockets that have a pair in this turnaround which is not voided.
Result<std::map<std::string, Number>> taken_pockets(const Desk& desk, const std::string& turnaround) {
  std::map<std::string, Number> taken;
  // Reads the whole batch so far: a turnaround has hundreds of pairs, and is issued in few goes.
  auto issued = desk.events_with({"turnaround:" + turnaround});
  if (!issued) return issued.error();
  const Record record = replay(*issued);
  for (const auto& [key, trip] : record.trips())
    if (trip.number && trip.meant_for && !trip.voided && trip.turnaround == turnaround)
      taken.emplace(trip.meant_for->text(), *trip.number);
  return taken;
}

}  // namespace

Result<std::vector<PlannedPair>> parse_pocket_list(std::string_view csv) {
  auto table = parse_csv(csv);
  if (!table) return table.error();
  const auto unit = table->column("unit");
  const auto pocket = table->column("pocket");
  const auto side = table->column("side");
  const auto part = table->column("part");
  for (const auto& name : table->header)
    if (name != "unit" && name != "pocket" && name != "side" && name != "part")
      return malformed("line 1 has a column \"" + name + "\" that is not known",
                       "the columns are unit, pocket, side and part");
  if (unit == CsvTable::npos || pocket == CsvTable::npos)
    return malformed("line 1 must name the columns unit and pocket",
                     "a first line could be: unit,pocket,side,part");
  if (table->rows.empty()) return malformed("the list has no pockets");
  std::vector<PlannedPair> pairs;
  std::map<std::string, std::size_t> seen;
  for (std::size_t i = 0; i < table->rows.size(); ++i) {
    auto row = table->rows[i];
    const std::size_t line = table->lines[i];
    for (auto& field : row) {
      auto text = check_text(field, "a field");
      if (!text) return malformed(on_line(line) + text.error().message, text.error().hint);
      field = *text;
    }
    PlannedPair pair;
    pair.pocket = Pocket{row[unit], row[pocket], std::nullopt};
    if (row[unit].empty() || row[pocket].empty()) return malformed(on_line(line) + "unit or pocket is empty");
    if (side != CsvTable::npos && !row[side].empty()) {
      auto parsed = parse_side(row[side]);
      if (!parsed) return malformed(on_line(line) + parsed.error().message, parsed.error().hint);
      pair.pocket->side = *parsed;
    }
    if (part != CsvTable::npos) pair.part = row[part];
    const auto [before, fresh] =
        seen.emplace(folded(pair.pocket->unit) + "/" + folded(pair.pocket->name), line);
    if (!fresh)
      return malformed(on_line(line) + "pocket " + pair.pocket->text() + " is on line " +
                       std::to_string(before->second) + " already");
    pairs.push_back(std::move(pair));
  }
  return pairs;
}

Result<std::vector<FreshNumber>> take_numbers(const Desk& desk, std::size_t count) {
  auto last = desk.ledger().last_with_word("issued");
  if (!last) return last.error();
  std::uint32_t counter = 0;
  if (*last) {
    auto event = parse_event((*last)->body);
    if (!event || !event->counter)
      return unreadable("the last number issued cannot be read from the ledger", "run `counterfoil verify`");
    counter = *event->counter;
  }
  std::vector<FreshNumber> fresh;
  while (fresh.size() < count) {
    if (++counter >= kCounterEnd) return refused("prefix " + desk.card().prefix + " has no numbers left");
    if (auto number = number_at(desk.card().prefix, counter)) fresh.push_back({std::move(*number), counter});
  }
  return fresh;
}

Result<std::vector<LoggedEvent>> issue_pairs(Desk& desk, const IssueOrder& order) {
  auto turnaround = check_text(order.turnaround, "the turnaround");
  if (!turnaround) return turnaround.error();
  if (turnaround->empty())
    return malformed("a batch needs the name of its turnaround", "give --turnaround NAME");
  auto by = check_text(order.by, "the name");
  if (!by) return by.error();
  if (order.pairs.empty()) return malformed("no pairs are asked for", "give --count N or --pockets FILE.csv");
  if (order.pairs.size() > kLargestBatch)
    return refused(std::to_string(order.pairs.size()) + " pairs are more than one batch takes (" +
                   std::to_string(kLargestBatch) + ")");
  auto second = check_text(order.second, "the second person's name");
  if (!second) return second.error();
  auto reason = check_text(order.reason, "the reason");
  if (!reason) return reason.error();
  const bool confirmed =
      !second->empty() && !reason->empty() && !by->empty() && folded(*second) != folded(*by);
  std::vector<LoggedEvent> issued;
  auto first = desk.append([&]() -> Result<std::vector<Event>> {
    auto taken = taken_pockets(desk, *turnaround);
    if (!taken) return taken.error();
    auto fresh = take_numbers(desk, order.pairs.size());
    if (!fresh) return fresh.error();
    auto record = desk.record();
    if (!record) return record.error();
    // "ta26" beside "TA26" would split the outage in two.
    for (const auto& [key, trip] : record->trips())
      if (trip.turnaround != *turnaround && folded(trip.turnaround) == folded(*turnaround))
        return refused("there is a turnaround " + trip.turnaround + " already, spelled a little otherwise",
                       "give --turnaround \"" + trip.turnaround + "\", or a name that differs more");
    std::vector<Event> events;
    events.reserve(order.pairs.size());
    for (std::size_t i = 0; i < order.pairs.size(); ++i) {
      PlannedPair pair = order.pairs[i];
      if (pair.pocket) {
        auto pocket = checked_pocket(*record, *pair.pocket, confirmed);
        if (!pocket) return pocket.error();
        pair.pocket = *pocket;
        const auto before = taken->find(pair.pocket->text());
        if (before != taken->end())
          return refused("pocket " + pair.pocket->text() + " has pair " + before->second.grouped() + " in " +
                             *turnaround + " already; nothing was issued",
                         "print that pair again, or void it first and issue anew");
      }
      Event event;
      event.step = Step::commissioning;
      event.at = desk.now();
      event.number = (*fresh)[i].number;
      event.counter = (*fresh)[i].counter;
      event.halves = {{Half::bag, 1}, {Half::box, 1}};
      event.turnaround = *turnaround;
      event.pocket = pair.pocket;
      event.part = pair.part;
      event.by = *by;
      event.second = *second;
      event.reason = *reason;
      issued.push_back({{}, event});
      events.push_back(std::move(event));
    }
    return events;
  });
  if (!first) return first.error();
  for (std::size_t i = 0; i < issued.size(); ++i) issued[i].ref = {desk.ledger().own().name, *first + i};
  return issued;
}

Result<std::string> known_turnaround(const Record& record, const std::string& typed) {
  auto name = check_text(typed, "the turnaround");
  if (!name || name->empty()) return name;
  std::set<std::string> names;
  for (const auto& [key, trip] : record.trips())
    if (!trip.turnaround.empty()) names.insert(trip.turnaround);
  if (names.contains(*name)) return name;
  const std::vector<std::string> known(names.begin(), names.end());
  return refused(
      "there is no turnaround \"" + *name + "\" in the record",
      known.empty() ? "none was issued for yet" : did_you_mean(*name, known) + "on record: " + listed(known));
}

Result<Number> parse_number(const Record& record, const std::string& typed) {
  auto number = Number::parse(typed);
  if (number) return number;
  Error error = number.error();
  const auto near = candidates(record, typed);
  const bool whole = !SmudgedNumber(typed).has_gaps();
  if (whole && near.size() == 1 && near.front().retired.empty())
    error.hint =
        "the only number on record that is near is " + near.front().trip->name() + ": read the tag again";
  else if (!near.empty())
    error.hint = candidate_list(near, whole);
  return error;
}

Result<Number> parse_number(const Desk& desk, const std::string& typed) {
  auto number = Number::parse(typed);
  if (number) return number;
  // The whole record: only a slip costs it.
  const auto record = desk.record();
  return record ? parse_number(*record, typed) : number;
}

Result<std::vector<Number>> parse_numbers(const Desk& desk, const std::vector<std::string>& typed) {
  std::vector<Number> numbers;
  for (const auto& text : typed) {
    auto number = parse_number(desk, text);
    if (!number) return number.error();
    numbers.push_back(std::move(*number));
  }
  return numbers;
}

Result<ValveTrip> issued_trip(const Desk& desk, const Number& number) {
  auto events = desk.events_with({"number:" + number.text()});
  if (!events) return events.error();
  const Record record = replay(*events);
  const ValveTrip* trip = record.find(number);
  if (trip != nullptr && trip->issued) return *trip;
  return refused("number " + number.grouped() + " was never issued by this desk",
                 "its check characters hold, so it may be another desk's; look at the tag again");
}

Result<std::vector<Number>> void_numbers(Desk& desk, const VoidOrder& order) {
  auto reason = check_text(order.reason, "the reason");
  if (!reason) return reason.error();
  if (reason->empty())
    return malformed("a number is voided for a reason", "give --reason, such as --reason \"tag torn\"");
  auto by = check_text(order.by, "the name");
  if (!by) return by.error();
  auto numbers = parse_numbers(desk, order.numbers);
  if (!numbers) return numbers.error();
  auto done = desk.append([&]() -> Result<std::vector<Event>> {
    std::vector<Event> events;
    std::set<Number> once;
    for (const auto& number : *numbers) {
      if (!once.insert(number).second) continue;
      auto trip = issued_trip(desk, number);
      if (!trip) return trip.error();
      if (trip->voided)
        return refused("number " + number.grouped() + " is voided already: " + trip->void_reason);
      Event event;
      event.step = Step::voiding;
      event.at = desk.now();
      event.number = number;
      event.reason = *reason;
      event.by = *by;
      event.turnaround = trip->turnaround;
      events.push_back(std::move(event));
    }
    return events;
  });
  if (!done) return done.error();
  return numbers;
}

}  // namespace counterfoil
