#include "identity/slip.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace counterfoil {
namespace {

std::string message_for(std::string_view typed) { return Number::parse(typed).error().message; }
std::string hint_for(std::string_view typed) { return Number::parse(typed).error().hint; }

bool offers(std::string_view typed, std::string_view number) {
  const auto found = one_slip_away(typed);
  return std::any_of(found.begin(), found.end(), [&](const Number& n) { return n.text() == number; });
}

TEST(Slip, SwappedNeighboursAreNamedWithTheirCorrection) {
  EXPECT_EQ(message_for("K74Q 2B8X 16"),
            "number K74Q 2B8X 16 does not check: two neighbouring characters look swapped");
  EXPECT_NE(hint_for("K74Q 2B8X 16").find("K74Q 2B8X 61"), std::string::npos);
}

TEST(Slip, OneWrongCharacterIsNamedWithItsCorrection) {
  EXPECT_EQ(message_for("K74Q2M8X61"), "number K74Q 2M8X 61 does not check: one character looks wrong");
  EXPECT_EQ(hint_for("K74Q2M8X61"), "did you mean K74Q 2B8X 61?");
}

TEST(Slip, SwapAcrossACharacterIsNamed) {
  int met = 0;
  for (std::uint32_t counter = 1; counter < 200; ++counter) {
    const auto number = number_at("K7", counter);
    if (!number || number->text()[4] == number->text()[6]) continue;
    std::string typed = number->text();
    std::swap(typed[4], typed[6]);
    ASSERT_TRUE(offers(typed, number->text()));
    if (corrections(typed).front().slip != Slip::swapped_across) continue;
    ++met;
    EXPECT_NE(message_for(typed).find("swapped across the one between them"), std::string::npos);
  }
  EXPECT_GT(met, 0);
}

TEST(Slip, ShortAndLongNumbersSayTheirLength) {
  EXPECT_EQ(message_for("K74Q 2B8X 6"), "number K74Q 2B8X 6 is too short: 9 characters, not 10");
  EXPECT_EQ(message_for("K74Q 2B8X 611"), "number K74Q 2B8X 611 is too long: 11 characters, not 10");
  EXPECT_EQ(message_for("K"), "number K is too short: 1 character, not 10");
  EXPECT_NE(hint_for("K74Q 2B8X 6").find("K74Q 2B8X 61"), std::string::npos);
  EXPECT_NE(hint_for("K74Q 2B8X 611").find("K74Q 2B8X 61"), std::string::npos);
  EXPECT_EQ(hint_for("K"), "read the number from the tag again");
}

TEST(Slip, LetterThatIsNeverUsedIsNamed) {
  EXPECT_EQ(message_for("K74Q 2U8X 61"), "number K74Q 2U8X 61 holds U, a letter that is never used");
  EXPECT_EQ(message_for("k74q 2u8x 61"), "number K74Q 2U8X 61 holds U, a letter that is never used");
  EXPECT_EQ(hint_for("K74Q 2U8X 61"), "did you mean K74Q 2B8X 61?");
}

TEST(Slip, UnusableCharacterIsNamed) {
  EXPECT_EQ(message_for("K74Q 2#8X 61"), "number K74Q 2#8X 61 holds \"#\", which no number has");
  EXPECT_EQ(message_for("K74Q 2Å8X 61"), "number K74Q 2?8X 61 holds \"Å\", which no number has");
  EXPECT_EQ(message_for("K74Q 2\x07"
                        "8X 61"),
            "number K74Q 2?8X 61 holds a character that cannot be shown");
  EXPECT_EQ(message_for("K74Q 2\xff"
                        "8X 61"),
            "number K74Q 2?8X 61 holds a character that cannot be shown");
  EXPECT_EQ(hint_for("K74Q 2Å8X 61"), "did you mean K74Q 2B8X 61?");
}

TEST(Slip, NothingIsSuggestedWhenNoSingleSlipExplainsIt) {
  for (char a = '2'; a <= '9'; ++a) {
    const std::string typed = std::string("K74Q2M8X") + a + "Z";
    if (Number::from_exact(typed) || !one_slip_away(typed).empty()) continue;
    EXPECT_NE(message_for(typed).find("no single slip explains it"), std::string::npos);
    EXPECT_EQ(hint_for(typed), "read the number from the tag again");
    return;
  }
  FAIL() << "each of eight random texts had a correction";
}

TEST(Slip, SeveralCorrectionsAreAllNamed) {
  for (std::uint32_t counter = 1; counter < 2000; ++counter) {
    const auto number = number_at("K7", counter);
    if (!number) continue;
    const std::string typed = number->text().substr(0, 9) + (number->text()[9] == '2' ? '3' : '2');
    const auto found = one_slip_away(typed);
    if (found.size() != 2 && found.size() != 3) continue;
    for (const Number& n : found) EXPECT_NE(hint_for(typed).find(n.grouped()), std::string::npos);
    EXPECT_TRUE(hint_for(typed).starts_with("it may be "));
    return;
  }
  FAIL() << "no text with two or three corrections";
}

TEST(Slip, EmptyAndEndlessInputStayReadable) {
  EXPECT_EQ(message_for(""), "the number is empty");
  EXPECT_EQ(message_for(" - "), "the number is empty");
  EXPECT_LT(message_for(std::string(1000000, 'K')).size(), 100u);
}

TEST(Slip, EveryCorrectionChecksAndTheTrueNumberIsAmongThem) {
  for (std::uint32_t counter = 1; counter < 15; ++counter) {
    const auto number = number_at("K7", counter);
    if (!number) continue;
    const std::string& text = number->text();
    std::vector<std::string> slips;
    for (std::size_t i = 0; i < kNumberLength; ++i) {
      slips.push_back(text);
      slips.back()[i] = text[i] == 'W' ? 'V' : 'W';
      slips.push_back(std::string(text).erase(i, 1));
      slips.push_back(std::string(text).insert(i, 1, '7'));
      for (std::size_t distance = 1; distance <= 2 && i + distance < kNumberLength; ++distance) {
        slips.push_back(text);
        std::swap(slips.back()[i], slips.back()[i + distance]);
      }
    }
    slips.push_back(text.substr(1) + text[0]);
    slips.push_back(text[9] + text.substr(0, 9));
    for (const auto& slip : slips) {
      if (slip == text) continue;
      ASSERT_FALSE(Number::parse(slip)) << slip;
      EXPECT_TRUE(offers(slip, text)) << text << " from " << slip;
      const auto found = one_slip_away(slip);
      EXPECT_TRUE(std::is_sorted(found.begin(), found.end()));
      EXPECT_EQ(std::adjacent_find(found.begin(), found.end()), found.end());
    }
  }
}

}  // namespace
}  // namespace counterfoil
