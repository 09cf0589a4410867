#include "base/moment.h"

#include <algorithm>
#include <chrono>
#include <cstdlib>

#include "base/text.h"

namespace counterfoil {
namespace {

constexpr int kLargestOffsetMinutes = 14 * 60;

// Exactly `digits` decimal digits at `at`.
std::optional<int> field(std::string_view text, std::size_t at, std::size_t digits) {
  if (text.size() < at + digits) return std::nullopt;
  int value = 0;
  for (std::size_t i = at; i < at + digits; ++i) {
    if (text[i] < '0' || text[i] > '9') return std::nullopt;
    value = value * 10 + (text[i] - '0');
  }
  return value;
}

bool is_at(std::string_view text, std::size_t at, char c) { return at < text.size() && text[at] == c; }

std::string padded(int value, std::size_t digits) {
  const std::string text = std::to_string(value);
  return std::string(digits - std::min(digits, text.size()), '0') + text;
}

std::string two(int value) { return padded(value, 2); }

}  // namespace

Result<Moment> parse_moment(std::string_view text) {
  const Error wrong =
      malformed("\"" + std::string(text) + "\" is not a time",
                "write it as 2026-11-25 or 2026-11-25T09:30, with +01:00 behind it if you know it");
  const auto year = field(text, 0, 4);
  const auto month = field(text, 5, 2);
  const auto day = field(text, 8, 2);
  if (!year || !month || !day || !is_at(text, 4, '-') || !is_at(text, 7, '-') || *year < 1900) return wrong;
  const std::chrono::year_month_day date{std::chrono::year(*year),
                                         std::chrono::month(static_cast<unsigned>(*month)),
                                         std::chrono::day(static_cast<unsigned>(*day))};
  if (!date.ok()) return wrong;
  Moment out{*year, *month, *day, 0, 0, 0, std::nullopt};
  std::size_t at = 10;
  if (at == text.size()) return out;
  if (text[at] != 'T' && text[at] != ' ') return wrong;
  const auto hour = field(text, 11, 2);
  const auto minute = field(text, 14, 2);
  if (!hour || !minute || !is_at(text, 13, ':') || *hour > 23 || *minute > 59) return wrong;
  out.hour = *hour;
  out.minute = *minute;
  at = 16;
  if (is_at(text, at, ':')) {
    const auto second = field(text, 17, 2);
    if (!second || *second > 59) return wrong;
    out.second = *second;
    at = 19;
  }
  if (at == text.size()) return out;
  if (text.substr(at) == "Z") {
    out.offset_minutes = 0;
    return out;
  }
  const auto hours = field(text, at + 1, 2);
  const auto minutes = field(text, at + 4, 2);
  if ((text[at] != '+' && text[at] != '-') || !hours || !minutes || !is_at(text, at + 3, ':') ||
      text.size() != at + 6 || *minutes > 59 || *hours * 60 + *minutes > kLargestOffsetMinutes)
    return wrong;
  out.offset_minutes = (text[at] == '-' ? -1 : 1) * (*hours * 60 + *minutes);
  return out;
}

std::string date_text(const Moment& m) { return padded(m.year, 4) + "-" + two(m.month) + "-" + two(m.day); }

std::string to_text(const Moment& m) {
  std::string out = date_text(m) + "T" + two(m.hour) + ":" + two(m.minute) + ":" + two(m.second);
  if (!m.offset_minutes) return out;
  if (*m.offset_minutes == 0) return out + "Z";
  const int size = std::abs(*m.offset_minutes);
  return out + (*m.offset_minutes < 0 ? "-" : "+") + two(size / 60) + ":" + two(size % 60);
}

std::int64_t to_seconds(const Moment& m) {
  const std::chrono::sys_days days{std::chrono::year(m.year) / m.month / m.day};
  return std::int64_t{days.time_since_epoch().count()} * 86400 + m.hour * 3600 + m.minute * 60 + m.second -
         m.offset_minutes.value_or(0) * 60;
}

Moment utc_from_seconds(std::int64_t seconds) {
  const auto time = std::chrono::sys_seconds(std::chrono::seconds(seconds));
  const auto days = std::chrono::floor<std::chrono::days>(time);
  const std::chrono::year_month_day date(days);
  const std::chrono::hh_mm_ss clock(time - days);
  return {static_cast<int>(date.year()),
          static_cast<int>(static_cast<unsigned>(date.month())),
          static_cast<int>(static_cast<unsigned>(date.day())),
          static_cast<int>(clock.hours().count()),
          static_cast<int>(clock.minutes().count()),
          static_cast<int>(clock.seconds().count()),
          0};
}

}  // namespace counterfoil
