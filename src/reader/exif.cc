#include "reader/exif.h"

#include <cstddef>
#include <cstdint>
#include <string>

#include "base/text.h"

namespace counterfoil {
namespace {

constexpr std::uint16_t kExifDirectory = 0x8769, kDateTimeOriginal = 0x9003, kOffsetTimeOriginal = 0x9011;
constexpr std::uint16_t kAscii = 2, kLong = 4;
constexpr std::size_t kEntryBytes = 12;

struct Entry {
  std::uint16_t type;
  std::uint32_t count;
  std::string_view value;  // the four bytes that hold the value or where it is
};

class Tiff {
 public:
  explicit Tiff(std::string_view bytes) : bytes_(bytes), little_(bytes.substr(0, 2) == "II") {}

  bool has_header() const {
    return (little_ || bytes_.substr(0, 2) == "MM") && bytes_.size() >= 8 &&
           number(bytes_.substr(2, 2)) == 42;
  }
  std::uint32_t first_directory() const { return number(bytes_.substr(4, 4)); }

  std::optional<Entry> find(std::size_t directory, std::uint16_t tag) const {
    if (directory > bytes_.size() || bytes_.size() - directory < 2) return std::nullopt;
    const std::uint32_t entries = number(bytes_.substr(directory, 2));
    std::string_view rest = bytes_.substr(directory + 2);
    for (std::uint32_t i = 0; i < entries && rest.size() >= kEntryBytes; ++i) {
      if (number(rest.substr(0, 2)) == tag) {
        return Entry{static_cast<std::uint16_t>(number(rest.substr(2, 2))), number(rest.substr(4, 4)),
                     rest.substr(8, 4)};
      }
      rest.remove_prefix(kEntryBytes);
    }
    return std::nullopt;
  }

  // The text up to its first NUL; empty when the entry is no text or points outside.
  std::string_view text(const std::optional<Entry>& entry) const {
    if (!entry || entry->type != kAscii) return {};
    std::string_view value = entry->value;
    if (entry->count > 4) {
      const std::size_t at = number(entry->value);
      if (at > bytes_.size() || bytes_.size() - at < entry->count) return {};
      value = bytes_.substr(at);
    }
    value = value.substr(0, entry->count);
    return value.substr(0, value.find('\0'));
  }

  std::uint32_t number(std::string_view field) const {
    std::uint32_t n = 0;
    for (std::size_t i = 0; i < field.size(); ++i) {
      n = n << 8 | static_cast<std::uint8_t>(field[little_ ? field.size() - 1 - i : i]);
    }
    return n;
  }

 private:
  std::string_view bytes_;
  bool little_;
};

// EXIF writes "2026:11:25 09:30:15".
std::optional<Moment> moment_of(std::string_view date, std::string_view offset) {
  std::string text(trimmed(date));
  if (text.size() != 19 || text[4] != ':' || text[7] != ':' || text[10] != ' ') return std::nullopt;
  text[4] = text[7] = '-';
  if (const auto with_offset = parse_moment(text + std::string(trimmed(offset)))) return *with_offset;
  if (const auto without = parse_moment(text)) return *without;
  return std::nullopt;
}

}  // namespace

std::optional<Moment> exif_taken(std::string_view bytes) {
  constexpr std::string_view kPrefix("Exif\0\0", 6);
  if (bytes.substr(0, kPrefix.size()) == kPrefix) bytes.remove_prefix(kPrefix.size());
  const Tiff tiff(bytes);
  if (!tiff.has_header()) return std::nullopt;
  const auto pointer = tiff.find(tiff.first_directory(), kExifDirectory);
  if (!pointer || pointer->type != kLong) return std::nullopt;
  const std::size_t exif = tiff.number(pointer->value);
  return moment_of(tiff.text(tiff.find(exif, kDateTimeOriginal)),
                   tiff.text(tiff.find(exif, kOffsetTimeOriginal)));
}

}  // namespace counterfoil
