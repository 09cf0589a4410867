// Which of the designs of one kind goes on a stock: the largest that fits. A folder's designs for a kind are
// KIND.svg and KIND-*.svg, so that one's own beside the shipped ones is chosen where it is the largest.
#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "sheet/design.h"

namespace counterfoil {

struct DesignWish {
  std::string kind;                    // "bag"
  double width_mm = 0, height_mm = 0;  // of the place, margin taken off
  bool two_languages = false;          // designs with slots of a second language, or those without
  std::string size{};                  // only this one, "large"; empty: any
};

// `refused` when none fits, with the sizes of the place and of the smallest design; `malformed` when there is none of
// that name, or when one of the kind cannot be used, chosen or not.
Result<Design> choose_design(const std::string& folder, const DesignWish& wish);

}  // namespace counterfoil
