#include "base/file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>

namespace counterfoil {
namespace {

class Descriptor {
 public:
  explicit Descriptor(int fd) : fd_(fd) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (fd_ >= 0) ::close(fd_);
  }
  int get() const { return fd_; }

 private:
  int fd_;
};

Error failed(const std::string& verb, const std::string& path) {
  return unreadable("cannot " + verb + " " + path + ": " + std::strerror(errno));
}

// Calls take(bytes) for each piece; stops when it returns false.
template <typename Take>
Result<void> read_pieces(const std::string& path, Take take) {
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (file.get() < 0) return failed("read", path);
  struct stat about {};
  if (::fstat(file.get(), &about) != 0) return failed("read", path);
  if (S_ISDIR(about.st_mode)) return unreadable("cannot read " + path + ": it is a folder");
  std::array<char, 1 << 16> buffer;
  for (;;) {
    const auto n = ::read(file.get(), buffer.data(), buffer.size());
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return failed("read", path);
    if (n == 0 || !take(std::string_view(buffer.data(), static_cast<std::size_t>(n)))) return {};
  }
}

}  // namespace

Result<std::string> read_file(const std::string& path, std::uint64_t limit_bytes) {
  std::string out;
  auto done = read_pieces(path, [&](std::string_view piece) {
    out += piece;
    return out.size() <= limit_bytes;
  });
  if (!done) return done.error();
  if (out.size() > limit_bytes)
    return unreadable(path + " is larger than " + std::to_string(limit_bytes) + " bytes, the most that is read");
  return out;
}

Result<Digest> sha256_of_file(const std::string& path) {
  Sha256 hash;
  auto done = read_pieces(path, [&](std::string_view piece) {
    hash.add(piece);
    return true;
  });
  if (!done) return done.error();
  return hash.finish();
}

Result<void> write_file(const std::string& path, std::string_view bytes, unsigned mode) {
  std::string pattern = path + ".XXXXXX";
  const Descriptor file(::mkostemp(pattern.data(), O_CLOEXEC));
  if (file.get() < 0) return failed("write", path);
  const auto give_up = [&] {
    Error error = failed("write", path);
    ::unlink(pattern.c_str());
    return error;
  };
  if (::fchmod(file.get(), mode) != 0) return give_up();
  while (!bytes.empty()) {
    const auto n = ::write(file.get(), bytes.data(), bytes.size());
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return give_up();
    bytes.remove_prefix(static_cast<std::size_t>(n));
  }
  if (::fsync(file.get()) != 0 || ::rename(pattern.c_str(), path.c_str()) != 0) return give_up();
  return {};
}

}  // namespace counterfoil
