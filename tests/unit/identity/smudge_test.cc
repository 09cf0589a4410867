#include "identity/smudge.h"

#include <gtest/gtest.h>

namespace counterfoil {
namespace {

const Number& number() {
  static const Number one = *Number::from_exact("K74Q2B8X61");
  return one;
}
std::optional<Fit> fit(std::string_view typed) { return SmudgedNumber(typed).fit(number()); }

TEST(Smudge, AQuestionMarkStandsForAnyOneCharacter) {
  EXPECT_EQ(fit("K74Q 2B8X 61"), Fit::as_typed);
  EXPECT_EQ(fit("K74Q ?B8X 61"), Fit::as_typed);
  EXPECT_EQ(fit("k7?q-?b8x 6?"), Fit::as_typed);
  EXPECT_EQ(fit("??????????"), Fit::as_typed);
  EXPECT_EQ(fit("K74Q ?C8X 62"), std::nullopt) << "two slips besides";
}

TEST(Smudge, OneSlipBesidesIsTold) {
  EXPECT_EQ(fit("K74Q ?88X 61"), Fit::look_alike);
  EXPECT_EQ(fit("K74Q ?W8X 61"), Fit::one_wrong);
  EXPECT_EQ(fit("K74Q ?B8X 16"), Fit::neighbours_swapped);
  EXPECT_EQ(fit("K74Q ?B8X 6"), Fit::one_missing);
  EXPECT_EQ(fit("K74Q ?B8X 661"), Fit::one_too_many);
  EXPECT_EQ(fit("K74Q 8B2X 61"), Fit::swapped_across);
  EXPECT_EQ(fit("74Q? B8X6 1K"), Fit::shifted);
}

TEST(Smudge, LettersThatNoNumberHasAreTakenForTheirShape) {
  const Number with_v = *number_at("V7", 1);
  std::string typed = with_v.text();
  typed[0] = 'U';
  EXPECT_EQ(SmudgedNumber(typed).fit(with_v), Fit::look_alike);
  EXPECT_EQ(fit("K74Q 2B8X 6L"), Fit::as_typed) << "L is folded to 1";
  EXPECT_EQ(fit("K74Q 2Å8X 61"), Fit::as_typed) << "what no number has cannot have been read";
}

TEST(Smudge, GapsAreOnlyThoseThatWereTyped) {
  EXPECT_TRUE(SmudgedNumber("K74Q ?B8X 61").has_gaps());
  EXPECT_FALSE(SmudgedNumber("K74Q 2Å8X 61").has_gaps());
}

TEST(Smudge, ShapesAreAlikeBothWays) {
  for (const auto& [a, b] : {std::pair('0', 'D'),
                             {'0', 'Q'},
                             {'1', '7'},
                             {'8', 'B'},
                             {'5', 'S'},
                             {'2', 'Z'},
                             {'6', 'G'},
                             {'V', 'Y'},
                             {'U', 'V'},
                             {'4', 'A'}}) {
    EXPECT_TRUE(look_alike(a, b)) << a << b;
    EXPECT_TRUE(look_alike(b, a)) << a << b;
  }
  EXPECT_FALSE(look_alike('1', 'W'));
  EXPECT_FALSE(look_alike('8', 'K'));
}

TEST(Smudge, OtherLengthsFitNothing) {
  EXPECT_EQ(fit(""), std::nullopt);
  EXPECT_EQ(fit("K74?"), std::nullopt);
  EXPECT_EQ(fit("K74Q ?B8X 61K7"), std::nullopt);
  EXPECT_EQ(fit(std::string(100000, '?')), std::nullopt);
}

}  // namespace
}  // namespace counterfoil
