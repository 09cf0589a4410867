// The options that read, log and match share: how long and how hard photographs are looked at.
#pragma once

#include <string>
#include <vector>

#include "cli/command.h"
#include "workflow/read.h"

namespace counterfoil {

struct ReadingOptions {
  std::string effort = "normal";
  std::string budget;  // as typed; empty: kUsualSeconds, or kThoroughSeconds

  std::vector<Option> options();
  // As many threads as there are cores. The progress is told on standard error when that is a terminal.
  Result<ReadingTerms> terms(const Context& context) const;
};

// A photograph that takes longer than the first seldom gives a tag; who asks for thoroughness has time.
inline constexpr double kUsualSeconds = 2;
inline constexpr double kThoroughSeconds = 10;

// Takes the line that tells the progress away, so that something else can be written. Nothing when there is none.
void clear_progress();

}  // namespace counterfoil
