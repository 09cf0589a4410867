// The ledger's file: its tables, its marks, how it comes to be and how it is known again. Internal to this
// room.
#pragma once

#include <string>

#include "base/result.h"
#include "ledger/note.h"
#include "ledger/sqlite.h"

namespace counterfoil {

// The number of the own log in the tables; other desks' logs count on from it.
inline constexpr std::uint64_t kOwnLog = 0;

// Makes the file under another name beside `path` and moves it there when it is whole, so that a creation
// that was killed leaves no ledger rather than half a one. Mode 0600 from its first byte. Refuses a path that
// exists.
Result<void> create_file(const std::string& path, const VerifierKey& own);

// Opens a file whose marks and tables are ours; `unreadable` otherwise.
Result<Database> open_file(const std::string& path);

}  // namespace counterfoil
