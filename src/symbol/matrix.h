// QR Code symbols (ISO/IEC 18004) as plain matrices of modules, made by libqrencode; and how large a module may be
// on a printer whose dots are what they are. Not for drawing (sheet) nor for reading (reader).
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace counterfoil {

enum class CorrectionLevel { low, medium, quartile, high };  // L M Q H: about 7, 15, 25, 30 % of codewords

// Below this no symbol is printed, whatever a slot says; common practice.
inline constexpr double kLeastModuleMm = 0.38;

char to_letter(CorrectionLevel level);  // 'L', 'M', 'Q', 'H'

inline constexpr int kQuietZoneModules = 4;  // ISO/IEC 18004:2015, 6.3.8 (from memory)

struct SymbolMatrix {
  int modules = 0;  // along one side, without quiet zone
  int version = 0;  // 1 .. 40
  CorrectionLevel level = CorrectionLevel::low;
  std::vector<std::uint8_t> dark;  // modules x modules, row by row from the top left, 1 is dark

  bool at(int x, int y) const { return dark[static_cast<std::size_t>(y * modules + x)] != 0; }
};

// The smallest version from `least_version` on that holds the text at that level. `malformed` when none does.
Result<SymbolMatrix> encode_symbol(std::string_view text, CorrectionLevel level, int least_version = 1);

// The highest level that still fits in the version that level L would need, at least `least_version`: correction
// that costs no module.
Result<SymbolMatrix> encode_strongest(std::string_view text, int least_version = 1);

// Dots per module, the most whole ones with which modules + two quiet zones fit in `side_mm`; `refused` when the
// module would then be smaller than `least_module_mm`, or than kLeastModuleMm. Dots per inch as the printer's maker gives them.
Result<int> dots_per_module(int modules, double side_mm, double dots_per_inch, double least_module_mm);

}  // namespace counterfoil
