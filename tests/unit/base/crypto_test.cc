#include "base/crypto.h"

#include <gtest/gtest.h>

#include "base/json.h"
#include "base/text.h"
#include "support/vectors.h"

namespace counterfoil {
namespace {

std::string hex_of_sha256(std::string_view bytes) { return to_hex(bytes_of(sha256(bytes))); }
std::string unhex(std::string_view hex) {
  auto bytes = from_hex(hex);
  if (!bytes) ADD_FAILURE() << "not hex: " << hex;
  return bytes.value_or("");
}

// FIPS 180-2 appendix B, and NIST's CAVP vector of length 0.
TEST(Sha256, PublishedDigests) {
  EXPECT_EQ(hex_of_sha256(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  EXPECT_EQ(hex_of_sha256("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(hex_of_sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  EXPECT_EQ(hex_of_sha256(std::string(1'000'000, 'a')),
            "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST(Sha256, InPiecesIsTheSameAsInOne) {
  std::string bytes;
  for (int i = 0; i < 300; ++i) bytes += static_cast<char>(i);
  for (std::size_t cut = 0; cut <= bytes.size(); ++cut) {
    Sha256 hash;
    hash.add(std::string_view(bytes).substr(0, cut));
    hash.add(std::string_view(bytes).substr(cut));
    ASSERT_EQ(hash.finish(), sha256(bytes)) << cut;
  }
}

// The values of "name = value" lines with one of two names, in pairs.
std::vector<std::pair<std::string, std::string>> pairs_in(std::string_view file, std::string_view first,
                                                          std::string_view second) {
  std::vector<std::pair<std::string, std::string>> out;
  std::string held;
  for (const auto& line : split(vector_file(file), '\n')) {
    const auto at = line.find(" = ");
    if (at == std::string::npos) continue;
    const std::string value(trimmed(std::string_view(line).substr(at + 3)));
    if (line.substr(0, at) == first) held = value;
    if (line.substr(0, at) == second) out.emplace_back(held, value);
  }
  return out;
}

// NIST CAVP, SHA256ShortMsg.rsp and SHA256LongMsg.rsp (byte oriented).
TEST(Sha256, NistShortAndLongMessages) {
  SKIP_WITHOUT_VECTORS("sha256");
  EXPECT_EQ(pairs_in("sha256/SHA256ShortMsg.rsp", "Msg", "MD").size(), 65u);
  EXPECT_EQ(pairs_in("sha256/SHA256LongMsg.rsp", "Msg", "MD").size(), 64u);
  for (const auto file : {"sha256/SHA256ShortMsg.rsp", "sha256/SHA256LongMsg.rsp"})
    for (const auto& [message, digest] : pairs_in(file, "Msg", "MD")) {
      // The empty message is written "00" with a length of 0.
      const bool empty = message == "00" && hex_of_sha256("") == digest;
      EXPECT_EQ(hex_of_sha256(empty ? "" : unhex(message)), digest);
    }
}

// NIST CAVP, SHA256Monte.rsp: SHAVS section 6.4, each digest from the last three, a thousand times over.
TEST(Sha256, NistMonteCarlo) {
  SKIP_WITHOUT_VECTORS("sha256");
  const auto rounds = pairs_in("sha256/SHA256Monte.rsp", "COUNT", "MD");
  ASSERT_EQ(rounds.size(), 100u);
  std::string seed = unhex(pairs_in("sha256/SHA256Monte.rsp", "Seed", "COUNT").front().first);
  for (const auto& [count, digest] : rounds) {
    std::string a = seed, b = seed, c = seed;
    for (int i = 0; i < 1000; ++i) {
      std::string next(bytes_of(sha256(a + b + c)));
      a = std::exchange(b, std::exchange(c, next));
    }
    seed = c;
    ASSERT_EQ(to_hex(seed), digest) << "count " << count;
  }
}

bool verifies(std::string_view key_hex, std::string_view message, std::string_view signature_hex) {
  const auto key = array_of<32>(unhex(key_hex));
  const auto signature = array_of<64>(unhex(signature_hex));
  return key && signature && verify_signature(*key, message, *signature);
}

// RFC 8032 section 7.1, TEST 2.
TEST(Ed25519, PublishedSignature) {
  const auto key = SigningKey::from_seed(
      *array_of<32>(unhex("4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb")));
  EXPECT_EQ(to_hex(bytes_of(key.public_key())),
            "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c");
  const auto signature = key.sign("\x72");
  EXPECT_EQ(to_hex(bytes_of(signature)),
            "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da"
            "085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00");
  EXPECT_TRUE(verify_signature(key.public_key(), "\x72", signature));
  EXPECT_FALSE(verify_signature(key.public_key(), "\x73", signature));
}

// ed25519.cr.yp.to, sign.input: seed and key, key, message, signature and message.
TEST(Ed25519, SignaturesOfTheAuthors) {
  SKIP_WITHOUT_VECTORS("ed25519");
  std::size_t count = 0;
  for (const auto& line : split(vector_file("ed25519/ed25519-sign.input"), '\n')) {
    const auto fields = split(line, ':');
    if (fields.size() < 4) continue;
    const auto key = SigningKey::from_seed(*array_of<32>(unhex(fields[0].substr(0, 64))));
    const auto message = unhex(fields[2]);
    const auto signature = fields[3].substr(0, 128);
    ASSERT_EQ(to_hex(bytes_of(key.public_key())), fields[1]);
    ASSERT_EQ(to_hex(bytes_of(key.sign(message))), signature);
    ASSERT_TRUE(verifies(fields[1], message, signature));
    ASSERT_FALSE(verifies(fields[1], message + "x", signature));
    ++count;
  }
  EXPECT_EQ(count, 1024u);
}

// C2SP/wycheproof, ed25519_test.json, commit dac1dd47.
TEST(Ed25519, WycheproofIsJudgedAsPublished) {
  SKIP_WITHOUT_VECTORS("ed25519");
  const auto json = parse_json(vector_file("ed25519/wycheproof_ed25519_test.json"));
  ASSERT_TRUE(json) << json.error().message;
  std::size_t count = 0;
  for (const Json& group : *json->find("testGroups")->array()) {
    const std::string& key = *group.find("publicKey")->find("pk")->string();
    for (const Json& test : *group.find("tests")->array()) {
      EXPECT_EQ(verifies(key, unhex(*test.find("msg")->string()), *test.find("sig")->string()),
                *test.find("result")->string() == "valid")
          << "tcId " << *test.find("tcId")->integer();
      ++count;
    }
  }
  EXPECT_EQ(count, 151u);
}

// C2SP/CCTV, ed25519vectors.json, commit 1e3d2860: edge cases that verifiers differ on. What ours accepts is
// pinned, since two desks whose verifiers differ would differ on a log.
TEST(Ed25519, AcceptedEdgeCasesArePinned) {
  SKIP_WITHOUT_VECTORS("ed25519");
  const auto json = parse_json(vector_file("ed25519/cctv_ed25519vectors.json"));
  ASSERT_TRUE(json) << json.error().message;
  ASSERT_EQ(json->array()->size(), 914u);
  std::vector<std::int64_t> accepted;
  for (const Json& test : *json->array())
    if (verifies(*test.find("key")->string(), *test.find("msg")->string(), *test.find("sig")->string()))
      accepted.push_back(*test.find("number")->integer());
  EXPECT_EQ(accepted, (std::vector<std::int64_t>{7,   29,  50,  117, 139, 161, 182, 249, 305, 411, 425,
                                                 438, 465, 473, 481, 489, 497, 511, 525, 538, 565, 573,
                                                 581, 589, 597, 611, 625, 638, 665, 673, 681, 689, 697,
                                                 711, 725, 738, 765, 773, 781, 789, 797, 832, 899}));
}

TEST(SigningKey, SealedKeyOpensWithItsPassphraseOnly) {
  const auto key = SigningKey::from_seed({7});
  const auto text = key.to_text("gasket and seat");
  // The whole seed: a few characters of it can stand in any random text.
  EXPECT_EQ(text.find(to_base64(std::string(1, 7) + std::string(31, '\0'))), std::string::npos);
  const auto opened = SigningKey::from_text(text, "gasket and seat");
  ASSERT_TRUE(opened) << opened.error().message;
  EXPECT_EQ(opened->public_key(), key.public_key());
  EXPECT_EQ(opened->sign("x"), key.sign("x"));
  for (const auto wrong : {"", "gasket and seal"}) {
    const auto no = SigningKey::from_text(text, wrong);
    ASSERT_FALSE(no);
    EXPECT_EQ(no.error().kind, ErrorKind::refused);
  }
  EXPECT_NE(key.to_text("gasket and seat"), text) << "salt and nonce are drawn anew";
}

TEST(SigningKey, PlainKeyIsItsSeedInText) {
  const auto key = SigningKey::from_seed({7});
  const auto text = key.to_text("");
  EXPECT_EQ(text, "counterfoil-key-1 plain " + to_base64(std::string(1, 7) + std::string(31, '\0')) + "\n");
  for (const auto passphrase : {"", "any"}) {
    const auto opened = SigningKey::from_text(text, passphrase);
    ASSERT_TRUE(opened);
    EXPECT_EQ(opened->public_key(), key.public_key());
  }
}

TEST(SigningKey, DamagedOrGreedyKeyTextIsMalformed) {
  const std::string text = SigningKey::from_seed({7}).to_text("p");
  auto greedy = split(text, ' ');
  greedy[3] = "99999999999";
  std::string planted;
  for (const auto& word : greedy) planted += (planted.empty() ? "" : " ") + word;
  for (const auto& wrong :
       {std::string(), text.substr(0, text.size() - 1), text.substr(3), text + text,
        text.substr(0, 60) + "\n", planted, std::string("counterfoil-key-1 plain AAAA\n")}) {
    const auto read = SigningKey::from_text(wrong, "p");
    ASSERT_FALSE(read) << wrong;
    EXPECT_EQ(read.error().kind, ErrorKind::malformed) << wrong;
  }
}

TEST(SigningKey, GeneratedKeysDiffer) {
  EXPECT_NE(SigningKey::generate().public_key(), SigningKey::generate().public_key());
}

}  // namespace
}  // namespace counterfoil
