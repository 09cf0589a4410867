// One photograph in, the symbols on it out: file formats by libvips, image arithmetic by OpenCV's core and
// imgproc, decoding by ZXing-cpp behind passes that are ordered by what they gain for their time. The reader
// does not know what a text means; the caller says which texts end the search.
#pragma once

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/moment.h"
#include "base/result.h"

namespace counterfoil {

struct PhotoPoint {
  double x = 0, y = 0;  // picture pixels after the EXIF orientation, from the top left corner
};

struct PhotoCode {
  std::string text;                     // UTF-8
  std::string symbology;                // "QR Code", "Data Matrix", "Code 128"
  std::array<PhotoPoint, 4> corners{};  // top left, top right, bottom right, bottom left of the symbol itself
  std::string pass;                     // the pass that found it: "plain", "adaptive", ...
};

struct Photo {
  int width = 0, height = 0;     // after the EXIF orientation
  std::vector<PhotoCode> codes;  // each symbol once, in reading order: top to bottom, then left to right
  std::optional<Moment> taken;   // EXIF DateTimeOriginal, with OffsetTimeOriginal if there
};

struct PhotoOptions {
  // Whether a text is one that is looked for; once one is found, only the cheap passes still run.
  std::function<bool(std::string_view text)> wanted;
  // Also Data Matrix and Code 128, and texts that are not wanted.
  bool any = false;
};

// JPEG, PNG, TIFF, WebP. `unreadable` when the file is none of these, is damaged, or holds more pixels than
// kLargestPhotoPixels: no more memory than a few times that is ever used. Safe to call from several threads.
inline constexpr double kLargestPhotoPixels = 400e6;
Result<Photo> read_photo(const std::string& path, const PhotoOptions& options);
// The same for a file that is in memory.
Result<Photo> read_photo_bytes(std::string_view bytes, const PhotoOptions& options);

}  // namespace counterfoil
