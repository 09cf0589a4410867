#include "reader/decode.h"

#define ZX_USE_UTF8  // Result::text() in UTF-8
#include <ZXing/ReadBarcode.h>

#include <exception>

namespace counterfoil {
namespace {

const char* name_of(ZXing::BarcodeFormat format) {
  switch (format) {
    case ZXing::BarcodeFormat::QRCode:
      return "QR Code";
    case ZXing::BarcodeFormat::DataMatrix:
      return "Data Matrix";
    case ZXing::BarcodeFormat::Code128:
      return "Code 128";
    default:
      return ZXing::ToString(format);
  }
}

}  // namespace

std::vector<PhotoCode> decode_symbols(GreyView picture, Tones tones, Symbologies symbologies) try {
  if (picture.empty()) return {};
  ZXing::BarcodeFormats formats = ZXing::BarcodeFormat::QRCode;
  if (symbologies == Symbologies::any) {
    formats = formats | ZXing::BarcodeFormat::DataMatrix | ZXing::BarcodeFormat::Code128;
  }
  const auto binarizer =
      tones == Tones::black_and_white ? ZXing::Binarizer::FixedThreshold : ZXing::Binarizer::LocalAverage;
  const auto hints = ZXing::DecodeHints()
                         .setFormats(formats)
                         .setTryHarder(true)
                         .setTryRotate(true)
                         .setTryDownscale(false)
                         .setBinarizer(binarizer);
  const ZXing::ImageView view(picture.pixels, picture.width, picture.height, ZXing::ImageFormat::Lum);
  std::vector<PhotoCode> codes;
  for (const auto& found : ZXing::ReadBarcodes(view, hints)) {
    if (!found.isValid()) continue;
    PhotoCode code{found.text(), name_of(found.format()), {}, {}, false};
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
  const auto hints = ZXing::DecodeHints()
                         .setFormats(ZXing::BarcodeFormat::QRCode)
                         .setIsPure(true)
                         .setBinarizer(ZXing::Binarizer::FixedThreshold);
  const auto found = ZXing::ReadBarcode({picture.data(), side, side, ZXing::ImageFormat::Lum}, hints);
  if (!found.isValid()) return std::nullopt;
  return found.text();
} catch (const std::exception&) {
  return std::nullopt;
}

}  // namespace counterfoil
