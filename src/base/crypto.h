// SHA-256, Ed25519 and passphrase encryption, all by libsodium. One verifier everywhere: implementations
// differ on malformed Ed25519 keys and signatures, and desks must agree on what is valid.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"

namespace counterfoil {

using Digest = std::array<std::uint8_t, 32>;     // SHA-256
using PublicKey = std::array<std::uint8_t, 32>;  // Ed25519, RFC 8032
using Signature = std::array<std::uint8_t, 64>;  // Ed25519, RFC 8032

inline std::string_view bytes_of(const auto& array) {
  return {reinterpret_cast<const char*>(array.data()), array.size()};
}
template <std::size_t N>
std::optional<std::array<std::uint8_t, N>> array_of(std::string_view bytes) {
  if (bytes.size() != N) return std::nullopt;
  std::array<std::uint8_t, N> out{};
  for (std::size_t i = 0; i < N; ++i) out[i] = static_cast<std::uint8_t>(bytes[i]);
  return out;
}

// FIPS 180-4.
Digest sha256(std::string_view bytes);

class Sha256 {
 public:
  Sha256();
  void add(std::string_view bytes);
  Digest finish();

 private:
  alignas(16) std::array<std::uint8_t, 128> state_;  // crypto_hash_sha256_state, checked in crypto.cc
};

// An Ed25519 signing key; wiped from memory when it goes.
class SigningKey {
 public:
  static SigningKey generate();
  // From the 32-byte seed of RFC 8032.
  static SigningKey from_seed(const std::array<std::uint8_t, 32>& seed);
  SigningKey(const SigningKey&) = default;
  SigningKey& operator=(const SigningKey&) = default;
  ~SigningKey();

  const PublicKey& public_key() const { return public_; }
  Signature sign(std::string_view message) const;

  // The seed in text, sealed with the passphrase (Argon2id and XSalsa20-Poly1305) unless it is empty:
  // "counterfoil-key-1 plain <base64 seed>\n" or
  // "counterfoil-key-1 sealed <opslimit> <memlimit bytes> <base64 salt> <base64 nonce> <base64 box>\n".
  // Do not change: embedded on disk.
  std::string to_text(std::string_view passphrase) const;
  // Refuses limits beyond those that to_text writes, so that a planted file cannot exhaust memory. A wrong
  // passphrase is `refused`; a passphrase for a plain key is ignored.
  static Result<SigningKey> from_text(std::string_view text, std::string_view passphrase);

 private:
  SigningKey() = default;
  std::array<std::uint8_t, 64> secret_{};
  PublicKey public_{};
};

bool verify_signature(const PublicKey& key, std::string_view message, const Signature& signature);

}  // namespace counterfoil
