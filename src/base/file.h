// Whole files in and out, with the reason in words when it fails.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "base/crypto.h"
#include "base/result.h"

namespace counterfoil {

// Refuses files over `limit_bytes`, having read hardly more than that.
Result<std::string> read_file(const std::string& path, std::uint64_t limit_bytes);

// Writes beside the target, syncs and renames, so that a reader or a crash sees the old file or the new one.
// `mode`: permission bits of the new file, before any byte of it is written.
Result<void> write_file(const std::string& path, std::string_view bytes, unsigned mode = 0644);

// A file that is written piece by piece beside its target and takes the target's name only when all of it is
// safe on disk. Without commit() it leaves nothing behind.
class NewFile {
 public:
  static Result<NewFile> open(const std::string& path, unsigned mode = 0644);
  NewFile(NewFile&& other) noexcept;
  NewFile& operator=(NewFile&&) = delete;
  ~NewFile();

  Result<void> add(std::string_view bytes);
  // Syncs and closes: many finished files need no open descriptors. Nothing may be added after it.
  Result<void> finish();
  // Gives the file its name, safe on disk too. Finishes it first if need be.
  Result<void> commit();

 private:
  NewFile(std::string path, std::string beside, int fd);
  Result<void> write_pending();
  std::string path_;     // the target
  std::string beside_;   // where the bytes are until commit; empty when nothing is left to remove
  std::string pending_;  // added and not yet written: libraries hand over a few bytes at a time
  int fd_;               // -1 once closed
};

// SHA-256 of a file of any size, in constant memory.
Result<Digest> sha256_of_file(const std::string& path);

}  // namespace counterfoil
