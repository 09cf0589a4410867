#include "reader/exif.h"

#include <cstddef>
#include <cstdint>
#include <string>

#include "base/text.h"

namespace counterfoil {
namespace {

constexpr std::uint16_t kMake = 0x010F, kModel = 0x0110, kExifDirectory = 0x8769, kGpsDirectory = 0x8825;
constexpr std::uint16_t kDateTimeOriginal = 0x9003, kOffsetTimeOriginal = 0x9011,
                        kSubSecTimeOriginal = 0x9291;
constexpr std::uint16_t kBodySerialNumber = 0xA431;
constexpr std::uint16_t kLatitudeRef = 1, kLatitude = 2, kLongitudeRef = 3, kLongitude = 4;
constexpr std::uint16_t kAscii = 2, kLong = 4, kRational = 5;
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

  // Where the directory begins that the entry points to.
  std::optional<std::size_t> directory(std::uint16_t tag) const {
    const auto pointer = find(first_directory(), tag);
    if (!pointer || pointer->type != kLong) return std::nullopt;
    return number(pointer->value);
  }

  // Degrees from the three rationals: degrees, minutes, seconds. Minutes and seconds may be missing as 0/0.
  std::optional<double> degrees(const std::optional<Entry>& entry) const {
    constexpr std::size_t kBytes = 24;
    if (!entry || entry->type != kRational || entry->count != 3) return std::nullopt;
    const std::size_t at = number(entry->value);
    if (at > bytes_.size() || bytes_.size() - at < kBytes) return std::nullopt;
    double sum = 0, unit = 1;
    for (std::size_t i = 0; i < kBytes; i += 8, unit /= 60) {
      const double above = number(bytes_.substr(at + i, 4)), below = number(bytes_.substr(at + i + 4, 4));
      if (below == 0 && (i == 0 || above != 0)) return std::nullopt;
      if (below != 0) sum += unit * above / below;
    }
    return sum;
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

// The fraction's first three digits: "5" is half a second.
std::optional<int> milliseconds_of(std::string_view digits) {
  digits = trimmed(digits);
  if (digits.empty() || digits.find_first_not_of("0123456789") != std::string_view::npos) return std::nullopt;
  int value = 0;
  for (std::size_t i = 0; i < 3; ++i) value = value * 10 + (i < digits.size() ? digits[i] - '0' : 0);
  return value;
}

// It is shown to people, and terminals obey control characters.
std::string name_of(std::string_view text) {
  text = trimmed(text);
  return is_utf8(text) && !has_control_characters(text) ? std::string(text) : std::string();
}

std::optional<Position> position_in(const Tiff& tiff, std::size_t gps) {
  auto north = tiff.degrees(tiff.find(gps, kLatitude)), east = tiff.degrees(tiff.find(gps, kLongitude));
  const auto north_or_south = tiff.text(tiff.find(gps, kLatitudeRef));
  const auto east_or_west = tiff.text(tiff.find(gps, kLongitudeRef));
  if (!north || !east || *north > 90 || *east > 180) return std::nullopt;
  if ((north_or_south != "N" && north_or_south != "S") || (east_or_west != "E" && east_or_west != "W"))
    return std::nullopt;
  return Position{north_or_south == "S" ? -*north : *north, east_or_west == "W" ? -*east : *east};
}

}  // namespace

CameraWords read_exif(std::string_view bytes) {
  constexpr std::string_view kPrefix("Exif\0\0", 6);
  if (bytes.substr(0, kPrefix.size()) == kPrefix) bytes.remove_prefix(kPrefix.size());
  const Tiff tiff(bytes);
  CameraWords words;
  if (!tiff.has_header()) return words;
  const std::size_t first = tiff.first_directory();
  words.camera.make = name_of(tiff.text(tiff.find(first, kMake)));
  words.camera.model = name_of(tiff.text(tiff.find(first, kModel)));
  if (const auto exif = tiff.directory(kExifDirectory)) {
    words.taken = moment_of(tiff.text(tiff.find(*exif, kDateTimeOriginal)),
                            tiff.text(tiff.find(*exif, kOffsetTimeOriginal)));
    if (words.taken) words.milliseconds = milliseconds_of(tiff.text(tiff.find(*exif, kSubSecTimeOriginal)));
    words.camera.serial = name_of(tiff.text(tiff.find(*exif, kBodySerialNumber)));
  }
  if (const auto gps = tiff.directory(kGpsDirectory)) words.position = position_in(tiff, *gps);
  return words;
}

}  // namespace counterfoil
