// Whole pictures, from black and white to the mended symbol.
#include "recovery/hunt.h"

#include <gtest/gtest.h>

#include <cmath>

#include "unit/recovery/drawn_symbol.h"

namespace counterfoil {
namespace {

const SymbolMatrix& symbol() {
  static const SymbolMatrix made = *encode_symbol("CF1:7KWP-M4XE-3N", CorrectionLevel::medium, 2);
  return made;
}
bool always() { return true; }

// What is sighted and mended. Two finder patterns alone may be sighted again from their other side, to no end.
std::vector<Sighting> mended(std::vector<Sighting> seen) {
  std::erase_if(seen, [](const Sighting& sighting) { return !sighting.mended; });
  return seen;
}
std::vector<Sighting> mended_on(const GreyPicture& picture, Proposed proposed = Proposed::any) {
  Hunt hunt(picture, always);
  hunt.seek(black_and_white(picture), proposed);
  return mended(hunt.sightings());
}

double outline_error(const Outline& outline, const KnownMap& truth) {
  const double n = symbol().modules;
  double worst = 0;
  std::size_t i = 0;
  for (const PicturePoint& corner :
       {PicturePoint{0, 0}, PicturePoint{n, 0}, PicturePoint{n, n}, PicturePoint{0, n}}) {
    worst = std::max(
        worst, distance(outline[i++], truth(corner.x, corner.y)) / module_at(truth, corner.x, corner.y));
  }
  return worst;
}

TEST(HuntTest, SlantedSymbolIsSightedOutlinedAndMended) {
  const auto seen =
      mended_on(blurred(picture_of(kSlantedSide, kSlantedSide, kSlanted, symbol()), 1), Proposed::crossed);
  ASSERT_EQ(seen.size(), 1u);
  EXPECT_LT(outline_error(seen[0].outline, kSlanted), 0.5);
  EXPECT_EQ(seen[0].framing.modules, 25);
  EXPECT_GT(seen[0].fidelity, 0.7F);
  EXPECT_FALSE(seen[0].closed);
  EXPECT_EQ(seen[0].mended->dark, symbol().dark);
}

class TornHunt : public testing::TestWithParam<int> {};
TEST_P(TornHunt, MissingFinderIsDoneWithout) {
  const int missing = GetParam();
  const auto picture = picture_of(kSlantedSide, kSlantedSide, kSlanted.inverse(), [&](double u, double v) {
    const bool gone = missing == 0 ? u < 8 && v < 8 : missing == 1 ? u > 17 && v < 8 : u < 8 && v > 17;
    return gone ? kPaper : Inked{symbol()}(u, v);
  });
  const auto seen = mended_on(picture);
  ASSERT_EQ(seen.size(), 1u);
  EXPECT_LT(outline_error(seen[0].outline, kSlanted), 1);
  EXPECT_EQ(seen[0].mended->dark, symbol().dark);
}
INSTANTIATE_TEST_SUITE_P(EachCorner, TornHunt, testing::Values(0, 1, 2));

// Two of a plain symbol's finder patterns were sighted once more from their other side, where a symbol would lie partly
// outside the picture.
TEST(HuntTest, MendedSymbolIsNotSightedFromTheOtherSideAsWell) {
  for (const double border : {1.0, 4.0}) {
    const int side = static_cast<int>(6 * (25 + 2 * border));
    const auto picture = picture_of(side, side, upright(6, 6 * border, 6 * border), symbol());
    Hunt hunt(picture, always);
    hunt.seek(black_and_white(picture), Proposed::crossed);
    hunt.seek(black_and_white(picture), Proposed::any);
    hunt.look_again(picture);
    ASSERT_EQ(hunt.sightings().size(), 1u) << border;
    EXPECT_TRUE(hunt.sightings()[0].mended) << border;
  }
}

TEST(HuntTest, TwoSymbolsAreTwoSightings) {
  const auto picture = picture_of(400, 200, upright(1, 0, 0), [](double u, double v) {
    return u < 200 ? Inked{symbol()}((u - 30) / 5, (v - 40) / 5)
                   : Inked{symbol()}((u - 240) / 5, (v - 30) / 5);
  });
  Hunt hunt(picture, always);
  hunt.seek(black_and_white(picture), Proposed::crossed);
  ASSERT_EQ(mended(hunt.sightings()).size(), 2u);
  EXPECT_TRUE(hunt.has_open());
  // One of them is read: the other stays open.
  hunt.close({{{30, 40}, {155, 40}, {155, 165}, {30, 165}}});
  for (const auto& seen : mended(hunt.sightings())) EXPECT_EQ(seen.closed, seen.outline[0].x < 200);
  EXPECT_TRUE(hunt.has_open());
  hunt.close({{{-1e3, -1e3}, {1e3, -1e3}, {1e3, 1e3}, {-1e3, 1e3}}});
  EXPECT_FALSE(hunt.has_open());
}

TEST(HuntTest, WhatIsReadAlreadyIsNotLookedAt) {
  const auto picture = picture_of(198, 198, upright(6, 24, 24), symbol());
  Hunt hunt(picture, always);
  hunt.close({{{24, 24}, {174, 24}, {174, 174}, {24, 174}}});
  hunt.seek(black_and_white(picture), Proposed::any);
  EXPECT_TRUE(hunt.sightings().empty());
  EXPECT_FALSE(hunt.has_open());
}

TEST(HuntTest, NothingIsSightedWhereNothingIs) {
  const auto sights_nothing = [](const GreyPicture& picture) {
    Hunt hunt(picture, always);
    hunt.seek(black_and_white(picture), Proposed::any);
    return hunt.sightings().empty() && !hunt.has_open();
  };
  EXPECT_TRUE(sights_nothing({}));
  EXPECT_TRUE(sights_nothing({200, 200, std::vector<std::uint8_t>(40'000, 200)}));
  // Three finder patterns at the corners of a square and nothing between them.
  const auto frame = picture_of(198, 198, upright(6, 24, 24).inverse(), [](double u, double v) {
    const bool finder = (u < 8 && v < 8) || (u > 17 && v < 8) || (u < 8 && v > 17);
    return finder ? Inked{symbol()}(u, v) : kPaper;
  });
  EXPECT_TRUE(mended_on(frame).empty());
}

// Lone finder patterns in cells of 70 pixels, of many sizes and turns so that no three belong together; a symbol to the
// right of them.
GreyPicture texture_beside_symbol(int columns) {
  constexpr double kCell = 70;
  const double left = columns * kCell;
  return picture_of(columns * 70 + 198, 560, upright(1, 0, 0), [=](double x, double y) {
    if (x >= left) return Inked{symbol()}((x - left - 24) / 6, (y - 24) / 6);
    const double cell = std::floor(x / kCell) * 7 + std::floor(y / kCell);
    const double turn = std::fmod(cell * 0.37, 1.5), module = 3.2 + std::fmod(cell * 0.61, 2.2);
    const double u = (std::fmod(x, kCell) - kCell / 2) / module,
                 v = (std::fmod(y, kCell) - kCell / 2) / module;
    const double from_middle = std::max(std::abs(u * std::cos(turn) + v * std::sin(turn)),
                                        std::abs(v * std::cos(turn) - u * std::sin(turn)));
    return from_middle < 1.5 || (from_middle >= 2.5 && from_middle < 3.5) ? kInk : kPaper;
  });
}

TEST(HuntTest, TextureIsGivenUp) {
  for (const int columns : {2, 9}) {
    const auto picture = texture_beside_symbol(columns);
    GreyPicture texture = picture;  // as the first version shows it, without the symbol
    for (std::size_t i = 0; i < texture.pixels.size(); ++i) {
      if (static_cast<int>(i) % picture.width >= columns * 70) texture.pixels[i] = 255;
    }
    Hunt hunt(picture, always);
    hunt.seek(black_and_white(texture), Proposed::crossed);
    ASSERT_TRUE(hunt.sightings().empty()) << columns;
    hunt.seek(black_and_white(picture), Proposed::crossed);
    EXPECT_EQ(mended(hunt.sightings()).size(), columns == 2 ? 1u : 0u);
  }
}

TEST(HuntTest, StopsWhenToldTo) {
  const auto picture = picture_of(198, 198, upright(6, 24, 24), symbol());
  int asked = 0;
  Hunt hunt(picture, [&] { return ++asked > 1; });
  hunt.seek(black_and_white(picture), Proposed::crossed);
  EXPECT_EQ(asked, 1);
  EXPECT_TRUE(hunt.sightings().empty());
  hunt.seek(black_and_white(picture), Proposed::crossed);
  EXPECT_EQ(mended(hunt.sightings()).size(), 1u) << "goes on from where it stopped";
}

// The first picture hides a good part of the symbol; the second, of half the size, has it whole.
TEST(HuntTest, SecondLookMendsWhatTheFirstCouldNot) {
  const KnownMap map = upright(6, 24, 24);
  const auto hidden = picture_of(198, 198, map.inverse(), [](double u, double v) {
    return u > 9 && v > 9 ? (kInk + kPaper) / 2 : Inked{symbol()}(u, v);
  });
  Hunt hunt(hidden, always);
  hunt.seek(black_and_white(hidden), Proposed::crossed);
  ASSERT_TRUE(hunt.has_open());
  ASSERT_TRUE(mended(hunt.sightings()).empty());
  hunt.look_again(picture_of(99, 99, upright(3, 12, 12), symbol()));
  const auto seen = mended(hunt.sightings());
  ASSERT_EQ(seen.size(), 1u);
  EXPECT_EQ(seen[0].mended->dark, symbol().dark);
  EXPECT_LT(outline_error(seen[0].outline, map), 0.5) << "in pixels of the first";
  EXPECT_GT(seen[0].samples.size(), 2u) << "those of the first look are kept";
}

TEST(HuntTest, ClosedSightingsAreNotLookedAtAgain) {
  const auto picture = picture_of(198, 198, upright(6, 24, 24), symbol());
  Hunt hunt(picture, always);
  hunt.seek(black_and_white(picture), Proposed::crossed);
  const auto samples = [&] {
    std::size_t sum = 0;
    for (const Sighting& seen : hunt.sightings()) sum += seen.samples.size();
    return sum;
  };
  const auto before = samples();
  ASSERT_GT(before, 0u);
  hunt.close({{{-1e3, -1e3}, {1e3, -1e3}, {1e3, 1e3}, {-1e3, 1e3}}});
  hunt.look_again(picture);
  EXPECT_EQ(samples(), before);
}

// A symbol of which the larger part is hidden, so that it is sighted and never mended.
GreyPicture hidden_symbol() {
  return picture_of(198, 198, upright(6, 24, 24).inverse(), [](double u, double v) {
    return u > 9 && v > 9 ? (kInk + kPaper) / 2 : Inked{symbol()}(u, v);
  });
}

TEST(HuntTest, SamplesOfOneSymbolAreFewAndTheOlderStayFirst) {
  const auto hidden = hidden_symbol();
  Hunt hunt(hidden, always);
  hunt.seek(black_and_white(hidden), Proposed::crossed);
  ASSERT_FALSE(hunt.sightings().empty());
  const auto first = hunt.sightings()[0].samples[0].darkness;
  for (int i = 0; i < 3; ++i) hunt.look_again(hidden);
  EXPECT_EQ(hunt.sightings()[0].samples.size(), 4u);
  EXPECT_EQ(hunt.sightings()[0].samples[0].darkness, first) << "no later one was better";
}

// A few of the most promising frames are examined at once. The same picture again leads to others, not to those.
TEST(HuntTest, FrameIsExaminedOnce) {
  const auto hidden = hidden_symbol();
  int asked = 0;  // before each frame, whether it was examined before or not
  Hunt hunt(hidden, [&] { return ++asked > 0; });
  hunt.seek(black_and_white(hidden), Proposed::crossed);
  const int first = asked;
  const auto sighted = hunt.sightings().size();
  asked = 0;
  hunt.seek(black_and_white(hidden), Proposed::crossed);
  EXPECT_GT(asked, first);
  EXPECT_GT(hunt.sightings().size(), sighted);
}

TEST(HuntTest, LookingAgainStopsWhenToldTo) {
  const auto hidden = hidden_symbol();
  bool goes_on = true;
  Hunt hunt(hidden, [&] { return goes_on; });
  hunt.seek(black_and_white(hidden), Proposed::crossed);
  const auto samples = hunt.sightings().at(0).samples.size();
  goes_on = false;
  hunt.look_again(hidden);
  EXPECT_EQ(hunt.sightings()[0].samples.size(), samples);
}

}  // namespace
}  // namespace counterfoil
