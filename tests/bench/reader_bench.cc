// Reading a clean 12-megapixel JPEG against what it costs at the very least, in one run:
//   CleanPhoto  against  BarePhoto: libvips to grey, then one plain ZXing-cpp call (QR Code only, TryHarder
//   on), decoding of the file included in both.
// The picture is drawn here: one tag on a lit and slightly noisy ground, as a camera would have it.
#include <benchmark/benchmark.h>
#include <vips/vips.h>

#include <cmath>
#include <cstdint>
#include <random>
#include <string>
#include <string_view>
#include <vector>

#include "reader/photo.h"
#include "support/temp_folder.h"
#include "support/zxing.h"
#include "symbol/matrix.h"

namespace counterfoil {
namespace {

constexpr std::string_view kText = "CF1:7KWP-M4XE-3N";
constexpr int kWidth = 4000, kHeight = 3000;

// Grey value of the scene: paper with a symbol whose modules are 12 pixels wide, turned by some degrees.
double scene(const SymbolMatrix& symbol, int x, int y) {
  constexpr double kModule = 12, kTurn = 0.1;
  const double dx = x - 1500.0, dy = y - 1200.0;
  const double u = (std::cos(kTurn) * dx + std::sin(kTurn) * dy) / kModule;
  const double v = (std::cos(kTurn) * dy - std::sin(kTurn) * dx) / kModule;
  const double light = 230 - 60.0 * x / kWidth - 40.0 * y / kHeight;
  const double side = symbol.modules;
  if (u < -kQuietZoneModules || v < -kQuietZoneModules || u > side + kQuietZoneModules ||
      v > side + kQuietZoneModules) {
    return 0.6 * light + 12 * std::sin(x / 37.0) * std::cos(y / 51.0);
  }
  const bool dark =
      u >= 0 && v >= 0 && u < side && v < side && symbol.at(static_cast<int>(u), static_cast<int>(v));
  return dark ? 0.15 * light : light;
}

std::string clean_photo() {
  static const TempFolder folder;
  static const std::string path = [] {
    const SymbolMatrix symbol = *encode_symbol(kText, CorrectionLevel::high);
    std::mt19937 noise(1);
    std::vector<std::uint8_t> rgb;
    rgb.reserve(std::size_t{3} * kWidth * kHeight);
    for (int y = 0; y < kHeight; ++y) {
      for (int x = 0; x < kWidth; ++x) {
        const double value = scene(symbol, x, y) + static_cast<double>(noise() % 9) - 4;
        for (const double tint : {1.0, 0.97, 0.9}) rgb.push_back(static_cast<std::uint8_t>(value * tint));
      }
    }
    VIPS_INIT("reader_bench");
    VipsImage* image =
        vips_image_new_from_memory(rgb.data(), rgb.size(), kWidth, kHeight, 3, VIPS_FORMAT_UCHAR);
    image->Type = VIPS_INTERPRETATION_sRGB;
    std::string file = folder / "clean.jpg";
    vips_jpegsave(image, file.c_str(), "Q", 90, nullptr);
    g_object_unref(image);
    return file;
  }();
  return path;
}

void CleanPhoto(benchmark::State& state) {
  const std::string path = clean_photo();
  const PhotoOptions options{[](std::string_view text) { return text == kText; }};
  for (auto _ : state) {
    const auto photo = read_photo(path, options);
    if (!photo || photo->codes.size() != 1) state.SkipWithError("the tag was not read");
  }
}

void BarePhoto(benchmark::State& state) {
  const std::string path = clean_photo();
  for (auto _ : state) {
    VipsImage *image = nullptr, *grey = nullptr;
    if (vips_jpegload(path.c_str(), &image, "access", VIPS_ACCESS_SEQUENTIAL, nullptr) != 0 ||
        vips_colourspace(image, &grey, VIPS_INTERPRETATION_B_W, nullptr) != 0) {
      state.SkipWithError("the picture was not loaded");
      break;
    }
    std::size_t size = 0;
    void* pixels = vips_image_write_to_memory(grey, &size);
    const auto codes =
        plain_read({static_cast<const std::uint8_t*>(pixels), kWidth, kHeight}, PlainSearch::qr_only);
    if (codes.size() != 1 || codes[0].text != kText) state.SkipWithError("the tag was not read");
    g_free(pixels);
    g_object_unref(grey);
    g_object_unref(image);
  }
}

BENCHMARK(BarePhoto)->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime()->UseRealTime();
BENCHMARK(CleanPhoto)->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime()->UseRealTime();

}  // namespace
}  // namespace counterfoil
