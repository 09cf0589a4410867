#include "workflow/print_finding.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

#include "base/text.h"

namespace counterfoil {
namespace {

constexpr double kGrown = 0.15;     // modules; from there on growth is named as the cause
constexpr double kDarkPaper = 0.6;  // reflectance
constexpr double kPaleInk = 0.3;    // reflectance

std::string decimals(double value, int count) {
  std::array<char, 32> text;
  const double unit = std::pow(10, -count);
  const double rounded = std::round(value / unit) * unit;
  std::snprintf(text.data(), text.size(), "%.*f", count, rounded == 0 ? 0.0 : rounded);  // never -0.0
  return text.data();
}

struct Words {
  std::string what, advice;
};

Words contrast_words(const SymbolCheck& check) {
  if (check.largest < kDarkPaper && check.least < kPaleInk)
    return {"the paper is dark", "take lighter stock, or scan without shading"};
  return {"too pale", "raise the darkness (burn), or change ribbon or toner"};
}

Words modulation_words(const SymbolCheck& check) {
  const double growth = (check.grid.growth_x() + check.grid.growth_y()) / 2;
  if (growth > kGrown)
    return {"dark runs out by " + decimals(growth, 2) + " of a module",
            "lower the darkness (burn) or the speed"};
  if (growth < -kGrown)
    return {"dark is too narrow by " + decimals(-growth, 2) + " of a module", "raise the darkness (burn)"};
  return {"some modules are neither dark nor light",
          "clean head, roller or drum, and look at the places marked"};
}

Words words_for(Parameter parameter, const SymbolCheck& check) {
  switch (parameter) {
    case Parameter::decoding:
      return {"cannot be decoded plainly", "print it again"};
    case Parameter::contrast:
      return contrast_words(check);
    case Parameter::modulation:
      return modulation_words(check);
    case Parameter::axial:
      return {std::string("stretched ") + (check.grid.pixels_x() > check.grid.pixels_y() ? "across" : "down"),
              "check the feed (roller, slipping stock) and the driver's scaling"};
    case Parameter::grid:
      return {"modules are out of line", "check the feed for jerks and the stock for creases"};
    case Parameter::unused_correction:
      return {counted(static_cast<std::uint64_t>(check.wrong_codewords), "codeword") + " printed wrong",
              "clean head, roller or drum, and look at the places marked"};
    case Parameter::fixed_patterns:
      if (check.fixed.wrong.empty())
        return {"the fixed patterns are weak", "clean head, roller or drum; keep the quiet zone free"};
      return {counted(check.fixed.wrong.size(), "module") + " of the fixed patterns or the quiet zone wrong",
              "clean head, roller or drum; keep the quiet zone free"};
  }
  return {};
}

}  // namespace

std::string_view to_text(PrintVerdict verdict) {
  constexpr std::array<std::string_view, 3> kNames{"good", "usable", "reprint"};
  return kNames[static_cast<std::size_t>(verdict)];
}

PrintVerdict verdict_of_grade(int grade) {
  return grade >= kGoodGrade     ? PrintVerdict::good
         : grade >= kUsableGrade ? PrintVerdict::usable
                                 : PrintVerdict::reprint;
}

PrintVerdict worst(const std::vector<PrintFinding>& findings) {
  PrintVerdict worst = PrintVerdict::good;
  for (const auto& finding : findings) worst = std::max(worst, finding.verdict);
  return worst;
}

std::vector<PrintFinding> findings_of(const SymbolCheck& check) {
  std::vector<Parameter> weak;
  for (const Parameter p : kParameters)
    if (check[p] && check[p]->grade < kBestGrade &&
        !(p == Parameter::unused_correction && check.right.empty()))
      weak.push_back(p);  // nothing is known of errors in what was not decoded
  std::stable_sort(weak.begin(), weak.end(),
                   [&](Parameter a, Parameter b) { return check[a]->grade < check[b]->grade; });
  std::vector<PrintFinding> findings;
  for (const Parameter p : weak) {
    const Words words = words_for(p, check);
    const auto& [value, grade] = *check[p];
    std::string measured = std::string(to_text(p));
    if (p != Parameter::decoding && p != Parameter::fixed_patterns) measured += " " + decimals(value, 3);
    findings.push_back({verdict_of_grade(grade),
                        words.what + " (" + measured + ", grade " + std::to_string(grade) + ")",
                        words.advice});
  }
  return findings;
}

std::string mm_text(double mm) { return decimals(mm, 1) + " mm"; }

std::string offset_text(PicturePoint mm) {
  constexpr double kShown = 0.05;  // less is said as 0.0, to neither side
  return mm_text(std::abs(mm.x)) + (mm.x <= -kShown ? " to the left and " : " to the right and ") +
         mm_text(std::abs(mm.y)) + (mm.y <= -kShown ? " up" : " down");
}

std::string dots_text(double dots_per_inch) {
  const bool whole = dots_per_inch == std::round(dots_per_inch);
  return decimals(dots_per_inch, whole ? 0 : 1);
}

std::string percent_text(double share) { return decimals(share * 100, 1) + " %"; }

}  // namespace counterfoil
