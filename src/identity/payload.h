// What a tag's symbol holds, within QR's alphanumeric set so that the symbol stays small:
//
//   bare = "CF1." number "." half copy           "CF1.K74Q2B8X61.BAG1"  (19 or 20 characters)
//   link = "HTTPS://" host "/CF1/" number "/" half copy
//   half = "BAG" | "BOX" | "LBL"                 LBL: an identification label, which has no twin
//   copy = 1 .. 99, without leading zero
//
// A link lets a phone's own camera open the desk's page (in the spirit of IEC 61406-1). A reader accepts both
// for ever. Do not change: printed on tags.
#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "identity/number.h"

namespace counterfoil {

enum class Half { bag, box, label };
std::string_view to_text(Half half);  // "bag", "box", "label"
Result<Half> parse_half(std::string_view text);

inline constexpr int kLastCopy = 99;

struct Payload {
  Number number;
  Half half = Half::bag;
  int copy = 1;

  friend bool operator==(const Payload&, const Payload&) = default;
};

// A host name in upper or lower case, with port if need be: letters, digits, hyphens and dots, at most 60
// characters; returned in upper case.
Result<std::string> parse_host(std::string_view text);

// The bare form when `host` is empty. Precondition: a host that parse_host gave, 1 <= copy <= kLastCopy.
std::string write_payload(const Payload& payload, std::string_view host = {});

// Either form, in any case, any host. `refused` when the text is not of ours at all; `malformed` when it has
// our form and does not hold: the check characters, the half or the copy are wrong.
Result<Payload> parse_payload(std::string_view text);

}  // namespace counterfoil
