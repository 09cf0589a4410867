// How often the print check blames a clean print for its words, and how small a fault it finds.
//
//   print_check [--trials 60] [--seed 7] [--photographs]
//
// Pairs of five designs on five stocks are printed by simulated printers of 203.2, 300 and 600 dots per inch that are off
// by up to 0.8 mm, 0.2 % and 0.3 degrees and spread ink by up to 0.05 mm, and scanned with 200 to 600 dots per inch, in
// grey, as JPEG, or in black and white only; or photographed askew. print_check.md has the results.
#include <CLI/CLI.hpp>
#include <array>
#include <cstdio>
#include <functional>
#include <map>
#include <random>
#include <string>
#include <vector>

#include "base/file.h"
#include "reader/image.h"
#include "support/rgb_picture.h"
#include "support/sheet_samples.h"
#include "support/simulated_print.h"
#include "support/temp_folder.h"
#include "workflow/missing_dots.h"

namespace counterfoil {
namespace {

struct Kind {
  const char *stock, *design;
};
constexpr std::array<Kind, 5> kKinds{{{"a4-2x4", "large"},
                                      {"a4-3x7", "medium"},
                                      {"letter-3x10", "small"},
                                      {"letter-2x5", "wide"},
                                      {"tag-5", "upright"}}};

// What is printed instead of what was meant; on the bag half only.
struct Fault {
  const char* name;
  std::function<void(TagContent&)> make;
};
const std::vector<Fault>& faults() {
  static const std::vector<Fault> kFaults{
      {"none", [](TagContent&) {}},
      {"pocket 2 HE S1 -> 2 HE S2", [](TagContent& tag) { tag.texts["pocket"] = "2 HE S2"; }},
      {"pocket 2 HE S1 -> 2 HF S1", [](TagContent& tag) { tag.texts["pocket"] = "2 HF S1"; }},
      {"pocket 2 HE S1 -> 2 HE SI", [](TagContent& tag) { tag.texts["pocket"] = "2 HE SI"; }},
      {"number, 8 -> B", [](TagContent& tag) { tag.texts["number"][8] = 'B'; }},
      {"number, 0 -> O", [](TagContent& tag) { tag.texts["number"][2] = 'O'; }},
      {"number, last 1 -> 7", [](TagContent& tag) { tag.texts["number"].back() = '7'; }},
      {"side", [](TagContent& tag) { tag.side = tag.side == "suction" ? "discharge" : "suction"; }},
      {"no side", [](TagContent& tag) { tag.side.clear(); }},
      {"no pocket", [](TagContent& tag) { tag.texts.erase("pocket"); }},
  };
  return kFaults;
}

class Trial {
 public:
  Trial(unsigned seed, const Kind& kind, bool photograph)
      : random_(seed), photograph_(photograph), order_(sample_order(kind.stock, SheetFormat::png, "")) {
    order_.bag = shipped_design(std::string("bag-") + kind.design);
    order_.box = shipped_design(std::string("box-") + kind.design);
    order_.dots_per_inch = one_of({203.2, 300.0, 600.0});
    Stock& stock = order_.stock;
    stock.rows = std::min(stock.rows, stock.pairing == Stock::Pairing::rows ? 2 : 1);  // enough for a pair
    stock.page_height_mm = stock.top_mm + stock.rows * (stock.label_height_mm + stock.gap_y_mm) + 3;
    meant_ = sample_pair(0);
    for (TagContent* tag : {&meant_.bag, &meant_.box}) {
      tag->side = one_of({0, 1}) == 0 ? "suction" : "discharge";
      tag->texts = {{"number", "K701 448X 61"},
                    {"unit", "U-8"},
                    {"pocket", "2 HE S1"},
                    {"part", "CV-118-B SP3"},
                    {"turnaround", "TA26"}};
    }
    meant_.box.side = meant_.bag.side;
  }

  // What is said of the bag half.
  std::string run(const Fault& fault) {
    PairItem made = meant_;
    fault.make(made.bag);
    const GreyPicture dots = dots_of(made);
    SimulatedPrinter printer;
    printer.dots_per_inch = order_.dots_per_inch;
    printer.spread_mm = between(0, 0.05);
    const double turn = between(-.005, .005);
    printer.map = {1 + between(-.002, .002), -turn,           between(-.8, .8), turn,
                   1 + between(-.002, .002), between(-.8, .8)};
    const Paper paper{order_.stock.page_width_mm, order_.stock.page_height_mm,
                      static_cast<std::uint8_t>(between(180, 250)),
                      static_cast<std::uint8_t>(between(15, 80)), 45};
    const Optics optics{between(.4, 1.2), between(1, 8), static_cast<unsigned>(random_())};
    const DrawnTag tag = value_of(DrawnPage::make(order_, {meant_}, 0)).tag(0, false);
    Affine about;
    GreyPicture scan = photograph_ ? photo(dots, printer, paper, optics, tag, about)
                                   : scanned(dots, printer, paper, optics, about);
    about.x0 += between(-.4, .4) * about.xx;
    about.y0 += between(-.4, .4) * about.yy;
    TagPrint print = tag_print(scan, tag, about);
    if (print.coarse) return "(too coarse)";
    const TagInk ink = measured_ink(tag, print);
    const std::vector<InkedTag> inked{{&tag, &print, &ink, chained(print.map, about.inverse())}};
    std::string said;
    const auto lines = missing_dots(inked);
    for (const auto& line : lines) said += line.column ? "column of dots missing; " : "row of dots missing; ";
    overlook(lines, inked);
    for (const auto& found : ink_findings(tag, print, measured_ink(tag, print)))
      said += found.finding.what + "; ";
    return said;
  }

 private:
  double between(double least, double most) {
    return least + (most - least) * (static_cast<double>(random_()) / 4294967296.0);
  }
  template <typename T>
  T one_of(std::initializer_list<T> all) {
    return *(all.begin() + static_cast<std::ptrdiff_t>(random_() % all.size()));
  }

  GreyPicture dots_of(const PairItem& pair) const {
    const TempFolder folder;
    SheetOrder order = order_;
    order.path = folder.path() + "/sheet.png";
    return value_of(load_picture(value_of(draw_sheet(order, {pair})).files.front(), Channel::luma)).grey;
  }

  GreyPicture scanned(const GreyPicture& dots, const SimulatedPrinter& printer, const Paper& paper,
                      const Optics& optics, Affine& about) {
    Glass glass;
    glass.dots_per_inch_x = glass.dots_per_inch_y = one_of({200.0, 300.0, 300.0, 400.0, 600.0});
    const double per_mm = glass.dots_per_inch_x / 25.4;
    about = chained(printer.map, {per_mm, 0, per_mm * glass.margin_mm, 0, per_mm, per_mm * glass.margin_mm});
    GreyPicture scan = scan_of(dots, printer, paper, glass, optics);
    const int mode = one_of({0, 1, 2});
    if (mode == 1) {
      const double limit = paper.ink + (paper.white - paper.ink) * between(.35, .65);
      for (auto& pixel : scan.pixels) pixel = pixel < limit ? 0 : 255;
    }
    if (mode != 2) return scan;
    return as_jpeg(scan);
  }

  GreyPicture as_jpeg(const GreyPicture& picture) {
    const TempFolder folder;
    const std::string path = folder.path() + "/scan.jpg";
    if (!write_file(path, jpeg_of(picture, static_cast<int>(between(50, 95)))))
      throw std::runtime_error(path);
    return value_of(load_picture(path, Channel::luma)).grey;
  }

  // From half a metre above, leaning by up to 4 degrees each way; `about`: by the tag's symbol.
  GreyPicture photo(const GreyPicture& dots, const SimulatedPrinter& printer, const Paper& paper,
                    const Optics& optics, const DrawnTag& tag, Affine& about) {
    const double per_mm = between(9, 16), lean = 0.07 / 500;
    const Projective view{{per_mm, between(-.3, .3), 60, between(-.3, .3), per_mm, 60, between(-lean, lean),
                           between(-lean, lean), 1}};
    const PicturePoint middle = printer.map({tag.box.x_mm + 15, tag.box.y_mm + tag.box.height_mm / 2});
    const PicturePoint at = view(middle.x, middle.y), right = view(middle.x + 1, middle.y),
                       below = view(middle.x, middle.y + 1);
    Affine near{right.x - at.x, below.x - at.x, 0, right.y - at.y, below.y - at.y, 0};
    const PicturePoint moved = near(middle);
    near.x0 = at.x - moved.x;
    near.y0 = at.y - moved.y;
    about = chained(printer.map, near);
    return as_jpeg(photo_of(dots, printer, paper, view, static_cast<int>(paper.width_mm * per_mm) + 120,
                            static_cast<int>(paper.height_mm * per_mm) + 120, optics));
  }

  std::mt19937 random_;
  bool photograph_;
  SheetOrder order_;
  PairItem meant_;
};

void run(int trials, unsigned seed, bool photographs) {
  for (const auto& fault : faults()) {
    int told = 0, coarse = 0;
    std::map<std::string, int> said;
    for (int i = 0; i < trials; ++i) {
      const std::string words = Trial(seed + static_cast<unsigned>(i),
                                      kKinds[static_cast<std::size_t>(i) % kKinds.size()], photographs)
                                    .run(fault);
      if (words == "(too coarse)")
        ++coarse;
      else if (!words.empty())
        ++told, ++said[words];
    }
    std::printf("%-28s %d of %d told", fault.name, told, trials - coarse);
    if (coarse > 0) std::printf(" (%d too coarse)", coarse);
    std::printf("\n");
    for (const auto& [words, count] : said) std::printf("    %4d  %s\n", count, words.c_str());
    std::fflush(stdout);
  }
}

}  // namespace
}  // namespace counterfoil

int main(int argc, char** argv) {
  CLI::App app("The print check's false alarms, and the faults that it finds.");
  int trials = 60;
  unsigned seed = 7;
  bool photographs = false;
  app.add_option("--trials", trials);
  app.add_option("--seed", seed);
  app.add_flag("--photographs", photographs);
  CLI11_PARSE(app, argc, argv);
  counterfoil::run(trials, seed, photographs);
  return 0;
}
