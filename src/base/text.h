// Text helpers that more than one room needs: hex, base 64, UTF-8 checks and forms (by utf8proc), splitting
// and trimming. Not for numbers' own spelling (identity/number.h) nor for laying text out on a sheet.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace counterfoil {

// Lower-case hexadecimal, two characters a byte.
std::string to_hex(std::string_view bytes);
std::optional<std::string> from_hex(std::string_view hex);

// Base 64 with padding, standard alphabet (RFC 4648 section 4). Decoding is strict: no white space, no
// missing padding, no set bits behind the last byte, so that each byte string has one spelling.
std::string to_base64(std::string_view bytes);
std::optional<std::string> from_base64(std::string_view text);

// Whether the bytes are well-formed UTF-8 (no overlong form, no surrogate, at most U+10FFFF).
bool is_utf8(std::string_view bytes);

// Normalization Form C (Unicode Standard Annex 15), so that one name has one spelling. Precondition: UTF-8.
std::string composed(std::string_view text);

// For telling whether two names are meant as one and the same: case and compatibility forms folded, white
// space, dashes, dots and slashes left out. Not for storing. Precondition: UTF-8.
std::string folded(std::string_view text);

// Whether the text holds a control character (U+0000-U+001F, U+007F-U+009F), which no name or reason may:
// terminals obey them. Precondition: UTF-8.
bool has_control_characters(std::string_view text);

// ASCII only; other bytes pass unchanged.
std::string to_upper(std::string_view text);
std::string to_lower(std::string_view text);

// Without spaces, tabs, CR and LF at both ends.
std::string_view trimmed(std::string_view text);

std::vector<std::string> split(std::string_view text, char separator);

// "1 valve", "3 valves", "2 entries".
std::string counted(std::uint64_t n, std::string_view noun);

// A number for people, rounded to so many significant digits: "84.667", "0.5", "99.1".
std::string decimal(double value, int significant_digits = 6);

// A decimal integer without sign or leading zeros ("0" is fine), of at most 18 digits.
std::optional<std::uint64_t> to_unsigned(std::string_view digits);

}  // namespace counterfoil
