#include "custody/time_order.h"

namespace counterfoil {
namespace {

constexpr std::int64_t kSkewSeconds = kClockSkewMinutes * 60;
constexpr std::int64_t kFurthestOffsetSeconds = 14 * 3600;
constexpr std::int64_t kDaySeconds = 86400;

// parse_moment makes midnight of a bare date, and people do not pull valves at midnight sharp to the second.
bool is_bare_date(const Event& event) {
  const Moment& at = event.at;
  return event.known == TimeSource::stated && !at.offset_minutes && at.hour == 0 && at.minute == 0 &&
         at.second == 0;
}

std::int64_t latest(const Event& event) {
  return to_seconds(event.at) + (is_bare_date(event) ? kDaySeconds - 1 : 0);
}

std::int64_t slack(const Moment& a, const Moment& b) {
  const bool alike = a.offset_minutes.has_value() == b.offset_minutes.has_value();
  return kSkewSeconds + (alike ? 0 : kFurthestOffsetSeconds);
}

}  // namespace

bool surely_before(const Event& first, const Event& second) {
  return latest(first) + slack(first.at, second.at) < to_seconds(second.at);
}

bool surely_ahead(const Event& event) {
  return to_seconds(event.logged) + slack(event.logged, event.at) < to_seconds(event.at);
}

std::string spoken_time(const Event& event) {
  const std::string text = to_text(event.at);
  constexpr std::size_t kDate = 10;
  constexpr std::size_t kMinutes = 16;
  if (is_bare_date(event)) return "on " + text.substr(0, kDate);
  return "at " + text.substr(0, kDate) + " " + text.substr(kDate + 1, kMinutes - kDate - 1);
}

}  // namespace counterfoil
