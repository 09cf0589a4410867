#include "workflow/print.h"

#include <algorithm>
#include <functional>
#include <map>
#include <set>

#include "base/nearest.h"
#include "base/text.h"
#include "workflow/issue.h"
#include "workflow/sheet_job.h"

namespace counterfoil {
namespace {

// A file that the printer did not take leaves those before it on paper, and the hint says so.
Result<Sending> send_all(const std::string& to, const SheetOrder& order, const SheetReport& sheet) {
  Sending sending{to, {}, true};
  for (const auto& file : sheet.files) {
    auto sent = send(to, {order.title, file, order.stock.page_width_mm, order.stock.page_height_mm});
    if (!sent) {
      Error error = sent.error();
      if (!sending.jobs.empty())
        error.hint = "the " + counted(sending.jobs.size(), "page") + " before it went out: destroy them";
      return error;
    }
    sending.jobs.push_back(sent->number);
    sending.unscaled = sending.unscaled && sent->unscaled;
  }
  return sending;
}

// Draws, and sends if asked to, on what the stack has left; inside a transaction when it takes paper from one.
Result<std::optional<PaperUse>> draw(const Desk& desk, const PrintTerms& terms, SheetJob& job,
                                     const std::vector<SheetItem>& items, Printed& printed) {
  auto plan = PaperPlan::make(desk, terms.paper, job.order.stock);
  if (!plan) return plan.error();
  job.order.part = plan->part();
  auto sheet = job.draw(items);
  if (!sheet) return sheet.error();
  printed.sheet = std::move(*sheet);
  printed.dots_per_inch = job.order.dots_per_inch;
  if (!terms.to.empty() && !terms.preview_only) {
    auto sent = send_all(terms.to, job.order, printed.sheet);
    if (!sent) return sent.error();
    printed.sent = std::move(*sent);
  }
  printed.paper = plan->words(printed.sheet);
  if (!plan->is_remembered()) return std::optional<PaperUse>();
  printed.stack = plan->after(printed.sheet);
  return std::optional(plan->use(printed.sheet));
}

// Logs what was drawn by `compose`; of what is only previewed, nothing.
Result<void> log_unless_previewed(Desk& desk, const PrintTerms& terms, Printed& printed,
                                  const std::function<Result<std::vector<Event>>()>& compose) {
  if (terms.preview_only) {
    auto events = compose();
    return events ? Result<void>() : events.error();
  }
  // Drawn inside the transaction: a desk that cannot log the printing leaves no sheet about.
  auto logged = desk.append(compose);
  if (!logged) return logged.error();
  printed.logged = true;
  return {};
}

// Each number once, in the order typed.
std::vector<Number> taken_once(const std::vector<Number>& numbers, std::vector<Number>& named_again) {
  std::vector<Number> once;
  std::map<Number, int> times;
  for (const auto& number : numbers) {
    const int before = times[number]++;
    if (before == 0) once.push_back(number);
    if (before == 1) named_again.push_back(number);
  }
  return once;
}

// `numbers`: each once.
Result<std::vector<ValveTrip>> printable_trips(const Desk& desk, const std::vector<Number>& numbers) {
  std::vector<ValveTrip> trips;
  for (const auto& number : numbers) {
    auto trip = issued_trip(desk, number);
    if (!trip) return trip.error();
    if (trip->voided) return refused("number " + number.grouped() + " is voided: " + trip->void_reason);
    trips.push_back(std::move(*trip));
  }
  return trips;
}

// A pair printed twice is two tags with one number and one copy, which nothing tells apart afterwards: a valve
// under each, and one history for both. A label names a valve that nobody follows, on its bag and on its box.
Result<void> check_copies(int copies, const ValveTrip& trip) {
  if (copies < 1 || copies > kMostCopies)
    return malformed("copies are from 1 to " + std::to_string(kMostCopies));
  if (copies == 1 || trip.label) return {};
  return refused(
      "number " + trip.number->grouped() + " is a pair, and two tags with one number could not be told apart",
      "a half that was lost or spoiled is made again with `counterfoil reprint`; only identification "
      "labels are printed in copies");
}

bool is_of_labels(const std::vector<SheetItem>& items) {
  return std::none_of(items.begin(), items.end(),
                      [](const SheetItem& item) { return std::holds_alternative<PairItem>(item); });
}

// The pairs of a turnaround in the order in which they were issued.
Result<std::vector<ValveTrip>> turnaround_trips(const Desk& desk, const std::string& turnaround) {
  auto events = desk.events_with({"turnaround:" + turnaround});
  if (!events) return events.error();
  const Record record = replay(*events);
  std::vector<ValveTrip> trips;
  for (const auto& logged : *events) {
    if (logged.event.step != Step::commissioning) continue;
    const ValveTrip* trip = record.find(*logged.event.number);
    if (trip != nullptr && !trip->voided && !trip->label) trips.push_back(*trip);
  }
  if (trips.empty()) {
    // Of a name that the record does not have, the names that it has.
    if (auto known = desk.record(); known && events->empty())
      if (auto name = known_turnaround(*known, turnaround); !name) {
        Error error = name.error();
        error.hint += "; to begin one: counterfoil issue --turnaround " + turnaround + " --count N";
        return error;
      }
    return refused("turnaround " + turnaround + " has no pairs to print",
                   "issue them first: counterfoil issue --turnaround " + turnaround + " --count N");
  }
  return trips;
}

// The pairs that were printed before, by their numbers or with their turnaround. Labels may be printed again.
Result<std::optional<PrintedBefore>> printed_before(const Desk& desk, const PrintOrder& order,
                                                    const std::vector<Number>& pairs) {
  std::vector<std::string> words;
  if (!order.turnaround.empty()) words.push_back("turnaround:" + order.turnaround);
  for (const auto& number : pairs) {
    if (!order.turnaround.empty()) break;
    words.push_back("number:" + number.text());
    auto trip = issued_trip(desk, number);
    if (trip && !trip->turnaround.empty()) words.push_back("turnaround:" + trip->turnaround);
  }
  if (words.empty()) return std::optional<PrintedBefore>();
  auto events = desk.events_with(words);
  if (!events) return events.error();
  const std::set<Number> wanted(pairs.begin(), pairs.end());
  std::map<std::string, std::vector<Number>> issued;  // by turnaround, so far
  std::set<Number> came_out;
  std::optional<PrintedBefore> before;
  for (const auto& logged : *events) {
    const Event& event = logged.event;
    if (event.step == Step::commissioning && event.number && wanted.contains(*event.number))
      issued[event.turnaround].push_back(*event.number);
    if (event.step != Step::printing && event.step != Step::reprinting) continue;
    const auto& these = event.number ? std::vector<Number>{*event.number} : issued[event.turnaround];
    for (const auto& number : these) {
      if (!wanted.contains(number)) continue;
      if (!before) before.emplace();
      before->last = event.at;
      came_out.insert(number);
    }
  }
  if (before)
    for (const auto& number : pairs)
      if (came_out.contains(number)) before->pairs.push_back(number);
  return before;
}

struct PlannedJob {
  SheetJob job;
  std::vector<SheetItem> items;
  std::vector<Number> numbers;      // of the items
  std::vector<Number> pairs;        // those of them that are no labels
  std::vector<Number> named_again;  // as in Printed
};

// "print TA26": a turnaround's name where numbers stand.
std::optional<Error> meant_as_turnaround(const Desk& desk, const std::vector<std::string>& typed) {
  const auto record = desk.record();
  for (const auto& word : typed)
    if (record && !Number::parse(word) && known_turnaround(*record, word))
      return malformed(word + " is a turnaround and no number", "say --turnaround " + word);
  return std::nullopt;
}

Result<PlannedJob> plan(const Desk& desk, const PrintOrder& order) {
  if (order.turnaround.empty() == order.numbers.empty())
    return malformed("print what?", order.numbers.empty()
                                        ? "give --turnaround NAME, or numbers"
                                        : "give either --turnaround NAME or numbers, not both");
  auto job = SheetJob::make(desk, order.terms, "Tag pairs " + order.turnaround);
  if (!job) return job.error();
  auto numbers = parse_numbers(desk, order.numbers);
  if (!numbers) return meant_as_turnaround(desk, order.numbers).value_or(numbers.error());
  PlannedJob planned{std::move(*job), {}, {}, {}, {}};
  auto trips = order.turnaround.empty() ? printable_trips(desk, taken_once(*numbers, planned.named_again))
                                        : turnaround_trips(desk, order.turnaround);
  if (!trips) return trips.error();
  for (const auto& trip : *trips) {
    if (auto done = check_copies(order.terms.copies, trip); !done) return done.error();
    auto item = planned.job.tags.of(trip);
    if (!item) return item.error();
    planned.items.insert(planned.items.end(), static_cast<std::size_t>(order.terms.copies), *item);
    planned.numbers.push_back(*trip.number);
    if (!trip.label) planned.pairs.push_back(*trip.number);
  }
  return planned;
}

}  // namespace

Result<PlannedSheet> plan_sheet(const Desk& desk, const PrintOrder& order) {
  auto planned = plan(desk, order);
  if (!planned) return planned.error();
  return PlannedSheet{std::move(planned->job.order), std::move(planned->items), std::move(planned->numbers)};
}

Result<std::optional<Error>> names_without_room(const Desk& desk, const std::vector<LoggedEvent>& issued,
                                                const std::string& templates, const std::string& stock) {
  PrintTerms terms;
  terms.templates = templates;
  terms.stock = stock;
  terms.path = "tags.pdf";
  auto job = SheetJob::make(desk, terms, {});
  if (!job) return job.error();
  const Record record = replay(issued);
  std::vector<SheetItem> items;
  for (const auto& logged : issued) {
    auto item = job->tags.of(*record.find(*logged.event.number));
    if (!item) return item.error();
    items.push_back(std::move(*item));
  }
  return job->text_trouble(items);
}

Result<Printed> print_pairs(Desk& desk, const PrintOrder& order) {
  auto by = check_text(order.by, "the name");
  if (!by) return by.error();
  auto planned = plan(desk, order);
  if (!planned) return planned.error();
  Printed printed;
  printed.numbers = planned->numbers;
  printed.named_again = planned->named_again;
  auto before = printed_before(desk, order, planned->pairs);
  if (!before) return before.error();
  printed.before = std::move(*before);
  auto done = log_unless_previewed(desk, order.terms, printed, [&]() -> Result<std::vector<Event>> {
    auto paper = draw(desk, order.terms, planned->job, planned->items, printed);
    if (!paper) return paper.error();
    Event event;
    event.step = Step::printing;
    event.at = desk.now();
    event.turnaround = order.turnaround;
    event.by = *by;
    event.note = counted(planned->items.size(), is_of_labels(planned->items) ? "label" : "pair") + " on " +
                 planned->job.order.stock.name + (printed.sent ? ", sent to " + printed.sent->to : "");
    std::vector<Event> events;
    if (!order.turnaround.empty())
      events.push_back(event);
    else
      for (const auto& number : planned->numbers) {
        events.push_back(event);
        events.back().number = number;
      }
    events.front().paper = std::move(*paper);
    return events;
  });
  if (!done) return done.error();
  return printed;
}

Result<Printed> reprint_halves(Desk& desk, const ReprintOrder& order) {
  auto reason = check_text(order.reason, "the reason");
  if (!reason) return reason.error();
  if (reason->empty())
    return malformed("a half is printed again for a reason", "give --reason, such as \"washed out\"");
  auto by = check_text(order.by, "the name");
  if (!by) return by.error();
  auto numbers = parse_numbers(desk, order.numbers);
  if (!numbers) return numbers.error();
  if (numbers->empty()) return malformed("print which number again?");
  auto job = SheetJob::make(desk, order.terms, "Tags printed again");
  if (!job) return job.error();
  const bool bag = order.half != Half::box;
  const bool box = order.half != Half::bag;
  Printed printed;
  const auto once = taken_once(*numbers, printed.named_again);
  auto done = log_unless_previewed(desk, order.terms, printed, [&]() -> Result<std::vector<Event>> {
    auto trips = printable_trips(desk, once);
    if (!trips) return trips.error();
    std::vector<SheetItem> items;
    std::vector<Event> events;
    for (auto& trip : *trips) {
      if (trip.label)
        return refused(
            "number " + trip.number->grouped() + " is an identification label, which has no halves",
            "make it again with `counterfoil print " + trip.number->text() + "`");
      Event event;
      event.step = Step::reprinting;
      event.at = desk.now();
      event.number = trip.number;
      event.turnaround = trip.turnaround;
      event.reason = *reason;
      event.by = *by;
      if (bag) event.halves.push_back({Half::bag, ++trip.bag_copy});
      if (box) event.halves.push_back({Half::box, ++trip.box_copy});
      for (const auto& half : event.halves)
        if (half.copy > kLastCopy)
          return refused(
              "number " + trip.number->grouped() + " has had " + std::to_string(kLastCopy) + " copies",
              "void it and issue a new pair");
      auto item = bag && box ? job->tags.of(trip) : job->tags.half_of(trip, *order.half);
      if (!item) return item.error();
      items.push_back(std::move(*item));
      printed.numbers.push_back(*trip.number);
      printed.copies.push_back({*trip.number, event.halves});
      events.push_back(std::move(event));
    }
    auto paper = draw(desk, order.terms, *job, items, printed);
    if (!paper) return paper.error();
    events.front().paper = std::move(*paper);
    return events;
  });
  if (!done) return done.error();
  return printed;
}

Result<void> check_label_terms(const Desk& desk, const PrintTerms& terms) {
  auto job = SheetJob::make(desk, terms, {});
  if (!job) return job.error();
  auto plan = PaperPlan::make(desk, terms.paper, job->order.stock);
  return plan ? Result<void>() : plan.error();
}

Result<Printed> print_label(Desk& desk, const Event& removal, const PrintTerms& terms) {
  auto job = SheetJob::make(desk, terms, "Identification label");
  if (!job) return job.error();
  auto item = job->tags.label_of(removal);
  if (!item) return item.error();
  Printed printed;
  printed.numbers.push_back(*removal.number);
  if (terms.paper.stack.empty()) {
    if (auto drawn = draw(desk, terms, *job, {*item}, printed); !drawn) return drawn.error();
    return printed;
  }
  auto logged = desk.append([&]() -> Result<std::vector<Event>> {
    auto paper = draw(desk, terms, *job, {*item}, printed);
    if (!paper) return paper.error();
    Event event;
    event.step = Step::printing;
    event.at = desk.now();
    event.number = removal.number;
    event.by = removal.by;
    event.paper = std::move(*paper);
    return std::vector<Event>{event};
  });
  if (!logged) return logged.error();
  return printed;
}

}  // namespace counterfoil
