// The command line, parsed by CLI11, whose own exit codes and texts are turned into ours.
#pragma once

#include <string>
#include <vector>

#include "cli/command.h"

namespace counterfoil {

struct ParsedLine {
  const Command* command = nullptr;  // null when there is only `text` to show
  std::string text;                  // help or version
};

// Fills the targets of the global options and of the command that was named. `malformed` for everything that
// the command line has wrong, with a hint at the help.
Result<ParsedLine> parse_line(int argc, const char* const* argv, const std::vector<Command>& commands,
                              const std::vector<Option>& global);

}  // namespace counterfoil
