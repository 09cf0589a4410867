// Draws every shipped design, size by size, as PNG files of a printer's dots to be looked at:
//     contact_sheets FOLDER
// A row is a design, in the order of bag, box, spare halves, label, carton; its tags have the shortest texts, the longest,
// and Arabic or Hebrew ones, with suction, discharge and no side. Designs in two languages: Spanish, Arabic, Czech.
#include <cstdio>

#include "support/design_samples.h"

namespace counterfoil {
namespace {

constexpr double kDotsPerInch = 203.2;

// Returns false after saying why.
bool draw(const std::string& size, bool second, const std::string& folder) {
  std::vector<SheetItem> items;
  double width = 0, height = 0;
  for (const std::string kind : {"bag", "box", "spare-bag", "spare-box", "label", "carton"}) {
    if (kind == "carton" && (second || size == "narrow" || size == "upright" || size == "long")) continue;
    const std::string name = kind + "-" + size + (second ? "-second" : "");
    const Design design = shipped_design(name);
    width = design.width_mm(), height = design.height_mm();
    const bool odd = kind.ends_with("box") || kind == "carton";
    const auto add = [&](Filling filling, const std::string& side, const std::string& language) {
      items.emplace_back(SingleItem{filled(design, filling, side, second ? language : ""), design});
    };
    add(Filling::shortest, odd ? "discharge" : "suction", "es");
    add(Filling::longest, odd ? "suction" : "discharge", odd ? "cs" : "es");
    add(odd ? Filling::hebrew : Filling::arabic, odd ? "discharge" : "suction", "ar");
    add(Filling::shortest, "", "cs");
  }
  const int columns = height > width ? 8 : 4;
  const int rows = (static_cast<int>(items.size()) + columns - 1) / columns;
  const std::string path = folder + "/designs-" + size + (second ? "-second" : "") + ".png";
  const auto drawn = draw_sheet({bench_stock(width, height, columns, rows), shipped_design("bag-" + size),
                                 shipped_design("box-" + size), kDotsPerInch, SheetFormat::png, path,
                                 "Designs", "2026-11-25T09:30:15Z"},
                                items);
  if (!drawn) std::fprintf(stderr, "%s: %s\n", path.c_str(), drawn.error().message.c_str());
  return static_cast<bool>(drawn);
}

}  // namespace
}  // namespace counterfoil

int main(int count, char** arguments) {
  if (count != 2) {
    std::fputs("usage: contact_sheets FOLDER\n", stderr);
    return 2;
  }
  bool all = true;
  for (const std::string size :
       {"small", "strip", "medium", "broad", "wide", "large", "tall", "narrow", "upright", "long"}) {
    all = counterfoil::draw(size, false, arguments[1]) && all;
    if (size == "wide" || size == "large" || size == "tall")
      all = counterfoil::draw(size, true, arguments[1]) && all;
  }
  return all ? 0 : 1;
}
