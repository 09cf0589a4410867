// The Merkle tree of RFC 6962 section 2.1 over SHA-256:
//   leaf = SHA-256(0x00 || body), node = SHA-256(0x01 || left || right), empty tree = SHA-256("").
#pragma once

#include <cstdint>
#include <vector>

#include "base/crypto.h"
#include "base/result.h"

namespace counterfoil {

Digest leaf_hash(std::string_view body);
Digest node_hash(const Digest& left, const Digest& right);

// The roots of the full subtrees that make up a tree of `size` leaves, largest first: what is needed to
// append, in at most 64 digests.
class Frontier {
 public:
  Frontier() = default;
  // Inverse of digests(); nothing when the count does not fit the size.
  static Result<Frontier> from(std::uint64_t size, std::vector<Digest> digests);

  void append(const Digest& leaf);
  std::uint64_t size() const { return size_; }
  const std::vector<Digest>& digests() const { return digests_; }
  Digest root() const;

 private:
  std::uint64_t size_ = 0;
  std::vector<Digest> digests_;
};

// RFC 6962 section 2.1.1, the path from the leaf's sibling up. Precondition: index < leaves.size().
std::vector<Digest> inclusion_proof(const std::vector<Digest>& leaves, std::uint64_t index);
// RFC 6962 section 2.1.2. Precondition: 0 < old_size <= leaves.size().
std::vector<Digest> consistency_proof(const std::vector<Digest>& leaves, std::uint64_t old_size);

// RFC 9162 section 2.1.3.2.
bool verify_inclusion(const Digest& leaf, std::uint64_t index, std::uint64_t size,
                      const std::vector<Digest>& proof, const Digest& root);
// RFC 9162 section 2.1.4.2; an old size of zero is refused (see there: it is consistent with everything).
bool verify_consistency(std::uint64_t old_size, std::uint64_t new_size, const std::vector<Digest>& proof,
                        const Digest& old_root, const Digest& new_root);

}  // namespace counterfoil
