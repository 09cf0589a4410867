// What is wrong with a print, in plain words, how bad it is, and what to do. The limits of the three verdicts are ours.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/grey.h"
#include "grade/symbol_check.h"

namespace counterfoil {

enum class PrintVerdict { good, usable, reprint };
std::string_view to_text(PrintVerdict verdict);

// A symbol of the grades 3 and 4 is good, one of grade 2 usable.
inline constexpr int kGoodGrade = 3, kUsableGrade = 2;
// Of the page's scale, either axis; a label that lies 250 mm from where the page begins creeps by 0.75 and 2.5 mm.
inline constexpr double kGoodScale = 0.003, kUsableScale = 0.01;
// Of the page, and of one tag from where the others have it.
inline constexpr double kGoodOffsetMm = 1, kUsableOffsetMm = 2;
inline constexpr double kGoodStrayMm = 0.5, kUsableStrayMm = 1;

struct PrintFinding {
  PrintVerdict verdict = PrintVerdict::reprint;
  std::string what;    // "too pale (symbol contrast .31, grade 1)"
  std::string advice;  // "raise the darkness"; may be empty
};

PrintVerdict verdict_of_grade(int grade);
// The worst of all; good when there is none.
PrintVerdict worst(const std::vector<PrintFinding>& findings);

// One for each parameter below grade 4 - a good one too, so that a weak spot is seen early - the weakest first.
std::vector<PrintFinding> findings_of(const SymbolCheck& check);

// "1.3 mm", "96.1 %", "203.2"
std::string mm_text(double mm);
// "0.3 mm to the left and 1.5 mm down", of a place on a page in mm from where it should be.
std::string offset_text(PicturePoint mm);
std::string dots_text(double dots_per_inch);
std::string percent_text(double share);

}  // namespace counterfoil
