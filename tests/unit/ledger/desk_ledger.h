// What the tests of this room share: an invented desk's key, a folder that goes when the test does, entries,
// and SQL on a ledger file behind the ledger's back.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <string_view>
#include <vector>

#include "ledger/ledger.h"
#include "ledger/sqlite.h"
#include "support/temp_folder.h"

namespace counterfoil {

inline SigningKey desk_key() { return SigningKey::from_seed({0x2a, 0x01}); }
inline VerifierKey desk_verifier() { return {"Žďár/storeroom", desk_key().public_key()}; }

// Entry i of every test ledger.
inline EntryDraft draft(std::uint64_t i) {
  const auto n = std::to_string(i);
  return {"{\"step\":\"removing\",\"unit\":\"U2\",\"by\":\"Åse\",\"n\":" + n + "}",
          {"step:removing", "number:" + n, "turnaround:TA26"}};
}

// Appends entries, `count` in one transaction; their numbers go on from the ledger's size.
inline void append_batch(Ledger& ledger, std::uint64_t count) {
  const auto first = ledger.append(desk_key(), [&]() -> Result<std::vector<EntryDraft>> {
    auto size = ledger.size();
    if (!size) return size.error();
    std::vector<EntryDraft> drafts;
    for (std::uint64_t i = 0; i < count; ++i) drafts.push_back(draft(*size + i));
    return drafts;
  });
  ASSERT_TRUE(first) << first.error().message;
}

// A new ledger of the given batches, closed again; its path.
inline std::string make_ledger(const TempFolder& folder, const std::vector<std::uint64_t>& batches) {
  const auto path = folder / "desk.ledger";
  auto ledger = Ledger::create(path, desk_verifier());
  EXPECT_TRUE(ledger) << ledger.error().message;
  for (const auto count : batches) append_batch(*ledger, count);
  return path;
}

// Runs statements on the file as a stranger with another program would: no foreign keys, no checks.
inline void tamper(const std::string& path, const std::vector<std::string>& statements) {
  auto database = Database::open(path);
  ASSERT_TRUE(database) << database.error().message;
  ASSERT_TRUE(database->run("PRAGMA foreign_keys=OFF"));
  ASSERT_TRUE(database->run("PRAGMA ignore_check_constraints=ON"));
  for (const auto& statement : statements) {
    const auto changed = database->run(statement);
    ASSERT_TRUE(changed) << statement << ": " << changed.error().message;
  }
}

}  // namespace counterfoil
