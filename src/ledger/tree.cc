#include "ledger/tree.h"

#include <algorithm>
#include <bit>
#include <cstdlib>
#include <span>

#include "base/text.h"

namespace counterfoil {
namespace {

using Leaves = std::span<const Digest>;

// RFC 6962's k: the largest power of two smaller than n, for n > 1.
std::size_t left_size(std::size_t n) { return std::bit_floor(n - 1); }

Digest root_of(Leaves leaves) {
  Frontier frontier;
  for (const Digest& leaf : leaves) frontier.append(leaf);
  return frontier.root();
}

bool is_odd(std::uint64_t n) { return (n & 1) != 0; }

// The walk from a leaf to the root that both verifiers of RFC 9162 share: `node` is the number of the node at
// hand in its level, `last` that of the level's last one.
class Climb {
 public:
  Climb(std::uint64_t node, std::uint64_t last) : node_(node), last_(last) {}

  bool at_root() const { return last_ == 0; }
  bool sibling_is_left() const { return is_odd(node_) || node_ == last_; }
  void up() {
    node_ >>= 1;
    last_ >>= 1;
  }
  // A last node without a sibling moves up unchanged until it is a right child.
  void up_from_lone() {
    while (!is_odd(node_) && node_ != 0) up();
  }
  void up_while_right() {
    while (is_odd(node_)) up();
  }

 private:
  std::uint64_t node_;
  std::uint64_t last_;
};

}  // namespace

Digest leaf_hash(std::string_view body) {
  Sha256 hash;
  hash.add(std::string_view("\0", 1));
  hash.add(body);
  return hash.finish();
}

Digest node_hash(const Digest& left, const Digest& right) {
  std::array<char, 65> bytes;
  bytes[0] = 1;
  const auto middle = std::copy(left.begin(), left.end(), bytes.begin() + 1);
  std::copy(right.begin(), right.end(), middle);
  return sha256({bytes.data(), bytes.size()});
}

Result<Frontier> Frontier::from(std::uint64_t size, std::vector<Digest> digests) {
  if (digests.size() != static_cast<std::size_t>(std::popcount(size)))
    return malformed("a tree of size " + std::to_string(size) + " has not " +
                     counted(digests.size(), "full subtree"));
  Frontier out;
  out.size_ = size;
  out.digests_ = std::move(digests);
  return out;
}

void Frontier::append(const Digest& leaf) {
  digests_.push_back(leaf);
  // Each trailing one bit of the old size is a full subtree as large as the one that now ends the list.
  for (auto i = std::countr_one(size_); i > 0; --i) {
    const Digest right = digests_.back();
    digests_.pop_back();
    digests_.back() = node_hash(digests_.back(), right);
  }
  ++size_;
}

Digest Frontier::root() const {
  if (digests_.empty()) return sha256("");
  Digest root = digests_.back();
  for (auto left = digests_.rbegin() + 1; left != digests_.rend(); ++left) root = node_hash(*left, root);
  return root;
}

std::vector<Digest> inclusion_proof(const std::vector<Digest>& leaves, std::uint64_t index) {
  if (index >= leaves.size()) std::abort();
  std::vector<Digest> proof;
  Leaves tree = leaves;
  while (tree.size() > 1) {
    const auto k = left_size(tree.size());
    const auto left = tree.first(k);
    const auto right = tree.subspan(k);
    const bool in_left = index < k;
    proof.push_back(root_of(in_left ? right : left));
    if (!in_left) index -= k;
    tree = in_left ? left : right;
  }
  std::reverse(proof.begin(), proof.end());
  return proof;
}

std::vector<Digest> consistency_proof(const std::vector<Digest>& leaves, std::uint64_t old_size) {
  if (old_size == 0 || old_size > leaves.size()) std::abort();
  std::vector<Digest> proof;
  Leaves tree = leaves;
  bool old_root_is_subtree = true;  // RFC 6962's b: the verifier then has that root already
  while (old_size != tree.size()) {
    const auto k = left_size(tree.size());
    if (old_size <= k) {
      proof.push_back(root_of(tree.subspan(k)));
      tree = tree.first(k);
    } else {
      proof.push_back(root_of(tree.first(k)));
      tree = tree.subspan(k);
      old_size -= k;
      old_root_is_subtree = false;
    }
  }
  if (!old_root_is_subtree) proof.push_back(root_of(tree));
  std::reverse(proof.begin(), proof.end());
  return proof;
}

bool verify_inclusion(const Digest& leaf, std::uint64_t index, std::uint64_t size,
                      const std::vector<Digest>& proof, const Digest& root) {
  if (index >= size) return false;
  Climb climb(index, size - 1);
  Digest hash = leaf;
  for (const Digest& sibling : proof) {
    if (climb.at_root()) return false;
    if (climb.sibling_is_left()) {
      hash = node_hash(sibling, hash);
      climb.up_from_lone();
    } else {
      hash = node_hash(hash, sibling);
    }
    climb.up();
  }
  return climb.at_root() && hash == root;
}

bool verify_consistency(std::uint64_t old_size, std::uint64_t new_size, const std::vector<Digest>& proof,
                        const Digest& old_root, const Digest& new_root) {
  if (old_size == 0 || old_size > new_size) return false;
  if (old_size == new_size) return proof.empty() && old_root == new_root;
  if (proof.empty()) return false;
  // A full old tree is itself a node of the new one, and its root is left out of the proof.
  const bool full = std::has_single_bit(old_size);
  Climb climb(old_size - 1, new_size - 1);
  climb.up_while_right();
  Digest old_hash = full ? old_root : proof.front();
  Digest new_hash = old_hash;
  for (const Digest& sibling : std::span(proof).subspan(full ? 0 : 1)) {
    if (climb.at_root()) return false;
    if (climb.sibling_is_left()) {
      old_hash = node_hash(sibling, old_hash);
      new_hash = node_hash(sibling, new_hash);
      climb.up_from_lone();
    } else {
      new_hash = node_hash(new_hash, sibling);
    }
    climb.up();
  }
  return climb.at_root() && old_hash == old_root && new_hash == new_root;
}

}  // namespace counterfoil
