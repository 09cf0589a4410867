// exploratory
#include <cstdio>
#include <filesystem>
#include <random>

#include "reader/image.h"
#include "support/sheet_samples.h"
#include "support/simulated_print.h"
#include "support/temp_folder.h"
#include "support/rgb_picture.h"
#include "base/file.h"
#include "sheet/symbol_place.h"
#include "workflow/printed_ink.h"

namespace counterfoil {
namespace {

GreyPicture dots_of(SheetOrder order, const std::vector<SheetItem>& items) {
  const TempFolder folder;
  order.path = folder.path() + "/s.png";
  order.format = SheetFormat::png;
  auto report = value_of(draw_sheet(order, items));
  return value_of(load_picture(report.files.front(), Channel::luma)).grey;
}

void run(int trials) {
  std::mt19937 random(7);
  const auto between = [&](double a, double b) { return a + (b - a) * (static_cast<double>(random()) / 4294967296.0); };
  const std::vector<std::pair<std::string, std::string>> kinds{{"a4-2x4", "large"}, {"a4-3x7", "medium"}, {"letter-3x10", "small"},{"letter-2x5","wide"},{"tag-5","upright"}};
  const auto one = [&](const char* label, int t, const std::string& defect) {
    const auto& [stock, size] = kinds[static_cast<std::size_t>(t) % kinds.size()];
    SheetOrder order = sample_order(stock, SheetFormat::png, "");
    order.bag = shipped_design("bag-" + size);
    order.box = shipped_design("box-" + size);
    order.dots_per_inch = std::array{203.2, 300.0, 600.0}[static_cast<std::size_t>(random() % 3)];
    const int rows = std::min(order.stock.rows, order.stock.pairing == Stock::Pairing::rows ? 2 : 1);
    order.stock.rows = rows;
    order.stock.page_height_mm = order.stock.top_mm + rows * (order.stock.label_height_mm + order.stock.gap_y_mm) + 3;
    std::vector<SheetItem> items{sample_pair(t)};
    auto& own = std::get<PairItem>(items[0]);
    own.bag.texts["pocket"] = own.box.texts["pocket"] = "2 HE S1";
    own.bag.texts["unit"] = "U-8";
    auto changed = items;
    auto& pair = std::get<PairItem>(changed[0]);
    if (defect == "S1S2") pair.bag.texts["pocket"] = "2 HE S2";
    if (defect == "EF") pair.bag.texts["pocket"] = "2 HF S1";
    if (defect == "SD") pair.bag.texts["pocket"] = "2 HE D1";
    if (defect == "1I") pair.bag.texts["pocket"] = "2 HE SI";
    if (defect == "HEHF") pair.bag.texts["unit"] = "U-B";
    if (defect == "number") { auto& n = pair.bag.texts["number"]; n[n.size() - 1] = n[n.size()-1]=='1' ? '7' : '1'; }
    if (defect == "0O") { auto& n = pair.bag.texts["number"]; n[2]='O'; std::get<PairItem>(items[0]).bag.texts["number"][2]='0';}
    if (defect == "8B") { auto& n = pair.bag.texts["number"]; for (auto& c : n) if (c == '8') c = 'B'; }
    if (defect == "side") pair.bag.side = pair.bag.side == "suction" ? "discharge" : "suction";
    const GreyPicture page = dots_of(order, changed);
    SimulatedPrinter printer;
    printer.dots_per_inch = order.dots_per_inch;
    printer.spread_mm = between(0, 0.05);
    const double turn = between(-.005, .005);
    printer.map = {1 + between(-.002, .002), -turn, between(-.8, .8), turn, 1 + between(-.002, .002), between(-.8, .8)};
    Paper paper{order.stock.page_width_mm, order.stock.page_height_mm};
    paper.white = static_cast<std::uint8_t>(between(180, 250));
    paper.ink = static_cast<std::uint8_t>(between(15, 80));
    Glass glass;
    const double dpi = std::array{200.0, 300.0, 300.0, 400.0, 600.0}[static_cast<std::size_t>(random() % 5)];
    glass.dots_per_inch_x = glass.dots_per_inch_y = dpi;
    Optics optics;
    optics.seed = static_cast<unsigned>(random());
    optics.blur_pixels = between(.4, 1.2);
    optics.noise = between(1, 8);
    GreyPicture scan = scan_of(page, printer, paper, glass, optics);
    const int mode = static_cast<int>(random() % 3);
    if (mode == 1) { const int at = static_cast<int>(paper.ink + (paper.white - paper.ink) * between(.35, .65)); for (auto& p : scan.pixels) p = p < at ? 0 : 255; }
    if (mode == 2) {
      const TempFolder folder; const std::string f = folder.path() + "/s.jpg";
      (void)write_file(f, jpeg_of(scan, static_cast<int>(between(50, 95))));
      scan = value_of(load_picture(f, Channel::luma)).grey;
    }
    const double per = dpi / 25.4;
    // Known map plus an error as the page's fit has it.
    const auto& m = printer.map;
    const double ex = between(-.5, .5), ey = between(-.5, .5);
    const Affine map{per * m.xx, per * m.xy, per * (m.x0 + 6 + ex), per * m.yx, per * m.yy, per * (m.y0 + 6 + ey)};
    const auto drawn = value_of(DrawnPage::make(order, items, 0));
    for (const bool box : {false, true}) {
      if (box && !defect.empty()) continue;
      const auto places = value_of(places_of(order, items));
      if (box && places[1].page != 0) continue;
      const DrawnTag tag = drawn.tag(places[box ? 1 : 0].label, box);
      const TagPrint print = tag_print(scan, tag, map);
      const TagInk ink = measured_ink(tag, print);
      for (std::size_t i = 0; i < tag.parts.size(); ++i) {
        const auto& p = ink.parts[i];
        std::printf("%s %s %s dpi%.0f scan%.0f mode%d w%d k%d blur%.1f spread%.2f noise%.1f | %s meant %.0f like %.3f str %.2f miss %.1f extra %.1f all", label, defect.empty() ? "x" : defect.c_str(), size.c_str(), order.dots_per_inch, dpi, mode, paper.white, paper.ink, optics.blur_pixels, printer.spread_mm, optics.noise, tag.parts[i].name.c_str(), p.meant, p.likeness, p.strength, p.missing, p.extra);
        if (tag.parts[i].kind == TagPart::Kind::side_mark) std::printf(" sides %zu: %.3f %.3f %.3f", tag.side, ink.side_likeness[0], ink.side_likeness[1], ink.side_likeness[2]);
        std::printf("\n");
      }
    }
  };
  for (int t = 0; t < trials; ++t) one("clean", t, "");
  for (const char* d : {"S1S2", "EF", "SD", "1I", "HEHF", "0O", "number", "8B", "side"})
    for (int t = 0; t < trials / 3; ++t) one("bad", t, d);
}

}  // namespace
}  // namespace counterfoil

int main(int, char** argv) { counterfoil::run(std::atoi(argv[1])); }
