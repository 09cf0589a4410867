#include "identity/check_pair.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

namespace counterfoil {
namespace {

constexpr std::string_view kCharacters = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";

unsigned value_of(char c) { return static_cast<unsigned>(kCharacters.find(c)); }

// The standard's polynomial method: the character at place i from the right, counted from 0, has the weight
// 36^i; the weighted sum over body and check characters is to be 1 modulo 1271 (ISO/IEC 7064:2003, from
// memory).
unsigned weighted_sum(std::string_view text) {
  unsigned sum = 0;
  unsigned weight = 1;
  for (std::size_t i = text.size(); i-- > 0;) {
    sum = (sum + value_of(text[i]) * weight) % 1271;
    weight = weight * 36 % 1271;
  }
  return sum;
}

TEST(CheckPair, AgreesWithPublishedValues) {
  EXPECT_EQ(check_pair("ISO79"),
            "3W");  // ISO/IEC 7064's own example, as the cdigit and iso_7064 packages quote it
  EXPECT_EQ(check_pair("W1KDMNBFIZIVIDJQQ0F76S"), "9P");  // cdigit's tests
  EXPECT_EQ(check_pair("ZB"), "ZC");                      // cdigit's tests
}

// Computed elsewhere with code that reproduces the published values; not published.
TEST(CheckPair, AgreesWithAnotherProgram) {
  EXPECT_EQ(check_pair("V000001"), "J5");
  EXPECT_EQ(check_pair("V7K2M4Q"), "61");
  EXPECT_EQ(check_pair("B00012"), "1E");
  EXPECT_EQ(check_pair("X0003A"), "1C");
  EXPECT_EQ(check_pair("VZZZZZZ"), "8N");
}

TEST(CheckPair, MakesTheWeightedSumOneForEveryRemainder) {
  std::mt19937 random(7064);
  std::vector<bool> seen(1271, false);
  for (int i = 0; i < 40000; ++i) {
    std::string body(1 + random() % 12, '0');
    for (char& c : body) c = kCharacters[random() % 36];
    const auto pair = check_pair(body);
    ASSERT_TRUE(pair && pair->size() == 2) << body;
    ASSERT_EQ(weighted_sum(body + *pair), 1u) << body << *pair;
    seen[weighted_sum(body + "00")] = true;
  }
  EXPECT_EQ(std::count(seen.begin(), seen.end(), false), 0);
}

// 1296 pairs, 1271 remainders: where two pairs are congruent, only the one of value 2 .. 1272 is ever given.
TEST(CheckPair, HasAValueFrom2To1272) {
  for (const char first : kCharacters) {
    for (const char second : kCharacters) {
      const std::string body{first, second};
      const auto pair = *check_pair(body);
      const unsigned value = value_of(pair[0]) * 36 + value_of(pair[1]);
      EXPECT_GE(value, 2u) << body;
      EXPECT_LE(value, 1272u) << body;
    }
  }
}

TEST(CheckPair, IsRefusedForOtherCharacters) {
  EXPECT_FALSE(check_pair("iso79"));
  EXPECT_FALSE(check_pair("ISO 79"));
  EXPECT_FALSE(check_pair("ISO\xc3\x96"));
  EXPECT_FALSE(check_pair(std::string_view("A\0", 2)));
}

}  // namespace
}  // namespace counterfoil
