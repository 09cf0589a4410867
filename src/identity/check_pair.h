// Check characters of ISO/IEC 7064:2003, MOD 1271-36 (pure system, radix 36, two check characters 0-9 A-Z).
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace counterfoil {

// The two check characters of a body of 0-9 and A-Z; nothing when it holds another character. To verify,
// compute and compare: congruence alone also accepts pairs that the standard never gives ("ZB" takes ZC, and
// 01 is congruent).
std::optional<std::string> check_pair(std::string_view body);

}  // namespace counterfoil
