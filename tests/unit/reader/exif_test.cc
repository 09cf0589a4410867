#include "reader/exif.h"

#include <gtest/gtest.h>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace counterfoil {
namespace {

// An EXIF block as a camera writes it: one pointer to the EXIF directory, in that one or two ASCII entries.
class Block {
 public:
  explicit Block(bool little) : little_(little) {}

  std::string with(const std::string& date, const std::string& offset = {}) const {
    const std::uint32_t entries = offset.empty() ? 1 : 2;
    const std::uint32_t exif = 8 + 2 + 12 + 4, texts = exif + 2 + 12 * entries + 4;
    std::string out = (little_ ? "II" : "MM") + number(42, 2) + number(8, 4);
    out += number(1, 2) + entry(0x8769, 4, 1, number(exif, 4)) + number(0, 4);
    out += number(entries, 2) + text_entry(0x9003, date, texts);
    const auto date_bytes = static_cast<std::uint32_t>(date.size() + 1);
    if (!offset.empty()) out += text_entry(0x9011, offset, texts + date_bytes);
    out += number(0, 4) + date + '\0';
    if (!offset.empty()) out += offset + '\0';
    return out;
  }

 private:
  std::string number(std::uint32_t n, int bytes) const {
    std::string out;
    for (int i = 0; i < bytes; ++i) {
      const int shift = 8 * (little_ ? i : bytes - 1 - i);
      out += static_cast<char>(n >> shift & 0xFF);
    }
    return out;
  }
  std::string entry(std::uint32_t tag, std::uint32_t type, std::uint32_t count,
                    const std::string& value) const {
    return number(tag, 2) + number(type, 2) + number(count, 4) + value;
  }
  std::string text_entry(std::uint32_t tag, const std::string& text, std::uint32_t at) const {
    return entry(tag, 2, static_cast<std::uint32_t>(text.size() + 1), number(at, 4));
  }
  bool little_;
};

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
  const std::string block = Block(true).with("2026:11:25 09:30:15", "+01:00");
  std::size_t read = 0;
  for (std::size_t bit = 0; bit < 8 * block.size(); ++bit) {
    std::string broken = block;
    broken[bit / 8] = static_cast<char>(broken[bit / 8] ^ 1 << bit % 8);
    const auto taken = exif_taken(std::string(broken));  // a copy of its own, for the sanitizer
    if (!taken) continue;
    ++read;
    EXPECT_TRUE(parse_moment(to_text(*taken))) << bit;
  }
  EXPECT_GT(read, 0U);
}

}  // namespace
}  // namespace counterfoil
