// The ledger shown to be whole: everything recomputed, and single entries proved to whoever holds the public
// key.
#pragma once

#include <cstdint>
#include <string>

#include "base/result.h"
#include "custody/event.h"
#include "workflow/desk.h"

namespace counterfoil {

// Photographs that are kept beside the ledger are held against their digests; one that is gone cannot be told from one
// that was never copied.
// Ledger::verify, and beyond it what only this room can know: that each entry is a canonical event and is
// filed under that event's index words, and that no number was issued twice. Works on a ledger whose founding
// event is damaged, too.
Result<VerifyReport> verify_ledger(const std::string& path);

// Writes the inclusion proof of one entry of the own log.
Result<void> prove_entry(const Desk& desk, std::uint64_t position, const std::string& path);

struct CheckedProof {
  std::uint64_t position = 0;
  Checkpoint checkpoint;
  Event event;
};
// With nothing but the file and the log's verifier key. `refused` when it does not hold.
Result<CheckedProof> check_proof_file(const std::string& path, const std::string& verifier_key);

}  // namespace counterfoil
