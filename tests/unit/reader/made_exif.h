// EXIF blocks as cameras write them: a first directory, and from it pointers to the EXIF and the GPS directory.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

namespace counterfoil {

enum class ExifDirectory : std::size_t { first, exif, gps };

class MadeExif {
 public:
  using Angle = std::vector<std::pair<std::uint32_t, std::uint32_t>>;  // degrees, minutes, seconds

  explicit MadeExif(bool little = true) : little_(little) {}

  void add_text(ExifDirectory directory, std::uint16_t tag, const std::string& text) {
    add(directory, {tag, 2, static_cast<std::uint32_t>(text.size() + 1), text + '\0'});
  }
  void add_short(ExifDirectory directory, std::uint16_t tag, std::uint16_t value) {
    add(directory, {tag, 3, 1, number(value, 2)});
  }
  void add_position(const std::string& ns, const Angle& north, const std::string& ew, const Angle& east) {
    add_text(ExifDirectory::gps, 1, ns);
    add(ExifDirectory::gps, {2, 5, 3, rationals(north)});
    add_text(ExifDirectory::gps, 3, ew);
    add(ExifDirectory::gps, {4, 5, 3, rationals(east)});
  }

  // From the byte order mark on.
  std::string bytes() const {
    auto directories = directories_;
    constexpr std::array<std::uint16_t, 3> kPointers = {0, 0x8769, 0x8825};
    for (std::size_t i = 1; i < directories.size(); ++i)
      if (!directories[i].empty()) directories[0].push_back({kPointers[i], 4, 1, std::string(4, '\0')});
    std::array<std::uint32_t, 3> starts{};
    std::uint32_t end = 8;
    for (std::size_t i = 0; i < directories.size(); ++i) {
      starts[i] = end;
      if (i > 0 && directories[i].empty()) continue;
      end += static_cast<std::uint32_t>(2 + 12 * directories[i].size() + 4);
      for (const auto& entry : directories[i])
        if (entry.data.size() > 4) end += static_cast<std::uint32_t>(entry.data.size());
    }
    std::string out = (little_ ? "II" : "MM") + number(42, 2) + number(8, 4);
    for (std::size_t i = 0; i < directories.size(); ++i) {
      if (i > 0 && directories[i].empty()) continue;
      std::string data;
      const auto data_at = starts[i] + 2 + 12 * static_cast<std::uint32_t>(directories[i].size()) + 4;
      out += number(static_cast<std::uint32_t>(directories[i].size()), 2);
      for (auto entry : directories[i]) {
        for (std::size_t j = 1; j < kPointers.size(); ++j)
          if (entry.tag == kPointers[j]) entry.data = number(starts[j], 4);
        out += number(entry.tag, 2) + number(entry.type, 2) + number(entry.count, 4);
        if (entry.data.size() > 4) {
          out += number(data_at + static_cast<std::uint32_t>(data.size()), 4);
          data += entry.data;
        } else {
          out += entry.data + std::string(4 - entry.data.size(), '\0');
        }
      }
      out += number(0, 4) + data;
    }
    return out;
  }

 private:
  struct Entry {
    std::uint16_t tag, type;
    std::uint32_t count;
    std::string data;
  };

  void add(ExifDirectory directory, Entry entry) {
    directories_[static_cast<std::size_t>(directory)].push_back(std::move(entry));
  }
  std::string number(std::uint32_t n, int bytes) const {
    std::string out;
    for (int i = 0; i < bytes; ++i) {
      const int shift = 8 * (little_ ? i : bytes - 1 - i);
      out += static_cast<char>(n >> shift & 0xFF);
    }
    return out;
  }
  std::string rationals(const Angle& angle) const {
    std::string out;
    for (const auto& [above, below] : angle) out += number(above, 4) + number(below, 4);
    return out;
  }

  bool little_;
  std::array<std::vector<Entry>, 3> directories_;
};

}  // namespace counterfoil
