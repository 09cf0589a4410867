// Texts of the form that the shared pictures bear, "CF1:XXXX-XXXX-XX": a stand-in, not our own payload.
#pragma once

#include <cstdint>
#include <random>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace counterfoil {

// All different.
inline std::vector<std::string> stand_in_texts(std::size_t count, std::uint32_t seed) {
  constexpr std::string_view kAlphabet = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ";
  std::mt19937 chance(seed);
  std::set<std::string> taken;
  std::vector<std::string> out;
  while (out.size() < count) {
    std::string text = "CF1:....-....-..";
    for (char& c : text) {
      if (c == '.') c = kAlphabet[chance() % kAlphabet.size()];
    }
    if (taken.insert(text).second) out.push_back(std::move(text));
  }
  return out;
}

}  // namespace counterfoil
