#include "recovery/data_bits.h"

#include <algorithm>
#include <array>

namespace counterfoil {
namespace {

constexpr std::string_view kAlphanumeric = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";
constexpr int kModeBits = 4;

enum Mode : std::uint32_t {
  kTerminator = 0,
  kNumeric = 1,
  kAlpha = 2,
  kAppend = 3,
  kBytes = 4,
  kFirstPosition = 5,  // FNC1
  kCharacterSet = 7,   // ECI
  kKanji = 8,
  kSecondPosition = 9,
  kHanzi = 13,
};

// Bits of the character count: table 3 (from memory).
int count_bits(std::uint32_t mode, int version) {
  const int step = version < 10 ? 0 : version < 27 ? 1 : 2;
  switch (mode) {
    case kNumeric:
      return 10 + 2 * step;
    case kAlpha:
      return 9 + 2 * step;
    case kBytes:
      return step == 0 ? 8 : 16;
    default:
      return 8 + 2 * step;  // kanji
  }
}

class BitWriter {
 public:
  void add(std::uint32_t value, int bits) {
    for (int i = bits - 1; i >= 0; --i) {
      if (count_ % 8 == 0) codewords_.push_back(0);
      if (value >> i & 1) codewords_.back() |= static_cast<std::uint8_t>(0x80 >> count_ % 8);
      ++count_;
    }
  }
  int count() const { return count_; }
  std::vector<std::uint8_t> take() { return std::move(codewords_); }

 private:
  std::vector<std::uint8_t> codewords_;
  int count_ = 0;
};

class BitReader {
 public:
  explicit BitReader(std::span<const std::uint8_t> codewords) : codewords_(codewords) {}

  int left() const { return static_cast<int>(codewords_.size()) * 8 - at_; }
  int taken() const { return at_; }
  // Zero bits stand behind the end; whoever reads there sees it by left().
  std::uint32_t read(int bits) {
    std::uint32_t value = 0;
    for (int i = 0; i < bits; ++i, ++at_) {
      const auto index = static_cast<std::size_t>(at_ / 8);
      value = value << 1 | (index < codewords_.size() ? codewords_[index] >> (7 - at_ % 8) & 1U : 0U);
    }
    return value;
  }

 private:
  std::span<const std::uint8_t> codewords_;
  int at_ = 0;
};

// Groups of `size` characters of an alphabet of `letters`, `bits` for a whole group and `rest_bits` for one that is
// shorter by each character missing.
bool walk_groups(BitReader& reader, int count, int size, std::uint32_t letters, std::span<const int> bits) {
  while (count > 0) {
    const int here = std::min(size, count);
    std::uint32_t limit = 1;
    for (int i = 0; i < here; ++i) limit *= letters;
    if (reader.left() < bits[static_cast<std::size_t>(here)]) return false;
    if (reader.read(bits[static_cast<std::size_t>(here)]) >= limit) return false;
    count -= here;
  }
  return true;
}

constexpr std::array<int, 4> kNumericBits{0, 4, 7, 10};
constexpr std::array<int, 3> kAlphaBits{0, 6, 11};

bool walk_characters(BitReader& reader, std::uint32_t mode, int version) {
  const int width = count_bits(mode, version);
  if (reader.left() < width) return false;
  const int count = static_cast<int>(reader.read(width));
  if (count == 0) return false;
  if (mode == kNumeric) return walk_groups(reader, count, 3, 10, kNumericBits);
  if (mode == kAlpha) return walk_groups(reader, count, 2, 45, kAlphaBits);
  const int bits = (mode == kBytes ? 8 : 13) * count;
  if (reader.left() < bits) return false;
  reader.read(bits);
  return true;
}

bool walk_character_set(BitReader& reader) {
  if (reader.left() < 8) return false;
  const auto first = reader.read(8);
  const int more = (first & 0x80) == 0 ? 0 : (first & 0x40) == 0 ? 8 : (first & 0x20) == 0 ? 16 : -1;
  if (more < 0 || reader.left() < more) return false;
  reader.read(more);
  return true;
}

bool is_padded(BitReader& reader, std::span<const std::uint8_t> data) {
  const int rest = (8 - reader.taken() % 8) % 8;
  if (reader.read(rest) != 0) return false;
  const auto used = static_cast<std::size_t>(reader.taken() / 8);
  for (std::size_t i = used; i < data.size(); ++i)
    if (data[i] != pad_codeword(i, used)) return false;
  return true;
}

}  // namespace

std::optional<std::vector<std::uint8_t>> text_codewords(std::string_view text, int version, int codewords) {
  constexpr auto npos = std::string_view::npos;
  const std::uint32_t mode = text.find_first_not_of("0123456789") == npos    ? kNumeric
                             : text.find_first_not_of(kAlphanumeric) == npos ? kAlpha
                                                                             : kBytes;
  const int width = count_bits(mode, version);
  if (text.empty() || text.size() >> width != 0) return std::nullopt;
  BitWriter writer;
  writer.add(mode, kModeBits);
  writer.add(static_cast<std::uint32_t>(text.size()), width);
  if (mode == kBytes) {
    for (const char c : text) writer.add(static_cast<std::uint8_t>(c), 8);
  } else {
    const std::size_t group = mode == kNumeric ? 3 : 2;
    const std::uint32_t letters = mode == kNumeric ? 10 : 45;
    const std::span<const int> bits = mode == kNumeric ? std::span<const int>(kNumericBits) : kAlphaBits;
    for (std::size_t i = 0; i < text.size(); i += group) {
      const auto characters = text.substr(i, group);
      std::uint32_t value = 0;
      for (const char c : characters)
        value = value * letters + static_cast<std::uint32_t>(kAlphanumeric.find(c));
      writer.add(value, bits[characters.size()]);
    }
  }
  if (writer.count() > 8 * codewords) return std::nullopt;
  writer.add(0, std::min(kModeBits, 8 * codewords - writer.count()));
  return writer.take();
}

std::optional<int> bits_taken(std::span<const std::uint8_t> data, int version) {
  BitReader reader(data);
  bool says_something = false;
  while (true) {
    const int before = reader.taken();
    if (reader.left() < kModeBits) {
      if (!says_something || reader.read(reader.left()) != 0) return std::nullopt;
      return before;
    }
    const auto mode = reader.read(kModeBits);
    bool walked = true;
    switch (mode) {
      case kTerminator:
        if (!says_something || !is_padded(reader, data)) return std::nullopt;
        return before;
      case kNumeric:
      case kAlpha:
      case kBytes:
      case kKanji:
        walked = walk_characters(reader, mode, version);
        says_something = true;
        break;
      case kCharacterSet:
        walked = walk_character_set(reader);
        break;
      case kAppend:
        walked = reader.left() >= 16;
        reader.read(16);
        break;
      case kFirstPosition:
        break;
      case kSecondPosition:
        walked = reader.left() >= 8;
        reader.read(8);
        break;
      case kHanzi:
        return static_cast<int>(data.size()) * 8;
      default:
        return std::nullopt;
    }
    if (!walked) return std::nullopt;
  }
}

}  // namespace counterfoil
