#include "base/nearest.h"
#include "cli/command.h"
#include "cli/output.h"
#include "workflow/paper.h"

namespace counterfoil {
namespace {

struct Options {
  std::vector<std::string> name;
  StackOrder order;

  bool corrects() const {
    return order.new_sheet || !order.stock.empty() || order.paper.start_at != kNotSaid ||
           !order.paper.spoiled.empty();
  }
};

// Nothing where a stock of the user's own is known by name only.
Json pair_cell(const Context& context, const Stack& stack) {
  const auto pair = next_pair(stack, context.templates);
  if (!pair) return {};
  if (*pair) return Json(**pair);
  return context.json || context.csv ? Json() : Json("no room");
}

Result<ExitCode> run(Options& options, const Context& context) {
  auto desk = Desk::open(context.ledger, context.passphrase, *context.clock);
  if (!desk) return desk.error();
  const std::string name = options.name.empty() ? std::string() : options.name.front();
  if (options.corrects()) {
    if (name.empty()) return malformed("which stack?", "name it: counterfoil paper NAME --new-sheet");
    options.order.paper.stack = name;
    options.order.templates = context.templates;
    auto corrected = correct_stack(*desk, options.order);
    if (!corrected) return corrected.error();
    if (!*corrected) show_note("a whole sheet lies on top of stack " + name + " already: nothing to log");
  } else if (!options.order.by.empty() || !options.order.reason.empty()) {
    return malformed("--by and --reason go with what you say of a sheet",
                     "say it with --new-sheet, --start-at, --spoiled or --stock");
  }
  auto stacks = stacks_on_record(*desk);
  if (!stacks) return stacks.error();
  std::vector<std::string> known;
  for (const auto& [stack, about] : *stacks) known.push_back(stack);
  if (!name.empty() && !stacks->contains(name))
    return refused(
        "no stack \"" + name + "\" is known",
        did_you_mean(name, known) + "to begin one: counterfoil paper \"" + name + "\" --stock NAME");
  Table table{{{"stack", "STACK"},
               {"stock", "STOCK"},
               {"next", "NEXT LABEL"},
               {"next_pair", "NEXT PAIR"},
               {"left", "LEFT ON THE TOP SHEET"},
               {"sheets", "SHEETS USED UP"}},
              {}};
  for (const auto& [key, stack] : *stacks)
    if (name.empty() || key == name)
      table.rows.push_back({stack.name, stack.stock, stack.next(), pair_cell(context, stack),
                            stack.is_begun() ? label_words(stack.labels_left()) : std::string("all"),
                            static_cast<std::int64_t>(stack.sheets)});
  show(context, table);
  return ExitCode::done;
}

}  // namespace

Command paper_command() {
  auto options = std::make_shared<Options>();
  StackOrder& order = options->order;
  Command command;
  command.name = "paper";
  command.summary = "List the stacks of label sheets and what is left of them, or say what lies there.";
  command.examples = {"counterfoil paper", "counterfoil paper \"drawer 2\" --stock a4-2x4",
                      "counterfoil paper \"drawer 2\" --new-sheet --reason \"jammed and thrown away\""};
  command.notes =
      "A stack is what you call a pack of label sheets. It begins with the first `print --stack NAME`, or "
      "here.\n"
      "What is left of the sheet on top is computed from what was printed on it and from what was said of "
      "it;\n"
      "what is said replaces what was thought. Rolls have no part sheets, so they are no stacks.";
  command.lists = true;
  command.positionals = {{"NAME", "this stack only", &options->name}};
  command.options = {
      {"--new-sheet", "", "a whole sheet lies on top; the one that was there is gone", &order.new_sheet},
      {"--start-at", "N", "the first label that the sheet on top has left", &order.paper.start_at},
      {"--spoiled", "LIST", "labels of the sheet on top that are spoiled, such as 7,9-10",
       &order.paper.spoiled},
      {"--stock", "NAME", "what the stack holds; a new stack, or another stock than before", &order.stock},
      {"--reason", "TEXT", "why; it stays in the record", &order.reason},
      {"--by", "NAME", "who says so", &order.by}};
  command.run = [options](const Context& context) { return run(*options, context); };
  return command;
}

}  // namespace counterfoil
