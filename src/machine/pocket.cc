#include "machine/pocket.h"

#include "base/text.h"

namespace counterfoil {

std::string_view to_text(Side side) { return side == Side::suction ? "suction" : "discharge"; }

Result<Side> parse_side(std::string_view text) {
  const std::string word = to_lower(trimmed(text));
  for (const Side side : {Side::suction, Side::discharge})
    if (word == to_text(side)) return side;
  const std::string message = "\"" + std::string(trimmed(text)) + "\" is not a side";
  if (word == "s" || word == "d")
    return malformed(message, "write the whole word, suction or discharge: a lone letter is easily mistaken");
  return malformed(message, "write suction or discharge");
}

}  // namespace counterfoil
