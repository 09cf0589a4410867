#include "recovery/identify.h"

#include <gtest/gtest.h>

#include <cstdio>

#include "recovery/data_bits.h"
#include "recovery/text_rows.h"
#include "support/sanitized.h"
#include "unit/recovery/made_sample.h"

namespace counterfoil {
namespace {

struct Shape {
  CorrectionLevel level;
  int version;
};
constexpr std::array<Shape, 5> kShapes{{{CorrectionLevel::medium, 1},
                                        {CorrectionLevel::high, 2},
                                        {CorrectionLevel::low, 1},
                                        {CorrectionLevel::quartile, 3},
                                        {CorrectionLevel::medium, 4}}};

std::vector<std::string> random_tags(Random& random, std::size_t count) {
  std::vector<std::string> texts;
  while (texts.size() < count) texts.push_back(tag_text(random, texts.size() % 2 == 0 ? "BAG1" : "BOX1"));
  return texts;
}

SymbolMatrix symbol_of(const std::string& text, Shape shape) {
  return *encode_symbol(text, shape.level, shape.version);
}

// What the encoder has in the matrix at the places of a row, by way of the sample's bits.
TEST(IdentifyTest, RowsAreTheCodewordsOfTheEncoder) {
  const std::vector<std::string> texts{"CF1.K74Q2B8X61.BAG1",
                                       "CF1.K74Q2B8X61.BOX12",
                                       "HTTPS://TAGS.EXAMPLE.ORG/CF1/K74Q2B8X61/BOX1",
                                       "01234567",
                                       "7",
                                       "89",
                                       "123456789012345678",
                                       "A",
                                       "AB",
                                       "any bytes, \xc3\xa9",
                                       "a",
                                       std::string(70, 'x'),
                                       std::string(200, '-')};
  const KnownTexts known(texts);
  int rows_seen = 0;
  for (int version = 1; version <= kMostVersion; version += version < 10 ? 1 : 15) {
    for (const auto level : kSymbolLevels) {
      const auto rows = known.rows(version, level);
      for (std::size_t row = 0; row < rows->rows(); ++row) {
        const auto& text = texts[rows->texts[row]];
        const auto symbol = encode_symbol(text, static_cast<CorrectionLevel>(level), version);
        ASSERT_TRUE(symbol);
        ASSERT_EQ(symbol->version, version);
        const auto found = identify_symbol(sample_of(*symbol), KnownTexts({text}));
        const Layout& layout = layout_of(version);
        std::vector<std::uint8_t> codewords(static_cast<std::size_t>(layout.codewords()));
        for (std::size_t i = 0; i < layout.bits.size(); ++i) {
          const int module = layout.bits[i];
          const bool bit = (symbol->dark[static_cast<std::size_t>(module)] != 0) !=
                           mask_turns(found.format.mask, module % layout.modules, module / layout.modules);
          codewords[i / 8] = static_cast<std::uint8_t>(codewords[i / 8] << 1 | bit);
        }
        for (std::size_t column = 0; column < rows->columns; ++column)
          ASSERT_EQ(rows->row(row)[column], codewords[static_cast<std::size_t>(rows->places[column])])
              << text << " " << version << " column " << column;
        ++rows_seen;
      }
    }
  }
  EXPECT_GT(rows_seen, 400);
}

TEST(IdentifyTest, SymbolWithManyWrongModulesIsIdentified) {
  Random random(1);
  auto texts = random_tags(random, 2000);
  const KnownTexts known(texts);
  for (int trial = 0; trial < 20; ++trial) {
    const auto text = static_cast<std::size_t>(below(random, 2000));
    auto sample = sample_of(symbol_of(texts[text], kShapes[1]));
    add_errors(sample, random, 0.15);
    const auto found = identify_symbol(sample, known);
    ASSERT_EQ(found.likely.size(), 3U);
    EXPECT_EQ(found.likely[0].text, text);
    EXPECT_TRUE(found.certain);
    EXPECT_GT(found.likely[0].score, found.likely[1].score);
    EXPECT_EQ(found.format.level, SymbolLevel::high);
  }
}

TEST(IdentifyTest, WhatCannotBeHeldAgainstTextsNamesNone) {
  const KnownTexts known({"CF1.K74Q2B8X61.BAG1", std::string(3000, 'x')});
  EXPECT_TRUE(identify_symbol({}, known).likely.empty());
  EXPECT_TRUE(identify_symbol({22, std::vector<float>(484)}, known).likely.empty());
  EXPECT_TRUE(identify_symbol({21, std::vector<float>(441, 1)}, {}).likely.empty());
  EXPECT_TRUE(
      identify_symbol({21, std::vector<float>(441, 1)}, KnownTexts({std::string(60, 'x')})).likely.empty());
  for (const float flat : {0.0F, 1.0F, -1.0F, std::nanf("")}) {
    const auto found = identify_symbol({21, std::vector<float>(441, flat)}, known);
    EXPECT_FALSE(found.certain);
    EXPECT_EQ(found.likely.size(), 1U);  // the other does not fit
  }
}

TEST(IdentifyTest, TextThatStandsTwiceIsNeverCertain) {
  const std::string text = "CF1.K74Q2B8X61.BAG1";
  const auto sample = sample_of(symbol_of(text, kShapes[1]));
  EXPECT_TRUE(identify_symbol(sample, KnownTexts({text})).certain);
  EXPECT_FALSE(identify_symbol(sample, KnownTexts({text, text})).certain);
}

TEST(IdentifyTest, MoreTriesNeedMoreEvidence) {
  const std::string text = "CF1.K74Q2B8X61.BAG1";
  const auto sample = sample_of(symbol_of(text, kShapes[1]));
  const KnownTexts known({text, "CF1.K74Q2B8X61.BOX1"});
  const auto once = identify_symbol(sample, known), often = identify_symbol(sample, known, 1000);
  EXPECT_NEAR(often.needed_nats - once.needed_nats, std::log(1000.0), 1e-9);
  EXPECT_DOUBLE_EQ(often.evidence_nats, once.evidence_nats);
}

// Two blocks; the texts share the first with the symbol's and differ in the last character, in the second block.
// Parity of the first block would bear out both.
TEST(IdentifyTest, TextThatDiffersInOneBlockAloneIsNotBelieved) {
  const std::string head(40, 'x');
  const auto symbol = *encode_symbol(head + "1", CorrectionLevel::medium, 4);
  ASSERT_EQ(symbol.version, 4);
  EXPECT_TRUE(identify_symbol(sample_of(symbol), KnownTexts({head + "1", head + "2"})).certain);
  const auto found = identify_symbol(sample_of(symbol), KnownTexts({head + "2", head + "3"}));
  EXPECT_FALSE(found.certain);
  EXPECT_LT(found.evidence_nats, 10);
}

// ISO/IEC 18004:2015, annex I: "01234567" as a version 1-M symbol (from memory).
TEST(IdentifyTest, TextIsWrittenAsInTheStandardsExample) {
  EXPECT_EQ(text_codewords("01234567", 1, 16),
            (std::vector<std::uint8_t>{0x10, 0x20, 0x0c, 0x56, 0x61, 0x80}));
}

TEST(IdentifyTest, PowerAgainstDamage) {
  Random random(2);
  constexpr std::size_t kTexts = 20000;
  const auto texts = random_tags(random, kTexts);
  const KnownTexts known(texts);
  const int count = trials(kSanitized ? 2 : 6);
  int wrong = 0;
  const auto row = [&](const char* what, double amount, const auto& damage) {
    std::printf("%-18s %4.2f:", what, amount);
    std::vector<double> shares;
    for (const Shape shape : kShapes) {
      int certain = 0, first = 0;
      for (int trial = 0; trial < count; ++trial) {
        const auto text = static_cast<std::size_t>(below(random, kTexts));
        auto sample = sample_of(symbol_of(texts[text], shape));
        damage(sample, amount);
        const auto found = identify_symbol(sample, known, 10);
        first += found.likely[0].text == text;
        certain += found.certain && found.likely[0].text == text;
        wrong += found.certain && found.likely[0].text != text;
      }
      shares.push_back(static_cast<double>(certain) / count);
      std::printf("  %d-%c %3.0f %% (first %3.0f %%)", shape.version, "LMQH"[static_cast<int>(shape.level)],
                  100 * shares.back(), 100.0 * first / count);
    }
    std::printf("\n");
    return shares;
  };
  for (const double share : {0.05, 0.10, 0.15, 0.20, 0.25, 0.30}) {
    const auto shares = row("modules wrong", share,
                            [&](SampledSymbol& sample, double of) { add_errors(sample, random, of); });
    if (share < 0.12) {
      EXPECT_GT(shares[1], 0.9);
    }
  }
  for (const double sigma : {0.4, 0.6, 0.8, 1.0})
    row("noise", sigma, [&](SampledSymbol& sample, double of) { add_noise(sample, random, of); });
  for (const double share : {0.2, 0.3, 0.4, 0.5, 0.6})
    row("rectangle unknown", share,
        [&](SampledSymbol& sample, double of) { cover(sample, random, of, [](int, int) { return 0.0; }); });
  for (const double share : {0.2, 0.3, 0.4})
    row("rectangle striped", share,
        [&](SampledSymbol& sample, double of) { cover(sample, random, of, stripes(random)); });
  EXPECT_EQ(wrong, 0);
}

// The symbol's text is not known; what is known are texts of chance, near misses of it, and its other half.
TEST(IdentifyTest, AbsentTextIsNeverTakenForAnother) {
  Random random(3);
  constexpr std::size_t kTexts = 500;
  constexpr std::string_view kLetters = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
  const int sets = trials(6), symbols = 150;
  int wrong = 0, total = 0;
  std::array<int, 20> short_by{};  // how many came within that many nats of what is needed
  for (int set = 0; set < sets; ++set) {
    const std::string absent = tag_text(random);
    auto texts = random_tags(random, kTexts);
    for (std::size_t i = 0; i < texts.size(); i += 2) {  // every second one is a near miss
      auto near = absent;
      const int changes = 1 + below(random, 2);
      for (int change = 0; change < changes; ++change)
        near[static_cast<std::size_t>(6 + below(random, 8))] = kLetters[random() % kLetters.size()];
      if (near != absent) texts[i] = near;
    }
    texts.push_back(absent.substr(0, 15) + "BOX1");
    texts.push_back(absent.substr(0, 15) + "BAG2");
    texts.push_back(absent.substr(0, 15) + "LBL1");
    std::erase(texts, absent);
    const KnownTexts known(texts);
    for (int trial = 0; trial < symbols; ++trial) {
      const Shape shape = kShapes[static_cast<std::size_t>(trial) % kShapes.size()];
      const auto symbol = symbol_of(absent, shape);
      auto sample = sample_of(symbol);
      switch (trial / 5 % 10) {
        case 0:
          break;
        case 1:
          add_errors(sample, random, 0.3 * unit(random));
          break;
        case 2:
          add_noise(sample, random, unit(random));
          break;
        case 3:
          cover(sample, random, 0.7 * unit(random), [](int, int) { return 0.0; });
          break;
        case 4:
          cover(sample, random, 0.7 * unit(random), [](int, int) { return -1.0; });
          break;
        case 5:
          cover(sample, random, 0.9 * unit(random), stripes(random));
          break;
        case 6: {  // part of a known one, in step: its own parity shows there, so that the bound is not for it
          const auto other = sample_of(symbol_of(texts[random() % texts.size()], shape));
          cover(sample, random, 0.15 * unit(random), [&](int x, int y) { return other.at(x, y); });
          break;
        }
        case 7:
          sample = texture(random, symbol.modules);
          break;
        case 8:
          sample = random_grid(random, symbol.modules);
          break;
        default:
          cover(sample, random, 4, stripes(random));
      }
      const auto found = identify_symbol(sample, known);
      ++total;
      wrong += found.certain;
      if (trial / 5 % 10 == 6 || found.likely.empty()) continue;
      const double missing = found.needed_nats - found.evidence_nats;
      for (std::size_t i = 0; i < short_by.size(); ++i) short_by[i] += missing <= static_cast<double>(i);
    }
  }
  std::printf("%d of %d symbols whose text is absent were taken for another; short by at most", wrong, total);
  for (const std::size_t nats : {0U, 4U, 8U, 12U, 16U}) std::printf(" %zu nats: %d,", nats, short_by[nats]);
  std::printf(" of what is needed\n");
  EXPECT_EQ(wrong, 0);
  // The bound itself: within n nats come at most exp(n) times kMostFalse. Five sigma above.
  for (const std::size_t nats : {8U, 12U, 16U}) {
    const double expected = std::exp(static_cast<double>(nats)) * kMostFalse * total;
    EXPECT_LE(short_by[nats], expected + 5 * std::sqrt(expected) + 1) << nats;
  }
}

}  // namespace
}  // namespace counterfoil
