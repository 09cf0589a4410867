#include "cli/reading_terms.h"

#include <unistd.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <iostream>
#include <thread>
#include <utility>

#include "base/text.h"

namespace counterfoil {
namespace {

bool progress_is_shown = false;  // a line on the terminal waits to be rewritten

void show_progress(std::size_t done, std::size_t all) {
  if (all < 2) return;
  std::cout.flush();
  std::cerr << "\r\033[K" << done << " of " << all << " photographs" << std::flush;
  progress_is_shown = true;
  if (done == all) clear_progress();
}

Result<Effort> parse_effort(const std::string& typed) {
  constexpr std::array<std::pair<std::string_view, Effort>, 3> kEfforts = {
      {{"quick", Effort::quick}, {"normal", Effort::normal}, {"thorough", Effort::thorough}}};
  for (const auto& [name, effort] : kEfforts)
    if (to_lower(typed) == name) return effort;
  return malformed("\"" + typed + "\" is no effort", "the efforts are quick, normal and thorough");
}

Result<double> parse_budget(const std::string& typed) {
  double seconds = 0;
  const char* end = typed.data() + typed.size();
  const auto parsed = std::from_chars(typed.data(), end, seconds, std::chars_format::fixed);
  if (parsed.ec == std::errc() && parsed.ptr == end && std::isfinite(seconds) && seconds > 0) return seconds;
  return malformed("\"" + typed + "\" is no time for a photograph",
                   "--budget takes seconds, more than 0, such as 0.5 or 10");
}

}  // namespace

std::vector<Option> ReadingOptions::options() {
  return {
      {"--effort", "EFFORT",
       "how hard to look for damaged tags: quick, normal or thorough, which takes 10 seconds (normal)",
       &effort},
      {"--budget", "SECONDS", "the longest time for one photograph (2)", &budget},
  };
}

Result<ReadingTerms> ReadingOptions::terms(const Context& context) const {
  auto chosen = parse_effort(effort);
  if (!chosen) return chosen.error();
  ReadingTerms terms;
  terms.effort = *chosen;
  terms.clock = context.steady_seconds;
  terms.seconds_a_picture = *chosen == Effort::thorough ? kThoroughSeconds : kUsualSeconds;
  if (!budget.empty()) {
    auto seconds = parse_budget(budget);
    if (!seconds) return seconds.error();
    terms.seconds_a_picture = *seconds;
  }
  terms.threads = static_cast<int>(std::max(1U, std::thread::hardware_concurrency()));
  const bool script = context.json && isatty(STDOUT_FILENO) == 0;
  if (isatty(STDERR_FILENO) != 0 && !script) terms.progress = show_progress;
  return terms;
}

void clear_progress() {
  if (progress_is_shown) std::cerr << "\r\033[K" << std::flush;
  progress_is_shown = false;
}

}  // namespace counterfoil
