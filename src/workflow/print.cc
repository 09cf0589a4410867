#include "workflow/print.h"

#include <algorithm>
#include <filesystem>
#include <functional>

#include "base/text.h"
#include "printer/profile.h"
#include "workflow/calibrate.h"
#include "workflow/issue.h"
#include "workflow/sheet_file.h"
#include "workflow/tag_items.h"

namespace counterfoil {
namespace {

constexpr const char* kSheetBySheet = "sheet-by-sheet";
constexpr const char* kCutAndStack = "cut-and-stack";

// What a printing needs besides its tags.
struct Job {
  SheetOrder order;
  TagItems tags;
};

// A refusal for want of room names the smallest stock that has it.
Error advised(Error error, const std::string& templates, const std::function<bool(const Stock&)>& does) {
  if (error.kind != ErrorKind::refused) return error;
  auto smallest = smallest_stock(templates, does);
  if (!smallest) return smallest.error();
  error.hint = smallest->empty() ? "no stock has room for it at this printer's dots: " + error.hint
                                 : "the smallest stock that would do: --stock " + *smallest;
  return error;
}

Result<void> use_printer(const std::string& path, SheetOrder& order) {
  auto printer = load_printer_profile(path);
  if (!printer) return printer.error();
  order.correction = printer->map().inverse();
  order.dead_columns = printer->dead_columns;
  if (const auto& edge = printer->unreached)
    order.reached =
        Box{edge->left_mm, edge->top_mm, order.stock.page_width_mm - edge->left_mm - edge->right_mm,
            order.stock.page_height_mm - edge->top_mm - edge->bottom_mm};
  return {};
}

Result<Job> job_of(const Desk& desk, const PrintTerms& terms, std::string title) {
  auto dots = dots_of(terms.dots_per_inch, terms.printer);
  if (!dots) return dots.error();
  auto format = format_of(terms.path);
  if (!format) return format.error();
  auto kept = stock_of_stack(desk, terms.paper.stack, terms.stock);
  if (!kept) return kept.error();
  auto stock = stock_named(terms.templates, kept->value_or(terms.stock));
  if (!stock) return stock.error();
  auto tags = TagItems::open(desk, terms, *stock);
  if (!tags) return tags.error();
  auto bag = tags->design("bag");
  auto box = tags->design("box");
  if (!bag || !box)
    return advised(bag ? box.error() : bag.error(), terms.templates, [&](const Stock& other) {
      auto there = TagItems::open(desk, terms, other);
      return there && there->design("bag") && there->design("box");
    });
  SheetOrder order{std::move(*stock), std::move(*bag), std::move(*box),  *dots,
                   *format,           terms.path,      std::move(title), to_text(desk.now())};
  if (!terms.printer.empty())
    if (auto done = use_printer(terms.printer, order); !done) return done.error();
  if (terms.order == kCutAndStack)
    order.sequence = SheetSequence::cut_and_stack;
  else if (!terms.order.empty() && terms.order != kSheetBySheet)
    return malformed("\"" + terms.order + "\" is not an order of tags",
                     "say " + std::string(kSheetBySheet) + " or " + kCutAndStack);
  order.preview = terms.preview;
  if (order.preview.empty()) return Job{std::move(order), std::move(*tags)};
  auto preview = format_of(order.preview);
  if (!preview || *preview != SheetFormat::png)
    return malformed("a preview is a picture, and cannot be \"" + order.preview + "\"",
                     "end its name in .png");
  if (order.preview == order.path)
    return malformed("the sheet and its preview cannot both be \"" + order.path + "\"",
                     "give --preview another name");
  return Job{std::move(order), std::move(*tags)};
}

Result<SheetReport> draw_or_advise(const Job& job, const std::vector<SheetItem>& items,
                                   const std::string& templates) {
  auto sheet = draw_sheet(job.order, items);
  if (sheet || sheet.error().kind != ErrorKind::refused || check_fit(job.order, items)) return sheet;
  return advised(sheet.error(), templates, [&](const Stock& stock) {
    SheetOrder order = job.order;
    auto others = items;
    return job.tags.refit(stock, order, others) && check_fit(order, others);
  });
}

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
Result<std::optional<PaperUse>> draw(const Desk& desk, const PrintTerms& terms, Job& job,
                                     const std::vector<SheetItem>& items, Printed& printed) {
  auto plan = PaperPlan::make(desk, terms.paper, job.order.stock);
  if (!plan) return plan.error();
  job.order.part = plan->part();
  auto sheet = draw_or_advise(job, items, terms.templates);
  if (!sheet) return sheet.error();
  printed.sheet = std::move(*sheet);
  if (!terms.to.empty()) {
    auto sent = send_all(terms.to, job.order, printed.sheet);
    if (!sent) return sent.error();
    printed.sent = std::move(*sent);
  }
  printed.paper = plan->words(printed.sheet);
  if (!plan->is_remembered()) return std::optional<PaperUse>();
  printed.stack = plan->after(printed.sheet);
  return std::optional(plan->use(printed.sheet));
}

Result<std::vector<ValveTrip>> printable_trips(const Desk& desk, const std::vector<Number>& numbers) {
  std::vector<ValveTrip> trips;
  for (const auto& number : numbers) {
    const auto same = [&](const ValveTrip& trip) { return trip.number == number; };
    if (std::any_of(trips.begin(), trips.end(), same)) continue;  // named twice, printed once
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
  if (trips.empty())
    return refused("turnaround " + turnaround + " has no pairs to print",
                   "issue them first: counterfoil issue --turnaround " + turnaround + " --count N");
  return trips;
}

// When any of the pairs was last printed, by its number or with its turnaround. Labels may be printed again.
Result<std::optional<Moment>> printed_before(const Desk& desk, const PrintOrder& order,
                                             const std::vector<Number>& pairs) {
  std::vector<std::string> words;
  if (!order.turnaround.empty()) words.push_back("turnaround:" + order.turnaround);
  if (order.turnaround.empty())
    for (const auto& number : pairs) {
      words.push_back("number:" + number.text());
      auto trip = issued_trip(desk, number);
      if (trip && !trip->turnaround.empty()) words.push_back("turnaround:" + trip->turnaround);
    }
  if (words.empty()) return std::optional<Moment>();
  auto events = desk.events_with(words);
  if (!events) return events.error();
  std::optional<Moment> before;
  for (const auto& logged : *events) {
    const Event& event = logged.event;
    const bool prints = event.step == Step::printing || event.step == Step::reprinting;
    const bool of_these =
        !event.number || std::find(pairs.begin(), pairs.end(), *event.number) != pairs.end();
    if (prints && of_these) before = event.at;
  }
  return before;
}

struct PlannedJob {
  Job job;
  std::vector<SheetItem> items;
  std::vector<Number> numbers;  // of the items
  std::vector<Number> pairs;    // those of them that are no labels
};

Result<PlannedJob> plan(const Desk& desk, const PrintOrder& order) {
  if (order.turnaround.empty() == order.numbers.empty())
    return malformed("print what?", order.numbers.empty()
                                        ? "give --turnaround NAME, or numbers"
                                        : "give either --turnaround NAME or numbers, not both");
  auto job = job_of(desk, order.terms, "Tag pairs " + order.turnaround);
  if (!job) return job.error();
  auto numbers = parse_numbers(desk, order.numbers);
  if (!numbers) return numbers.error();
  auto trips =
      order.turnaround.empty() ? printable_trips(desk, *numbers) : turnaround_trips(desk, order.turnaround);
  if (!trips) return trips.error();
  PlannedJob planned{std::move(*job), {}, {}, {}};
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

Result<Printed> print_pairs(Desk& desk, const PrintOrder& order) {
  auto by = check_text(order.by, "the name");
  if (!by) return by.error();
  auto planned = plan(desk, order);
  if (!planned) return planned.error();
  Printed printed;
  printed.numbers = planned->numbers;
  auto before = printed_before(desk, order, planned->pairs);
  if (!before) return before.error();
  printed.before = *before;
  // Drawn inside the transaction: a desk that cannot log the printing leaves no sheet about.
  auto logged = desk.append([&]() -> Result<std::vector<Event>> {
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
  if (!logged) return logged.error();
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
  auto job = job_of(desk, order.terms, "Tags printed again");
  if (!job) return job.error();
  const bool bag = order.half != Half::box;
  const bool box = order.half != Half::bag;
  Printed printed;
  auto logged = desk.append([&]() -> Result<std::vector<Event>> {
    auto trips = printable_trips(desk, *numbers);
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
      events.push_back(std::move(event));
    }
    auto paper = draw(desk, order.terms, *job, items, printed);
    if (!paper) return paper.error();
    events.front().paper = std::move(*paper);
    return events;
  });
  if (!logged) return logged.error();
  return printed;
}

Result<Printed> print_label(Desk& desk, const Event& removal, const PrintTerms& terms) {
  auto job = job_of(desk, terms, "Identification label");
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
