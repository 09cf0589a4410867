// A place in a unit where a valve sits. Names are the site's own: they differ between sites and even between two
// units of one site, so a pocket is named by text, never by formula.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"

namespace counterfoil {

enum class Side { suction, discharge };
std::string_view to_text(Side side);  // "suction", "discharge"
// Any case; a lone S or D is refused: it is what a hurried hand writes for either.
Result<Side> parse_side(std::string_view text);

struct Pocket {
  std::string unit;  // "U2"
  std::string name;  // "2 HE S1", as the site calls it; unique within the unit
  std::optional<Side> side;

  // "U2 / 2 HE S1".
  std::string text() const { return unit + " / " + name; }
  friend bool operator==(const Pocket&, const Pocket&) = default;
};

}  // namespace counterfoil
