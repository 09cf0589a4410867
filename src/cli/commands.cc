#include "cli/command.h"

namespace counterfoil {

std::vector<Command> all_commands() {
  std::vector<Command> commands;
  for (const auto& make :
       {desk_command,       issue_command,  print_command,  check_sheet_command, reprint_command,
        void_command,       stocks_command, paper_command,  queues_command,      calibrate_command,
        read_command,       log_command,    match_command,  trace_command,       outstanding_command,
        findings_command,   settle_command, events_command, verify_command,      prove_command,
        check_proof_command})
    commands.push_back(make());
  return commands;
}

}  // namespace counterfoil
