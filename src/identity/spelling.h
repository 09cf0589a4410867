// How numbers are typed and printed: what is folded, what is skipped, how characters are grouped.
// Not whether they check (number.h). Source of the folding: crockford.com/base32.
#pragma once

#include <string>
#include <string_view>

namespace counterfoil {

// Whether the character is one of kNumberAlphabet.
bool is_number_character(char c);

// Upper case, without spaces, tabs and hyphens, O as 0, I and L as 1. Other characters stay, so that each
// still counts for one; what is not printable ASCII becomes '?', one for each UTF-8 character.
std::string fold(std::string_view typed);

// A space after every four characters.
std::string in_groups(std::string_view text);

}  // namespace counterfoil
