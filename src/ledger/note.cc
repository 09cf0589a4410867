#include "ledger/note.h"

#include <algorithm>
#include <optional>

#include "base/text.h"
#include "ledger/tree.h"

namespace counterfoil {
namespace {

constexpr std::string_view kDash = "\u2014 ";  // em dash and space open a signature line
constexpr std::string_view kEd25519 = "\x01";  // signed-note's type byte
constexpr std::size_t kKeyIdBytes = 4;
constexpr std::size_t kLongestNote = 1'000'000;
constexpr std::size_t kMostSignatures = 100;  // the specification asks for 16 at least
constexpr std::size_t kLongestPath = 64;
constexpr std::string_view kProofFormat = "c2sp.org/tlog-proof@v1";

// Unicode's White_Space beyond ASCII, in UTF-8; from memory of PropList.txt.
constexpr std::string_view kWideSpaces[] = {
    "\u0085", "\u00a0", "\u1680", "\u2000", "\u2001", "\u2002", "\u2003", "\u2004", "\u2005", "\u2006",
    "\u2007", "\u2008", "\u2009", "\u200a", "\u2028", "\u2029", "\u202f", "\u205f", "\u3000"};

std::string key_id(const VerifierKey& key) {
  const Digest digest = sha256(key.name + "\n" + std::string(kEd25519) + std::string(bytes_of(key.key)));
  return std::string(bytes_of(digest).substr(0, kKeyIdBytes));
}

std::optional<Digest> digest_from(std::string_view base64) {
  const auto bytes = from_base64(base64);
  return bytes ? array_of<32>(*bytes) : std::nullopt;
}

struct SignatureLine {
  std::string name;
  std::string key_id;
  std::string signature;  // of any algorithm
};

std::optional<SignatureLine> signature_line(std::string_view line) {
  if (!line.starts_with(kDash)) return std::nullopt;
  line.remove_prefix(kDash.size());
  const auto space = line.find(' ');
  if (space == std::string_view::npos || !is_key_name(line.substr(0, space))) return std::nullopt;
  const auto bytes = from_base64(line.substr(space + 1));
  if (!bytes || bytes->size() <= kKeyIdBytes) return std::nullopt;
  return SignatureLine{std::string(line.substr(0, space)), bytes->substr(0, kKeyIdBytes),
                       bytes->substr(kKeyIdBytes)};
}

struct SignedText {
  std::string_view text;  // with its last line feed: what is signed
  std::vector<SignatureLine> signatures;
};

Result<SignedText> split_note(std::string_view note) {
  if (note.size() > kLongestNote)
    return malformed("signed note is over " + std::to_string(kLongestNote) + " bytes");
  if (!is_utf8(note) ||
      std::any_of(note.begin(), note.end(), [](char c) { return c >= 0 && c < ' ' && c != '\n'; }))
    return malformed("signed note is not plain UTF-8 text");
  const auto blank = note.rfind("\n\n");
  if (blank == std::string_view::npos)
    return malformed("signed note has no blank line before its signatures");
  SignedText out{note.substr(0, blank + 1), {}};
  auto lines = split(note.substr(blank + 2), '\n');
  if (!lines.back().empty()) return malformed("signed note does not end its last line");
  lines.pop_back();
  if (lines.empty() || lines.size() > kMostSignatures)
    return malformed("signed note has " + counted(lines.size(), "signature"));
  for (const auto& line : lines) {
    auto signature = signature_line(line);
    if (!signature) return malformed("signed note has a signature line of another form");
    out.signatures.push_back(std::move(*signature));
  }
  return out;
}

// Lines behind the third are extensions: signed, and of no meaning to us.
Result<Checkpoint> checkpoint_from(std::string_view text) {
  const auto lines = split(text.substr(0, text.size() - 1), '\n');
  const bool blank = std::any_of(lines.begin(), lines.end(), [](const auto& line) { return line.empty(); });
  if (lines.size() < 3 || blank) return malformed("checkpoint has not the lines origin, size, root");
  const auto size = to_unsigned(lines[1]);
  if (!size) return malformed("checkpoint's second line is no size");
  const auto root = digest_from(lines[2]);
  if (!root) return malformed("checkpoint's third line is no SHA-256 in base 64");
  return Checkpoint{lines[0], *size, *root};
}

}  // namespace

bool is_key_name(std::string_view name) {
  return !name.empty() && is_utf8(name) && !has_control_characters(name) &&
         name.find_first_of(" +") == std::string_view::npos &&
         std::none_of(std::begin(kWideSpaces), std::end(kWideSpaces),
                      [&](std::string_view space) { return name.find(space) != std::string_view::npos; });
}

std::string VerifierKey::text() const {
  return name + "+" + to_hex(key_id(*this)) + "+" +
         to_base64(std::string(kEd25519) + std::string(bytes_of(key)));
}

Result<VerifierKey> VerifierKey::parse(std::string_view text) {
  const Error broken = malformed("verifier key is not name+id+key");
  const auto first = text.find('+');
  const auto second = first == std::string_view::npos ? first : text.find('+', first + 1);
  if (second == std::string_view::npos || !is_key_name(text.substr(0, first))) return broken;
  const auto bytes = from_base64(text.substr(second + 1));
  if (!bytes || !bytes->starts_with(kEd25519)) return broken;
  const auto key = array_of<32>(std::string_view(*bytes).substr(1));
  if (!key) return broken;
  VerifierKey out{std::string(text.substr(0, first)), *key};
  if (out.text() != text) return malformed("verifier key of " + out.name + " has another key's id");
  return out;
}

std::string checkpoint_text(const Checkpoint& checkpoint) {
  return checkpoint.origin + "\n" + std::to_string(checkpoint.size) + "\n" +
         to_base64(bytes_of(checkpoint.root)) + "\n";
}

std::string sign_checkpoint(const Checkpoint& checkpoint, const SigningKey& key) {
  const std::string text = checkpoint_text(checkpoint);
  const std::string id = key_id({checkpoint.origin, key.public_key()});
  return text + "\n" + std::string(kDash) + checkpoint.origin + " " +
         to_base64(id + std::string(bytes_of(key.sign(text)))) + "\n";
}

Result<Checkpoint> open_checkpoint(std::string_view note, const VerifierKey& key) {
  const auto parts = split_note(note);
  if (!parts) return parts.error();
  auto checkpoint = checkpoint_from(parts->text);
  if (!checkpoint) return checkpoint.error();
  if (checkpoint->origin != key.name)
    return refused("checkpoint is of the log " + checkpoint->origin + ", not of " + key.name);
  const std::string id = key_id(key);
  bool signed_by_key = false;
  for (const auto& line : parts->signatures) {
    if (line.name != key.name || line.key_id != id) continue;
    const auto signature = array_of<64>(line.signature);
    if (!signature || !verify_signature(key.key, parts->text, *signature))
      return refused("checkpoint's signature by " + key.name + " does not hold");
    signed_by_key = true;
  }
  if (!signed_by_key) return refused("checkpoint is not signed by " + key.name);
  return checkpoint;
}

std::string write_proof(const EntryProof& proof) {
  std::string out(kProofFormat);
  out += "\n";
  if (!proof.body.empty()) out += "extra " + to_base64(proof.body) + "\n";
  out += "index " + std::to_string(proof.index) + "\n";
  for (const Digest& digest : proof.path) out += to_base64(bytes_of(digest)) + "\n";
  return out + "\n" + proof.checkpoint_note;
}

Result<EntryProof> parse_proof(std::string_view text) {
  const auto blank = text.find("\n\n");
  if (blank == std::string_view::npos) return malformed("proof has no blank line before its checkpoint");
  auto lines = split(text.substr(0, blank), '\n');
  if (lines[0] != kProofFormat) return malformed("proof does not begin with " + std::string(kProofFormat));
  EntryProof out;
  std::size_t at = 1;
  if (at < lines.size() && lines[at].starts_with("extra ")) {
    const auto body = from_base64(std::string_view(lines[at]).substr(6));
    if (!body || body->empty()) return malformed("proof's extra line is not base 64");
    out.body = *body;
    ++at;
  }
  const auto index = at < lines.size() && lines[at].starts_with("index ")
                         ? to_unsigned(std::string_view(lines[at]).substr(6))
                         : std::nullopt;
  if (!index) return malformed("proof has no index line");
  out.index = *index;
  for (++at; at < lines.size(); ++at) {
    const auto digest = digest_from(lines[at]);
    if (!digest) return malformed("proof's line " + std::to_string(at + 1) + " is no SHA-256 in base 64");
    out.path.push_back(*digest);
  }
  if (out.path.size() > kLongestPath) return malformed("proof's path is longer than any tree is high");
  out.checkpoint_note = text.substr(blank + 2);
  return out;
}

Result<Checkpoint> check_proof(const EntryProof& proof, const VerifierKey& key) {
  auto checkpoint = open_checkpoint(proof.checkpoint_note, key);
  if (!checkpoint) return checkpoint.error();
  if (proof.index >= checkpoint->size)
    return refused("entry " + std::to_string(proof.index) + " lies beyond the checkpoint's size " +
                   std::to_string(checkpoint->size));
  if (!verify_inclusion(leaf_hash(proof.body), proof.index, checkpoint->size, proof.path, checkpoint->root))
    return refused("entry " + std::to_string(proof.index) + " is not in the signed tree");
  return checkpoint;
}

}  // namespace counterfoil
