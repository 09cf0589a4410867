#include "base/file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <utility>

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

// A new name is safe on disk once its folder is; some file systems have no such call and say EINVAL.
bool sync_folder_of(const std::string& path) {
  const auto slash = path.rfind('/');
  const std::string folder = slash == std::string::npos ? "." : path.substr(0, slash + 1);
  const Descriptor opened(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  return opened.get() >= 0 && (::fsync(opened.get()) == 0 || errno == EINVAL);
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
    return unreadable(path + " is larger than " + std::to_string(limit_bytes) +
                      " bytes, the most that is read");
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

NewFile::NewFile(std::string path, std::string beside, int fd)
    : path_(std::move(path)), beside_(std::move(beside)), fd_(fd) {}

NewFile::NewFile(NewFile&& other) noexcept
    : path_(std::move(other.path_)),
      beside_(std::exchange(other.beside_, {})),
      pending_(std::move(other.pending_)),
      fd_(std::exchange(other.fd_, -1)) {}

NewFile::~NewFile() {
  if (fd_ >= 0) ::close(fd_);
  if (!beside_.empty()) ::unlink(beside_.c_str());
}

Result<NewFile> NewFile::open(const std::string& path, unsigned mode) {
  std::string pattern = path + ".XXXXXX";
  const int fd = ::mkostemp(pattern.data(), O_CLOEXEC);
  if (fd < 0) return failed("write", path);
  NewFile file(path, std::move(pattern), fd);
  if (::fchmod(fd, mode) != 0) return failed("write", path);
  return file;
}

Result<void> NewFile::add(std::string_view bytes) {
  constexpr std::size_t kPiece = 1 << 16;
  pending_ += bytes;
  return pending_.size() < kPiece ? Result<void>() : write_pending();
}

Result<void> NewFile::write_pending() {
  std::string_view bytes = pending_;
  while (!bytes.empty()) {
    const auto n = ::write(fd_, bytes.data(), bytes.size());
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return failed("write", path_);
    bytes.remove_prefix(static_cast<std::size_t>(n));
  }
  pending_.clear();
  return {};
}

Result<void> NewFile::finish() {
  if (fd_ < 0) return {};
  if (auto done = write_pending(); !done) return done;
  if (::fsync(fd_) != 0) return failed("write", path_);
  if (::close(std::exchange(fd_, -1)) != 0) return failed("write", path_);
  return {};
}

Result<void> NewFile::commit() {
  if (auto done = finish(); !done) return done;
  if (::rename(beside_.c_str(), path_.c_str()) != 0) return failed("write", path_);
  beside_.clear();
  if (!sync_folder_of(path_)) return failed("write", path_);
  return {};
}

Result<void> write_file(const std::string& path, std::string_view bytes, unsigned mode) {
  auto file = NewFile::open(path, mode);
  if (!file) return file.error();
  if (auto done = file->add(bytes); !done) return done;
  return file->commit();
}

}  // namespace counterfoil
