// Bytes from outside as events, one a line. What parses comes back byte for byte unless it holds members that
// this version does not know, and the record holds whatever story the lines tell.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "base/text.h"
#include "custody/record.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace counterfoil;
  Record record;
  std::uint64_t position = 0;
  for (const auto& line : split({reinterpret_cast<const char*>(data), size}, '\n')) {
    const auto event = parse_event(line);
    if (!event) continue;
    const std::string bytes = event_bytes(*event);
    const auto again = parse_event(bytes);
    if (!again || !(*again == *event) || bytes.size() > line.size()) std::abort();
    if (event_words(*event).empty()) std::abort();
    record.apply({"zdar.example/storeroom", position++}, *event);
  }
  const Moment today{2026, 12, 24, 12, 0, 0, 0};
  for (const auto& finding : record.findings(today, 10)) {
    if (finding.events.empty() || finding.what.empty() || finding.next.empty()) std::abort();
    for (const auto& ref : finding.events)
      if (record.event(ref) == nullptr) std::abort();
  }
  return 0;
}
