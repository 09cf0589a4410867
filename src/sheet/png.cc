#include "sheet/png.h"

#include <cmath>
#include <cstdint>
#include <cstdlib>

#include "sheet/measure.h"

namespace counterfoil {
namespace {

constexpr std::size_t kHeaderEnd = 8 + 25;  // signature, then the IHDR chunk of 13 bytes

void add_number(std::string& out, std::uint32_t value) {
  for (const int shift : {24, 16, 8, 0}) out += static_cast<char>(value >> shift & 0xff);
}

// CRC-32 of ISO 3309, bit by bit: it runs over 13 bytes a file.
std::uint32_t crc_of(std::string_view bytes) {
  std::uint32_t crc = 0xffffffff;
  for (const char c : bytes) {
    crc ^= static_cast<unsigned char>(c);
    for (int bit = 0; bit < 8; ++bit) crc = crc >> 1 ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return ~crc;
}

}  // namespace

std::string with_resolution(std::string_view png, double dots_per_inch) {
  if (png.size() < kHeaderEnd || png.substr(12, 4) != "IHDR") std::abort();
  const auto dots_per_metre = static_cast<std::uint32_t>(std::lround(dots_per_inch / kMmPerInch * 1000));
  std::string chunk = "pHYs";
  add_number(chunk, dots_per_metre);
  add_number(chunk, dots_per_metre);
  chunk += '\1';  // the unit is the metre
  std::string out(png.substr(0, kHeaderEnd));
  add_number(out, static_cast<std::uint32_t>(chunk.size() - 4));
  out += chunk;
  add_number(out, crc_of(chunk));
  out += png.substr(kHeaderEnd);
  return out;
}

}  // namespace counterfoil
