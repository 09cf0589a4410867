// The exact place of a symbol that a decoder has read and outlined roughly.
#pragma once

#include <array>
#include <optional>

#include "base/grey.h"
#include "recovery/framing.h"

namespace counterfoil {

// `outline`: top left, top right, bottom right, bottom left of the symbol, right within an eighth of its side.
// `modules` along one side, where that is known, or 0. By its finder patterns; where they are too damaged and `modules`
// is known, by the outline alone. Nothing when there is no such symbol.
std::optional<Framing> find_symbol(GreyView picture, const std::array<PicturePoint, 4>& outline, int modules);

}  // namespace counterfoil
