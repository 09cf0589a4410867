// What a mistyped word was meant to be, for hints.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace counterfoil {

// The first of `known` that is the fewest slips away from what was typed: a letter too much, missing, wrong, or swapped with
// its neighbour. Case and signs do not count. Empty where more than two slips, or than a third of the word, lie between.
std::string nearest(std::string_view typed, const std::vector<std::string>& known);

// "did you mean large? ", to stand before the rest of a hint; empty where nothing is near.
std::string did_you_mean(std::string_view typed, const std::vector<std::string>& known);

// "a4-2x2, a4-2x4": for lists in sentences.
std::string listed(const std::vector<std::string>& names);

}  // namespace counterfoil
