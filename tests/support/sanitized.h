// Whether the tests run under a sanitizer, where all is ten times as slow. Tests that take a set of inputs may then take
// fewer of them, never none; release has the full set.
#pragma once

namespace counterfoil {

#if defined(__SANITIZE_ADDRESS__)
inline constexpr bool kSanitized = true;
#elif defined(__has_feature)
inline constexpr bool kSanitized = __has_feature(address_sanitizer);
#else
inline constexpr bool kSanitized = false;
#endif

}  // namespace counterfoil
