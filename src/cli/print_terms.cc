#include "cli/print_terms.h"

#include <cmath>
#include <cstdio>

#include "base/text.h"
#include "cli/output.h"

namespace counterfoil {

std::vector<Option> PrintOptions::sheet_options() {
  return {
      {"--stock", "NAME",
       "what is printed on; `counterfoil stocks` lists them (" + std::string(kUsualStock) + ")", &stock},
      {"--dpi", "N", "the printer's dots per inch: 203.2, 300, 304.8, 600 (300)", &dots_per_inch},
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
  return all;
}

PrintTerms PrintOptions::terms(const Context& context, const char* usual_file) const {
  PrintTerms terms;
  terms.templates = context.templates;
  terms.stock = stock;
  terms.dots_per_inch = dots_per_inch;
  terms.path = out.empty() ? usual_file : out;
  terms.paper = paper;
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

}  // namespace

void show_paper(const Printed& printed) {
  if (printed.paper.empty()) return;
  std::string words = printed.paper;
  words[0] = 'S';
  say(words + ".");
}

void show_sheet(const Context& context, const Printed& printed) {
  const SheetReport& sheet = printed.sheet;
  const long micrometres = std::lround(sheet.least_module_mm * 1000);
  if (context.json) {
    Json::Array files, numbers;
    for (const auto& file : sheet.files) files.emplace_back(file);
    for (const auto& number : printed.numbers) numbers.emplace_back(number.text());
    show_json({{"files", std::move(files)},
               {"pages", sheet.pages},
               {"tags", sheet.tags},
               {"least_module_um", std::int64_t{micrometres}},
               {"numbers", std::move(numbers)},
               {"paper", paper_json(printed)},
               {"printed_before", printed.before ? Json(to_text(*printed.before)) : Json()}});
    return;
  }
  char module[32];
  std::snprintf(module, sizeof module, "%.3f", sheet.least_module_mm);
  std::string files;
  for (const auto& file : sheet.files) files += (files.empty() ? "" : ", ") + file;
  say(counted(static_cast<std::uint64_t>(sheet.tags), "tag") + " on " +
      counted(static_cast<std::uint64_t>(sheet.pages), "page") + ": " + files + " (modules of " + module +
      " mm or more)");
  show_paper(printed);
  say("Print at actual size (100 %), never \"fit to page\". Bag half: film with resin ribbon or laser "
      "polyester,");
  say("never direct thermal.");
  if (printed.before)
    show_note("this turnaround was printed before, on " + short_time(*printed.before) +
              ": destroy that sheet, so that no tag exists twice");
}

}  // namespace counterfoil
