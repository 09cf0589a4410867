// Whole files in and out, with the reason in words when it fails.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "base/crypto.h"
#include "base/result.h"

namespace counterfoil {

// Refuses files over `limit_bytes` before it reads them.
Result<std::string> read_file(const std::string& path, std::uint64_t limit_bytes);

// Writes beside the target, syncs and renames, so that a reader or a crash sees the old file or the new one.
// `mode`: permission bits of the new file, before any byte of it is written.
Result<void> write_file(const std::string& path, std::string_view bytes, unsigned mode = 0644);

// SHA-256 of a file of any size, in constant memory.
Result<Digest> sha256_of_file(const std::string& path);

}  // namespace counterfoil
