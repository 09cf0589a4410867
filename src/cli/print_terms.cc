#include "cli/print_terms.h"

#include <cmath>

#include "base/text.h"
#include "cli/output.h"
#include "cli/symbol_words.h"

namespace counterfoil {

std::vector<Option> PrintOptions::options(const char* usual_file) {
  return {
      {"--stock", "NAME",
       "what is printed on; `counterfoil stocks` lists them (" + std::string(kUsualStock) +
           "), or your own .json file",
       &stock},
      {"--dpi", "N", "the printer's dots per inch: 203.2, 300, 304.8, 600 (300)", &dots_per_inch},
      {"--design", "SIZE", "a size of designs, such as small or large (the largest that fits the stock)",
       &design},
      {"--second-language", "NAME", "the standing words in this language too: ar, cs, es", &second_language},
      {"--stack", "NAME", "take the sheets from this stack, and remember what it has left", &paper.stack},
      {"--start-at", "N", "the first label that the first sheet has left, counted row by row",
       &paper.start_at},
      {"--spoiled", "LIST", "labels of the first sheet to leave out, such as 7,9-10", &paper.spoiled},
      {"--out", "FILE", "ends in .pdf, .png or .svg (" + std::string(usual_file) + ")", &out},
      {"--preview", "FILE", "also a .png to look at, with the labels' outlines in grey", &preview},
      {"--to", "PRINTER", "send it there too: a queue that `counterfoil queues` lists, or ipp://HOST/PATH",
       &to},
  };
}

PrintTerms PrintOptions::terms(const Context& context, const char* usual_file) const {
  PrintTerms terms;
  terms.templates = context.templates;
  terms.stock = stock;
  terms.dots_per_inch = dots_per_inch;
  terms.path = out.empty() ? usual_file : out;
  terms.preview = preview;
  terms.paper = paper;
  terms.design = design;
  terms.second_language = second_language;
