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

#include "base/grey.h"
#include "base/moment.h"
#include "base/result.h"

namespace counterfoil {

struct PhotoCode {
  std::string text;                     // UTF-8
  std::string symbology;                // "QR Code", "Data Matrix", "Code 128"
  std::array<PicturePoint, 4> corners{};  // top left, top right, bottom right, bottom left of the symbol itself,
                                          // after the EXIF orientation
  std::string pass;                     // the pass that found it: "plain", "adaptive", ...
  bool identified = false;              // told by its likeness to one of the known texts, not decoded
};

// A symbol that is seen and can be neither decoded nor told apart safely.
struct UnreadSymbol {
  std::array<PicturePoint, 4> corners{};  // as in PhotoCode
  std::vector<std::string> likely;        // at most three of the known texts, likest first; a person decides
};

struct Photo {
  int width = 0, height = 0;     // after the EXIF orientation
  std::vector<PhotoCode> codes;  // each symbol once, in reading order: top to bottom, then left to right
  std::vector<UnreadSymbol> unread;
  std::optional<Moment> taken;  // EXIF DateTimeOriginal, with OffsetTimeOriginal if there
  std::string damage;           // why the file could be decoded in part only; empty when it is whole
};

class KnownTexts;  // recovery/known_texts.h

enum class Effort {
  quick,     // the first pass or two: a second's look through hundreds of pictures
  normal,    // all that pays for its time
  thorough,  // everything, to the end of the time
};

struct PhotoOptions {
  // Whether a text is one that is looked for; once one is found, only the cheap passes still run.
  std::function<bool(std::string_view text)> wanted;
  // Also Data Matrix and Code 128, and texts that are not wanted.
  bool any = false;
  // The texts that may be out there. A symbol that cannot be decoded is held against them.
  const KnownTexts* known = nullptr;
  Effort effort = Effort::normal;
  // Asked between steps, none of which takes long; false ends the search with what was found. Unset: no limit.
  std::function<bool()> time_left{};
};

// JPEG, PNG, TIFF, WebP. `unreadable` when the file is none of these, is damaged, or holds more pixels than
// kLargestPhotoPixels: no more memory than a few times that is ever used. Safe to call from several threads.
inline constexpr double kLargestPhotoPixels = 400e6;
Result<Photo> read_photo(const std::string& path, const PhotoOptions& options);
// The same for a file that is in memory.
Result<Photo> read_photo_bytes(std::string_view bytes, const PhotoOptions& options);

}  // namespace counterfoil
