#include "cli/command.h"
#include "cli/output.h"
#include "workflow/desk.h"

namespace counterfoil {
namespace {

struct Options {
  std::vector<std::string> path;
  DeskTerms terms;
};

void show_desk(const Context& context, const Desk& desk, std::uint64_t entries) {
  const DeskCard& card = desk.card();
  if (context.json)
    return show_json({{"name", card.name},
                      {"role", card.role},
                      {"prefix", card.prefix},
                      {"host", card.host},
                      {"key", card.key},
                      {"ledger", desk.paths().ledger},
                      {"entries", entries}});
  say("desk     " + card.name);
  say("role     " + card.role);
  say("prefix   " + card.prefix + "  (all its numbers begin with it)");
  if (!card.host.empty()) say("host     " + card.host + "  (its symbols are links)");
  say("key      " + card.key + "  (public: give it to those who check your proofs)");
  say("ledger   " + desk.paths().ledger + ", entries: " + std::to_string(entries));
}

Result<ExitCode> run(const Options& options, const Context& context) {
  const std::string path = options.path.empty() ? context.ledger : options.path.front();
  const bool making = !options.terms.name.empty() || !options.terms.role.empty() ||
                      !options.terms.prefix.empty() || !options.terms.host.empty();
  auto desk = making ? Desk::create(path, options.terms, context.passphrase, *context.clock)
                     : Desk::open(path, context.passphrase, *context.clock);
  if (!desk) return desk.error();
  auto entries = desk->ledger().size();
  if (!entries) return entries.error();
  show_desk(context, *desk, *entries);
  if (making && !context.json) {
    say("");
    say("The private key lies in " + desk->paths().key +
        (context.passphrase.empty() ? ", not sealed: keep it to yourself."
                                    : ", sealed with the passphrase."));
    const std::string ledger = path == "." ? "" : " --ledger " + quoted(path);
    if (options.terms.role == "storeroom")
      say("Next: counterfoil issue" + ledger + " --turnaround NAME --count N");
    else
      say("Next: counterfoil log" + ledger + (options.terms.role == "vendor" ? " receiving" : " removing") +
          " PHOTO...");
  }
  return ExitCode::done;
}

}  // namespace

Command desk_command() {
  auto options = std::make_shared<Options>();
  Command command;
  command.name = "desk";
  command.summary = "Make a desk (a ledger with its key), or show one.";
  command.examples = {
      "counterfoil desk hollow-creek --name \"Storeroom Hollow Creek\" --role storeroom --prefix K7",
      "counterfoil desk hollow-creek"};
  command.notes =
      "A folder gets counterfoil.ledger, counterfoil.key and photos/; a name that ends in .ledger becomes\n"
      "that file, with its key and photographs beside it. Desks whose tags can meet, at one vendor say,\n"
      "must not share a prefix.";
  command.positionals = {{"PATH", "folder or file of the desk; else --ledger", &options->path}};
  command.options = {
      {"--name", "TEXT", "the desk's name", &options->terms.name},
      {"--role", "ROLE", "storeroom, mechanic or vendor", &options->terms.role},
      {"--prefix", "XX", "two characters that all its numbers begin with", &options->terms.prefix},
      {"--host", "HOST", "make symbols links to this host, which you own; else they hold the bare number",
       &options->terms.host},
  };
  command.run = [options](const Context& context) { return run(*options, context); };
  return command;
}

}  // namespace counterfoil
