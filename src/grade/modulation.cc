#include "grade/modulation.h"

#include <algorithm>
#include <vector>

#include "grade/thresholds.h"

namespace counterfoil {

SymbolModulation symbol_modulation(const SeenModules& seen, SymbolLevel level) {
  const int version = (seen.modules() - 17) / 4;
  const Layout& layout = layout_of(version);
  SymbolModulation result;
  std::vector<double> least(static_cast<std::size_t>(layout.codewords()), 1.0);  // of each codeword
  for (std::size_t i = 0; i < layout.bits.size(); ++i) {
    const double modulation =
        seen.modulation(layout.bits[i] % layout.modules, layout.bits[i] / layout.modules);
    least[i / 8] = std::min(least[i / 8], modulation);
    result.least = std::min(result.least, modulation);
  }
  for (int grade = kBestGrade; grade > 0; --grade) {
    double unused = 1;
    for (const Block& block : blocks_of(version, level).blocks) {
      const auto weak = std::count_if(block.places.begin(), block.places.end(), [&](int place) {
        return grade_of(Scale::modulation, least[static_cast<std::size_t>(place)]) < grade;
      });
      unused = std::min(unused, unused_correction(version, level, static_cast<int>(weak)));
    }
    result.grade = std::max(result.grade, std::min(grade, grade_of(Scale::unused_correction, unused)));
  }
  return result;
}

}  // namespace counterfoil
