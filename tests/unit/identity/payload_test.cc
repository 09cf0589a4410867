#include "identity/payload.h"

#include <gtest/gtest.h>

namespace counterfoil {
namespace {

constexpr std::string_view kQrAlphanumeric =
    "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";  // ISO/IEC 18004 table 5

Number sample() { return *Number::from_exact("K74Q2B8X61"); }

ErrorKind kind_of(std::string_view text) {
  const auto payload = parse_payload(text);
  EXPECT_FALSE(payload) << text;
  return payload ? ErrorKind::unreadable : payload.error().kind;
}

// Printed on tags: these may never change.
TEST(Payload, IsWrittenAsTheGrammarHasIt) {
  EXPECT_EQ(write_payload({sample(), Half::bag, 1}), "CF1.K74Q2B8X61.BAG1");
  EXPECT_EQ(write_payload({sample(), Half::box, 12}), "CF1.K74Q2B8X61.BOX12");
  EXPECT_EQ(write_payload({sample(), Half::label, 99}), "CF1.K74Q2B8X61.LBL99");
  EXPECT_EQ(write_payload({sample(), Half::bag, 1}, "TAGS.EXAMPLE.ORG"),
            "HTTPS://TAGS.EXAMPLE.ORG/CF1/K74Q2B8X61/BAG1");
}

TEST(Payload, ComesBackInBothFormsForEveryHalfAndCopyAndStaysAlphanumeric) {
  for (std::uint32_t counter = 1; counter <= 5; ++counter) {
    const auto number = number_at("K7", counter);
    if (!number) continue;
    for (const Half half : {Half::bag, Half::box, Half::label}) {
      for (int copy = 1; copy <= kLastCopy; ++copy) {
        for (const char* host : {"", "TAGS.EXAMPLE.ORG", "A", "10.0.0.7:8443"}) {
          const Payload payload{*number, half, copy};
          const std::string text = write_payload(payload, host);
          ASSERT_EQ(text.find_first_not_of(kQrAlphanumeric), std::string::npos) << text;
          const auto back = parse_payload(text);
          ASSERT_TRUE(back) << text;
          ASSERT_EQ(*back, payload) << text;
        }
      }
    }
  }
}

TEST(Payload, LinkIsTakenInAnyCase) {
  const auto payload = parse_payload("https://tags.example.org/cf1/k74q2b8x61/box3");
  ASSERT_TRUE(payload);
  EXPECT_EQ(*payload, (Payload{sample(), Half::box, 3}));
}

TEST(Payload, OfAnotherPartyIsRefused) {
  for (const char* text :
       {"", "CF1", "CF2.K74Q2B8X61.BAG1", "XCF1.K74Q2B8X61.BAG1", "K74Q2B8X61", "HTTPS://EXAMPLE.ORG/",
        "HTTPS://EXAMPLE.ORG/CF2/K74Q2B8X61/BAG1", "HTTPS://EXAMPLE.ORG/A/CF1/K74Q2B8X61/BAG1",
        "HTTPS:///CF1/K74Q2B8X61/BAG1", "HTTP://EXAMPLE.ORG/CF1/K74Q2B8X61/BAG1",
        "HTTPS://EX_AMPLE.ORG/CF1/K74Q2B8X61/BAG1", "HTTPS://U@EXAMPLE.ORG/CF1/K74Q2B8X61/BAG1"})
    EXPECT_EQ(kind_of(text), ErrorKind::refused) << text;
}

TEST(Payload, OfOursThatDoesNotHoldIsMalformed) {
  for (const char* text :
       {"CF1.", "CF1.K74Q2B8X61", "CF1.K74Q2B8X61.", "CF1.K74Q2B8X61.BAG", "CF1.K74Q2B8X61.BAG0",
        "CF1.K74Q2B8X61.BAG01", "CF1.K74Q2B8X61.BAG100", "CF1.K74Q2B8X61.BAG1 ", "CF1.K74Q2B8X61.BAG1.",
        "CF1.K74Q2B8X61.TUB1", "CF1.K74Q2B8X16.BAG1", "CF1.K74Q2B8X6I.BAG1", "CF1.K74Q 2B8X 61.BAG1",
        "CF1.K74Q2B8X61/BAG1", "HTTPS://A/CF1/K74Q2B8X61.BAG1", "HTTPS://A/CF1/K74Q2B8X61/BAG1/",
        "HTTPS://A/CF1/K74Q2B8X61/BAG1?X=1", "HTTPS://A/CF1/"})
    EXPECT_EQ(kind_of(text), ErrorKind::malformed) << text;
}

TEST(Half, IsAWholeWord) {
  for (const Half half : {Half::bag, Half::box, Half::label}) EXPECT_EQ(*parse_half(to_text(half)), half);
  EXPECT_EQ(*parse_half(" Box "), Half::box);
  for (const char* text : {"", "b", "bags", "LBL"}) EXPECT_FALSE(parse_half(text)) << text;
}

TEST(Host, IsReturnedInUpperCase) {
  EXPECT_EQ(*parse_host("tags.example.org"), "TAGS.EXAMPLE.ORG");
  EXPECT_EQ(*parse_host(" localhost:8080 "), "LOCALHOST:8080");
  EXPECT_TRUE(parse_host("a-b.c"));
  EXPECT_TRUE(parse_host(std::string(60, 'a')));
  EXPECT_TRUE(parse_host("a:65535"));
}

TEST(Host, WithAnythingThatALinkCannotBearIsRefused) {
  for (const char* text : {"",      ".",         "a.",   ".a",  "a..b",
                           "-a",    "a-",        "a.-b", "a_b", "a b",
                           "a/b",   "https://a", "a:",   "a:0", "a:65536",
                           "a:080", "a:8:8",     ":80",  "u@a", "\xc5\xbd\xc4\x8f\xc3\xa1r"}) {
    const auto host = parse_host(text);
    ASSERT_FALSE(host) << text;
    EXPECT_EQ(host.error().kind, ErrorKind::malformed);
  }
  EXPECT_FALSE(parse_host(std::string(61, 'a')));
}

}  // namespace
}  // namespace counterfoil
