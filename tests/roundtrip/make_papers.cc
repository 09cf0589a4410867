// Cards and lists for sample-labels, as PNG: make_papers FOLDER
#include <cstdio>

#include "support/paper_samples.h"

int main(int argc, char** argv) {
  using namespace counterfoil;
  if (argc != 2) {
    std::fprintf(stderr, "usage: make_papers FOLDER\n");
    return 2;
  }
  const auto paper = [&](const std::string& name, DocumentOrder order) {
    order.format = SheetFormat::png;
    order.dots_per_inch = 150;
    order.path = std::string(argv[1]) + "/" + name + ".png";
    return order;
  };
  const auto done = [](const Result<DocumentReport>& report) {
    if (!report) std::fprintf(stderr, "make_papers: %s\n", report.error().message.c_str());
    return static_cast<bool>(report);
  };
  const DocumentOrder a4 = sample_paper(SheetFormat::png, "");
  auto trays = sample_trays();
  trays.resize(1);
  return done(draw_list(paper("carton-list", a4), paper_list(sample_carton(10)))) &&
                 done(draw_list(paper("pick-list", a4), paper_list(sample_pick(8)))) &&
                 done(draw_pocket_map(paper("pocket-map", a4), sample_map(3))) &&
                 done(draw_tray_cards(paper("tray-card", sample_tray_paper(SheetFormat::png, "")), trays))
             ? 0
             : 1;
}
