#include "base/text.h"

#include <gtest/gtest.h>

#include <random>

namespace counterfoil {
namespace {

TEST(Hex, ComesBackForEveryByte) {
  std::string all;
  for (int i = 0; i < 256; ++i) all += static_cast<char>(i);
  EXPECT_EQ(to_hex(std::string_view("\x00\x7f\xa0\xff", 4)), "007fa0ff");
  EXPECT_EQ(from_hex(to_hex(all)), all);
  EXPECT_EQ(from_hex(""), "");
}

TEST(Hex, OddLengthUpperCaseAndOtherCharactersAreRefused) {
  for (const char* hex : {"0", "0g", "AA", " 00", "0x00"}) EXPECT_FALSE(from_hex(hex)) << hex;
}

// RFC 4648 section 10.
TEST(Base64, AgreesWithThePublishedVectors) {
  const std::pair<const char*, const char*> vectors[] = {{"", ""},
                                                         {"f", "Zg=="},
                                                         {"fo", "Zm8="},
                                                         {"foo", "Zm9v"},
                                                         {"foob", "Zm9vYg=="},
                                                         {"fooba", "Zm9vYmE="},
                                                         {"foobar", "Zm9vYmFy"}};
  for (const auto& [bytes, text] : vectors) {
    EXPECT_EQ(to_base64(bytes), text);
    EXPECT_EQ(from_base64(text), bytes);
  }
}

TEST(Base64, ComesBackForEveryLength) {
  std::mt19937 random(4648);
  for (std::size_t size = 0; size < 200; ++size) {
    std::string bytes(size, '\0');
    for (char& c : bytes) c = static_cast<char>(random());
    EXPECT_EQ(from_base64(to_base64(bytes)), bytes);
  }
  EXPECT_EQ(to_base64("\xfb\xff\xbf"), "+/+/");
}

TEST(Base64, EachByteStringHasOneSpelling) {
  for (const char* text : {"Zg", "Zg=", "Zg===", "Zh==", "Zm9=", "Z===", "====", "Zg==Zg==", "Zm 9v",
                           "Zm9v\n", "-_-_", "=Zg=", "Zg=A"})
    EXPECT_FALSE(from_base64(text)) << text;
}

// U+D7FF, U+E000, U+10FFFF and the first and last code point of each length.
TEST(Utf8, WellFormedTextIsTaken) {
  for (const char* text :
       {"", "a", "\x7f", "\xc2\x80", "\xdf\xbf", "\xe0\xa0\x80", "\xed\x9f\xbf", "\xee\x80\x80",
        "\xef\xbf\xbf", "\xf0\x90\x80\x80", "\xf4\x8f\xbf\xbf", "\xc5\xbd\xc4\x8f\xc3\xa1r"})
    EXPECT_TRUE(is_utf8(text)) << to_hex(text);
  EXPECT_TRUE(is_utf8(std::string_view("\0", 1)));
}

TEST(Utf8, OverlongSurrogateTruncatedAndStrayBytesAreRefused) {
  for (const char* text : {"\x80",
                           "\xbf",
                           "\xc0\x80",
                           "\xc1\xbf",
                           "\xe0\x80\x80",
                           "\xe0\x9f\xbf",
                           "\xf0\x80\x80\x80",
                           "\xf0\x8f\xbf\xbf",
                           "\xed\xa0\x80",
                           "\xed\xbf\xbf",
                           "\xf4\x90\x80\x80",
                           "\xf5\x80\x80\x80",
                           "\xf8\x88\x80\x80\x80",
                           "\xfe",
                           "\xff",
                           "\xc2",
                           "\xe2\x82",
                           "\xf0\x9f\x98",
                           "\xc2"
                           "a",
                           "\xe2\x82"
                           "a",
                           "a\xc3"})
    EXPECT_FALSE(is_utf8(text)) << to_hex(text);
}

TEST(ControlCharacters, AreFoundInBothBlocks) {
  for (const char* text : {"\x01", "a\nb", "\x1b[2J", "\x7f", "\xc2\x80",
                           "a\xc2\x9b"
                           "2J"})
    EXPECT_TRUE(has_control_characters(text)) << to_hex(text);
  EXPECT_TRUE(has_control_characters(std::string_view("\0", 1)));
  for (const char* text : {"", " ~", "\xc2\xa0", "\xc3\x85se", "\xc5\xbd\xc4\x8f\xc3\xa1r", "\xe2\x82\xac"})
    EXPECT_FALSE(has_control_characters(text)) << to_hex(text);
}

TEST(Case, ChangesOnlyAscii) {
  EXPECT_EQ(to_upper("\xc3\xa5se z09-"), "\xc3\xa5SE Z09-");
  EXPECT_EQ(to_lower("\xc3\x85SE Z09-"), "\xc3\x85se z09-");
}

TEST(Trimmed, TakesSpaceFromTheEndsOnly) {
  EXPECT_EQ(trimmed(" \t\r\na b\n "), "a b");
  EXPECT_EQ(trimmed(""), "");
  EXPECT_EQ(trimmed(" \n"), "");
}

TEST(Split, KeepsEmptyPieces) {
  EXPECT_EQ(split("", ','), (std::vector<std::string>{""}));
  EXPECT_EQ(split("a,,b,", ','), (std::vector<std::string>{"a", "", "b", ""}));
}

TEST(Counted, MakesThePlural) {
  EXPECT_EQ(counted(1, "valve"), "1 valve");
  EXPECT_EQ(counted(0, "valve"), "0 valves");
  EXPECT_EQ(counted(1, "entry"), "1 entry");
  EXPECT_EQ(counted(2, "entry"), "2 entries");
  EXPECT_EQ(counted(3, "day"), "3 days");
}

TEST(ToUnsigned, TakesOneSpellingOfEachInteger) {
  EXPECT_EQ(to_unsigned("0"), 0u);
  EXPECT_EQ(to_unsigned("999999999999999999"), 999999999999999999u);
  for (const char* text : {"", "00", "01", "+1", "-1", " 1", "1 ", "1.0", "0x1", "1000000000000000000"})
    EXPECT_FALSE(to_unsigned(text)) << text;
}

// Unicode Standard Annex 15, NFC: U+0041 U+030A is U+00C5.
TEST(Composed, GivesOneSpelling) {
  EXPECT_EQ(composed("A\u030Ase"), "\u00C5se");
  EXPECT_EQ(composed("\u00C5se"), "\u00C5se");
}

TEST(Folded, TakesCaseBlanksDashesAndWidthAsOne) {
  for (const auto* spelling :
       {"1 HE D1", "1  he  d1", "1HED1", "1-HE-D1", "1\u2013he\u2013d1", "\uFF11 HE D1", "1_he.d1"})
    EXPECT_EQ(folded(spelling), folded("1 HE D1")) << spelling;
  EXPECT_EQ(folded("ŽĎÁR"), folded("žďár"));
  EXPECT_NE(folded("1 HE D1"), folded("1 HE D2"));
  EXPECT_NE(folded("1 HE D1"), folded("1 HE S1"));
}

TEST(Counted, BoxesHaveAnE) { EXPECT_EQ(counted(2, "box"), "2 boxes"); }

}  // namespace
}  // namespace counterfoil
