// Bytes from outside as events, one a line. What parses comes back byte for byte unless it holds members that
// this version does not know, and the record holds whatever story the lines tell, as do the stacks of label sheets.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "base/text.h"
#include "custody/record.h"
#include "custody/stack.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace counterfoil;
  const std::string kOrigin = "zdar.example/storeroom";
  Record record;
  std::vector<LoggedEvent> events;
  for (const auto& line : split({reinterpret_cast<const char*>(data), size}, '\n')) {
    const auto event = parse_event(line);
    if (!event) continue;
    const std::string bytes = event_bytes(*event);
    const auto again = parse_event(bytes);
    if (!again || !(*again == *event) || bytes.size() > line.size()) std::abort();
    if (event_words(*event).empty()) std::abort();
    events.push_back({{kOrigin, events.size()}, *event});
    record.apply(events.back().ref, *event);
  }
  for (const auto& [name, stack] : stacks_of(events, kOrigin))
    if (stack.left() < 1 || stack.next() < 1 || stack.next() > stack.labels) std::abort();
  const Moment today{2026, 12, 24, 12, 0, 0, 0};
  for (const auto& finding : record.findings(today, 10)) {
    if (finding.events.empty() || finding.what.empty() || finding.next.empty()) std::abort();
    for (const auto& ref : finding.events)
      if (record.event(ref) == nullptr) std::abort();
  }
  return 0;
}
