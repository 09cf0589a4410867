// The append-only log of a desk, in one SQLite file. It appends opaque bytes with the index words that it is
// given and never parses them; positions are its own, from 0 without gaps. After each transaction a signed
// checkpoint covers all entries. A ledger file can hold other desks' logs beside its own (exchange), told
// apart by origin.
//
// Tables: log(origin, verifier key, own), entry(log, position, body, leaf hash), word(log, position, word),
// checkpoint(log, size, note), head(log, size, frontier). Plain SQL, so that the same calls can stand on a
// server.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/crypto.h"
#include "base/result.h"
#include "ledger/note.h"

namespace counterfoil {

struct LedgerEntry {
  std::string origin;
  std::uint64_t position = 0;
  std::string body;
};

// An entry to be appended. Words: what it is found by, such as "number:K74Q2B8X61".
struct EntryDraft {
  std::string body;
  std::vector<std::string> words;
};

// What went wrong where. `position` is the first bad entry, or the first entry that a bad checkpoint adds. A
// cause is named once: the checkpoints after it are then judged by what they can still show.
struct LedgerFault {
  std::string origin;  // empty when no log is concerned but the file (position 0) or a row of no log
  std::uint64_t position = 0;
  std::string what;
};

struct VerifyReport {
  std::uint64_t entries = 0;
  std::uint64_t checkpoints = 0;
  Checkpoint head;                  // of the own log
  std::vector<LedgerFault> faults;  // first bad entry first; empty when all holds
};

class Ledger {
 public:
  // Makes a new file, mode 0600, with the own log; refuses an existing one. Killed at any moment it leaves a
  // whole ledger or none (and perhaps a draft beside it, path.XXXXXX).
  static Result<Ledger> create(const std::string& path, const VerifierKey& own);
  // `unreadable` when there is none, when it is no ledger (an empty file is none), or of a later format.
  static Result<Ledger> open(const std::string& path);
  Ledger(Ledger&&) noexcept;
  Ledger& operator=(Ledger&&) noexcept;
  ~Ledger();

  const VerifierKey& own() const;
  Result<std::uint64_t> size() const;  // of the own log, now

  // Reading, own log first, then in order of origin and position.
  Result<std::vector<LedgerEntry>> all() const;
  Result<std::vector<LedgerEntry>> with_word(std::string_view word) const;
  // Of the own log.
  Result<std::optional<LedgerEntry>> last_with_word(std::string_view word) const;
  Result<std::optional<LedgerEntry>> entry(std::uint64_t position) const;
  // Index words of an entry of the own log, sorted.
  Result<std::vector<std::string>> words(std::uint64_t position) const;

  // Runs `compose` inside one exclusive transaction; it may call the reading functions of this object, and
  // what it returns is appended, signed and committed, or nothing is. An error from it rolls back and is
  // passed on; no drafts is no transaction. Durable (synced) when it returns. Waits for another writer up to
  // 60 s, then `unreadable`. Returns the position of the first appended entry. Refuses a key that is not the
  // own log's.
  using Compose = std::function<Result<std::vector<EntryDraft>>()>;
  Result<std::uint64_t> append(const SigningKey& key, const Compose& compose);

  // The last signed checkpoint of the own log, verbatim; empty before the first transaction.
  Result<std::string> checkpoint() const;
  // For one entry of the own log against its last checkpoint.
  Result<EntryProof> prove(std::uint64_t position) const;

  // Recomputes everything: SQLite's own integrity check, each leaf from its body, each checkpoint's signature
  // and root, gaps, the stored frontier, that the last checkpoint covers all, that words point at entries.
  Result<VerifyReport> verify() const;

 private:
  struct Store;
  explicit Ledger(std::unique_ptr<Store> store);
  std::unique_ptr<Store> store_;
};

}  // namespace counterfoil
