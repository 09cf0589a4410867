#include "base/file.h"
#include "base/text.h"
#include "cli/command.h"
#include "cli/output.h"
#include "workflow/issue.h"
#include "workflow/print.h"
#include "workflow/stocks.h"

namespace counterfoil {
namespace {

constexpr std::uint64_t kLargestListBytes = 64 << 20;

struct Options {
  IssueOrder order;
  int count = 0;
  std::string part, pockets, stock;
};

Result<std::vector<PlannedPair>> planned(const Options& options) {
  if (options.pockets.empty()) {
    if (options.count <= 0) return malformed("how many pairs?", "give --count N, or --pockets FILE.csv");
    if (static_cast<std::size_t>(options.count) > kLargestBatch)
      return malformed("one batch takes at most " + std::to_string(kLargestBatch) + " pairs");
    auto part = check_text(options.part, "the part number");
    if (!part) return part.error();
    return std::vector<PlannedPair>(static_cast<std::size_t>(options.count),
                                    PlannedPair{std::nullopt, *part});
  }
  if (options.count != 0 || !options.part.empty())
    return malformed("--pockets says how many pairs and which parts, so it excludes --count and --part");
  auto text = read_file(options.pockets, kLargestListBytes);
  if (!text) return text.error();
  auto pairs = parse_pocket_list(*text);
  if (!pairs) {
    Error error = pairs.error();
    error.message = options.pockets + ": " + error.message;
    return error;
  }
  return pairs;
}

// While a name can be changed at the price of a number.
void note_long_names(const Options& options, const Context& context, const Desk& desk,
                     const std::vector<LoggedEvent>& issued) {
  auto trouble = names_without_room(desk, issued, context.templates, options.stock);
  if (!trouble)
    return show_note("whether the names have room on the tags was not seen: " + trouble.error().message);
  if (!*trouble) return;
  show_note((*trouble)->message + "\n  " + (*trouble)->hint);
  show_note(
      "a shorter name takes a new pair: withdraw these (counterfoil void NUMBER... --reason \"name too "
      "long\"), and "
      "issue them anew");
}

Result<ExitCode> run(Options& options, const Context& context) {
  auto pairs = planned(options);
  if (!pairs) return pairs.error();
  if (auto stock = stock_named(context.templates, options.stock); !stock && !options.stock.empty())
    return stock.error();
  options.order.pairs = std::move(*pairs);
  auto desk = Desk::open(context.ledger, context.passphrase, *context.clock);
  if (!desk) return desk.error();
  auto issued = issue_pairs(*desk, options.order);
  if (!issued) return issued.error();
  Table table{{{"number", "NUMBER"},
               {"unit", "UNIT"},
               {"pocket", "POCKET"},
               {"side", "SIDE"},
               {"part", "PART"},
               {"turnaround", ""},
               {"entry", ""}},
              {}};
  for (const auto& logged : *issued) {
    const Event& event = logged.event;
    const auto& pocket = event.pocket;
    const bool plain = context.json || context.csv;
    table.rows.push_back({plain ? event.number->text() : event.number->grouped(), pocket ? pocket->unit : "",
                          pocket ? pocket->name : "",
                          pocket && pocket->side ? std::string(to_text(*pocket->side)) : std::string(),
                          event.part, event.turnaround, logged.ref.position});
  }
  show(context, table);
  if (!context.json && !context.csv) {
    say("");
    say(counted(issued->size(), "pair") + " issued for " + issued->front().event.turnaround + ".");
    say("Next: counterfoil print" + (context.ledger == "." ? "" : " --ledger " + quoted(context.ledger)) +
        " --turnaround " + quoted(issued->front().event.turnaround) +
        (options.stock.empty() ? "" : " --stock " + quoted(options.stock)) + " --out tags.pdf");
  }
  note_long_names(options, context, *desk, *issued);
  return ExitCode::done;
}

}  // namespace

Command issue_command() {
  auto options = std::make_shared<Options>();
  Command command;
  command.name = "issue";
  command.summary = "Issue tag pairs for a turnaround, all or none.";
  command.examples = {"counterfoil issue --turnaround TA26 --pockets pockets.csv",
                      "counterfoil issue --turnaround TA26 --pockets pockets.csv --stock letter-2x3",
                      "counterfoil issue --turnaround TA26 --count 20"};
  command.notes =
      "pockets.csv has a header line and a line per pocket: unit,pocket,side,part. Each pair is then meant\n"
      "for its pocket and shows it. Side is suction or discharge; side and part may be empty.";
  command.lists = true;
  command.options = {
      {"--turnaround", "NAME", "the outage that the pairs are for", &options->order.turnaround},
      {"--count", "N", "this many pairs, meant for no pocket yet", &options->count},
      {"--part", "TEXT", "with --count: the valves' part number", &options->part},
      {"--pockets", "FILE.csv", "a pair for each pocket of the list", &options->pockets},
      {"--stock", "NAME",
       "what they will be printed on: names that have no room there are told now (" +
           std::string(kUsualStock) + ")",
       &options->stock},
      {"--by", "NAME", "who issues", &options->order.by},
      {"--second", "NAME", "the second person who looked, when the list turns a pocket's side round",
       &options->order.second},
      {"--reason", "TEXT", "why, with --second", &options->order.reason},
  };
  command.run = [options](const Context& context) { return run(*options, context); };
  return command;
}

}  // namespace counterfoil
