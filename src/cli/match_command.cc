#include <filesystem>

#include "base/text.h"
#include "cli/arguments.h"
#include "cli/command.h"
#include "cli/output.h"
#include "cli/reading_terms.h"
#include "workflow/candidates.h"
#include "workflow/match.h"

namespace counterfoil {
namespace {

struct Options {
  std::vector<std::string> items;
  MatchOrder order;
  bool no_copy = false;
  ReadingOptions reading;
};

std::string joined(const std::vector<std::string>& items) {
  std::string out;
  for (const auto& item : items) out += (out.empty() ? "" : " ") + item;
  return out;
}

Result<ExitCode> run(Options& options, const Context& context) {
  for (const auto& item : joined_groups(options.items)) {
    std::error_code ignored;
    const auto equals = item.find('=');
    const bool is_file = std::filesystem::exists(item, ignored);
    if (!is_file && equals == std::string::npos &&
        (Number::parse(item) || (SmudgedNumber(item).has_gaps() && !looks_like_picture(item))))
      return malformed("is " + item + " a bag or a box?",
                       "type what was found together as BAG=BOX, or give --bag or --box");
    if (is_file || equals == std::string::npos)
      options.order.photos.push_back(item);
    else
      options.order.pairs.emplace_back(item.substr(0, equals), item.substr(equals + 1));
  }
  auto pictures = with_folders_opened(options.order.photos);
  if (!pictures) return pictures.error();
  options.order.photos = std::move(*pictures);
  options.order.copy_photos = !options.no_copy;
  auto reading = options.reading.terms(context);
  if (!reading) return reading.error();
  options.order.reading = std::move(*reading);
  auto desk = Desk::open(context.ledger, context.passphrase, *context.clock);
  if (!desk) return desk.error();
  auto report = match_photos(*desk, options.order);
  if (!report) return report.error();
  Table table{{{"verdict", "VERDICT"},
               {"number", "NUMBER"},
               {"what", "WHAT"},
               {"next", ""},
               {"other", ""},
               {"seen", "SEEN ON"},
               {"identified", ""}},
              {}};
  const bool plain = context.json || context.csv;
  for (const auto& line : report->lines)
    table.rows.push_back({to_text(line.verdict), plain ? line.number.text() : line.number.grouped(),
                          line.what, line.next, line.other ? line.other->text() : std::string(),
                          joined(line.where), !likeness_words(line.halves).empty()});
  if (plain)
    for (const auto& error : report->unreadable)
      table.rows.push_back({"unreadable", "", error.message, error.hint, "", "", false});
  show(context, table);
  if (!plain) {
    for (const auto& error : report->unreadable) say("unreadable  " + error.message);
    bool any = false;  // heading said
    for (const auto& line : report->lines) {
      if (line.next.empty()) continue;
      if (!any) say("\nWhat to do:");
      any = true;
      say("  " + line.number.grouped() + ": " + line.next);
    }
    for (const auto& error : report->unreadable)
      if (!error.hint.empty()) say("  unreadable: " + error.hint);
    std::size_t matched = 0;
    for (const auto& line : report->lines) matched += line.verdict == Verdict::matched ? 1 : 0;
    say("\n" + counted(matched, "pair") + " matched, " + std::to_string(report->lines.size() - matched) +
        " not as they should be, " + counted(report->unreadable.size(), "photograph") +
        " without a tag of ours." + (options.order.dry_run ? " Nothing was written." : ""));
  }
  for (const auto& damage : report->damaged) show_note(damage);
  for (const auto& unread : report->unread) show_note(unread);
  for (const auto& foreign : report->foreign) show_note("not ours, left out: " + foreign);
  for (const auto& error : report->unreadable)
    if (error.kind == ErrorKind::unreadable) return ExitCode::io;
  return report->all_matched() ? ExitCode::done : ExitCode::no;
}

}  // namespace

Command match_command() {
  auto options = std::make_shared<Options>();
  Command command;
  command.name = "match";
  command.summary = "Find out which bag goes with which box, and log it.";
  command.examples = {"counterfoil match IMG_0501.jpg IMG_0502.jpg --by Marek",
                      "counterfoil match \"K74Q 2B8X 61\"=\"K74Q 2B8X 61\"",
                      "counterfoil match --bag K74Q2B8X61 --box K74Q2B8X61 --turnaround TA26 --dry-run"};
  command.notes =
      "A photograph that shows a bag and a box says that this bag was found with this box; so does BAG=BOX,\n"
      "typed. Halves seen each by itself are matched by number. Exit code 1 when anything is wrong.\n"
      "\"K74Q ?B8X 61\", in quotes, lists the numbers on record that it can stand for.";
  command.lists = true;
  command.positionals = {
      {"ITEM...", "photographs, folders of them, or typed pairs BAG=BOX", &options->items}};
  command.options = {
      {"--bag", "NUMBER", "this bag half was seen; may be given several times", &options->order.bags},
      {"--box", "NUMBER", "this box half was seen; may be given several times", &options->order.boxes},
      {"--turnaround", "NAME", "also name its valves under way of which nothing was seen",
       &options->order.turnaround},
      {"--by", "NAME", "who matched", &options->order.by},
      {"--dry-run", "", "say it, write nothing to the ledger", &options->order.dry_run},
      {"--no-copy", "", "do not keep copies of the photographs", &options->no_copy},
  };
  for (auto& option : options->reading.options()) command.options.push_back(option);
  command.run = [options](const Context& context) { return run(*options, context); };
  return command;
}

}  // namespace counterfoil
