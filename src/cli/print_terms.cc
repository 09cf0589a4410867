#include "cli/print_terms.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <utility>

#include "base/nearest.h"
#include "base/text.h"
#include "cli/output.h"
#include "cli/symbol_words.h"

namespace counterfoil {

Option printer_option(std::string* printer) {
  return {
      "--printer", "FILE",
      "correct the printer's errors by this profile, which `counterfoil calibrate` makes; also says its dots",
      printer};
}

std::vector<Option> PrintOptions::sheet_options() {
  return {
      {"--stock", "NAME",
       "what is printed on; `counterfoil stocks` lists them (" + std::string(kUsualStock) +
           "), or your own .json file",
       &stock},
      {"--dpi", "N", "the printer's dots per inch: 203.2, 300, 304.8, 600 (300)", &dots_per_inch},
      printer_option(&printer),
      {"--design", "SIZE", "a size of designs, such as small or large (the largest that fits the stock)",
       &design},
      {"--second-language", "NAME", "the standing words in this language too: ar, cs, es", &second_language},
      {"--start-at", "N", "the first label that the first sheet has left, counted row by row",
       &paper.start_at},
      {"--spoiled", "LIST", "labels of the first sheet to leave out, such as 7,9-10", &paper.spoiled},
  };
}

std::vector<Option> PrintOptions::options(const char* usual_file) {
  auto all = sheet_options();
  all.push_back(
      {"--stack", "NAME", "take the sheets from this stack, and remember what it has left", &paper.stack});
  all.push_back({"--out", "FILE", "ends in .pdf, .png or .svg (" + std::string(usual_file) + ")", &out});
  all.push_back(
      {"--preview", "FILE",
       "a .png to look at, with the labels' outlines in grey; without --out or --to nothing is printed "
       "or logged",
       &preview});
  all.push_back({"--to", "PRINTER",
                 "send it there too: a queue that `counterfoil queues` lists, or ipp://HOST/PATH", &to});
  return all;
}

std::vector<Option> PrintOptions::label_options() {
  auto all = sheet_options();
  all.push_back(
      {"--stack", "NAME", "take the sheet from this stack, and remember what it has left", &paper.stack});
  all.push_back({"--out", "FILE", "where the label goes (label-NUMBER.pdf)", &out});
  all.push_back({"--preview", "FILE", "also a .png to look at, with the stock's outlines", &preview});
  for (auto& option : all) option.help = "with --label: " + option.help;
  return all;
}

PrintTerms PrintOptions::terms(const Context& context, const std::string& usual_file) const {
  PrintTerms terms;
  terms.templates = context.templates;
  terms.stock = stock;
  if (!std::isnan(dots_per_inch)) terms.dots_per_inch = dots_per_inch;
  terms.printer = printer;
  terms.path = out.empty() ? usual_file : out;
  terms.preview = preview;
  terms.preview_only = !preview.empty() && out.empty() && to.empty();
  std::error_code failed;
  if (terms.preview_only)
    terms.path = std::filesystem::temp_directory_path(failed) / "look.pdf";  // never left there
  terms.paper = paper;
  terms.design = design;
  terms.second_language = second_language;
  terms.to = to;
  return terms;
}

std::string PrintOptions::given() const {
  const std::array<std::pair<const char*, bool>, 11> all = {{{"--stock", !stock.empty()},
                                                             {"--dpi", !std::isnan(dots_per_inch)},
                                                             {"--printer", !printer.empty()},
                                                             {"--design", !design.empty()},
                                                             {"--second-language", !second_language.empty()},
                                                             {"--start-at", paper.start_at != kNotSaid},
                                                             {"--spoiled", !paper.spoiled.empty()},
                                                             {"--stack", !paper.stack.empty()},
                                                             {"--out", !out.empty()},
                                                             {"--preview", !preview.empty()},
                                                             {"--to", !to.empty()}}};
  const auto found = std::find_if(all.begin(), all.end(), [](const auto& option) { return option.second; });
  return found == all.end() ? "" : found->first;
}

namespace {

Json paper_json(const Printed& printed) {
  if (!printed.stack) return {};
  const Stack& stack = *printed.stack;
  return Json::Object{{"stack", stack.name},
                      {"stock", stack.stock},
                      {"first", printed.sheet.first_label},
                      {"next", stack.next()},
                      {"left", stack.left()}};
}

Json sending_json(const Sending& sending) {
  Json::Array jobs;
  for (const int job : sending.jobs) jobs.emplace_back(job);
  return Json::Object{{"to", sending.to}, {"jobs", std::move(jobs)}, {"unscaled", sending.unscaled}};
}

void show_sending(const Sending& sending) {
  std::string jobs;
  for (const int job : sending.jobs) jobs += (jobs.empty() ? "" : ", ") + std::to_string(job);
  say("Sent to " + sending.to + " as job " + jobs +
      ", to be printed at actual size. Whether it came out, only");
  say("the paper tells.");
  if (!sending.unscaled)
    show_note("the printer " + sending.to +
              " does not say that it can print at actual size: measure the sheet before you use it");
}

Json::Array texts_of(const std::vector<Number>& numbers) {
  Json::Array texts;
  for (const auto& number : numbers) texts.emplace_back(number.text());
  return texts;
}

Json::Object sheet_json(const Printed& printed) {
  const SheetReport& sheet = printed.sheet;
  Json::Array files(sheet.files.begin(), sheet.files.end());
  Json::Array previews(sheet.previews.begin(), sheet.previews.end());
  Json::Array symbols, copies;
  for (const auto& symbol : sheet.symbols) symbols.push_back(symbol_json(symbol));
  for (const auto& made : printed.copies)
    for (const auto& half : made.halves)
      copies.emplace_back(Json::Object{
          {"number", made.number.text()}, {"half", std::string(to_text(half.half))}, {"copy", half.copy}});
  Json::Object shown = {
      {"files", std::move(files)},
      {"pages", sheet.pages},
      {"tags", sheet.tags},
      {"previews", std::move(previews)},
      {"symbols", std::move(symbols)},
      {"dots_per_inch", printed.dots_per_inch},
      {"least_module_um", std::int64_t{std::lround(sheet.least_module_mm * 1000)}},
      {"numbers", texts_of(printed.numbers)},
      {"named_again", texts_of(printed.named_again)},
      {"paper", paper_json(printed)},
      {"printed_before", printed.before ? Json(to_text(printed.before->last)) : Json()},
      {"numbers_before", texts_of(printed.before ? printed.before->pairs : std::vector<Number>())},
      {"logged", printed.logged}};
  if (!copies.empty()) shown.insert_or_assign("copies", std::move(copies));
  if (printed.sent) shown.insert_or_assign("sent", sending_json(*printed.sent));
  return shown;
}

std::string some_of(const std::vector<Number>& numbers) {
  constexpr std::size_t kMost = 8;
  std::vector<std::string> shown;
  for (const auto& number : numbers)
    if (shown.size() < kMost) shown.push_back(number.grouped());
  const std::size_t rest = numbers.size() - shown.size();
  return listed(shown) + (rest == 0 ? "" : " and " + std::to_string(rest) + " more");
}

// Last of all, where it is seen.
void note_numbers(const Printed& printed) {
  if (!printed.named_again.empty())
    show_note(some_of(printed.named_again) + " stood more than once among the numbers: " +
              (printed.logged ? "printed once" : "to be printed once"));
  if (!printed.before) return;
  const auto& pairs = printed.before->pairs;
  const bool all = pairs.size() == printed.numbers.size() && pairs.size() > 1;
  show_note((all ? "all of these pairs were" : some_of(pairs) + (pairs.size() == 1 ? " was" : " were")) +
            " printed before, " + (pairs.size() == 1 ? "on " : "last on ") +
            short_time(printed.before->last) + ": destroy what came out then, so that no tag exists twice");
}

}  // namespace

void show_paper(const Printed& printed) {
  if (printed.paper.empty()) return;
  std::string words = printed.paper;
  words[0] = 'S';
  say(words + ".");
}

void note_printer_faults(const SheetReport& sheet) {
  if (sheet.on_dead_columns > 0)
    show_note("dead dots of the printer run through " +
              counted(static_cast<std::uint64_t>(sheet.on_dead_columns), "symbol") +
              ": read them before they are used, or take another printer");
  if (sheet.out_of_reach > 0)
    show_note("by its profile the printer prints nothing where part of " +
              counted(static_cast<std::uint64_t>(sheet.out_of_reach), "tag") +
              " lies: look for what is missing");
}

void show_sheet(const Context& context, const Printed& printed) {
  const SheetReport& sheet = printed.sheet;
  if (context.json) return show_json(sheet_json(printed));
  const std::string what = counted(static_cast<std::uint64_t>(sheet.tags), "tag") + " on " +
                           counted(static_cast<std::uint64_t>(sheet.pages), "page") + " at " +
                           decimal(printed.dots_per_inch) + " dots per inch";
  if (printed.logged)
    say(what + ": " + listed(sheet.files));
  else
    say("Nothing was printed or logged; it would be " + what + ".");
  for (const auto& made : printed.copies) {
    std::string halves;
    for (const auto& half : made.halves)
      halves += (halves.empty() ? "" : ", ") + std::string(to_text(half.half)) + " half copy " +
                std::to_string(half.copy);
    say("  " + made.number.grouped() + ": " + halves);
  }
  if (!printed.copies.empty() && printed.logged)
    say("  Older copies are out of date from now on: destroy them where you find them.");
  for (const auto& symbol : sheet.symbols) {
    say("  " + symbol_line(symbol));
    say("    why: " + symbol_reason(symbol));
  }
  for (const auto& file : sheet.previews) say("Preview: " + file);
  show_paper(printed);
  if (printed.sent) {
    show_sending(*printed.sent);
    say("Bag half: film with resin ribbon or laser polyester, never direct thermal.");
  } else if (printed.logged) {
    say("Print at actual size (100 %), never \"fit to page\". Bag half: film with resin ribbon or laser "
        "polyester,");
    say("never direct thermal.");
  } else {
    say("To print it: the same with --out FILE.pdf.");
  }
  note_printer_faults(sheet);
  note_numbers(printed);
}

}  // namespace counterfoil
