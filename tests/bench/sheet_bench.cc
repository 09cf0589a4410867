// A large batch onto sheets against what it costs at the very least, in one run:
//   TenThousandPairs      10 000 pairs to one PDF, everything drawn
//   BareTenThousandPairs  their 20 000 payloads encoded by bare libqrencode, and bare Cairo pages, as many as
//   the
//                         sheets have, with one rectangle each
#include <benchmark/benchmark.h>
#include <cairo-pdf.h>
#include <qrencode.h>

#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include "sheet/sheet.h"
#include "sheet/stock_file.h"
#include "support/temp_folder.h"

namespace counterfoil {
namespace {

constexpr int kPairs = 10'000;
constexpr std::string_view kTemplates = COUNTERFOIL_SOURCE "/templates/";

// Numbers that look like a batch's; their check characters do not matter here.
std::string number(int i) {
  constexpr std::string_view kAlphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
  std::string text = "K7";
  for (auto scattered = static_cast<std::uint64_t>(i) * 0x9e3779b97f4a7c15; text.size() < 10; scattered <<= 5)
    text += kAlphabet[scattered >> 59];
  return text;
}

std::string payload(int i, const char* half) { return "CF1." + number(i) + "." + half + "1"; }

TagContent tag(int i, const char* half) {
  const std::string whole = number(i);
  TagContent content;
  content.payload = payload(i, half);
  content.side = i % 2 == 0 ? "suction" : "discharge";
  content.texts = {{"number", whole.substr(0, 4) + " " + whole.substr(4, 4) + " " + whole.substr(8)},
                   {"unit", "U2"},
                   {"pocket", std::to_string(i % 8 + 1) + " HE S1"},
                   {"turnaround", "TA26"},
                   {"part", "CV-118-B SP3"}};
  return content;
}

Stock stock_named(std::string_view name) {
  const auto stocks = load_stocks(std::string(kTemplates) + "stocks");
  if (!stocks) std::abort();
  for (const auto& stock : *stocks)
    if (stock.name == name) return stock;
  std::abort();
}

Design design_named(const std::string& name) {
  auto design = Design::load(std::string(kTemplates) + "designs/" + name + ".svg");
  if (!design) std::abort();
  return *design;
}

void TenThousandPairs(benchmark::State& state) {
  const TempFolder folder;
  const SheetOrder order{stock_named("a4-2x4"),
                         design_named("bag"),
                         design_named("box"),
                         300,
                         SheetFormat::pdf,
                         folder / "sheet.pdf",
                         "TA26",
                         "2026-11-25"};
  std::vector<SheetItem> items;
  for (int i = 0; i < kPairs; ++i)
    items.emplace_back(PairItem{tag(i, "BAG"), tag(i, "BOX"), static_cast<std::uint32_t>(i) * 2654435761u});
  for ([[maybe_unused]] auto run : state)
    if (auto drawn = draw_sheet(order, items); !drawn)
      return state.SkipWithError(drawn.error().message.c_str());
  state.counters["bytes_a_tag"] = static_cast<double>(std::filesystem::file_size(order.path)) / (2 * kPairs);
}

void draw_bare(cairo_t* context, const QRcode& code, double x, double y) {
  cairo_surface_t* const mask = cairo_image_surface_create(CAIRO_FORMAT_A1, code.width, code.width);
  unsigned char* const bits = cairo_image_surface_get_data(mask);
  for (int i = 0; i < code.width * code.width; ++i)
    if (code.data[i] & 1)
      bits[i / code.width * cairo_image_surface_get_stride(mask) + i % code.width / 8] |=
          static_cast<unsigned char>(1 << i % code.width % 8);
  cairo_surface_mark_dirty(mask);
  cairo_save(context);
  cairo_translate(context, x, y);
  cairo_scale(context, 2.64, 2.64);
  cairo_pattern_t* const pattern = cairo_pattern_create_for_surface(mask);
  cairo_pattern_set_filter(pattern, CAIRO_FILTER_NEAREST);
  cairo_mask(context, pattern);
  cairo_pattern_destroy(pattern);
  cairo_restore(context);
  cairo_surface_destroy(mask);
}

void BareTenThousandPairs(benchmark::State& state) {
  const TempFolder folder;
  const std::string path = folder / "bare.pdf";
  const Stock stock = stock_named("a4-2x4");
  for ([[maybe_unused]] auto run : state) {
    cairo_surface_t* const surface = cairo_pdf_surface_create(path.c_str(), 595.276, 841.89);
    cairo_t* const context = cairo_create(surface);
    for (int i = 0; i < kPairs; ++i) {
      for (const char* half : {"BAG", "BOX"}) {
        QRcode* const code = QRcode_encodeString(payload(i, half).c_str(), 2, QR_ECLEVEL_H, QR_MODE_8, 1);
        if (code == nullptr) std::abort();
        draw_bare(context, *code, half[1] == 'A' ? 50 : 350, 50 + 190 * (i % stock.pairs_per_page()));
        QRcode_free(code);
      }
      if ((i + 1) % stock.pairs_per_page() == 0) cairo_show_page(context);
    }
    cairo_destroy(context);
    cairo_surface_finish(surface);
    if (cairo_surface_status(surface) != CAIRO_STATUS_SUCCESS) std::abort();
    cairo_surface_destroy(surface);
  }
}

BENCHMARK(TenThousandPairs)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(BareTenThousandPairs)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace
}  // namespace counterfoil
