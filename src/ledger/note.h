// Signed notes and checkpoints as C2SP has them (c2sp.org/signed-note, tlog-checkpoint, tlog-proof), with
// Ed25519.
//
//   verifier key  = name "+" hex(key id) "+" base64(0x01 || 32-byte public key)
//   key id        = first 4 bytes of SHA-256(name || 0x0A || 0x01 || public key)
//   checkpoint    = origin LF size LF base64(root) LF, then LF and the signature lines
//   signature     = "\u2014 " name " " base64(key id || 64-byte signature) LF
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/crypto.h"
#include "base/result.h"

namespace counterfoil {

// Whether a log or key may be called so: not empty, no Unicode white space, no control characters, no '+'.
bool is_key_name(std::string_view name);

struct VerifierKey {
  std::string name;  // is_key_name
  PublicKey key{};

  std::string text() const;
  static Result<VerifierKey> parse(std::string_view text);
};

struct Checkpoint {
  std::string origin;
  std::uint64_t size = 0;
  Digest root{};

  friend bool operator==(const Checkpoint&, const Checkpoint&) = default;
};

// What is signed: the note without the blank line and the signatures.
std::string checkpoint_text(const Checkpoint& checkpoint);
// The signed note of a checkpoint; the key's name is the origin, so that must be one (is_key_name).
std::string sign_checkpoint(const Checkpoint& checkpoint, const SigningKey& key);

// Checks the form, the origin and that at least one signature line is by this key and holds; lines by other
// keys are skipped, as the specification has it. `malformed` for the form, `refused` for the signature.
Result<Checkpoint> open_checkpoint(std::string_view note, const VerifierKey& key);

// A proof for one entry that needs nothing but the log's public key: c2sp.org/tlog-proof@v1, the entry's
// bytes in its "extra" line (which proves nothing by itself: its leaf hash is what is checked).
struct EntryProof {
  std::string body;
  std::uint64_t index = 0;
  std::vector<Digest> path;
  std::string checkpoint_note;
};
std::string write_proof(const EntryProof& proof);
Result<EntryProof> parse_proof(std::string_view text);
// Signature, size, and path from the body's leaf to the signed root; returns the checkpoint.
Result<Checkpoint> check_proof(const EntryProof& proof, const VerifierKey& key);

}  // namespace counterfoil
