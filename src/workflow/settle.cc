#include "workflow/settle.h"

#include <algorithm>

#include "base/text.h"
#include "workflow/issue.h"

namespace counterfoil {
namespace {

Result<Event> settling_event(const Desk& desk, const SettleOrder& order) {
  Event event;
  event.step = Step::settling;
  const std::pair<const std::string*, std::pair<std::string*, const char*>> texts[] = {
      {&order.serial, {&event.serial, "the serial"}},
      {&order.reason, {&event.reason, "the reason"}},
      {&order.by, {&event.by, "the name"}},
  };
  for (const auto& [typed, target] : texts) {
    auto text = check_text(*typed, target.second);
    if (!text) return text.error();
    *target.first = *text;
  }
  if (event.reason.empty()) return malformed("findings are closed for a reason", "give --reason TEXT");
  if (event.by.empty()) return malformed("who closes them?", "give --by NAME");
  if (!order.number.empty()) {
    auto number = parse_number(desk, order.number);
    if (!number) return number.error();
    event.number = *number;
  }
  if (order.unit.empty() != order.pocket.empty())
    return malformed("a pocket is named by --unit and --pocket together");
  if (!order.pocket.empty()) {
    auto unit = check_text(order.unit, "the unit");
    if (!unit) return unit.error();
    auto pocket = check_text(order.pocket, "the pocket");
    if (!pocket) return pocket.error();
    event.pocket = Pocket{*unit, *pocket, std::nullopt};
  }
  const int named = (event.number ? 1 : 0) + (event.serial.empty() ? 0 : 1) + (event.pocket ? 1 : 0);
  if (named != 1)
    return malformed("name one thing whose findings are closed",
                     "a number, --serial, or --unit and --pocket");
  return event;
}

}  // namespace

Result<std::vector<Finding>> settle_findings(Desk& desk, const SettleOrder& order, int transit_days) {
  auto event = settling_event(desk, order);
  if (!event) return event.error();
  std::vector<Finding> closed;
  auto done = desk.append([&]() -> Result<std::vector<Event>> {
    auto record = desk.record();
    if (!record) return record.error();
    const auto before = record->findings(desk.now(), transit_days);
    event->at = event->logged = desk.now();
    if (event->number)
      if (const ValveTrip* trip = record->find(*event->number)) event->turnaround = trip->turnaround;
    // Tried on the replayed record, which tells what it would close.
    auto size = desk.ledger().size();
    if (!size) return size.error();
    record->apply({desk.ledger().own().name, *size}, *event);
    const auto after = record->findings(desk.now(), transit_days);
    closed.clear();
    std::copy_if(before.begin(), before.end(), std::back_inserter(closed), [&](const Finding& finding) {
      return std::none_of(after.begin(), after.end(), [&](const Finding& left) {
        return left.kind == finding.kind && left.subject == finding.subject && left.events == finding.events;
      });
    });
    if (closed.empty())
      return refused("there is no finding of that to close", "`counterfoil findings` lists them");
    for (const auto& finding : closed) {
      if (finding.kind != FindingKind::side_disagreement) continue;
      for (const auto& ref : finding.events)
        if (const LoggedEvent* logged = record->event(ref);
            logged != nullptr && folded(logged->event.by) == folded(event->by))
          return refused("a side disagreement is settled by somebody else than " + event->by +
                         ", who logged it");
    }
    return std::vector<Event>{*event};
  });
  if (!done) return done.error();
  return closed;
}

}  // namespace counterfoil
