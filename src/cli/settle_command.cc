#include "base/text.h"
#include "cli/arguments.h"
#include "cli/command.h"
#include "cli/output.h"
#include "workflow/settle.h"
#include "workflow/trace.h"

namespace counterfoil {
namespace {

struct Options {
  std::vector<std::string> number;
  SettleOrder order;
};

Result<ExitCode> run(Options& options, const Context& context) {
  const auto words = joined_groups(options.number);
  if (words.size() > 1) return malformed("one number at a time, please");
  if (!words.empty()) options.order.number = words.front();
  auto desk = Desk::open(context.ledger, context.passphrase, *context.clock);
  if (!desk) return desk.error();
  auto closed = settle_findings(*desk, options.order, kTransitDays);
  if (!closed) return closed.error();
  for (const auto& finding : *closed) {
    if (context.json)
      show_json({{"kind", to_text(finding.kind)}, {"subject", finding.subject}, {"what", finding.what}});
    else
      say("closed: " + finding.what);
  }
  return ExitCode::done;
}

}  // namespace

Command settle_command() {
  auto options = std::make_shared<Options>();
  Command command;
  command.name = "settle";
  command.summary = "Close the findings of a valve or pocket that somebody has looked into.";
  command.examples = {
      "counterfoil settle K74Q 2B8X 61 --by Marek --reason \"both logged it; one removal\"",
      "counterfoil settle --unit U2 --pocket \"1 CE D1\" --by Marek --reason \"blanked for this run\""};
  command.notes = "What was logged stays in the record; the reason stays beside it.";
  command.positionals = {{"NUMBER...", "the number whose findings are closed", &options->number}};
  command.options = {
      {"--serial", "TEXT", "or the serial", &options->order.serial},
      {"--unit", "NAME", "or the pocket's unit", &options->order.unit},
      {"--pocket", "NAME", "and the pocket", &options->order.pocket},
      {"--reason", "TEXT", "what was found out", &options->order.reason},
      {"--by", "NAME", "who looked into it", &options->order.by},
  };
  command.run = [options](const Context& context) { return run(*options, context); };
  return command;
}

}  // namespace counterfoil
