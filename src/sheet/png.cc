#include "sheet/png.h"

#include <zlib.h>

#include <cmath>
#include <cstdlib>

#include "sheet/measure.h"

namespace counterfoil {
namespace {

std::string number(std::size_t value) {
  std::string out;
  for (const int shift : {24, 16, 8, 0}) out += static_cast<char>(value >> shift & 0xff);
  return out;
}

void add_chunk(std::string& png, const std::string& type, const std::string& data) {
  const std::string body = type + data;
  png += number(data.size());
  png += body;
  png += number(crc32_z(0, reinterpret_cast<const Bytef*>(body.data()), body.size()));
}

std::string deflated(const std::string& bytes) {
  uLongf length = compressBound(static_cast<uLong>(bytes.size()));
  std::string out(length, '\0');
  if (compress2(reinterpret_cast<Bytef*>(out.data()), &length, reinterpret_cast<const Bytef*>(bytes.data()),
                static_cast<uLong>(bytes.size()), Z_DEFAULT_COMPRESSION) != Z_OK)
    std::abort();  // the room is as large as zlib asks for
  out.resize(length);
  return out;
}

}  // namespace

std::string png_of(const DotPicture& picture, double dots_per_inch) {
  if (picture.width == 0 || picture.bytes.size() != picture.row_bytes() * picture.height) std::abort();
  const auto dots_per_metre = static_cast<std::size_t>(std::lround(dots_per_inch / kMmPerInch * 1000));
  std::string rows;
  rows.reserve(picture.bytes.size() + picture.height);
  for (std::size_t y = 0; y < picture.height; ++y) {
    rows += '\0';  // filter type 0: most rows are white or repeat the one above, which deflate sees by itself
    rows.append(reinterpret_cast<const char*>(picture.bytes.data()) + y * picture.row_bytes(),
                picture.row_bytes());
  }
  std::string png = "\x89PNG\r\n\x1a\n";
  const std::string depth_grey_and_defaults = {1, 0, 0, 0, 0};
  add_chunk(png, "IHDR", number(picture.width) + number(picture.height) + depth_grey_and_defaults);
  add_chunk(png, "pHYs", number(dots_per_metre) + number(dots_per_metre) + '\1');  // 1: the unit is the metre
  add_chunk(png, "IDAT", deflated(rows));
  add_chunk(png, "IEND", "");
  return png;
}

}  // namespace counterfoil
