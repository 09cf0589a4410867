#include "grade/symbol_check.h"

#include <gtest/gtest.h>

#include "printed_symbol.h"

namespace counterfoil {
namespace {

double value(const SymbolCheck& check, Parameter p) { return check[p].value().value; }
int grade(const SymbolCheck& check, Parameter p) { return check[p].value().grade; }

TEST(SymbolCheckTest, ACleanSymbolIsTheBestInEveryParameter) {
  for (const int version : {1, 2, 7, 14}) {
    const auto symbol =
        printed(CorrectionLevel::low, version,
                version == 1   ? "CF1"
                : version == 2 ? "CF1.K74Q2M8X61.BAG1.THAT.IS.SPARE"
                               : std::string(static_cast<std::size_t>(version == 7 ? 200 : 600), 'A'));
    const auto check = symbol.check(0.4, -0.3);  // the place as a decoder gives it
    EXPECT_TRUE(check.right == symbol.matrix.dark) << version;
    EXPECT_EQ(value(check, Parameter::decoding), 1);
    EXPECT_EQ(value(check, Parameter::contrast), 1);
    EXPECT_EQ(value(check, Parameter::modulation), 1);
    EXPECT_NEAR(value(check, Parameter::axial), 0, 1e-9);
    EXPECT_NEAR(value(check, Parameter::grid), 0, 1e-9);
    EXPECT_EQ(value(check, Parameter::unused_correction), 1);
    EXPECT_EQ(value(check, Parameter::fixed_patterns), 0);
    EXPECT_EQ(check.grade, 4);
    EXPECT_NEAR(check.pixels_per_module, 10, 1e-9);
    EXPECT_NEAR(check.grid.at(0, 0).x, 60, 1e-9);
  }
}

// By hand: (220 - 60) / 255 = .62745. Limits times 255: .70 178.5, .55 140.25, .40 102, .20 51.
TEST(SymbolCheckTest, ContrastIsTheDifferenceOfTheGreyValues) {
  auto symbol = printed(CorrectionLevel::high, 2);
  symbol.dark = 60;
  symbol.light = 220;
  const auto check = symbol.check();
  EXPECT_NEAR(value(check, Parameter::contrast), .627451, 1e-6);
  EXPECT_EQ(check.grade, 3);
  EXPECT_EQ(check.weakest, Parameter::contrast);
  symbol.dark = 10;
  for (const auto& [light, expected] : std::vector<std::pair<int, int>>{
           {189, 4}, {188, 3}, {151, 3}, {150, 2}, {112, 2}, {111, 1}, {61, 1}, {60, 0}}) {
    symbol.light = light;
    EXPECT_EQ(grade(symbol.check(), Parameter::contrast), expected) << light;
  }
}

// By hand: a stretch of 7 % gives .07 / ((1.07 + 1) / 2) = .07 / 1.035 = .0676329; 3 %: .03 / 1.015 = .0295567;
// 15 %: .15 / 1.075 = .1395349. Edges between pixels are found within a hundredth of a pixel or so.
TEST(SymbolCheckTest, AxialNonUniformityOfAStretchedSymbol) {
  auto symbol = printed(CorrectionLevel::high, 2);
  const auto expect = [&](double pixels_x, double pixels_y, double non_uniformity, int expected) {
    symbol.pixels_x = pixels_x;
    symbol.pixels_y = pixels_y;
    const auto check = symbol.check();
    EXPECT_NEAR(value(check, Parameter::axial), non_uniformity, .0002);
    EXPECT_EQ(grade(check, Parameter::axial), expected);
  };
  expect(21.4, 20, .0676329, 3);
  expect(20, 21.4, .0676329, 3);
  expect(20, 20.6, .0295567, 4);
  expect(20, 23, .1395349, 0);
  expect(20, 21.2, .0582524, 4);  // .06 / 1.03
  expect(20, 21.8, .0861244, 2);  // .09 / 1.045
  expect(20, 22.2, .1042654, 1);  // .11 / 1.055
}

// 20 pixels a module: 8 of them are .40; 6 and 8 across each other are 10, .50.
TEST(SymbolCheckTest, GridNonUniformityOfADisplacedAlignmentPattern) {
  const auto displaced = [](int dx, int dy) {
    auto symbol = printed(CorrectionLevel::high, 2);
    symbol.pixels_x = symbol.pixels_y = 20;
    symbol.patches = {{16, 16, 20, 20, dx / 20.0, dy / 20.0}};
    return symbol.check();
  };
  for (const auto& [dx, dy, distance, expected] :
       std::vector<std::tuple<int, int, double, int>>{{7, 0, .35, 4},
                                                      {0, 8, .40, 3},
                                                      {-6, 8, .50, 3},
                                                      {11, 0, .55, 2},
                                                      {0, -13, .65, 1},
                                                      {16, 0, .80, 0}}) {
    const auto check = displaced(dx, dy);
    EXPECT_NEAR(value(check, Parameter::grid), distance, .003) << dx << ' ' << dy;
    EXPECT_EQ(grade(check, Parameter::grid), expected) << dx << ' ' << dy;
    EXPECT_NEAR(check.grid.least_uniform().x, 18.5, 1e-9);
    EXPECT_NEAR(check.grid.at(18.5, 18.5).x, (6 + 18.5) * 20 + dx, .05);
  }
}

// A jerk of the feed in the middle of the symbol moves the timing pattern's modules: 9 of 20 pixels are .45.
TEST(SymbolCheckTest, GridNonUniformityAlongTheTimingPattern) {
  auto symbol = printed(CorrectionLevel::high, 2);
  symbol.pixels_x = symbol.pixels_y = 20;
  symbol.patches = {{12, 6, 12, 6, .45, 0}};
  const auto check = symbol.check();
  EXPECT_NEAR(value(check, Parameter::grid), .45, .003);
  EXPECT_EQ(grade(check, Parameter::grid), 3);
  EXPECT_NEAR(check.grid.least_uniform().x, 12.5, 1e-9);
}

// Version 2-H, one block: d = 28, p = 0, so k wrong codewords leave 1 - 2k / 28; it corrects 14.
TEST(SymbolCheckTest, UnusedErrorCorrectionOfKnownWrongCodewords) {
  for (const auto& [wrong, expected] : std::vector<std::pair<int, int>>{
           {0, 4}, {5, 4}, {6, 3}, {7, 3}, {8, 2}, {9, 1}, {10, 1}, {11, 0}, {14, 0}}) {
    auto symbol = printed(CorrectionLevel::high, 2);
    for (int i = 0; i < wrong; ++i) {
      const auto m = module_of(symbol, 3 * i, i % 8);
      symbol.turn(m.x, m.y);
    }
    const auto check = symbol.check();
    EXPECT_EQ(check.wrong_codewords, wrong);
    EXPECT_NEAR(value(check, Parameter::unused_correction), 1 - wrong / 14.0, 1e-12);
    EXPECT_EQ(grade(check, Parameter::unused_correction), expected) << wrong;
    EXPECT_EQ(value(check, Parameter::modulation), 1);  // wrong, yet black and white
    EXPECT_TRUE(check.right == symbol.matrix.dark);
  }
  auto symbol = printed(CorrectionLevel::high, 2);
  for (int i = 0; i < 15; ++i) {
    const auto m = module_of(symbol, 2 * i, 0);
    symbol.turn(m.x, m.y);
  }
  const auto check = symbol.check();
  EXPECT_EQ(grade(check, Parameter::decoding), 0);
  EXPECT_EQ(value(check, Parameter::unused_correction), 0);
  EXPECT_EQ(check.weakest, Parameter::decoding);
}

// ISO/IEC 18004:2015, table 9 (from memory): 1-L (26,19,2), 1-M (26,16,4), 1-H (26,9,8), 2-L (44,34,4), 3-L (70,55,7)
// correct r codewords, so that d - p is 2 r.
TEST(SymbolCheckTest, SmallSymbolsKeepCodewordsAgainstMisdecoding) {
  EXPECT_DOUBLE_EQ(unused_correction(1, SymbolLevel::low, 1), 1 - 1 / 2.0);
  EXPECT_DOUBLE_EQ(unused_correction(1, SymbolLevel::medium, 1), 1 - 1 / 4.0);
  EXPECT_DOUBLE_EQ(unused_correction(1, SymbolLevel::quartile, 1), 1 - 1 / 6.0);
  EXPECT_DOUBLE_EQ(unused_correction(1, SymbolLevel::high, 1), 1 - 1 / 8.0);
  EXPECT_DOUBLE_EQ(unused_correction(2, SymbolLevel::low, 1), 1 - 1 / 4.0);
  EXPECT_DOUBLE_EQ(unused_correction(3, SymbolLevel::low, 1), 1 - 1 / 7.0);
  EXPECT_DOUBLE_EQ(unused_correction(4, SymbolLevel::low, 1), 1 - 1 / 10.0);
  auto symbol = printed(CorrectionLevel::medium, 1, "CF1.K74Q2M8X61");  // 5 would be corrected but for p = 2
  for (int i = 0; i < 5; ++i) {
    const auto m = module_of(symbol, 4 * i, 0);
    symbol.turn(m.x, m.y);
  }
  EXPECT_EQ(value(symbol.check(), Parameter::decoding), 0);
}

// Version 7-H has five blocks with d = 26 each; codewords of data go round them, so that 0, 5, 10 are of the first.
TEST(SymbolCheckTest, TheWorstBlockCounts) {
  auto symbol = printed(CorrectionLevel::high, 7, std::string(90, 'A'));
  for (const int codeword : {0, 5, 10, 1}) {
    const auto m = module_of(symbol, codeword, 3);
    symbol.turn(m.x, m.y);
  }
  const auto check = symbol.check();
  EXPECT_EQ(check.wrong_codewords, 4);
  EXPECT_NEAR(value(check, Parameter::unused_correction), 1 - 6 / 26.0, 1e-12);
}

// A module of grey 172 between 0 and 255: 2 |172 - 127.5| / 255 = .34902, grade 2.
TEST(SymbolCheckTest, ModulationOfOneModule) {
  auto symbol = printed(CorrectionLevel::high, 2);
  int light = 0;
  while (symbol.is_dark(module_of(symbol, 7, light).x, module_of(symbol, 7, light).y)) ++light;
  const auto m = module_of(symbol, 7, light);
  symbol.greys[{m.x, m.y}] = 172;
  const auto check = symbol.check();
  EXPECT_NEAR(value(check, Parameter::modulation), .349020, 1e-6);
  EXPECT_EQ(grade(check, Parameter::modulation),
            4);  // one codeword of 44: 1 - 2/28 = .93 are unused even then
  EXPECT_EQ(check.wrong_codewords, 0);
}

// By hand, version 2-H. Weak codewords of module grade g are errors for each level above g: unused 1 - 2k / 28 has
// grade u, and the symbol gets the best of min(level, u) above g and g itself.
//   k 5, u 4: 4.  k 6, u 3, g 3: min(4, 3) = 3, and 3.  k 6, g 2: 3.  k 8, u 2, g 2: 2.  k 10, u 1, g 2: 2 by g.
//   k 10, g 0: 1.  k 11, u 0, g 1: 1 by g.  k 14, g 0: 0.
TEST(SymbolCheckTest, ModulationOfTheSymbolByTheCodewordRule) {
  const std::array<int, 4> greys{150, 160, 172, 185};  // .176, .255, .349, .451: grades 0 to 3
  for (const auto& [weak, module_grade, expected] : std::vector<std::tuple<int, int, int>>{
           {5, 0, 4}, {6, 3, 3}, {6, 2, 3}, {8, 2, 2}, {10, 2, 2}, {10, 0, 1}, {11, 1, 1}, {14, 0, 0}}) {
    auto symbol = printed(CorrectionLevel::high, 2);
    for (int i = 0; i < weak; ++i) {
      for (int bit = 0; bit < 8; ++bit) {
        const auto m = module_of(symbol, 3 * i, bit);
        if (symbol.is_dark(m.x, m.y)) continue;
        symbol.greys[{m.x, m.y}] = greys[static_cast<std::size_t>(module_grade)];
        break;
      }
    }
    const auto check = symbol.check();
    EXPECT_EQ(grade(check, Parameter::modulation), expected) << weak << ' ' << module_grade;
    EXPECT_EQ(check.wrong_codewords, 0);
  }
}

TEST(SymbolCheckTest, WrongModulesOfAFinderPattern) {
  for (const auto& [corner, x, y] :
       std::vector<std::tuple<std::size_t, int, int>>{{0, 0, 0}, {1, 18, 0}, {2, 0, 18}}) {
    auto symbol = printed(CorrectionLevel::high, 2);
    int expected = 4;
    // On the outer square, in its light ring, in the middle, on the separator or in the quiet zone.
    for (const auto& [dx, dy] :
         std::vector<std::pair<int, int>>{{0, 3}, {1, 5}, {3, 3}, {2, y == 0 ? -3 : 9}}) {
      const auto check = symbol.check();
      EXPECT_EQ(grade(check, Parameter::fixed_patterns), expected);
      EXPECT_EQ(check.fixed.corner_errors[corner], 4 - expected);
      symbol.turn(x + dx, y + dy);
      --expected;
    }
    const auto check = symbol.check();
    EXPECT_EQ(grade(check, Parameter::fixed_patterns), 0);
    EXPECT_EQ(check.fixed.corner_errors[corner], 4);
    EXPECT_EQ(check.fixed.wrong.size(), 4u);
    EXPECT_NEAR(value(check, Parameter::grid), 0, .002);  // no module moves the grid
  }
}

// Limits from memory. Version 2 has timing patterns of 9 modules: one wrong is .111, over .11.
TEST(SymbolCheckTest, WrongModulesOfOtherPatterns) {
  auto timing = printed(CorrectionLevel::high, 2);
  timing.turn(12, 6);
  EXPECT_EQ(timing.check().fixed.timing_errors, 1);
  EXPECT_EQ(grade(timing.check(), Parameter::fixed_patterns), 1);
  auto alignment = printed(CorrectionLevel::high, 2);
  alignment.turn(17, 18);  // one of 25 modules, .04
  EXPECT_EQ(alignment.check().fixed.alignment_errors, 1);
  EXPECT_EQ(grade(alignment.check(), Parameter::fixed_patterns), 3);
  auto quiet = printed(CorrectionLevel::high, 2);
  quiet.turn(12, -2);
  EXPECT_EQ(quiet.check().fixed.quiet_zone_errors, 1);
  EXPECT_EQ(grade(quiet.check(), Parameter::fixed_patterns), 3);
  auto weak = printed(CorrectionLevel::high, 2);
  weak.greys[{3, 0}] =
      80;  // modulation (127.5 - 80) / 127.5 = .37 in a finder pattern: one error for grades 4 and 3
  EXPECT_EQ(grade(weak.check(), Parameter::fixed_patterns), 3);
  EXPECT_TRUE(weak.check().fixed.wrong.empty());
}

TEST(SymbolCheckTest, FewerThanTenPixelsAModuleGiveOnlyWhatTheyCan) {
  auto symbol = printed(CorrectionLevel::high, 2);
  symbol.pixels_x = symbol.pixels_y = 10;
  EXPECT_FALSE(symbol.check().coarse);
  EXPECT_EQ(symbol.check().grade, 4);
  symbol.pixels_x = symbol.pixels_y = 9;
  const auto check = symbol.check();
  EXPECT_TRUE(check.coarse);
  for (const auto p : {Parameter::modulation, Parameter::axial, Parameter::grid, Parameter::fixed_patterns})
    EXPECT_FALSE(check[p]);
  EXPECT_EQ(grade(check, Parameter::decoding), 4);
  EXPECT_EQ(grade(check, Parameter::contrast), 4);
}

TEST(SymbolCheckTest, RefusesPlacesThatAreNone) {
  const auto symbol = printed(CorrectionLevel::high, 2);
  const auto picture = symbol.picture();
  auto framing = symbol.framing();
  EXPECT_FALSE(check_symbol({}, framing));
  framing.modules = 24;
  EXPECT_FALSE(check_symbol(picture, framing));
  framing = symbol.framing();
  framing.place.m[0] = std::nan("");
  EXPECT_FALSE(check_symbol(picture, framing));
  framing = symbol.framing(1000);
  EXPECT_FALSE(check_symbol(picture, framing));
}

TEST(SymbolCheckTest, APlainGreyPictureHasNoContrastAndDoesNotDecode) {
  const auto symbol = printed(CorrectionLevel::high, 2);
  GreyPicture picture = symbol.picture();
  std::fill(picture.pixels.begin(), picture.pixels.end(), std::uint8_t{200});
  const auto check = check_symbol(picture, symbol.framing());
  ASSERT_TRUE(check);
  EXPECT_EQ(check->grade, 0);
  EXPECT_EQ(value(*check, Parameter::contrast), 0);
  EXPECT_EQ(value(*check, Parameter::decoding), 0);
}

}  // namespace
}  // namespace counterfoil
