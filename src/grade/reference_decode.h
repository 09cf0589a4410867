// What a printed symbol says when it is decoded plainly: every module dark or light by the global threshold, format
// information, blocks corrected, nothing tried twice. ISO/IEC 15415:2011 judges by this and not by what a clever reader
// can still make of a symbol (recovery/mend.h).
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "grade/reference_grid.h"
#include "recovery/layout.h"

namespace counterfoil {

inline constexpr int kQuietZone = 4;  // modules; ISO/IEC 18004:2015, 6.3.8

// The modules as they were seen, those of the quiet zone too.
class SeenModules {
 public:
  SeenModules(const Reflectance& reflectance, const ReferenceGrid& grid);

  int modules() const { return modules_; }
  // Places are from -kQuietZone to modules + kQuietZone - 1.
  bool dark(int x, int y) const { return reflectance_[index(x, y)] < threshold_; }
  // 2 |R - GT| / SC, ISO/IEC 15415:2011, 7.8.4; 0 where there is no contrast at all.
  double modulation(int x, int y) const;

 private:
  std::size_t index(int x, int y) const {
    return static_cast<std::size_t>((y + kQuietZone) * (modules_ + 2 * kQuietZone) + x + kQuietZone);
  }
  int modules_;
  double threshold_, contrast_;
  std::vector<double> reflectance_;
};

struct ReferenceDecode {
  std::optional<SymbolFormat> format;  // nothing when neither copy can be corrected
  bool decoded = false;
  int wrong_codewords = 0;          // corrected, in all blocks
  double unused_correction = 0;     // of the worst block; 0 when it is not decoded
  std::vector<std::uint8_t> right;  // when decoded: all modules as they should be, 1 dark, row by row
};

ReferenceDecode reference_decode(const SeenModules& seen);

// 1 - 2 t / (d - p), for a block with so many codewords wrong: ISO/IEC 15415:2011, 7.8.8, without erasures; p are the
// codewords that small symbols keep against misdecoding (ISO/IEC 18004:2015, table 9). Less than 0 beyond what can be
// corrected.
double unused_correction(int version, SymbolLevel level, int wrong_codewords);

}  // namespace counterfoil
