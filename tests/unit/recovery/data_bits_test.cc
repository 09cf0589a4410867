#include "recovery/data_bits.h"

#include <gtest/gtest.h>

#include <string>

namespace counterfoil {
namespace {

std::vector<std::uint8_t> padded(std::string_view text, int version, int codewords) {
  auto data = *text_codewords(text, version, codewords);
  const std::size_t used = data.size();
  while (data.size() < static_cast<std::size_t>(codewords)) data.push_back(pad_codeword(data.size(), used));
  return data;
}

TEST(DataBitsTest, SegmentTakesItsModeItsLengthAndItsCharacters) {
  // ISO/IEC 18004:2015, 7.4.3 to 7.4.5 (from memory): 4, the length, and 10 for 3 digits, 11 for 2 characters, 8.
  EXPECT_EQ(bits_taken(padded("01234567", 1, 16), 1), 4 + 10 + 27);
  EXPECT_EQ(bits_taken(padded("AC-42", 1, 16), 1), 4 + 9 + 28);
  EXPECT_EQ(bits_taken(padded("abc", 1, 16), 1), 4 + 8 + 24);
  EXPECT_EQ(bits_taken(padded("01234567", 10, 200), 10), 4 + 12 + 27);
  EXPECT_EQ(bits_taken(padded("AC-42", 27, 200), 27), 4 + 13 + 28);
  EXPECT_EQ(bits_taken(padded("abc", 40, 200), 40), 4 + 16 + 24);
}

TEST(DataBitsTest, FullSymbolHasNoRoomForATerminator) {
  EXPECT_EQ(bits_taken(padded("12345678901234", 1, 8), 1), 4 + 10 + 47);  // 3 bits are left
  EXPECT_EQ(bits_taken(padded("abcdefghijklmn", 1, 16), 1), 4 + 8 + 112);
  EXPECT_FALSE(text_codewords("abcdefghijklmno", 1, 16));
  EXPECT_FALSE(text_codewords("", 1, 16));
  EXPECT_FALSE(text_codewords(std::string(300, 'a'), 1, 1000));  // more than the length can say
}

TEST(DataBitsTest, CodewordsThatNoEncoderWritesAreRefused) {
  const auto sound = padded("AC-42", 1, 16);
  ASSERT_TRUE(bits_taken(sound, 1));
  for (std::size_t i = 6; i < sound.size(); ++i) {  // padding
    auto data = sound;
    data[i] ^= 1;
    EXPECT_FALSE(bits_taken(data, 1)) << i;
  }
  auto data = sound;
  data[0] = 0x60;  // no mode
  EXPECT_FALSE(bits_taken(data, 1));
  data[0] = 0x00;  // says nothing
  EXPECT_FALSE(bits_taken(data, 1));
  data[0] = 0x2f;  // longer than the symbol
  EXPECT_FALSE(bits_taken(data, 1));
  EXPECT_FALSE(bits_taken(std::vector<std::uint8_t>(16, 0), 1));
  EXPECT_FALSE(bits_taken({}, 1));
  // Three digits of 1000: mode 1, length 3, 1111101000.
  EXPECT_FALSE(bits_taken(std::vector<std::uint8_t>{0x10, 0x0f, 0xe8, 0x00}, 1));
  EXPECT_TRUE(bits_taken(std::vector<std::uint8_t>{0x10, 0x0f, 0x9c, 0x00}, 1));  // of 999
}

TEST(DataBitsTest, CharacterSetBeforeBytesIsWalked) {
  // ECI 26 (UTF-8), then one byte: 0111 00011010 0100 00000001 01100001 and the terminator.
  EXPECT_EQ(bits_taken(std::vector<std::uint8_t>{0x71, 0xa4, 0x01, 0x61, 0x00, 0xec}, 1), 32);
}

}  // namespace
}  // namespace counterfoil
