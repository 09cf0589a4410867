// Inside the sheet room: what the plan of a calibration sheet and its drawing both go by.
#pragma once

#include "sheet/calibration.h"
#include "symbol/matrix.h"

namespace counterfoil {

inline constexpr double kHundredth = 100;              // lengths and dots in a code are hundredths
inline constexpr double kTickMm = 3, kFigureMm = 4.5;  // longest tick; a figure's place is so high
inline constexpr int kSteps = 10;                      // of the staircase

// Places for the words, as many lines as they have; those of a small page say less.
inline constexpr double kWordsWidthMm = 116, kWordsHeightMm = 26;
inline constexpr int kWordsLines = 5;
inline constexpr double kLineOfWordsMm = 4.5;

// The symbol of that text, as strong as its version lets it be.
Result<SymbolMatrix> matrix_of(const CalibrationCode& code);

}  // namespace counterfoil
