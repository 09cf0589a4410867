// Prints every shipped design on every shipped stock that it fits, with the longest texts in Latin, Arabic and Hebrew letters
// and the shortest, at 203.2, 300 and 600 dots per inch, and looks at each page (roundtrip/sheet_proof.h):
//     prove_designs [STOCK...] [DESIGN...]      all stocks and designs, or these: a4-2x4 bag-large
// A line is a stock with designs that were printed on one sheet: the symbols that both readers read there, by dots per
// inch. Ends with 1 if anything is wrong; what it is stands on stderr.
#include <array>
#include <cstdio>
#include <set>

#include "roundtrip/sheet_proof.h"
#include "support/design_samples.h"

namespace counterfoil {
namespace {

constexpr std::array kDotsPerInch = {203.2, 300.0, 600.0};

struct Totals {
  int combinations = 0, tags = 0, symbols = 0, faults = 0;
};

void prove(const Stock& stock, const DesignGroup& group, Totals& totals) {
  std::vector<SheetItem> items;
  for (int which = 0; which < kSpecimens; ++which)
    items.push_back(specimen(group, which, static_cast<std::size_t>(which)));
  std::printf("%-13s %-46s", stock.name.c_str(), group.name().c_str());
  for (const double dpi : kDotsPerInch) {
    const SheetProof proof = prove_sheet(stock, items, dpi, true);
    totals.combinations += group.box ? 2 : 1;
    totals.tags += proof.tags;
    totals.symbols += proof.symbols;
    totals.faults += static_cast<int>(proof.faults.size());
    const std::string result = std::to_string(proof.symbols) +
                               (proof.faults.empty() ? "" : " WRONG " + std::to_string(proof.faults.size()));
    std::printf(" %10s", result.c_str());
    for (const auto& fault : proof.faults)
      std::fprintf(stderr, "%s at %g dpi: %s\n", stock.name.c_str(), dpi, fault.c_str());
  }
  std::printf("\n");
  std::fflush(stdout);
}

// Those that are wanted by name; all where none of them is.
template <typename Named>
std::vector<Named> chosen(std::vector<Named> all, const std::set<std::string>& wanted, auto name_of) {
  std::vector<Named> some;
  for (const auto& one : all)
    if (wanted.contains(name_of(one))) some.push_back(one);
  return some.empty() ? all : some;
}

int run(const std::set<std::string>& wanted) {
  std::vector<Design> designs;
  for (const auto& name : chosen(shipped_design_names(), wanted, [](const auto& name) { return name; }))
    designs.push_back(shipped_design(name));
  const auto stocks = chosen(value_of(load_stocks(kTemplates + "stocks")), wanted,
                             [](const Stock& stock) { return stock.name; });
  std::printf("%-13s %-46s", "STOCK", "DESIGNS");
  for (const double dpi : kDotsPerInch) std::printf("    %4g dpi", dpi);
  std::printf("\n");
  Totals totals;
  for (const auto& stock : stocks) {
    std::vector<Design> fitting;
    for (const auto& design : designs)
      if (fits(design, stock)) fitting.push_back(design);
    for (const auto& group : grouped(fitting)) prove(stock, group, totals);
  }
  std::printf("%d combinations of stock, design and dots per inch; %d tags, %d symbols; %d faults\n",
              totals.combinations, totals.tags, totals.symbols, totals.faults);
  return totals.faults == 0 && totals.tags > 0 ? 0 : 1;
}

}  // namespace
}  // namespace counterfoil

int main(int count, char** arguments) { return counterfoil::run({arguments + 1, arguments + count}); }
