#include "base/text.h"
#include "cli/command.h"
#include "cli/output.h"
#include "workflow/verify.h"

namespace counterfoil {
namespace {

struct Options {
  std::vector<std::string> entry;
  std::string out;
};

Result<ExitCode> run(const Options& options, const Context& context) {
  const auto position = to_unsigned(options.entry.front());
  if (!position)
    return malformed("\"" + options.entry.front() + "\" is not the position of an entry",
                     "`counterfoil trace NUMBER` shows the entries of a valve");
  auto desk = Desk::open(context.ledger, context.passphrase, *context.clock);
  if (!desk) return desk.error();
  const std::string path =
      options.out.empty() ? "entry-" + std::to_string(*position) + ".tlog-proof" : options.out;
  if (auto done = prove_entry(*desk, *position, path); !done) return done.error();
  if (context.json) {
    show_json({{"entry", *position}, {"file", path}, {"key", desk->card().key}});
  } else {
    say("proof of entry " + std::to_string(*position) + " written to " + path);
    say("Whoever has this desk's public key can check it:");
    say("  counterfoil check-proof " + path + " --key " + desk->card().key);
  }
  return ExitCode::done;
}

}  // namespace

Command prove_command() {
  auto options = std::make_shared<Options>();
  Command command;
  command.name = "prove";
  command.summary = "Write a proof that one entry is in the ledger.";
  command.examples = {"counterfoil prove 17 --out removal.tlog-proof"};
  command.notes = "The file is a C2SP tlog-proof with the entry in it; it needs no ledger to check.";
  command.positionals = {
      {"ENTRY", "the entry's position, as trace and events show it", &options->entry, true}};
  command.options = {{"--out", "FILE", "where to write it (entry-N.tlog-proof)", &options->out}};
  command.run = [options](const Context& context) { return run(*options, context); };
  return command;
}

}  // namespace counterfoil
