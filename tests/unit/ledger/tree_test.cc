#include "ledger/tree.h"

#include <gtest/gtest.h>

#include <bit>
#include <span>

#include "base/json.h"
#include "base/text.h"
#include "support/vectors.h"

namespace counterfoil {
namespace {

using Leaves = std::vector<Digest>;

std::string hex(const Digest& digest) { return to_hex(bytes_of(digest)); }

Leaves leaves_of(std::uint64_t size) {
  Leaves out;
  for (std::uint64_t i = 0; i < size; ++i) out.push_back(leaf_hash("valve " + std::to_string(i)));
  return out;
}

// RFC 6962 section 2.1 as it is written: MTH, PATH and SUBPROOF, for comparison.
Digest mth(std::span<const Digest> d) {
  if (d.empty()) return sha256("");
  if (d.size() == 1) return d[0];
  std::size_t k = 1;
  while (k * 2 < d.size()) k *= 2;
  return sha256("\x01" + std::string(bytes_of(mth(d.first(k)))) + std::string(bytes_of(mth(d.subspan(k)))));
}

Leaves path(std::size_t m, std::span<const Digest> d) {
  if (d.size() == 1) return {};
  std::size_t k = 1;
  while (k * 2 < d.size()) k *= 2;
  Leaves out = m < k ? path(m, d.first(k)) : path(m - k, d.subspan(k));
  out.push_back(m < k ? mth(d.subspan(k)) : mth(d.first(k)));
  return out;
}

Leaves subproof(std::size_t m, std::span<const Digest> d, bool b) {
  if (m == d.size()) return b ? Leaves{} : Leaves{mth(d)};
  std::size_t k = 1;
  while (k * 2 < d.size()) k *= 2;
  Leaves out = m <= k ? subproof(m, d.first(k), b) : subproof(m - k, d.subspan(k), false);
  out.push_back(m <= k ? mth(d.subspan(k)) : mth(d.first(k)));
  return out;
}

constexpr std::size_t kLargest = 40;

// The entries and roots of Certificate Transparency's own test of the tree (merkletree tests of
// github google/certificate-transparency; the values from memory, the first and last also in RFC 6962
// readers).
TEST(Tree, RootsOfTheReferenceTree) {
  const std::string entries[] = {
      "", "00", "10", "2021", "3031", "40414243", "5051525354555657", "606162636465666768696a6b6c6d6e6f"};
  const std::string roots[] = {"6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
                               "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125",
                               "aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77",
                               "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
                               "4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4",
                               "76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef",
                               "ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c",
                               "5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328"};
  Frontier tree;
  EXPECT_EQ(hex(tree.root()), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  for (std::size_t i = 0; i < std::size(entries); ++i) {
    tree.append(leaf_hash(*from_hex(entries[i])));
    EXPECT_EQ(hex(tree.root()), roots[i]) << "size " << i + 1;
  }
}

TEST(Tree, FrontierAgreesWithTheRecursiveDefinition) {
  Frontier tree;
  for (std::size_t size = 0; size <= 2 * kLargest; ++size) {
    const Leaves leaves = leaves_of(size);
    EXPECT_EQ(tree.size(), size);
    ASSERT_EQ(hex(tree.root()), hex(mth(leaves))) << size;
    const auto again = Frontier::from(size, tree.digests());
    ASSERT_TRUE(again) << size;
    EXPECT_EQ(again->root(), tree.root());
    tree.append(leaf_hash("valve " + std::to_string(size)));
  }
}

TEST(Tree, FrontierOfAnotherSizeIsRefused) {
  EXPECT_FALSE(Frontier::from(3, Leaves(1)));
  EXPECT_FALSE(Frontier::from(4, Leaves(2)));
  EXPECT_FALSE(Frontier::from(0, Leaves(1)));
  EXPECT_TRUE(Frontier::from(0, {}));
  EXPECT_TRUE(Frontier::from(~std::uint64_t{0}, Leaves(64)));
}

TEST(Tree, EveryInclusionProofIsTheDefinitionsAndHoldsForItsLeafOnly) {
  for (std::size_t size = 1; size <= kLargest; ++size) {
    const Leaves leaves = leaves_of(size);
    const Digest root = mth(leaves);
    for (std::size_t index = 0; index < size; ++index) {
      const auto proof = inclusion_proof(leaves, index);
      ASSERT_EQ(proof, path(index, leaves)) << index << " of " << size;
      ASSERT_TRUE(verify_inclusion(leaves[index], index, size, proof, root));
      for (std::size_t other = 0; other < size; ++other)
        ASSERT_EQ(verify_inclusion(leaves[other], other, size, proof, root), other == index);
      ASSERT_FALSE(verify_inclusion(leaves[index], index + size, size, proof, root));
    }
  }
}

TEST(Tree, EveryConsistencyProofIsTheDefinitionsAndHoldsForItsRootsOnly) {
  for (std::size_t size = 1; size <= kLargest; ++size) {
    const Leaves leaves = leaves_of(size);
    const Digest root = mth(leaves);
    for (std::size_t old = 1; old <= size; ++old) {
      const Digest old_root = mth(std::span(leaves).first(old));
      const auto proof = consistency_proof(leaves, old);
      ASSERT_EQ(proof, subproof(old, leaves, true)) << old << " to " << size;
      ASSERT_TRUE(verify_consistency(old, size, proof, old_root, root));
      ASSERT_FALSE(verify_consistency(old, size, proof, sha256("x"), root));
      ASSERT_FALSE(verify_consistency(old, size, proof, old_root, sha256("x")));
    }
  }
}

TEST(Tree, TruncatedLengthenedOrChangedProofIsRefused) {
  const Leaves leaves = leaves_of(13);
  const Digest root = mth(leaves);
  const Digest old_root = mth(std::span(leaves).first(6));
  const auto inclusion = inclusion_proof(leaves, 5);
  const auto consistency = consistency_proof(leaves, 6);
  const auto holds = [&](const Leaves& one, const Leaves& two) {
    return std::pair(verify_inclusion(leaves[5], 5, 13, one, root),
                     verify_consistency(6, 13, two, old_root, root));
  };
  ASSERT_EQ(holds(inclusion, consistency), std::pair(true, true));
  for (std::size_t i = 0; i < std::max(inclusion.size(), consistency.size()); ++i) {
    auto one = inclusion;
    auto two = consistency;
    one[i % one.size()][31] ^= 1;
    two[i % two.size()][31] ^= 1;
    EXPECT_EQ(holds(one, two), std::pair(false, false)) << "changed at " << i;
    one = inclusion;
    two = consistency;
    one.erase(one.begin() + static_cast<std::ptrdiff_t>(i % one.size()));
    two.erase(two.begin() + static_cast<std::ptrdiff_t>(i % two.size()));
    EXPECT_EQ(holds(one, two), std::pair(false, false)) << "shortened at " << i;
  }
  auto one = inclusion;
  auto two = consistency;
  one.push_back(root);
  two.push_back(root);
  EXPECT_EQ(holds(one, two), std::pair(false, false)) << "lengthened";
  EXPECT_EQ(holds({}, {}), std::pair(false, false)) << "empty";
}

TEST(Tree, ZeroSizeIsRefusedByBothVerifiers) {
  EXPECT_FALSE(verify_inclusion(leaf_hash("x"), 0, 0, {}, sha256("")));
  EXPECT_FALSE(verify_consistency(0, 0, {}, sha256(""), sha256("")));
  EXPECT_FALSE(verify_consistency(0, 1, {}, sha256(""), leaf_hash("x")));
  EXPECT_FALSE(verify_consistency(2, 1, {}, sha256("a"), sha256("a")));
}

// Null in the file stands for no proof. What is no 32-byte digest cannot be put to us, and counts as refused.
std::optional<Digest> digest_in(const Json& object, std::string_view name) {
  const Json* value = object.find(name);
  const auto bytes = value && value->string() ? from_base64(*value->string()) : std::nullopt;
  return bytes ? array_of<32>(*bytes) : std::nullopt;
}

std::optional<Leaves> proof_in(const Json& object) {
  Leaves out;
  const Json* proof = object.find("proof");
  if (!proof || !proof->array()) return out;
  for (const Json& item : *proof->array()) {
    const auto digest = digest_in(Json(Json::Object{{"d", item}}), "d");
    if (!digest) return std::nullopt;
    out.push_back(*digest);
  }
  return out;
}

// One mutation has an index of 2^64 - 1, which is beyond JSON's safe integers: it is read as text.
std::uint64_t size_in(const Json& object, std::string_view name) {
  const Json* value = object.find(name);
  return value->string() ? std::stoull(*value->string()) : static_cast<std::uint64_t>(*value->integer());
}

Result<Json> vector_in(const std::string& name) {
  constexpr std::string_view kLargestIndex = "18446744073709551615";
  std::string text = vector_file(name);
  if (const auto at = text.find(kLargestIndex); at != std::string::npos)
    text.replace(at, kLargestIndex.size(), "\"" + std::string(kLargestIndex) + "\"");
  return parse_json(text);
}

// transparency-dev/merkle, testdata, commit 417fb0c3: one right proof per group, the rest one mutation each.
TEST(Tree, PublishedInclusionProofsAreJudgedAsPublished) {
  SKIP_WITHOUT_VECTORS("merkle");
  const auto names = vector_names("merkle/inclusion", ".json");
  EXPECT_EQ(names.size(), 98u);
  std::size_t held = 0;
  for (const auto& name : names) {
    const auto json = vector_in(name);
    ASSERT_TRUE(json) << name;
    const auto leaf = digest_in(*json, "leafHash");
    const auto root = digest_in(*json, "root");
    const auto proof = proof_in(*json);
    const bool holds =
        leaf && root && proof &&
        verify_inclusion(*leaf, size_in(*json, "leafIdx"), size_in(*json, "treeSize"), *proof, *root);
    EXPECT_EQ(holds, !*json->find("wantErr")->boolean()) << name;
    held += holds;
  }
  EXPECT_EQ(held, 6u);
}

TEST(Tree, PublishedConsistencyProofsAreJudgedAsPublished) {
  SKIP_WITHOUT_VECTORS("merkle");
  const auto names = vector_names("merkle/consistency", ".json");
  EXPECT_EQ(names.size(), 98u);
  std::size_t held = 0;
  for (const auto& name : names) {
    const auto json = vector_in(name);
    ASSERT_TRUE(json) << name;
    const auto old_root = digest_in(*json, "root1");
    const auto new_root = digest_in(*json, "root2");
    const auto proof = proof_in(*json);
    const bool holds =
        old_root && new_root && proof &&
        verify_consistency(size_in(*json, "size1"), size_in(*json, "size2"), *proof, *old_root, *new_root);
    // Its equal roots are the words "don't care", which are no digests.
    const bool no_digest = name.ends_with("sizes-are-equal-one-and-proof-is-empty.json");
    EXPECT_EQ(holds, !*json->find("wantErr")->boolean() && !no_digest) << name;
    held += holds;
  }
  EXPECT_EQ(held, 5u);
}

}  // namespace
}  // namespace counterfoil
