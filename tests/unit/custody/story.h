// Events in few words, for tests of the record: each is logged as the next entry of the storeroom's log.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "custody/record.h"

namespace counterfoil {

inline Moment moment(const std::string& text) { return *parse_moment(text); }

// The n-th number of the prefix, from 0.
inline Number number_of(std::uint32_t n, const std::string& prefix = "K7") {
  for (std::uint32_t counter = 1;; ++counter)
    if (const auto number = number_at(prefix, counter); number && n-- == 0) return *number;
}

inline Pocket suction(const std::string& name = "2 HE S1") { return {"U2", name, Side::suction}; }
inline Pocket discharge(const std::string& name = "1 CE D1") { return {"U2", name, Side::discharge}; }

inline Event event_at(Step step, const std::string& at) {
  Event event;
  event.step = step;
  event.logged = moment("2026-11-30T12:00:00Z");
  event.at = moment(at);
  event.known = TimeSource::stated;
  return event;
}

class Story {
 public:
  static constexpr const char* kOrigin = "zdar.example/storeroom";

  Story() { found(kOrigin, "Žďár storeroom", "storeroom", "K7"); }

  EventRef found(const std::string& origin, const std::string& name, const std::string& role,
                 const std::string& prefix) {
    Event event = event_at(Step::founding, "2026-11-20T07:00:00Z");
    event.desk = DeskCard{name, role, prefix, "verifier key", ""};
    return log(event, origin);
  }
  EventRef log(const Event& event, const std::string& origin = kOrigin) {
    auto& next = next_[origin];
    const EventRef ref{origin, next++};
    record.apply(ref, *parse_event(event_bytes(event)));
    return ref;
  }

  EventRef issue(const Number& number, std::optional<Pocket> pocket = std::nullopt,
                 const std::string& part = {}) {
    Event event = event_at(Step::commissioning, "2026-11-20T08:00:00Z");
    event.known = TimeSource::logged;
    event.number = number;
    event.counter = 1;
    event.halves = {{Half::bag, 1}, {Half::box, 1}};
    event.turnaround = "TA26";
    event.pocket = std::move(pocket);
    event.part = part;
    return log(event);
  }
  EventRef label(const Number& number) {
    Event event = event_at(Step::commissioning, "2026-11-20T08:00:00Z");
    event.number = number;
    event.counter = 1;
    event.halves = {{Half::label, 1}};
    return log(event);
  }
  EventRef step(Step step, const Number& number, const std::string& at,
                std::optional<Pocket> pocket = std::nullopt) {
    Event event = event_at(step, at);
    event.number = number;
    event.pocket = std::move(pocket);
    return log(event);
  }
  EventRef serial_step(Step step, const std::string& serial, const std::string& at,
                       std::optional<Pocket> pocket = std::nullopt) {
    Event event = event_at(step, at);
    event.serial = serial;
    event.pocket = std::move(pocket);
    return log(event);
  }
  EventRef tied_step(Step step, const Number& number, const std::string& serial, const std::string& at,
                     std::optional<Pocket> pocket = std::nullopt) {
    Event event = event_at(step, at);
    event.number = number;
    event.serial = serial;
    event.pocket = std::move(pocket);
    return log(event);
  }
  EventRef reprint(const Number& number, Half half, int copy) {
    Event event = event_at(Step::reprinting, "2026-11-24T08:00:00Z");
    event.number = number;
    event.halves = {{half, copy}};
    return log(event);
  }
  EventRef voiding(const Number& number, const std::string& at = "2026-11-29T08:00:00Z") {
    Event event = event_at(Step::voiding, at);
    event.number = number;
    event.reason = "washed out";
    return log(event);
  }
  EventRef match(const Number& number, Verdict verdict, std::optional<Number> other = std::nullopt) {
    Event event = event_at(Step::matching, "2026-11-28T08:00:00Z");
    event.number = number;
    event.verdict = verdict;
    event.other = std::move(other);
    event.halves = {{Half::bag, 1}};
    return log(event);
  }
  EventRef settle(const Number& number) {
    Event event = event_at(Step::settling, "2026-11-29T08:00:00Z");
    event.number = number;
    event.reason = "looked into it";
    return log(event);
  }

  std::vector<Finding> findings(const std::string& today = "2026-11-30T12:00:00Z",
                                int transit_days = 14) const {
    return record.findings(moment(today), transit_days);
  }
  std::vector<Finding> of_kind(FindingKind kind, const std::string& today = "2026-11-30T12:00:00Z") const {
    auto out = findings(today);
    std::erase_if(out, [&](const Finding& finding) { return finding.kind != kind; });
    return out;
  }
  const ValveTrip& trip(const Number& number) const { return *record.find(number); }

  Record record;

 private:
  std::map<std::string, std::uint64_t> next_;
};

// "pocket open, not removed": what a test compares, and what it shows when it fails.
inline std::string kinds(const std::vector<Finding>& findings) {
  std::string out;
  for (const auto& finding : findings) out += (out.empty() ? "" : ", ") + std::string(to_text(finding.kind));
  return out;
}

}  // namespace counterfoil
