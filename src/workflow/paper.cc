#include "workflow/paper.h"

#include <algorithm>

#include "base/text.h"
#include "sheet/places.h"
#include "workflow/print.h"

namespace counterfoil {
namespace {

// What was said, as an event has it.
Result<PaperUse> said(const PaperTerms& terms, const Stock& stock) {
  PaperUse out;
  auto name = check_text(terms.stack, "the stack's name");
  if (!name) return name.error();
  out.stack = *name;
  out.stock = stock.name;
  out.labels = stock.labels_per_page();
  if (!out.stack.empty() && out.labels == 1)
    return refused("stock " + stock.name + " has one label a page, so no part sheet of it is ever left",
                   "leave --stack out");
  if (terms.start_at != kNotSaid) out.first = terms.start_at;
  if (!terms.spoiled.empty()) {
    auto spoiled = parse_labels(terms.spoiled);
    if (!spoiled) return spoiled.error();
    out.spoiled = std::move(*spoiled);
  }
  const int highest = std::max(out.first.value_or(1), out.spoiled.empty() ? 1 : out.spoiled.back());
  if (out.first.value_or(1) < 1 || highest > out.labels)
    return malformed("stock " + stock.name + " has no label " +
                         std::to_string(highest > out.labels ? highest : *out.first),
                     out.labels == 1 ? "it has one label a page, so there is no part sheet of it"
                                     : "its labels are 1 to " + std::to_string(out.labels) +
                                           ", row by row from the top left");
  return out;
}

// Of the sheet on top.
PartSheet part_left(Stack stack, const PaperUse& stated) {
  take_from(stack, stated);
  PartSheet part;
  for (const int label : stack.gone) {
    if (label == part.start_at)
      ++part.start_at;
    else
      part.skipped.push_back(label);
  }
  return part;
}

}  // namespace

Result<Stacks> stacks_on_record(const Desk& desk) {
  auto events = desk.events_with({"step:printing", "step:reprinting", "step:stock_taking"});
  if (!events) return events.error();
  return stacks_of(*events, desk.ledger().own().name);
}

Result<std::optional<std::string>> stock_of_stack(const Desk& desk, const std::string& stack,
                                                  const std::string& asked) {
  if (stack.empty()) return std::optional<std::string>();
  auto stacks = stacks_on_record(desk);
  if (!stacks) return stacks.error();
  const auto known = stacks->find(trimmed(stack));
  if (known == stacks->end()) return std::optional<std::string>();
  if (!asked.empty() && asked != known->second.stock)
    return refused("stack " + known->first + " holds " + known->second.stock + ", not " + asked,
                   "if " + asked + " lies there now, say so first: counterfoil paper \"" + known->first +
                       "\" --stock " + asked + " --new-sheet");
  return std::optional(known->second.stock);
}

Result<PaperPlan> PaperPlan::make(const Desk& desk, const PaperTerms& terms, const Stock& stock) {
  auto words = said(terms, stock);
  if (!words) return words.error();
  PaperPlan plan;
  plan.said_ = std::move(*words);
  if (!plan.said_.stack.empty()) {
    auto stacks = stacks_on_record(desk);
    if (!stacks) return stacks.error();
    if (const auto known = stacks->find(plan.said_.stack); known != stacks->end())
      plan.before_ = known->second;
  }
  plan.before_.name = plan.said_.stack;
  plan.part_ = part_left(plan.before_, plan.said_);
  return plan;
}

Result<std::optional<PartSheet>> part_as_printed(const Desk& desk,
                                                 const std::function<bool(const Event&)>& is_meant) {
  auto events = desk.events_with({"step:printing", "step:reprinting", "step:stock_taking"});
  if (!events) return events.error();
  const std::string& own = desk.ledger().own().name;
  while (!events->empty()) {
    const LoggedEvent last = std::move(events->back());
    events->pop_back();
    const auto& paper = last.event.paper;
    if (last.ref.origin != own || !paper || paper->sheets == 0 || !is_meant(last.event)) continue;
    PaperUse stated = *paper;  // without what the printing took
    stated.sheets = 0;
    stated.used.clear();
    return std::optional(part_left(stacks_of(*events, own)[paper->stack], stated));
  }
  return std::optional<PartSheet>();
}

PaperUse PaperPlan::use(const SheetReport& sheet) const {
  PaperUse out = said_;
  out.sheets = sheet.pages;
  out.used = sheet.last_labels;
  return out;
}

Stack PaperPlan::after(const SheetReport& sheet) const {
  Stack after = before_;
  take_from(after, use(sheet));
  return after;
}

std::string PaperPlan::words(const SheetReport& sheet) const {
  if (!is_remembered() && part_.is_whole()) return {};
  const Stack left = after(sheet);
  std::string out = "starts at label " + std::to_string(sheet.first_label) + " of the ";
  out += is_remembered()
             ? (part_.is_whole() ? "whole sheet on top of stack " : "sheet on top of stack ") + before_.name
             : "part sheet";
  if (sheet.pages > 1)
    out += ", goes on for " + counted(static_cast<std::uint64_t>(sheet.pages - 1), "sheet");
  if (!left.is_begun()) return out + "; leaves no part sheet";
  return out + "; leaves " + counted(static_cast<std::uint64_t>(left.left()), "label") + " (" +
         label_words(left.labels_left()) + ")";
}

Result<std::optional<Stack>> correct_stack(Desk& desk, const StackOrder& order) {
  auto by = check_text(order.by, "the name");
  if (!by) return by.error();
  auto reason = check_text(order.reason, "the reason");
  if (!reason) return reason.error();
  if (order.new_sheet && order.paper.start_at != kNotSaid)
    return malformed("--new-sheet says that label 1 is the first, so it excludes --start-at");
  PaperTerms terms = order.paper;
  if (order.new_sheet) terms.start_at = 1;
  if (order.new_sheet && terms.spoiled.empty()) {
    auto stacks = stacks_on_record(desk);
    if (!stacks) return stacks.error();
    const auto known = stacks->find(trimmed(terms.stack));
    if (known != stacks->end() && !known->second.is_begun() &&
        (order.stock.empty() || order.stock == known->second.stock))
      return std::optional<Stack>();
  }
  Stack stack;
  auto logged = desk.append([&]() -> Result<std::vector<Event>> {
    auto stacks = stacks_on_record(desk);
    if (!stacks) return stacks.error();
    const auto known = stacks->find(trimmed(terms.stack));
    if (known != stacks->end()) stack = known->second;
    if (stack.stock.empty() && order.stock.empty())
      return malformed("no stack \"" + terms.stack + "\" is known",
                       "to begin one, say what lies there: --stock NAME");
    auto stock = stock_named(order.templates, order.stock.empty() ? stack.stock : order.stock);
    if (!stock) return stock.error();
    auto words = said(terms, *stock);
    if (!words) return words.error();
    stack.name = words->stack;
    take_from(stack, *words);
    Event event;
    event.step = Step::stock_taking;
    event.at = desk.now();
    event.by = *by;
    event.reason = *reason;
    event.paper = std::move(*words);
    return std::vector<Event>{event};
  });
  if (!logged) return logged.error();
  return std::optional(std::move(stack));
}

Result<std::optional<int>> next_pair(const Stack& stack, const std::string& templates) {
  auto stock = stock_named(templates, stack.stock);
  if (!stock) return stock.error();
  PaperUse as_it_is;
  as_it_is.stock = stack.stock;
  as_it_is.labels = stack.labels;
  auto places = places_of(*stock, part_left(stack, as_it_is), SheetSequence::across, {true});
  if (!places && places.error().kind != ErrorKind::refused) return places.error();
  if (!places) return std::optional<int>();
  return std::optional(places->front().label + 1);
}

}  // namespace counterfoil
