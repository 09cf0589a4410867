#include "cli/print_terms.h"

#include <cmath>

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
  all.push_back({"--preview", "FILE", "also a .png to look at, with the labels' outlines in grey", &preview});
  all.push_back({"--to", "PRINTER",
                 "send it there too: a queue that `counterfoil queues` lists, or ipp://HOST/PATH", &to});
  return all;
}

PrintTerms PrintOptions::terms(const Context& context, const char* usual_file) const {
  PrintTerms terms;
  terms.templates = context.templates;
  terms.stock = stock;
  if (!std::isnan(dots_per_inch)) terms.dots_per_inch = dots_per_inch;
  terms.printer = printer;
  terms.path = out.empty() ? usual_file : out;
  terms.preview = preview;
  terms.paper = paper;
  terms.design = design;
  terms.second_language = second_language;
  terms.to = to;
  return terms;
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
  const long micrometres = std::lround(sheet.least_module_mm * 1000);
  if (context.json) {
    Json::Array files, numbers, previews, symbols;
    for (const auto& file : sheet.previews) previews.emplace_back(file);
    for (const auto& symbol : sheet.symbols) symbols.push_back(symbol_json(symbol));
    for (const auto& file : sheet.files) files.emplace_back(file);
    for (const auto& number : printed.numbers) numbers.emplace_back(number.text());
    Json::Object shown = {{"files", std::move(files)},
                          {"pages", sheet.pages},
                          {"tags", sheet.tags},
                          {"previews", std::move(previews)},
                          {"symbols", std::move(symbols)},
                          {"least_module_um", std::int64_t{micrometres}},
                          {"numbers", std::move(numbers)},
                          {"paper", paper_json(printed)},
                          {"printed_before", printed.before ? Json(to_text(*printed.before)) : Json()}};
    if (printed.sent) shown.insert_or_assign("sent", sending_json(*printed.sent));
    show_json(shown);
    return;
  }
  std::string files;
  for (const auto& file : sheet.files) files += (files.empty() ? "" : ", ") + file;
  say(counted(static_cast<std::uint64_t>(sheet.tags), "tag") + " on " +
      counted(static_cast<std::uint64_t>(sheet.pages), "page") + ": " + files);
  for (const auto& symbol : sheet.symbols) {
    say("  " + symbol_line(symbol));
    say("    why: " + symbol_reason(symbol));
  }
  for (const auto& file : sheet.previews) say("Preview: " + file);
  show_paper(printed);
  if (printed.sent) {
    show_sending(*printed.sent);
    say("Bag half: film with resin ribbon or laser polyester, never direct thermal.");
  } else {
    say("Print at actual size (100 %), never \"fit to page\". Bag half: film with resin ribbon or laser "
        "polyester,");
    say("never direct thermal.");
  }
  note_printer_faults(sheet);
  if (printed.before)
    show_note("printed before, on " + short_time(*printed.before) +
              ": destroy what came out then, so that no tag exists twice");
}

}  // namespace counterfoil
