#include "base/json.h"

#include <gtest/gtest.h>

#include <bit>
#include <filesystem>
#include <random>

#include "base/file.h"

namespace counterfoil {
namespace {

std::string canonical(std::string_view text) {
  const auto value = parse_json(text);
  EXPECT_TRUE(value) << text << ": " << value.error().message;
  return value ? canonical_json(*value) : "";
}

std::string complaint(std::string_view text) {
  const auto value = parse_json(text);
  EXPECT_FALSE(value) << text.substr(0, 100);
  if (value) return "";
  EXPECT_EQ(value.error().kind, ErrorKind::malformed);
  return value.error().message;
}

class CanonicalJsonVector : public testing::TestWithParam<const char*> {};

// github.com/cyberphone/json-canonicalization, testdata, commit 19d51d7f.
TEST_P(CanonicalJsonVector, AgreesWithTheAuthorsOutput) {
  const std::string folder = COUNTERFOIL_SHARED "/vectors/jcs";
  if (!std::filesystem::exists(folder)) GTEST_SKIP() << "no published vectors in " << folder;
  const auto input = read_file(folder + "/input/" + GetParam() + ".json", 1 << 20);
  const auto output = read_file(folder + "/output/" + GetParam() + ".json", 1 << 20);
  ASSERT_TRUE(input && output);
  EXPECT_EQ(canonical(*input), *output);
  EXPECT_EQ(canonical(*output), *output);
}
INSTANTIATE_TEST_SUITE_P(Rfc8785, CanonicalJsonVector,
                         testing::Values("arrays", "french", "structures", "unicode", "values", "weird"));

// RFC 8785 section 3.2.3: names in the order of their UTF-16 code units, so U+1F602 stands before U+FB33.
TEST(CanonicalJson, NamesAreSortedByUtf16CodeUnits) {
  EXPECT_EQ(
      canonical(
          "{\"\\u20ac\":\"Euro Sign\",\"\\r\":\"Carriage Return\",\"\\ufb33\":\"Hebrew Letter Dalet With "
          "Dagesh\",\"1\":\"One\",\"\\ud83d\\ude00\":\"Emoji: Grinning Face\",\"\\u0080\":\"Control\","
          "\"\\u00f6\":\"Latin Small Letter O With Diaeresis\"}"),
      "{\"\\r\":\"Carriage Return\",\"1\":\"One\",\"\xc2\x80\":\"Control\",\"\xc3\xb6\":\"Latin Small Letter "
      "O "
      "With Diaeresis\",\"\xe2\x82\xac\":\"Euro Sign\",\"\xf0\x9f\x98\x80\":\"Emoji: Grinning "
      "Face\",\"\xef\xac\xb3\":\"Hebrew Letter Dalet With Dagesh\"}");
  EXPECT_EQ(canonical("{\"b\":1,\"aa\":2,\"a\":3,\"\":4}"), "{\"\":4,\"a\":3,\"aa\":2,\"b\":1}");
}

// RFC 8785 section 3.2.2.
TEST(CanonicalJson, ExampleOfTheStandardIsReproduced) {
  EXPECT_EQ(
      canonical("{\n  \"numbers\": [333333333.33333329, 1E30, 4.50,\n   2e-3, "
                "0.000000000000000000000000001],\n  \"string\": "
                "\"\\u20ac$\\u000F\\u000aA'\\u0042\\u0022\\u005c\\\\\\\"\\/\",\n  \"literals\": [null, true, "
                "false]\n}"),
      "{\"literals\":[null,true,false],\"numbers\":[333333333.3333333,1e+30,4.5,0.002,1e-27],\"string\":"
      "\"\xe2\x82\xac$\\u000f\\nA'B\\\"\\\\\\\\\\\"/\"}");
}

// RFC 8785 appendix B (from memory): the bits of a double and what it is written as.
TEST(CanonicalJson, NumbersAreWrittenAsTheStandardsTableHasThem) {
  const std::pair<std::uint64_t, const char*> table[] = {
      {0x0000000000000000, "0"},
      {0x8000000000000000, "0"},
      {0x0000000000000001, "5e-324"},
      {0x8000000000000001, "-5e-324"},
      {0x7fefffffffffffff, "1.7976931348623157e+308"},
      {0xffefffffffffffff, "-1.7976931348623157e+308"},
      {0x4340000000000000, "9007199254740992"},
      {0xc340000000000000, "-9007199254740992"},
      {0x4430000000000000, "295147905179352830000"},
      {0x44b52d02c7e14af5, "9.999999999999997e+22"},
      {0x44b52d02c7e14af6, "1e+23"},
      {0x44b52d02c7e14af7, "1.0000000000000001e+23"},
      {0x444b1ae4d6e2ef4e, "999999999999999700000"},
      {0x444b1ae4d6e2ef4f, "999999999999999900000"},
      {0x444b1ae4d6e2ef50, "1e+21"},
      {0x3eb0c6f7a0b5ed8c, "9.999999999999997e-7"},
      {0x3eb0c6f7a0b5ed8d, "0.000001"},
      {0x41b3de4355555553, "333333333.3333332"},
      {0x41b3de4355555554, "333333333.33333325"},
      {0x41b3de4355555555, "333333333.3333333"},
      {0x41b3de4355555556, "333333333.3333334"},
      {0x41b3de4355555557, "333333333.33333343"},
      {0xbecbf647612f3696, "-0.0000033333333333333333"},
      {0x43143ff3c1cb0959, "1424953923781206.2"},
  };
  for (const auto& [bits, text] : table) EXPECT_EQ(canonical_json(Json(std::bit_cast<double>(bits))), text);
}

TEST(CanonicalJson, IsAFixedPointForEveryFiniteDouble) {
  std::mt19937_64 random(8785);
  for (int i = 0; i < 20000; ++i) {
    const double value =
        i % 2 == 0 ? std::bit_cast<double>(random()) : static_cast<double>(random() >> (i % 60));
    if (!std::isfinite(value)) continue;
    const std::string text = canonical_json(Json(value));
    ASSERT_EQ(std::strtod(text.c_str(), nullptr), value) << text;
    ASSERT_EQ(canonical(text), text);
  }
}

TEST(CanonicalJson, OnlyTheseCharactersAreEscaped) {
  std::string all;
  for (char c = 1; c < 0x7f; ++c) all += c;
  EXPECT_EQ(canonical_json(Json(all)),
            "\"\\u0001\\u0002\\u0003\\u0004\\u0005\\u0006\\u0007\\b\\t\\n\\u000b\\f\\r\\u000e\\u000f\\u0010\\"
            "u0011\\u0012"
            "\\u0013\\u0014\\u0015\\u0016\\u0017\\u0018\\u0019\\u001a\\u001b\\u001c\\u001d\\u001e\\u001f "
            "!\\\"#$%&'()*+,-./"
            "0123456789:;<=>?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[\\\\]^_`abcdefghijklmnopqrstuvwxyz{|}~\"");
  EXPECT_EQ(canonical_json(Json(std::string("\0\x7f", 2))), "\"\\u0000\x7f\"");
}

TEST(CanonicalJsonDeathTest, ValueThatAnotherReaderWouldChangeAborts) {
  EXPECT_DEATH(canonical_json(Json((std::int64_t{1} << 53) + 1)), "");
  EXPECT_DEATH(canonical_json(Json(HUGE_VAL)), "");
  EXPECT_DEATH(Json(~std::uint64_t{0}), "");
}

TEST(ParseJson, TypesAreKeptApart) {
  const auto value = parse_json(R"({"n":null,"t":true,"i":-7,"r":7.0,"s":"x","a":[1],"o":{}})");
  ASSERT_TRUE(value);
  EXPECT_TRUE(value->find("n")->is_null());
  EXPECT_TRUE(*value->find("t")->boolean());
  EXPECT_EQ(*value->find("i")->integer(), -7);
  EXPECT_EQ(*value->find("r")->real(), 7.0);
  EXPECT_EQ(value->find("r")->integer(), nullptr);
  EXPECT_EQ(*value->find("s")->string(), "x");
  EXPECT_EQ(value->find("a")->array()->size(), 1u);
  EXPECT_TRUE(value->find("o")->object()->empty());
  EXPECT_EQ(value->find("missing"), nullptr);
  EXPECT_EQ(value->find("s")->find("x"), nullptr);
}

TEST(ParseJson, NameTwiceIsRefused) {
  EXPECT_EQ(complaint(R"({"a":1,"b":2,"a":1})"), "name \"a\" twice in one object");
  EXPECT_EQ(complaint(R"({"a":{"x":1,"\u0078":2}})"), "name \"x\" twice in one object");
  EXPECT_EQ(canonical(R"({"a":{"x":1},"b":{"x":1}})"), R"({"a":{"x":1},"b":{"x":1}})");
}

TEST(ParseJson, ByteOrderMarkIsRefused) { complaint("\xef\xbb\xbf{}"); }

TEST(ParseJson, TextBehindTheValueIsRefused) {
  for (const char* text : {"{}x", "{} {}", "1 2", "[],", "null\x01"}) complaint(text);
  // The library ends at a NUL byte and so would take both.
  complaint(std::string_view("{}\0", 3));
  complaint(std::string_view("{}\0x", 4));
  EXPECT_EQ(canonical(" \t\r\n{} \n"), "{}");
}

TEST(ParseJson, WhatIsNotJsonIsRefused) {
  for (const char* text :
       {"",    " ",      "{",       "[1,]",        "{\"a\":1,}", "{a:1}",    "{'a':1}", "[1 2]", "01",
        "+1",  "1.",     ".5",      "1e",          "NaN",        "Infinity", "-",       "0x1",   "tru",
        "\"a", "\"\n\"", "\"\\x\"", "\"\\u12g4\"", "/* */1",     "// \n1",   "\v1"})
    complaint(text);
}

TEST(ParseJson, TheFaultIsNamedByLineAndColumn) {
  EXPECT_EQ(complaint("{\n  \"a\": 1\n  \"b\": 2\n}"),
            "not JSON at line 3, column 5");  // the end of the text "b"
  EXPECT_EQ(complaint("{\"name\": \"\xc5\xbd\xc4\x8f\", }"), "not JSON at line 1, column 16");
  EXPECT_EQ(complaint(""), "not JSON at line 1, column 1");
  EXPECT_EQ(complaint("[1,\n"), "not JSON at line 2, column 1");
}

TEST(ParseJson, InvalidUtf8AndLoneSurrogatesAreRefused) {
  for (const char* text : {"\"\xff\"", "\"\xc3\"", "\"\xed\xa0\x80\"", "\"\xc0\x80\"", "\"\\ud83d\"",
                           "\"\\ude02\"", "\"\\ude02\\ud83d\"", "\"\\ud83dx\""})
    complaint(text);
  EXPECT_EQ(canonical("\"\\ud83d\\ude02\""), "\"\xf0\x9f\x98\x82\"");
}

TEST(ParseJson, DeepestNestingIsTakenAndOneMoreRefused) {
  const auto nested = [](std::size_t depth) { return std::string(depth, '[') + std::string(depth, ']'); };
  EXPECT_EQ(canonical(nested(64)), nested(64));
  EXPECT_EQ(complaint(nested(65)), "nested deeper than 64 levels");
}

// A parser or a destructor that recurses would run out of stack here.
TEST(ParseJson, NestingBombIsRefusedAtItsDepth) {
  EXPECT_EQ(complaint(std::string(3000000, '[')), "nested deeper than 64 levels");
  std::string objects;
  for (int i = 0; i < 300000; ++i) objects += "{\"a\":";
  EXPECT_EQ(complaint(objects), "nested deeper than 64 levels");
}

TEST(ParseJson, NumberOutOfRangeIsRefused) {
  for (const char* text : {"1e400", "-1e400", "1e99999999999999999999"})
    EXPECT_EQ(complaint(text), "number out of range");
}

TEST(ParseJson, IntegerThatAnotherReaderWouldChangeIsRefused) {
  EXPECT_EQ(*parse_json("9007199254740992")->integer(), std::int64_t{1} << 53);
  EXPECT_EQ(*parse_json("-9007199254740992")->integer(), -(std::int64_t{1} << 53));
  for (const char* text :
       {"9007199254740993", "-9007199254740993", "9223372036854775807", "-9223372036854775808",
        "18446744073709551615", "18446744073709551616", "100000000000000000001", "1000000000000000000000"})
    EXPECT_EQ(complaint(text), "integer beyond 2^53");
}

// What canonical_json writes for a large double must be readable again.
TEST(ParseJson, LargeIntegerThatADoubleIsWrittenAsIsTaken) {
  for (const char* text :
       {"10000000000000000", "-10000000000000000", "18446744073709552000", "100000000000000000000"})
    EXPECT_EQ(canonical(text), text);
}

TEST(ParseJson, ZeroHasOneForm) {
  for (const char* text : {"0", "-0", "0.0", "-0.0", "0e5", "1e-400"})
    EXPECT_EQ(canonical(text), "0") << text;
}

}  // namespace
}  // namespace counterfoil
