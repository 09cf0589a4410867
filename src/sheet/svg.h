// Inside the sheet room: SVG text as Cairo writes it, put in order.
#pragma once

#include <string>
#include <string_view>

namespace counterfoil {

// Cairo numbers the parts of an SVG file by a counter of the whole process ("surface17"). The same text with
// these numbers counted from 1 in order of appearance, so that the same sheet has the same bytes.
std::string with_stable_ids(std::string_view svg);

}  // namespace counterfoil
