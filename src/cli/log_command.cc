#include <algorithm>

#include "base/nearest.h"
#include "base/text.h"
#include "cli/arguments.h"
#include "cli/command.h"
#include "cli/output.h"
#include "cli/print_terms.h"
#include "cli/reading_terms.h"
#include "workflow/log.h"
#include "workflow/print.h"
#include "workflow/trace.h"

namespace counterfoil {
namespace {

struct Options {
  std::vector<std::string> step, items;
  LogOrder order;
  bool no_copy = false;
  PrintOptions label;
  ReadingOptions reading;
};

Result<Step> journey_step(const std::string& typed) {
  auto step = parse_step(to_lower(typed));
  if (step && is_journey_step(*step)) return *step;
  std::vector<std::string> steps;
  for (const Step known : journey_steps()) steps.emplace_back(to_text(known));
  return malformed("\"" + typed + "\" is no step of a valve's journey",
                   did_you_mean(typed, steps) + "the steps are " + listed(steps));
}

std::string subject_of(const Event& event) {
  if (event.number) return event.number->grouped();
  return "serial " + event.serial;
}

void show_line(const Context& context, const LogLine& line) {
  const Event& event = line.logged.event;
  if (context.json) {
    Json::Array notes;
    for (const auto& note : line.notes) notes.emplace_back(note);
    show_json({{"entry", line.logged.ref.position},
               {"added", !line.already},
               {"step", to_text(event.step)},
               {"number", event.number ? Json(event.number->text()) : Json()},
               {"serial", event.serial},
               {"at", line.already ? Json() : Json(to_text(event.at))},
               {"known", line.already ? Json() : Json(to_text(event.known))},
               {"what", describe(event)},
               {"identified", !likeness_words(event.halves).empty()},
               {"notes", std::move(notes)}});
    return;
  }
  if (line.already) {
    say(subject_of(event) + "  logged already, in entry " + std::to_string(line.logged.ref.position) +
        "; nothing added");
    return;
  }
  say(subject_of(event) + "  " + describe(event) + ", " + short_time(event.at) + " (" +
      std::string(to_text(event.known)) + ")  entry " + std::to_string(line.logged.ref.position));
  for (const auto& note : line.notes) show_note(subject_of(event) + ": " + note);
}

// The cautions belong where the work is: TRADE.md sections 2 and 8.
void show_cautions(Step step) {
  if (step == Step::removing)
    show_note(
        "before a cap is loosened: lock-out and zero energy verified, both passages vented; if the cap "
        "pushes "
        "outward, stop and vent. Do not clean or dismantle the valve; deposits may be toxic or pyrophoric");
  if (step == Step::installing)
    show_note(
        "look at the valve, not only at the tag: suction or discharge, and the push test as the maker has "
        "it. "
        "Old gasket out, new one in; torque, passes and lubricant are the maker's");
}

Result<ExitCode> run(Options& options, const Context& context) {
  auto step = journey_step(options.step.front());
  if (!step) return step.error();
  LogOrder& order = options.order;
  order.step = *step;
  auto [photos, numbers] = photos_and_numbers(options.items);
  auto pictures = with_folders_opened(photos);
  if (!pictures) return pictures.error();
  order.photos = std::move(*pictures);
  order.numbers = std::move(numbers);
  order.copy_photos = !options.no_copy;
  auto reading = options.reading.terms(context);
  if (!reading) return reading.error();
  order.reading = std::move(*reading);
  if (const auto given = options.label.given(); !given.empty() && !order.label)
    return malformed(given + " goes with --label");
  auto desk = Desk::open(context.ledger, context.passphrase, *context.clock);
  if (!desk) return desk.error();
  if (order.label)
    if (auto done = check_label_terms(*desk, options.label.terms(context, "label.pdf")); !done)
      return done.error();
  auto report = log_step(*desk, order);
  if (!report) return report.error();
  for (const auto& line : report->lines) show_line(context, line);
  for (const auto& problem : report->problems) show_error(context, problem);
  if (order.label && !report->lines.empty() && !report->lines.front().already) {
    const Event& removal = report->lines.front().logged.event;
    if (options.label.out.empty()) options.label.out = "label-" + removal.number->text() + ".pdf";
    const PrintTerms terms = options.label.terms(context, options.label.out);
    auto printed = print_label(*desk, removal, terms);
    if (!printed) {
      Error error = printed.error();
      error.message = "the removal is logged, but its label could not be made: " + error.message;
      error.hint += (error.hint.empty() ? "make it with" : "; once it can be:") +
                    std::string(" `counterfoil print ") + removal.number->text() + " --out FILE.pdf`";
      return error;
    }
    if (!context.json) {
      say("label written to " + printed->sheet.files.front() +
          ": print it and stick it on the valve's bag or box");
      show_paper(*printed);
    }
    note_printer_faults(printed->sheet);
  }
  const bool added =
      std::any_of(report->lines.begin(), report->lines.end(), [](const auto& line) { return !line.already; });
  if (!context.json && added) show_cautions(*step);
  for (const auto& problem : report->problems)
    if (problem.kind == ErrorKind::unreadable) return ExitCode::io;
  return report->problems.empty() ? ExitCode::done : ExitCode::no;
}

}  // namespace

Command log_command() {
  auto options = std::make_shared<Options>();
  LogOrder& order = options->order;
  Command command;
  command.name = "log";
  command.summary = "Log a step of a valve's journey, by photograph or by number.";
  command.examples = {
      "counterfoil log removing IMG_0412.jpg --by Åse --condition \"broken plate, oily\"",
      "counterfoil log removing K74Q 2B8X 61 --time 2026-11-25T09:30 --by Åse",
      "counterfoil log removing --serial 88-1042 --unit U2 --pocket \"1 CE D1\" --side discharge --photo "
      "plate.jpg",
      "counterfoil log removing --label --unit U2 --pocket \"1 CE D1\" --side discharge --photo IMG_0415.jpg",
      "counterfoil log shipping K74Q2B8X61 --to \"Kettle Valve Works\" --carton 3 --due 2026-12-20",
      "counterfoil log installing IMG_0610.jpg --unit U2 --pocket \"2 HE S1\" --by Åse"};
  command.notes =
      "STEP is removing, packing, shipping, receiving, unpacking, inspecting, repairing, storing, "
      "installing\n"
      "or destroying. Three ways in: a tag pair (photograph or number), a valve that bears a serial "
      "(--serial),\n"
      "a valve that will not be tracked (--label: makes the label, keeps date, time and photograph).\n"
      "Nothing is refused for contradicting the record; `counterfoil findings` shows what does. One "
      "exception:\n"
      "a suction valve in a discharge pocket, or the reverse, takes a second person and a reason.\n"
      "A ? in a number stands for a character that cannot be read (quote it: a shell takes ? for a "
      "pattern):\n"
      "nothing is logged then, and the numbers on record that it can stand for are listed.";
  command.positionals = {
      {"STEP", "what happened", &options->step, true},
      {"ITEM...", "photographs of tags, folders of them, or numbers", &options->items},
  };
  command.options = {
      {"--serial", "TEXT", "the mark that the valve itself bears", &order.serial},
      {"--label", "", "the valve will not be tracked: make an identification label", &order.label},
      {"--photo", "FILE", "evidence; its tags are not looked at; may be given several times",
       &order.evidence},
      {"--no-copy", "", "do not keep copies of the photographs", &options->no_copy},
      {"--unit", "NAME", "the unit of the pocket; may be left out when the tag has it", &order.unit},
      {"--pocket", "NAME", "the pocket, as the unit's map names it", &order.pocket},
      {"--side", "SIDE", "suction or discharge: the pocket's side", &order.side},
      {"--turnaround", "NAME", "when the tag does not tell it", &order.turnaround},
      {"--part", "TEXT", "the valve's part number", &order.part},
      {"--time", "TIME",
       "when it happened, such as 2026-11-25T09:30, in this desk's zone unless +01:00 or the like follows; "
       "else the photograph's time, else now",
       &order.time},
      {"--by", "NAME", "who did it", &order.by},
      {"--second", "NAME", "the second person who looked, when suction and discharge disagree",
       &order.second},
      {"--reason", "TEXT", "why, with --second", &order.reason},
      {"--from", "TEXT", "who gave it", &order.from},
      {"--to", "TEXT", "where it went: receiver, shelf", &order.to},
      {"--carton", "TEXT", "the carton it is in", &order.carton},
      {"--due", "DATE", "when it is expected back", &order.due},
      {"--condition", "TEXT", "what was seen, in a few words", &order.condition},
      {"--outcome", "TEXT", "of an inspection or repair", &order.outcome},
      {"--note", "TEXT", "anything else", &order.note},
  };
  for (auto& option : options->label.label_options()) command.options.push_back(option);
  for (auto& option : options->reading.options()) command.options.push_back(option);
  command.run = [options](const Context& context) { return run(*options, context); };
  return command;
}

}  // namespace counterfoil
