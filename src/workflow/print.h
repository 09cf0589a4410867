// Printing: sheets of tag pairs, the next copy of a half, identification labels. Turns what the record knows
// of a number into what a tag shows; the drawing is the sheet room's.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "custody/event.h"
#include "queue/queue.h"
#include "sheet/sheet.h"
#include "workflow/desk.h"
#include "workflow/paper.h"
#include "workflow/stocks.h"

namespace counterfoil {

struct PrintTerms {
  std::string templates;  // folder with stocks/, designs/ and words/
  std::string stock;      // name, or a file of a user's own; empty: kUsualStock
  double dots_per_inch = 300;
  std::string path;       // ends in .pdf, .png or .svg
  std::string preview{};  // ends in .png; empty: none
  PaperTerms paper{};
  std::string design{};           // "large": the size of designs; empty: the largest that fits the stock
  std::string second_language{};  // "es": standing words in it as well; empty: in English only
