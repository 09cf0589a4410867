#include "base/crypto.h"

#include <sodium.h>

#include <cstdlib>
#include <new>
#include <vector>

#include "base/text.h"

namespace counterfoil {
namespace {

constexpr std::string_view kKeyFormat = "counterfoil-key-1";
constexpr unsigned long long kOperations = crypto_pwhash_OPSLIMIT_INTERACTIVE;
constexpr std::size_t kMemoryBytes = crypto_pwhash_MEMLIMIT_INTERACTIVE;

void require_sodium() {
  static const bool ready = sodium_init() >= 0;
  if (!ready) std::abort();
}

const unsigned char* raw(std::string_view bytes) {
  return reinterpret_cast<const unsigned char*>(bytes.data());
}

using SealKey = std::array<std::uint8_t, crypto_secretbox_KEYBYTES>;

bool derive(std::string_view passphrase, std::string_view salt, unsigned long long operations,
            std::size_t memory_bytes, SealKey& key) {
  return crypto_pwhash(key.data(), key.size(), passphrase.data(), passphrase.size(), raw(salt), operations,
                       memory_bytes, crypto_pwhash_ALG_ARGON2ID13) == 0;
}

}  // namespace

Digest sha256(std::string_view bytes) {
  Digest out{};
  crypto_hash_sha256(out.data(), raw(bytes), bytes.size());
  return out;
}

static_assert(sizeof(crypto_hash_sha256_state) <= 128 && alignof(crypto_hash_sha256_state) <= 16);

Sha256::Sha256() : state_{} { crypto_hash_sha256_init(new (state_.data()) crypto_hash_sha256_state); }

void Sha256::add(std::string_view bytes) {
  crypto_hash_sha256_update(std::launder(reinterpret_cast<crypto_hash_sha256_state*>(state_.data())),
                            raw(bytes), bytes.size());
}

Digest Sha256::finish() {
  Digest out{};
  crypto_hash_sha256_final(std::launder(reinterpret_cast<crypto_hash_sha256_state*>(state_.data())),
                           out.data());
  return out;
}

SigningKey SigningKey::generate() {
  require_sodium();
  SigningKey key;
  crypto_sign_keypair(key.public_.data(), key.secret_.data());
  return key;
}

SigningKey SigningKey::from_seed(const std::array<std::uint8_t, 32>& seed) {
  require_sodium();
  SigningKey key;
  crypto_sign_seed_keypair(key.public_.data(), key.secret_.data(), seed.data());
  return key;
}

SigningKey::~SigningKey() { sodium_memzero(secret_.data(), secret_.size()); }

Signature SigningKey::sign(std::string_view message) const {
  Signature out{};
  crypto_sign_detached(out.data(), nullptr, raw(message), message.size(), secret_.data());
  return out;
}

bool verify_signature(const PublicKey& key, std::string_view message, const Signature& signature) {
  require_sodium();
  return crypto_sign_verify_detached(signature.data(), raw(message), message.size(), key.data()) == 0;
}

std::string SigningKey::to_text(std::string_view passphrase) const {
  std::array<std::uint8_t, crypto_sign_SEEDBYTES> seed{};
  crypto_sign_ed25519_sk_to_seed(seed.data(), secret_.data());
  std::string text(kKeyFormat);
  if (passphrase.empty()) {
    text += " plain " + to_base64(bytes_of(seed)) + "\n";
  } else {
    std::array<std::uint8_t, crypto_pwhash_SALTBYTES> salt{};
    std::array<std::uint8_t, crypto_secretbox_NONCEBYTES> nonce{};
    std::array<std::uint8_t, crypto_sign_SEEDBYTES + crypto_secretbox_MACBYTES> box{};
    randombytes_buf(salt.data(), salt.size());
    randombytes_buf(nonce.data(), nonce.size());
    SealKey key{};
    if (!derive(passphrase, bytes_of(salt), kOperations, kMemoryBytes, key)) std::abort();  // out of memory
    crypto_secretbox_easy(box.data(), seed.data(), seed.size(), nonce.data(), key.data());
    sodium_memzero(key.data(), key.size());
    text += " sealed " + std::to_string(kOperations) + " " + std::to_string(kMemoryBytes) + " " +
            to_base64(bytes_of(salt)) + " " + to_base64(bytes_of(nonce)) + " " + to_base64(bytes_of(box)) +
            "\n";
  }
  sodium_memzero(seed.data(), seed.size());
  return text;
}

Result<SigningKey> SigningKey::from_text(std::string_view text, std::string_view passphrase) {
  require_sodium();
  const Error broken = malformed("key file is not in the form that this program writes");
  if (!text.ends_with('\n')) return broken;
  const auto words = split(text.substr(0, text.size() - 1), ' ');
  if (words.size() < 3 || words[0] != kKeyFormat) return broken;
  if (words[1] == "plain" && words.size() == 3) {
    const auto bytes = from_base64(words[2]);
    const auto seed = bytes ? array_of<32>(*bytes) : std::nullopt;
    if (!seed) return broken;
    return from_seed(*seed);
  }
  if (words[1] != "sealed" || words.size() != 7) return broken;
  const auto operations = to_unsigned(words[2]);
  const auto memory_bytes = to_unsigned(words[3]);
  const auto salt = from_base64(words[4]);
  const auto nonce = from_base64(words[5]);
  const auto box = from_base64(words[6]);
  if (!operations || !memory_bytes || *operations > kOperations || *memory_bytes > kMemoryBytes || !salt ||
      salt->size() != crypto_pwhash_SALTBYTES || !nonce || nonce->size() != crypto_secretbox_NONCEBYTES ||
      !box || box->size() != crypto_sign_SEEDBYTES + crypto_secretbox_MACBYTES)
    return broken;
  if (passphrase.empty()) return refused("the key is sealed with a passphrase and none was given");
  SealKey key{};
  if (!derive(passphrase, *salt, *operations, *memory_bytes, key)) return broken;
  std::array<std::uint8_t, 32> seed{};
  const bool opened =
      crypto_secretbox_open_easy(seed.data(), raw(*box), box->size(), raw(*nonce), key.data()) == 0;
  sodium_memzero(key.data(), key.size());
  if (!opened) return refused("the passphrase does not open the key");
  SigningKey out = from_seed(seed);
  sodium_memzero(seed.data(), seed.size());
  return out;
}

}  // namespace counterfoil
