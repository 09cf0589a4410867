#include "reader/exif.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "made_exif.h"

namespace counterfoil {
namespace {

// An EXIF block with a date, and an offset if there is one.
class Block {
 public:
  explicit Block(bool little) : little_(little) {}

  std::string with(const std::string& date, const std::string& offset = {}) const {
    MadeExif block(little_);
    block.add_text(ExifDirectory::exif, 0x9003, date);
    if (!offset.empty()) block.add_text(ExifDirectory::exif, 0x9011, offset);
    return block.bytes();
  }

 private:
  bool little_;
};

std::optional<Moment> exif_taken(std::string_view bytes) { return read_exif(bytes).taken; }

const Moment kMorning{2026, 11, 25, 9, 30, 15, std::nullopt};

TEST(Exif, DateIsReadInBothByteOrders) {
  EXPECT_EQ(exif_taken(Block(true).with("2026:11:25 09:30:15")), kMorning);
  EXPECT_EQ(exif_taken(Block(false).with("2026:11:25 09:30:15")), kMorning);
}

TEST(Exif, PrefixOfJpegSegmentIsPassedOver) {
  const std::string block = std::string("Exif\0\0", 6) + Block(true).with("2026:11:25 09:30:15");
  EXPECT_EQ(exif_taken(block), kMorning);
}

TEST(Exif, OffsetIsTakenWhereThereIsOne) {
  Moment expected = kMorning;
  expected.offset_minutes = 60;
  EXPECT_EQ(exif_taken(Block(true).with("2026:11:25 09:30:15", "+01:00")), expected);
  expected.offset_minutes = -570;
  EXPECT_EQ(exif_taken(Block(false).with("2026:11:25 09:30:15", "-09:30")), expected);
}

TEST(Exif, NonsensicalOffsetIsLeftOutAndTheTimeStands) {
  for (const char* offset : {"   :  ", "+99:00", "local", "+01:0x"}) {
    EXPECT_EQ(exif_taken(Block(true).with("2026:11:25 09:30:15", offset)), kMorning) << offset;
  }
}

TEST(Exif, DatesThatSayNothingGiveNone) {
  for (const char* date : {"0000:00:00 00:00:00", "    :  :     :  :  ", "2026:02:30 10:00:00",
                           "2026:11:25 24:30:00", "2026-11-25 09:30:15", "2026:11:25", "now"}) {
    EXPECT_EQ(exif_taken(Block(true).with(date)), std::nullopt) << date;
  }
}

TEST(Exif, TruncatedBlockLosesTheOffsetFirstAndThenTheDate) {
  for (const bool little : {true, false}) {
    const std::string block = Block(little).with("2026:11:25 09:30:15", "+01:00");
    const std::size_t date_ends = block.size() - std::string_view("+01:00").size() - 1;
    for (std::size_t n = 0; n < block.size(); ++n) {
      const auto expected = n < date_ends ? std::nullopt : std::optional(kMorning);
      EXPECT_EQ(exif_taken(std::string_view(block).substr(0, n)), expected) << n;
    }
  }
}

TEST(Exif, OffsetsOutsideTheBlockGiveNone) {
  std::string block = Block(true).with("2026:11:25 09:30:15");
  for (const std::size_t field : {4U, 18U, 36U}) {  // first directory, EXIF directory, where the date is
    for (const char top : {'\x7F', '\xFF'}) {
      std::string broken = block;
      broken[field + 3] = top;
      EXPECT_EQ(exif_taken(broken), std::nullopt) << field;
    }
  }
}

TEST(Exif, NoSingleBitFlipReadsOutsideTheBlock) {
  MadeExif made(true);
  made.add_text(ExifDirectory::first, 0x010F, "Brass");
  made.add_text(ExifDirectory::exif, 0x9003, "2026:11:25 09:30:15");
  made.add_text(ExifDirectory::exif, 0x9011, "+01:00");
  made.add_position("N", {{33, 1}, {51, 1}, {3060, 100}}, "E", {{70, 1}, {405, 10}, {0, 0}});
  const std::string block = made.bytes();
  std::size_t read = 0, placed = 0;
  for (std::size_t bit = 0; bit < 8 * block.size(); ++bit) {
    std::string broken = block;
    broken[bit / 8] = static_cast<char>(broken[bit / 8] ^ 1 << bit % 8);
    const auto words = read_exif(std::string(broken));  // a copy of its own, for the sanitizer
    if (words.position) {
      ++placed;
      EXPECT_LE(std::abs(words.position->north), 90) << bit;
      EXPECT_LE(std::abs(words.position->east), 180) << bit;
    }
    if (!words.taken) continue;
    ++read;
    EXPECT_TRUE(parse_moment(to_text(*words.taken))) << bit;
  }
  EXPECT_GT(read, 0U);
  EXPECT_GT(placed, 0U);
}

TEST(Exif, SubSecondsAreADecimalFraction) {
  for (const auto& [digits, expected] : {std::pair<std::string, std::optional<int>>{"5", 500},
                                         {"07", 70},
                                         {"123", 123},
                                         {"1239", 123},
                                         {"12 ", 120},
                                         {"   ", std::nullopt},
                                         {"-1", std::nullopt},
                                         {"1a", std::nullopt}}) {
    MadeExif block(true);
    block.add_text(ExifDirectory::exif, 0x9003, "2026:11:25 09:30:15");
    block.add_text(ExifDirectory::exif, 0x9291, digits);
    EXPECT_EQ(read_exif(block.bytes()).milliseconds, expected) << digits;
    EXPECT_EQ(read_exif(block.bytes()).taken, kMorning) << digits;
  }
}

TEST(Exif, OtherDatesDoNotStandInForTheShutter) {
  MadeExif block(true);
  block.add_text(ExifDirectory::first, 0x0132, "2026:11:25 09:30:15");
  block.add_text(ExifDirectory::exif, 0x9004, "2026:11:25 09:30:15");
  block.add_text(ExifDirectory::exif, 0x9291, "5");
  EXPECT_EQ(read_exif(block.bytes()).taken, std::nullopt);
  EXPECT_EQ(read_exif(block.bytes()).milliseconds, std::nullopt);
}

TEST(Exif, CameraIsNamedByMakeModelAndSerial) {
  for (const bool little : {true, false}) {
    MadeExif block(little);
    block.add_text(ExifDirectory::first, 0x010F, "Brass Lens ");
    block.add_text(ExifDirectory::first, 0x0110, "T4");
    block.add_text(ExifDirectory::exif, 0xA431, "0042-17");
    EXPECT_EQ(read_exif(block.bytes()).camera, (Camera{"Brass Lens", "T4", "0042-17"}));
  }
}

TEST(Exif, NameThatATerminalWouldObeyIsLeftOut) {
  MadeExif block(true);
  block.add_text(ExifDirectory::first, 0x010F, "Brass\x1B[2J");
  block.add_text(ExifDirectory::first, 0x0110, "T4\xFF");
  EXPECT_EQ(read_exif(block.bytes()).camera, Camera{});
}

TEST(Exif, PositionIsInDegreesWithItsHemisphere) {
  for (const bool little : {true, false}) {
    MadeExif block(little);
    block.add_position("S", {{33, 1}, {51, 1}, {3060, 100}}, "W", {{70, 1}, {405, 10}, {0, 0}});
    const auto position = read_exif(block.bytes()).position;
    ASSERT_TRUE(position);
    EXPECT_NEAR(position->north, -(33 + 51 / 60.0 + 30.6 / 3600), 1e-9);
    EXPECT_NEAR(position->east, -(70 + 40.5 / 60), 1e-9);
  }
}

TEST(Exif, PositionThatSaysNothingIsNone) {
  const MadeExif::Angle sound{{33, 1}, {0, 1}, {0, 1}};
  const auto position = [&](const std::string& ns, const MadeExif::Angle& north, const std::string& ew,
                            const MadeExif::Angle& east) {
    MadeExif block(true);
    block.add_position(ns, north, ew, east);
    return read_exif(block.bytes()).position.has_value();
  };
  EXPECT_TRUE(position("N", sound, "E", sound));
  EXPECT_FALSE(position("N", {{0, 0}, {0, 0}, {0, 0}}, "E", sound));
  EXPECT_FALSE(position("N", {{91, 1}, {0, 1}, {0, 1}}, "E", sound));
  EXPECT_FALSE(position("N", sound, "E", {{180, 1}, {1, 1}, {0, 1}}));
  EXPECT_FALSE(position("N", sound, "E", {{4, 0}, {0, 1}, {0, 1}}));
  EXPECT_FALSE(position("", sound, "E", sound));
  EXPECT_FALSE(position("N", sound, "N", sound));
}

}  // namespace
}  // namespace counterfoil
