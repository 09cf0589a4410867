#include "reader/decode.h"

#define ZX_USE_UTF8  // Result::text() of 1.4 in UTF-8
#include <ZXing/ReadBarcode.h>

#include <exception>

namespace counterfoil {
namespace {

using ZXing::BarcodeFormat;

// What differs between the versions of the library, of which 1.4, 2.3 and 3.1 were tried. A text is what the
// symbol holds: the newer ones would set brackets into some, for people to read.
#if __has_include(<ZXing/ReaderOptions.h>)  // from 2.2 on
ZXing::ReaderOptions library_options() { return ZXing::ReaderOptions().setTextMode(ZXing::TextMode::Plain); }
#else
ZXing::DecodeHints library_options() { return {}; }
#endif

// Null for what was not asked for: in 3.x QRCode as a choice takes in Micro QR and rMQR.
const char* name_of(BarcodeFormat format) {
  switch (format) {
    case BarcodeFormat::QRCode:
      return "QR Code";
    case BarcodeFormat::DataMatrix:
      return "Data Matrix";
    case BarcodeFormat::Code128:
      return "Code 128";
    default:
      return nullptr;
  }
}

}  // namespace

std::vector<PhotoCode> decode_symbols(GreyView picture, Tones tones, Symbologies symbologies) try {
  if (picture.empty()) return {};
  ZXing::BarcodeFormats formats = BarcodeFormat::QRCode;
  if (symbologies == Symbologies::any)
    formats = BarcodeFormat::QRCode | BarcodeFormat::DataMatrix | BarcodeFormat::Code128;
  const auto binarizer =
      tones == Tones::black_and_white ? ZXing::Binarizer::FixedThreshold : ZXing::Binarizer::LocalAverage;
  const auto options = library_options()
                           .setFormats(formats)
                           .setTryHarder(true)
                           .setTryRotate(true)
                           .setTryDownscale(false)
                           .setBinarizer(binarizer);
  const ZXing::ImageView view(picture.pixels, picture.width, picture.height, ZXing::ImageFormat::Lum);
  std::vector<PhotoCode> codes;
  for (const auto& found : ZXing::ReadBarcodes(view, options)) {
    const char* name = name_of(found.format());
    if (!found.isValid() || !name) continue;
    PhotoCode code{found.text(), name, {}, {}, false};
    for (std::size_t i = 0; i < 4; ++i) {
      const auto point = found.position()[i];
      code.corners[i] = {static_cast<double>(point.x), static_cast<double>(point.y)};
    }
    codes.push_back(std::move(code));
  }
  return codes;
} catch (const std::exception&) {
  // The library reports broken symbols by value; what it throws is a picture that it cannot handle at all.
  return {};
}

std::optional<std::string> decode_matrix(const std::vector<std::uint8_t>& dark, int modules) try {
  constexpr int kQuiet = 4, kPixels = 3;
  const int side = (modules + 2 * kQuiet) * kPixels;
  std::vector<std::uint8_t> picture(static_cast<std::size_t>(side) * static_cast<std::size_t>(side), 255);
  for (int y = 0; y < side; ++y) {
    for (int x = 0; x < side; ++x) {
      const int column = x / kPixels - kQuiet, row = y / kPixels - kQuiet;
      if (column < 0 || row < 0 || column >= modules || row >= modules) continue;
      if (dark[static_cast<std::size_t>(row * modules + column)])
        picture[static_cast<std::size_t>(y * side + x)] = 0;
    }
  }
  const auto options = library_options()
                           .setFormats(BarcodeFormat::QRCode)
                           .setIsPure(true)
                           .setBinarizer(ZXing::Binarizer::FixedThreshold);
  const auto found = ZXing::ReadBarcode({picture.data(), side, side, ZXing::ImageFormat::Lum}, options);
  if (!found.isValid() || !name_of(found.format())) return std::nullopt;
  return found.text();
} catch (const std::exception&) {
  return std::nullopt;
}

}  // namespace counterfoil
