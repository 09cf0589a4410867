#include "recovery/reed_solomon.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <random>
#include <set>

namespace counterfoil {
namespace {

using Codewords = std::vector<std::uint8_t>;

struct Shape {
  int data, parity;
};
constexpr std::array<Shape, 6> kShapes{{{19, 7}, {16, 10}, {9, 17}, {16, 28}, {118, 30}, {24, 30}}};

Codewords random_block(std::mt19937& random, Shape shape) {
  Codewords block(static_cast<std::size_t>(shape.data));
  for (auto& codeword : block) codeword = static_cast<std::uint8_t>(random());
  const auto parity = parity_of(block, shape.parity);
  block.insert(block.end(), parity.begin(), parity.end());
  return block;
}

std::vector<int> random_places(std::mt19937& random, std::size_t size, int count) {
  std::vector<int> places(size);
  for (std::size_t i = 0; i < size; ++i) places[i] = static_cast<int>(i);
  std::shuffle(places.begin(), places.end(), random);
  places.resize(static_cast<std::size_t>(count));
  return places;
}

void damage(std::mt19937& random, Codewords& block, std::span<const int> places) {
  for (const int place : places)
    block[static_cast<std::size_t>(place)] ^= static_cast<std::uint8_t>(1 + random() % 255);
}

// ISO/IEC 18004, annex I: "01234567" as a version 1-M symbol (from memory).
TEST(ReedSolomonTest, ParityOfTheStandardsExampleIsThatOfTheStandard) {
  const Codewords data{0x10, 0x20, 0x0c, 0x56, 0x61, 0x80, 0xec, 0x11,
                       0xec, 0x11, 0xec, 0x11, 0xec, 0x11, 0xec, 0x11};
  const Codewords parity{0xa5, 0x24, 0xd4, 0xc1, 0xed, 0x36, 0xc7, 0x87, 0x2c, 0x55};
  EXPECT_EQ(parity_of(data, 10), parity);
}

TEST(ReedSolomonTest, ErrorsAndErasuresWithinTheBoundAreCorrected) {
  std::mt19937 random(1);
  for (const Shape shape : kShapes) {
    for (int held_back : {0, 2, 4}) {
      const int budget = shape.parity - held_back;
      for (int erasures = 0; erasures <= budget; ++erasures) {
        for (int errors = 0; 2 * errors + erasures <= budget; ++errors) {
          const auto block = random_block(random, shape);
          auto places = random_places(random, block.size(), erasures + errors);
          auto damaged = block;
          damage(random, damaged, places);
          const auto erased = std::span(places).first(static_cast<std::size_t>(erasures));
          const auto correction = correct_block(damaged, shape.parity, erased, held_back);
          ASSERT_TRUE(correction) << shape.parity << " " << erasures << " " << errors;
          EXPECT_EQ(correction->errors, errors);
          EXPECT_EQ(correction->erasures, erasures);
          ASSERT_EQ(damaged, block);
        }
      }
    }
  }
}

TEST(ReedSolomonTest, WhatIsNotCorrectedStaysAsItWas) {
  std::mt19937 random(2);
  const Shape shape{16, 28};
  const auto block = random_block(random, shape);
  auto damaged = block;
  damage(random, damaged, random_places(random, block.size(), 13));
  const auto before = damaged;
  EXPECT_FALSE(correct_block(damaged, shape.parity, {}, 4));  // 26 > 24
  EXPECT_EQ(damaged, before);
  ASSERT_TRUE(correct_block(damaged, shape.parity, {}, 2));
  EXPECT_EQ(damaged, block);
}

TEST(ReedSolomonTest, MoreErasuresThanParityAreRefused) {
  std::mt19937 random(3);
  auto block = random_block(random, {16, 10});
  const auto places = random_places(random, block.size(), 11);
  EXPECT_FALSE(correct_block(block, 10, places, 0));
  EXPECT_FALSE(correct_block(block, 10, std::span(places).first(9), 2));
}

// What held-back parity is for. Words of chance with all the erasures that are allowed decode once in 256 to the
// power of what is held back, and what they decode to is a word of the code whenever something is given.
TEST(ReedSolomonTest, ChanceDecodesAboutOnceIn256ForEachCodewordHeldBack) {
  std::mt19937 random(4);
  constexpr Shape kShape{16, 10};
  constexpr int kTrials = 20000;
  std::array<int, 4> decoded{};
  for (int trial = 0; trial < kTrials; ++trial) {
    Codewords word(kShape.data + kShape.parity);
    for (auto& codeword : word) codeword = static_cast<std::uint8_t>(random());
    for (std::size_t held_back = 0; held_back < decoded.size(); ++held_back) {
      const auto erased = random_places(random, word.size(), kShape.parity - static_cast<int>(held_back));
      auto tried = word;
      if (!correct_block(tried, kShape.parity, erased, static_cast<int>(held_back))) continue;
      ++decoded[held_back];
      const auto again = parity_of(std::span(tried).first(kShape.data), kShape.parity);
      ASSERT_TRUE(std::equal(again.begin(), again.end(), tried.begin() + kShape.data));
    }
  }
  std::printf("of %d words of chance %d, %d, %d, %d decoded with 0, 1, 2, 3 codewords held back\n", kTrials,
              decoded[0], decoded[1], decoded[2], decoded[3]);
  EXPECT_EQ(decoded[0], kTrials);
  EXPECT_NEAR(decoded[1], kTrials / 256.0, 45);  // five sigma
  EXPECT_LE(decoded[2], 6);                      // 0.3 expected
  EXPECT_LE(decoded[3], 1);                      // 0.001 expected
}

TEST(ReedSolomonTest, DamageBeyondTheBoundBecomesNoOtherWord) {
  std::mt19937 random(5);
  int wrong = 0, trials = 0;
  for (const Shape shape : kShapes) {
    for (int trial = 0; trial < 3000; ++trial) {
      const auto block = random_block(random, shape);
      const int held_back = 3, errors = shape.parity / 2 + 1 + static_cast<int>(random() % 5);
      auto damaged = block;
      damage(random, damaged, random_places(random, block.size(), errors));
      ++trials;
      if (correct_block(damaged, shape.parity, {}, held_back)) ++wrong;
    }
  }
  std::printf("%d of %d blocks damaged beyond the bound became another word\n", wrong, trials);
  EXPECT_EQ(wrong, 0);
}

}  // namespace
}  // namespace counterfoil
