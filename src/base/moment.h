// A point in civil time as people and cameras state it: to the second, with the offset from UTC only when it
// is known. A camera often does not know it, and guessing would forge the record. Source of the text form:
// ISO 8601-1:2019, the extended format with a complete date.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"

namespace counterfoil {

struct Moment {
  int year = 1970, month = 1, day = 1;
  int hour = 0, minute = 0, second = 0;
  std::optional<int> offset_minutes;  // east of UTC, at most +-14 h

  friend bool operator==(const Moment&, const Moment&) = default;
};

// Takes "2026-11-25", "2026-11-25T09:30", "2026-11-25 09:30:15", each with "Z" or "+01:00" behind it if there
// is a time of day. Refuses days that do not exist and years before 1900.
Result<Moment> parse_moment(std::string_view text);

// "2026-11-25T09:30:15", then "Z" or "+01:00" if the offset is known.
std::string to_text(const Moment& moment);
// "2026-11-25".
std::string date_text(const Moment& moment);

// Seconds since 1970-01-01T00:00:00Z; a moment without offset counts as UTC, so that a difference between two
// such moments of one camera is right.
std::int64_t to_seconds(const Moment& moment);
Moment utc_from_seconds(std::int64_t seconds);

// What the rooms below cli ask for the time, so that tests can hold it still.
class Clock {
 public:
  virtual ~Clock() = default;
  virtual Moment now() const = 0;  // with offset
};

}  // namespace counterfoil
