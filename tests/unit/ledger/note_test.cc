#include "ledger/note.h"

#include <gtest/gtest.h>

#include "base/text.h"
#include "ledger/tree.h"
#include "support/vectors.h"

namespace counterfoil {
namespace {

// golang.org/x/mod sumdb/note, note_test.go: key, seed, text and signature of its example.
constexpr std::string_view kPeterKey = "PeterNeumann+c74f20a3+ARpc2QcUPDhMQegwxbzhKqiBfsVkmqq/LDE4izWy10TW";
constexpr std::string_view kPeterSeed = "AYEKFALVFGyNhPJEMzD1QIDr+Y7hfZx09iUvxdXHKDFz";
constexpr std::string_view kPeterText =
    "If you think cryptography is the answer to your problem,\nthen you don't know what your problem is.\n";
constexpr std::string_view kPeterSignature =
    "x08go/ZJkuBS9UG/SffcvIAQxVBtiFupLLr8pAcElZInNIuGUgYN1FFYC2pZSNXgKvqfqdngotpRZb6KE6RyyBwJnAM=";
// transparency-dev/tessera, testdata/build_log.sh: the key and the seed of the test log.
constexpr std::string_view kLogKey =
    "example.com/log/testdata+33d7b496+AeHTu4Q3hEIMHNqc6fASMsq3rKNx280NI+oO5xCFkkSx";
constexpr std::string_view kLogSeed = "AeymY/SZAX0jZcJ8enZ5FY1Dz+wTML2yWSkK+9DSF3eg";

// A seed as those tests write it: type byte 1, then 32 bytes.
SigningKey key_from(std::string_view base64) {
  return SigningKey::from_seed(*array_of<32>(from_base64(base64)->substr(1)));
}

VerifierKey key(std::string_view text) { return *VerifierKey::parse(text); }

const Checkpoint kCheckpoint{"Žďár/storeroom", 7, sha256("root")};
SigningKey desk_key() { return SigningKey::from_seed({4}); }
VerifierKey desk_verifier() { return {kCheckpoint.origin, desk_key().public_key()}; }

std::optional<ErrorKind> kind_of(const auto& result) {
  return result ? std::nullopt : std::optional(result.error().kind);
}

// The note with one part of it put in another's place.
std::string with(std::string note, std::string_view part, std::string_view other) {
  const auto at = note.find(part);
  EXPECT_NE(at, std::string::npos) << part;
  return note.replace(at, part.size(), other);
}

TEST(Note, PublishedKeyIsReadAndWrittenBack) {
  for (const auto text : {kPeterKey, kLogKey}) {
    const auto read = VerifierKey::parse(text);
    ASSERT_TRUE(read) << read.error().message;
    EXPECT_EQ(read->text(), text);
  }
  EXPECT_EQ(key_from(kPeterSeed).public_key(), key(kPeterKey).key);
  EXPECT_EQ(key_from(kLogSeed).public_key(), key(kLogKey).key);
}

TEST(Note, PublishedSignatureIsReproduced) {
  const auto bytes = from_base64(kPeterSignature);
  ASSERT_TRUE(bytes);
  EXPECT_EQ(bytes->substr(4), bytes_of(key_from(kPeterSeed).sign(kPeterText)));
  EXPECT_EQ(to_hex(bytes->substr(0, 4)), "c74f20a3");
}

// The manglings are note_test.go's.
TEST(Note, MangledKeyIsRefused) {
  const std::string text(kPeterKey);
  for (std::size_t i = 0; i < text.size(); ++i) {
    std::string changed = text;
    ++changed[i];
    EXPECT_EQ(kind_of(VerifierKey::parse(changed)), ErrorKind::malformed) << changed;
    for (std::size_t n = i == 0 ? text.size() - 1 : text.size() - i; n > 0; --n)
      EXPECT_EQ(kind_of(VerifierKey::parse(text.substr(i, n))), ErrorKind::malformed) << text.substr(i, n);
  }
  EXPECT_FALSE(
      VerifierKey::parse("PeterNeumann+cc469956+ARpc2QcUPDhMQegwxbzhKqiBfsVkmqq/LDE4izWy10TWBADKEY=="));
  EXPECT_FALSE(VerifierKey::parse("PeterNeumann+173116ae+ZRpc2QcUPDhMQegwxbzhKqiBfsVkmqq/LDE4izWy10TW"));
}

TEST(Note, NamesWithSpaceOrPlusAreNone) {
  EXPECT_TRUE(is_key_name("Žďár/storeroom"));
  for (const auto name : {"", "a b", "a+b", "a\tb", "a\nb", "a\u00a0b", "a\u2003b", "a\u3000b", "a\xff"})
    EXPECT_FALSE(is_key_name(name)) << name;
}

TEST(Note, CheckpointOpensWithItsKeyOnly) {
  const auto note = sign_checkpoint(kCheckpoint, desk_key());
  const auto opened = open_checkpoint(note, desk_verifier());
  ASSERT_TRUE(opened) << opened.error().message;
  EXPECT_EQ(*opened, kCheckpoint);
  const VerifierKey other_key{kCheckpoint.origin, SigningKey::from_seed({5}).public_key()};
  EXPECT_EQ(kind_of(open_checkpoint(note, other_key)), ErrorKind::refused);
  EXPECT_EQ(kind_of(open_checkpoint(note, {"other", desk_key().public_key()})), ErrorKind::refused);
}

TEST(Note, LinesByOtherKeysAreSkipped) {
  const auto note = sign_checkpoint(kCheckpoint, desk_key());
  const std::string other = "— witness.example " + std::string(kPeterSignature) + "\n";
  EXPECT_TRUE(open_checkpoint(note + other, desk_verifier()));
  EXPECT_TRUE(open_checkpoint(with(note, "\n\n— ", "\n\n" + other + "— "), desk_verifier()));
  // Our name with another key's id is another key.
  EXPECT_TRUE(open_checkpoint(note + "— " + kCheckpoint.origin + " " + std::string(kPeterSignature) + "\n",
                              desk_verifier()));
}

TEST(Note, ExtensionLinesAreSignedAndSkipped) {
  const std::string text = kCheckpoint.origin + "\n7\n" + to_base64(bytes_of(kCheckpoint.root)) + "\nmore\n";
  const std::string id = *from_hex(split(desk_verifier().text(), '+')[1]);
  const auto line = [&](std::string_view signed_text) {
    return "\n— " + kCheckpoint.origin + " " +
           to_base64(id + std::string(bytes_of(desk_key().sign(signed_text)))) + "\n";
  };
  const auto opened = open_checkpoint(text + line(text), desk_verifier());
  ASSERT_TRUE(opened) << opened.error().message;
  EXPECT_EQ(*opened, kCheckpoint);
  EXPECT_EQ(kind_of(open_checkpoint(with(text, "more", "less") + line(text), desk_verifier())),
            ErrorKind::refused);
}

TEST(Note, SecondSignatureByTheKeyThatFailsIsRefused) {
  const auto note = sign_checkpoint(kCheckpoint, desk_key());
  auto forged = kCheckpoint;
  forged.size = 8;
  const auto other = sign_checkpoint(forged, desk_key());
  EXPECT_EQ(kind_of(open_checkpoint(note + other.substr(other.find("—")), desk_verifier())),
            ErrorKind::refused);
}

TEST(Note, EachFlippedBitOfACheckpointIsNotAccepted) {
  const auto note = sign_checkpoint(kCheckpoint, desk_key());
  for (std::size_t bit = 0; bit < note.size() * 8; ++bit) {
    auto flipped = note;
    flipped[bit / 8] = static_cast<char>(flipped[bit / 8] ^ (1 << bit % 8));
    EXPECT_FALSE(open_checkpoint(flipped, desk_verifier())) << "bit " << bit;
  }
}

TEST(Note, WrongFormIsMalformed) {
  const auto note = sign_checkpoint(kCheckpoint, desk_key());
  const std::string many = [&] {
    std::string out = note;
    for (int i = 0; i < 100; ++i) out += note.substr(note.find("—"));
    return out;
  }();
  for (const auto& wrong :
       {std::string(), note.substr(0, note.size() - 1), note + "\n", with(note, "\n\n", "\n"),
        with(note, "\n7\n", "\n07\n"), with(note, "\n7\n", "\n-7\n"), with(note, "\n7\n", "\n\n"),
        with(note, "\n7\n", "\n7 \n"), with(note, "\n7\n", "\n7\r\n"), with(note, "=\n\n", "\n\n"),
        with(note, "=\n\n", "=\n\n\n"), with(note, "— ", "- "), with(note, "— ", "—"), many,
        note.substr(0, note.find("—")), std::string(2'000'000, 'a')})
    EXPECT_EQ(kind_of(open_checkpoint(wrong, desk_verifier())), ErrorKind::malformed) << wrong.substr(0, 200);
}

// transparency-dev/tessera, testdata/log, commit 1811ae1a.
TEST(Note, PublishedCheckpointOfTheTestLogOpens) {
  const auto opened = open_checkpoint(
      "example.com/log/testdata\n15\nrKbDipCvhuX1GZ7g5BBe8sA6BbJ7ja/1nk427v383cs=\n\n"
      "— example.com/log/testdata "
      "M9e0luh4jTG+UMBqOUo9/q+yAEvx1ilBEniMvjf1zfcBOhg+CKubMt53MvIt/uEWP6zdkdIQzd/fmwlM/dlPWF74ewI=\n",
      key(kLogKey));
  ASSERT_TRUE(opened) << opened.error().message;
  EXPECT_EQ(opened->size, 15u);
}

// Entry bundles of tlog-tiles: each entry with its length before it, in two bytes.
std::vector<std::string> bundle_in(std::string_view bytes) {
  std::vector<std::string> out;
  while (bytes.size() >= 2) {
    const auto length = static_cast<std::size_t>(static_cast<unsigned char>(bytes[0]) << 8 |
                                                 static_cast<unsigned char>(bytes[1]));
    out.emplace_back(bytes.substr(2, length));
    bytes.remove_prefix(std::min(bytes.size(), 2 + length));
  }
  return out;
}

TEST(Note, AllPublishedCheckpointsOpenAndTheirRootsFollowFromTheEntries) {
  SKIP_WITHOUT_VECTORS("tessera-log");
  const auto entries = bundle_in(vector_file("tessera-log/tile/entries/000.p/15"));
  ASSERT_EQ(entries.size(), 15u);
  Frontier tree;
  for (std::uint64_t size = 0; size <= 15; ++size) {
    const auto note = vector_file("tessera-log/checkpoint." + std::to_string(size));
    const auto opened = open_checkpoint(note, key(kLogKey));
    ASSERT_TRUE(opened) << size << ": " << opened.error().message;
    EXPECT_EQ(*opened, (Checkpoint{"example.com/log/testdata", size, tree.root()}));
    // Ed25519 is deterministic, so our own note must be the published one.
    EXPECT_EQ(sign_checkpoint(*opened, key_from(kLogSeed)), note);
    if (size < 15) tree.append(leaf_hash(entries[size]));
  }
}

EntryProof proof_of(std::uint64_t index, std::uint64_t size) {
  std::vector<Digest> leaves;
  Frontier tree;
  for (std::uint64_t i = 0; i < size; ++i) {
    leaves.push_back(leaf_hash("entry " + std::to_string(i)));
    tree.append(leaves.back());
  }
  return {"entry " + std::to_string(index), index, inclusion_proof(leaves, index),
          sign_checkpoint({kCheckpoint.origin, size, tree.root()}, desk_key())};
}

TEST(Proof, WrittenAndReadAgainItHolds) {
  for (std::uint64_t size = 1; size <= 9; ++size)
    for (std::uint64_t index = 0; index < size; ++index) {
      const auto text = write_proof(proof_of(index, size));
      const auto read = parse_proof(text);
      ASSERT_TRUE(read) << read.error().message;
      EXPECT_EQ(write_proof(*read), text);
      const auto head = check_proof(*read, desk_verifier());
      ASSERT_TRUE(head) << head.error().message;
      EXPECT_EQ(head->size, size);
    }
}

// The layout of c2sp.org/tlog-proof@v1, line by line.
TEST(Proof, TextIsAsTheSpecificationHasIt) {
  const auto proof = proof_of(2, 3);
  const auto lines = split(write_proof(proof), '\n');
  ASSERT_EQ(lines.size(), 11u);
  EXPECT_EQ(lines[0], "c2sp.org/tlog-proof@v1");
  EXPECT_EQ(lines[1], "extra " + to_base64("entry 2"));
  EXPECT_EQ(lines[2], "index 2");
  EXPECT_EQ(lines[3], to_base64(bytes_of(node_hash(leaf_hash("entry 0"), leaf_hash("entry 1")))));
  EXPECT_EQ(lines[4], "");
  EXPECT_EQ(lines[5], kCheckpoint.origin);
  EXPECT_EQ(lines[6], "3");
}

TEST(Proof, OfAnotherBodyIndexPathOrKeyIsRefused) {
  const auto proof = proof_of(4, 7);
  ASSERT_TRUE(check_proof(proof, desk_verifier()));
  auto wrong = proof;
  wrong.body += "x";
  EXPECT_EQ(kind_of(check_proof(wrong, desk_verifier())), ErrorKind::refused);
  for (const std::uint64_t index : {0u, 3u, 5u, 6u, 7u, 11u}) {
    wrong = proof;
    wrong.index = index;
    EXPECT_EQ(kind_of(check_proof(wrong, desk_verifier())), ErrorKind::refused) << index;
  }
  wrong = proof;
  wrong.path.pop_back();
  EXPECT_EQ(kind_of(check_proof(wrong, desk_verifier())), ErrorKind::refused);
  wrong = proof;
  wrong.checkpoint_note = sign_checkpoint({kCheckpoint.origin, 7, sha256("x")}, desk_key());
  EXPECT_EQ(kind_of(check_proof(wrong, desk_verifier())), ErrorKind::refused);
  EXPECT_EQ(kind_of(check_proof(proof, key(kPeterKey))), ErrorKind::refused);
}

TEST(Proof, WrongFormIsMalformed) {
  const auto text = write_proof(proof_of(4, 7));
  for (const auto& wrong :
       {std::string(), with(text, "@v1", "@v2"), with(text, "index 4", "index 04"),
        with(text, "index 4\n", ""), with(text, "extra ", "extra  "), with(text, "extra ZW", "extra !!"),
        with(text, "\n\n", "\n"), with(text, "=\n", "\n"), text.substr(0, text.find("\n\n") + 1)})
    EXPECT_EQ(kind_of(parse_proof(wrong)), ErrorKind::malformed) << wrong;
}

TEST(Proof, WithoutTheEntrysBytesIsReadAndRefused) {
  auto proof = proof_of(0, 2);
  proof.body.clear();
  const auto text = write_proof(proof);
  EXPECT_EQ(text.find("extra"), std::string::npos);
  const auto read = parse_proof(text);
  ASSERT_TRUE(read);
  EXPECT_EQ(kind_of(check_proof(*read, desk_verifier())), ErrorKind::refused);
}

}  // namespace
}  // namespace counterfoil
