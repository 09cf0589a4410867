#include "symbol/matrix.h"

#include <qrencode.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <memory>

namespace counterfoil {
namespace {

constexpr int kLastVersion = 40;
// Lets a slot that is a whole number of modules wide keep them: 33 mm over 33 modules at 8 dots/mm is 8 dots.
constexpr double kRoundingSlack = 1e-9;

QRecLevel library_level(CorrectionLevel level) {
  switch (level) {
    case CorrectionLevel::low:
      return QR_ECLEVEL_L;
    case CorrectionLevel::medium:
      return QR_ECLEVEL_M;
    case CorrectionLevel::quartile:
      return QR_ECLEVEL_Q;
    case CorrectionLevel::high:
      return QR_ECLEVEL_H;
  }
  std::abort();
}

std::string shown_mm(double mm) {
  std::array<char, 32> text;
  std::snprintf(text.data(), text.size(), "%.3g", mm);
  return text.data();
}

}  // namespace

char to_letter(CorrectionLevel level) { return "LMQH"[static_cast<int>(level)]; }

Result<SymbolMatrix> encode_symbol(std::string_view text, CorrectionLevel level, int least_version) {
  if (least_version < 1 || least_version > kLastVersion) std::abort();
  if (text.empty()) return malformed("a symbol needs a text");
  // The library reads up to the first NUL: what follows would be lost without a word.
  if (text.find('\0') != std::string_view::npos) return malformed("a symbol's text holds a NUL byte");
  const std::string terminated(text);
  const std::unique_ptr<QRcode, decltype(&QRcode_free)> code(
      QRcode_encodeString(terminated.c_str(), least_version, library_level(level), QR_MODE_8, 1),
      QRcode_free);
  if (!code)
    return malformed("a text of " + std::to_string(text.size()) + " bytes is too long for a symbol",
                     "shorten what the symbol holds, for instance the host");
  SymbolMatrix matrix;
  matrix.modules = code->width;
  matrix.version = code->version;
  matrix.level = level;
  const auto count = static_cast<std::size_t>(code->width) * static_cast<std::size_t>(code->width);
  matrix.dark.resize(count);
  for (std::size_t i = 0; i < count; ++i)
    matrix.dark[i] = code->data[i] & 1;  // bit 0: colour, the others: role
  return matrix;
}

Result<SymbolMatrix> encode_strongest(std::string_view text, int least_version) {
  // Mostly the highest level fits the least version, and then there is nothing left to try.
  auto strongest = encode_symbol(text, CorrectionLevel::high, least_version);
  if (strongest && strongest->version == least_version) return strongest;
  auto smallest = encode_symbol(text, CorrectionLevel::low, least_version);
  if (!smallest) return smallest;
  if (strongest && strongest->version == smallest->version) return strongest;
  for (const auto level : {CorrectionLevel::quartile, CorrectionLevel::medium}) {
    auto candidate = encode_symbol(text, level, least_version);
    if (candidate && candidate->version == smallest->version) return candidate;
  }
  return smallest;
}

Result<int> dots_per_module(int modules, double side_mm, double dots_per_inch, double least_module_mm) {
  if (modules < 1) std::abort();
  constexpr double kMmPerInch = 25.4;
  const int across = modules + 2 * kQuietZoneModules;
  const double dots = side_mm / kMmPerInch * dots_per_inch / across;
  const int whole =
      std::isfinite(dots) && dots < 1e6 ? static_cast<int>(std::floor(dots + kRoundingSlack)) : 0;
  const double module_mm = whole * kMmPerInch / dots_per_inch;
  least_module_mm = std::max(least_module_mm, kLeastModuleMm);
  if (whole < 1 || module_mm < least_module_mm - kRoundingSlack)
    return refused("a symbol of " + std::to_string(modules) + " modules with its quiet zone has " +
                       (whole < 1 ? "no whole dot a module" : "modules of " + shown_mm(module_mm) + " mm") +
                       " in " + shown_mm(side_mm) + " mm at " + shown_mm(dots_per_inch) + " dpi, " +
                       shown_mm(least_module_mm) + " mm is the least",
                   "take a larger slot, a finer printer or a shorter payload");
  return whole;
}

}  // namespace counterfoil
