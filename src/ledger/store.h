// What a Ledger holds, for the files of this room that make up its calls.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ledger/format.h"
#include "ledger/ledger.h"
#include "ledger/sqlite.h"
#include "ledger/tree.h"

namespace counterfoil {

struct Ledger::Store {
  Database database;
  VerifierKey own;
};

// Index words as they stand with their entry, and back. Do not change: embedded on disk.
std::string joined_words(std::vector<std::string> words);
std::vector<std::string> words_from(std::string_view joined);

// A frontier as one blob, digests one behind the other. Do not change: embedded on disk.
std::string frontier_bytes(const Frontier& frontier);
Result<Frontier> frontier_from(std::uint64_t size, std::string_view bytes);

// Calls take(rows) for each row until there are no more.
template <typename Take>
Result<void> for_each_row(Rows rows, Take take) {
  for (;;) {
    auto row = rows.next();
    if (!row) return row.error();
    if (!*row) return {};
    take(rows);
  }
}

}  // namespace counterfoil
