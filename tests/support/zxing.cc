#include "support/zxing.h"

#define ZX_USE_UTF8  // Result::text() of 1.4 in UTF-8
#include <ZXing/ReadBarcode.h>

// From 3.0 on the library is built with a new writer, with the old one or with both; before, with the old one.
#if __has_include(<ZXing/MultiFormatWriter.h>)
#include <ZXing/BitMatrix.h>
#include <ZXing/MultiFormatWriter.h>

#include <algorithm>
#else
#include <ZXing/CreateBarcode.h>
#endif

namespace counterfoil {
namespace {

using ZXing::BarcodeFormat;

#if __has_include(<ZXing/ReaderOptions.h>)  // from 2.2 on; they would set brackets into some texts
ZXing::ReaderOptions library_options() { return ZXing::ReaderOptions().setTextMode(ZXing::TextMode::Plain); }
#else
ZXing::DecodeHints library_options() { return {}; }
#endif

BarcodeFormat library_format(ForeignFormat format) {
  return format == ForeignFormat::data_matrix ? BarcodeFormat::DataMatrix : BarcodeFormat::Code128;
}

template <typename IsDark>
ForeignCode collected(int width, int height, IsDark is_dark) {
  ForeignCode code{width, height, {}};
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) code.dark.push_back(is_dark(x, y) ? 1 : 0);
  }
  return code;
}

}  // namespace

std::vector<PlainCode> plain_read(GreyView grey, PlainSearch search) {
  if (grey.empty()) return {};
  auto options = library_options();
  if (search == PlainSearch::qr_only) options.setFormats(BarcodeFormat::QRCode);
  const ZXing::ImageView view(grey.pixels, grey.width, grey.height, ZXing::ImageFormat::Lum);
  std::vector<PlainCode> codes;
  for (const auto& found : ZXing::ReadBarcodes(view, options)) {
    // In 3.x QRCode as a choice takes in Micro QR and rMQR.
    if (search == PlainSearch::qr_only && found.format() != BarcodeFormat::QRCode) continue;
    PlainCode code{found.text(), {}};
    for (std::size_t i = 0; i < 4; ++i) {
      const auto corner = found.position()[i];
      code.corners[i] = {static_cast<double>(corner.x), static_cast<double>(corner.y)};
    }
    codes.push_back(std::move(code));
  }
  return codes;
}

#if __has_include(<ZXing/MultiFormatWriter.h>)

ForeignCode foreign_code(ForeignFormat format, const std::string& text) {
  std::string written = text;
  if (format == ForeignFormat::gs1_128) {
    std::erase_if(written, [](char c) { return c == '[' || c == ']'; });
    written.insert(0, "\u00f1");  // its sign for FNC1
  }
  // A pixel for a module.
  const auto bits = ZXing::MultiFormatWriter(library_format(format)).setMargin(0).encode(written, 0, 1);
  return collected(bits.width(), bits.height(), [&](int x, int y) { return bits.get(x, y); });
}

#else

ForeignCode foreign_code(ForeignFormat format, const std::string& text) {
  const char* options = format == ForeignFormat::gs1_128       ? "gs1"
                        : format == ForeignFormat::data_matrix ? "forceSquare"
                                                               : "";
  const auto barcode =
      ZXing::CreateBarcodeFromText(text, ZXing::CreatorOptions(library_format(format), options));
  const auto symbol = barcode.symbol();  // a pixel for a module, bars of some height
  const int height = format == ForeignFormat::data_matrix ? symbol.height() : 1;
  return collected(symbol.width(), height, [&](int x, int y) { return *symbol.data(x, y) == 0; });
}

#endif

}  // namespace counterfoil
