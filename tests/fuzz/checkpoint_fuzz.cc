// Signed notes, verifier keys and entry proofs: nothing crashes, what is read is written back the same, and
// what a fuzzer can make without the key is never accepted as another statement than the one that was signed.
// fuzz: -max_len=2048
#include <cstdlib>
#include <string>
#include <string_view>

#include "ledger/note.h"
#include "ledger/tree.h"

using namespace counterfoil;

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const SigningKey key = SigningKey::from_seed({1});
  static const Checkpoint signed_head{"Žďár", 1, leaf_hash("body")};
  static const VerifierKey verifier{signed_head.origin, key.public_key()};
  static const std::string note = sign_checkpoint(signed_head, key);
  const std::string_view input(reinterpret_cast<const char*>(data), size);

  if (const auto read = VerifierKey::parse(input)) require(read->text() == input && is_key_name(read->name));

  // The input alone, and in each place of a good note.
  for (const auto& text : {std::string(input), note + std::string(input), std::string(input) + note,
                           note.substr(0, note.find("\n\n") + 2) + std::string(input)})
    if (const auto opened = open_checkpoint(text, verifier)) require(*opened == signed_head);

  for (const auto& text :
       {std::string(input), "c2sp.org/tlog-proof@v1\n" + std::string(input) + "\n" + note}) {
    const auto proof = parse_proof(text);
    if (!proof) continue;
    require(write_proof(*proof) == text);
    if (const auto head = check_proof(*proof, verifier))
      require(*head == signed_head && proof->body == "body" && proof->index == 0 && proof->path.empty());
  }

  // A checkpoint that we sign ourselves opens, whatever its origin is, if that may be a name.
  if (is_key_name(input)) {
    const Checkpoint head{std::string(input), size, leaf_hash(input)};
    const auto opened = open_checkpoint(sign_checkpoint(head, key), {head.origin, key.public_key()});
    require(opened && *opened == head);
  }
  return 0;
}
