#include "identity/number.h"

#include <gtest/gtest.h>

#include <set>

#include "identity/check_pair.h"

namespace counterfoil {
namespace {

std::vector<Number> first_numbers(std::string_view prefix, std::size_t count) {
  std::vector<Number> out;
  for (std::uint32_t counter = 1; out.size() < count; ++counter)
    if (auto number = number_at(prefix, counter)) out.push_back(*number);
  return out;
}

int different_characters(const Number& a, const Number& b) {
  int count = 0;
  for (std::size_t i = kPrefixLength; i < 8; ++i) count += a.text()[i] != b.text()[i];
  return count;
}

// Characters that adding this difference changes whatever it is added to: see number.h.
int surely_changed(std::uint32_t difference) {
  int count = difference % 32 != 0;
  for (int shift = 5; shift < 30; shift += 5) {
    const auto digit = difference >> shift & 31;
    count += digit != 0 && digit != 31;
  }
  return count;
}

TEST(Number, NeighboursDifferInAllSixCharactersOfTheSerial) {
  for (std::uint32_t j = 1; j <= kAllDiffer; ++j)
    ASSERT_EQ(surely_changed(j * kScatter % kCounterEnd), 6) << j;
}

TEST(Number, NumbersOfOneBatchDifferInThreeCharactersOfTheSerial) {
  for (std::uint32_t j = 1; j <= kThreeDiffer; ++j)
    ASSERT_GE(surely_changed(j * kScatter % kCounterEnd), 3) << j;
}

TEST(Number, RealNumbersKeepThoseDistances) {
  for (const std::uint32_t start : {1u, 32u, 1023u, 1048575u, 33554430u, 1073650000u}) {
    for (std::uint32_t i = 0; i < 300; ++i) {
      const auto a = number_at("K7", start + i);
      for (std::uint32_t j = 1; a && j <= 60; ++j) {
        const auto b = number_at("K7", start + i + j);
        if (!b) continue;
        ASSERT_GE(different_characters(*a, *b), j <= kAllDiffer ? 6 : 3) << a->text() << " " << b->text();
      }
    }
  }
}

// The counter is scattered by an odd multiplier, so no two counters share a serial.
TEST(Number, NoNumberComesTwice) {
  std::set<std::string> seen;
  for (std::uint32_t i = 0; i < 20000; ++i) {
    for (const std::uint32_t counter : {1 + i, kCounterEnd - 1 - i}) {
      const auto number = number_at("K7", counter);
      if (!number) continue;
      ASSERT_TRUE(seen.insert(number->text()).second) << number->text();
    }
  }
}

// Printed on tags: these may never change.
TEST(Number, OfACounterStaysWhatItIs) {
  EXPECT_EQ(number_at("K7", 1)->text(), "K7QCHX65GA");
  EXPECT_EQ(number_at("K7", 2)->text(), "K7ES3TCAZC");
  EXPECT_EQ(number_at("K7", 3)->text(), "K765NQJFMJ");
  EXPECT_EQ(number_at("K7", 5)->text(), "K7MYSHYS4E");
  EXPECT_EQ(number_at("00", 1)->text(), "00QCHX65" + *check_pair("00QCHX65"));
}

// The body of a counter by long division, to hold number_at against.
std::string naive_body(std::uint64_t counter) {
  std::string serial;
  for (std::uint64_t left = counter * kScatter % kCounterEnd; serial.size() < 6; left /= 32)
    serial.insert(0, 1, kNumberAlphabet[left % 32]);
  return "K7" + serial;
}

TEST(Number, CountersWhosePairHoldsALetterThatIsNeverUsedAreSkipped) {
  int skipped = 0;
  for (std::uint32_t counter = 1; counter <= 10000; ++counter) {
    const std::string whole = naive_body(counter) + *check_pair(naive_body(counter));
    const bool unused = whole.find_first_of("ILOU") != std::string::npos;
    const auto number = number_at("K7", counter);
    ASSERT_EQ(number.has_value(), !unused) << counter;
    if (unused) ++skipped;
    if (!unused) {
      ASSERT_EQ(number->text(), whole);
    }
  }
  EXPECT_GT(skipped, 0);
}

TEST(Number, IsTakenInAnyCaseAndGrouping) {
  for (const char* typed : {"K74Q2B8X61", "k74q2b8x61", "K74Q 2B8X 61", " k74q-2b8x-61 ", "K74Q2B8X6I",
                            "K74Q2B8X6l", "K7 4Q 2B 8X 6L", "K-7-4-Q-2-B-8-X-6-1"}) {
    const auto number = Number::parse(typed);
    ASSERT_TRUE(number) << typed;
    EXPECT_EQ(number->text(), "K74Q2B8X61");
    EXPECT_EQ(number->grouped(), "K74Q 2B8X 61");
    EXPECT_EQ(number->prefix(), "K7");
  }
  const auto zeros = Number::parse("ooqchx65" + *check_pair("00QCHX65"));
  ASSERT_TRUE(zeros);
  EXPECT_EQ(zeros->prefix(), "00");
}

TEST(Number, ExactFormIsNotFolded) {
  EXPECT_TRUE(Number::from_exact("K74Q2B8X61"));
  for (const char* text :
       {"k74q2b8x61", "K74Q 2B8X 61", "K74Q2B8X6I", "K74Q2B8X16", "K74Q2B8X6", "K74Q2B8X611", ""})
    EXPECT_FALSE(Number::from_exact(text)) << text;
}

// The pair is recomputed, so a congruent one that the standard never gives is refused: "00" is congruent to
// "ZB".
TEST(Number, CongruentPairThatIsNeverGivenIsRefused) {
  int met = 0;
  for (std::uint32_t counter = 1; counter < 20000; ++counter) {
    const auto number = number_at("K7", counter);
    if (!number || number->text().compare(8, 1, "Z") != 0) continue;
    const std::string pair = number->text().substr(8);
    const int value =
        35 * 36 + static_cast<int>(std::string_view("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ").find(pair[1]));
    if (value < 1271) continue;
    ++met;
    EXPECT_FALSE(Number::from_exact(number->text().substr(0, 8) + "0" + std::to_string(value - 1271)));
  }
  EXPECT_GT(met, 0);
}

TEST(Number, EverySingleSubstitutionIsCaught) {
  for (const Number& number : first_numbers("K7", 2000)) {
    for (std::size_t i = 0; i < kNumberLength; ++i) {
      std::string other = number.text();
      for (const char c : kNumberAlphabet) {
        if (c == number.text()[i]) continue;
        other[i] = c;
        ASSERT_FALSE(Number::from_exact(other)) << number.text() << " " << other;
      }
    }
  }
}

TEST(Number, EverySwapOfNeighboursAndAcrossOneIsCaught) {
  for (const Number& number : first_numbers("Z9", 20000)) {
    for (const std::size_t distance : {1u, 2u}) {
      for (std::size_t i = 0; i + distance < kNumberLength; ++i) {
        std::string other = number.text();
        std::swap(other[i], other[i + distance]);
        if (other == number.text()) continue;
        ASSERT_FALSE(Number::from_exact(other)) << number.text() << " " << other;
      }
    }
  }
}

TEST(Number, FewerThanOneInAThousandDoubleSubstitutionsPass) {
  int tried = 0;
  int passed = 0;
  for (const Number& number : first_numbers("K7", 12)) {
    for (std::size_t i = 0; i < kNumberLength; ++i) {
      for (std::size_t j = i + 1; j < kNumberLength; ++j) {
        std::string other = number.text();
        for (const char a : kNumberAlphabet) {
          for (const char b : kNumberAlphabet) {
            if (a == number.text()[i] || b == number.text()[j]) continue;
            other[i] = a;
            other[j] = b;
            ++tried;
            passed += Number::from_exact(other).has_value();
          }
        }
      }
    }
  }
  EXPECT_EQ(tried, 12 * 45 * 31 * 31);
  EXPECT_LT(passed, tried / 1000);
  EXPECT_GT(passed, 0);
  RecordProperty("double_substitutions_tried", tried);
  RecordProperty("double_substitutions_passed", passed);
  std::printf("double substitutions that pass: %d of %d (%.3f %%)\n", passed, tried, 100.0 * passed / tried);
}

TEST(Prefix, IsFoldedAsNumbersAre) {
  EXPECT_EQ(*parse_prefix("k7"), "K7");
  EXPECT_EQ(*parse_prefix("ol"), "01");
  for (const char* typed : {"", "K", "K74", "KU", "K?", "K\xc3\x85"}) {
    const auto prefix = parse_prefix(typed);
    ASSERT_FALSE(prefix) << typed;
    EXPECT_EQ(prefix.error().kind, ErrorKind::malformed);
    EXPECT_FALSE(prefix.error().hint.empty());
  }
}

}  // namespace
}  // namespace counterfoil
