// A command as data: its words, what it takes, and what it runs. parser.cc alone knows the library that
// parses; help.cc makes the help from the same data.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "base/moment.h"
#include "base/result.h"
#include "cli/exit_code.h"

namespace counterfoil {

// What all commands share.
struct Context {
  std::string ledger;  // folder or file
  std::string passphrase;
  std::string templates;  // folder
  bool json = false;
  bool csv = false;
  const Clock* clock = nullptr;
  // Seconds by a clock that never goes back, to measure how long something takes; stands still when `clock` does.
  std::function<double()> steady_seconds;
};

struct Option {
  std::string name;   // "--turnaround"
  std::string value;  // "NAME"; empty for a flag
  std::string help;
  // Where the parser puts it; a vector takes the option several times.
  std::variant<bool*, std::string*, int*, double*, std::vector<std::string>*> target;
};

struct Positional {
  std::string value;  // "FILE..."
  std::string help;
  std::vector<std::string>* target = nullptr;
  bool required = false;
};

struct Command {
  std::string name;
  std::string summary;                // one line
  std::vector<std::string> examples;  // first in the help
  std::string notes;                  // paragraphs under the options, may be empty
  bool lists = false;                 // takes --csv
  std::vector<Positional> positionals;
  std::vector<Option> options;
  std::function<Result<ExitCode>(const Context&)> run;
};

// One file each; each call gives a fresh command that owns its options.
Command calibrate_command();
Command check_proof_command();
Command check_sheet_command();
Command desk_command();
Command events_command();
Command findings_command();
Command issue_command();
Command log_command();
Command match_command();
Command outstanding_command();
Command paper_command();
Command print_command();
Command prove_command();
Command queues_command();
Command read_command();
Command reprint_command();
Command settle_command();
Command stocks_command();
Command trace_command();
Command verify_command();
Command void_command();

// In the order of the help: as the work goes.
std::vector<Command> all_commands();

}  // namespace counterfoil
