#include "base/text.h"
#include "cli/command.h"
#include "cli/output.h"
#include "workflow/trace.h"
#include "workflow/verify.h"

namespace counterfoil {
namespace {

struct Options {
  std::vector<std::string> file;
  std::string key;
};

Result<ExitCode> run(const Options& options, const Context& context) {
  if (options.key.empty())
    return malformed("whose proof?",
                     "give --key, the public key that `counterfoil desk` shows at the desk that made it");
  auto checked = check_proof_file(options.file.front(), options.key);
  if (!checked) return checked.error();
  const Event& event = checked->event;
  if (context.json) {
    show_json({{"entry", checked->position},
               {"log", checked->checkpoint.origin},
               {"size", checked->checkpoint.size},
               {"root", to_hex(bytes_of(checked->checkpoint.root))},
               {"event", *parse_json(event_bytes(event))}});
  } else {
    say("The proof holds: entry " + std::to_string(checked->position) + " of " + checked->checkpoint.origin +
        ", which had " + std::to_string(checked->checkpoint.size) + " entries.");
    say(short_time(event.at) + " (" + std::string(to_text(event.known)) + ")  " +
        (event.number ? event.number->grouped() + "  " : "") + describe(event));
  }
  return ExitCode::done;
}

}  // namespace

Command check_proof_command() {
  auto options = std::make_shared<Options>();
  Command command;
  command.name = "check-proof";
  command.summary = "Check such a proof with nothing but the desk's public key.";
  command.examples = {
      "counterfoil check-proof removal.tlog-proof --key counterfoil/K7-0a1b2c3d4e5f6071+5d4f2c11+AQ..."};
  command.positionals = {{"FILE", "the proof", &options->file, true}};
  command.options = {{"--key", "KEY", "the public (verifier) key of the desk that made it", &options->key}};
  command.run = [options](const Context& context) { return run(*options, context); };
  return command;
}

}  // namespace counterfoil
