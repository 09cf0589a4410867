// One photograph in, the symbols on it out: file formats behind image.h, image arithmetic by OpenCV's core and
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
#include "base/result.h"
#include "reader/exif.h"

namespace counterfoil {

struct PhotoCode {
  std::string text;       // UTF-8
  std::string symbology;  // "QR Code", "Data Matrix", "Code 128"
  std::array<PicturePoint, 4>
      corners{};            // top left, top right, bottom right, bottom left of the symbol itself,
                            // after the EXIF orientation
  std::string pass;         // the pass that found it: "plain", "adaptive", ...
  bool identified = false;  // told by its likeness to one of the known texts, not decoded
  int page = 1;             // of a PDF or TIFF
};

// A symbol that is seen and can be neither decoded nor told apart safely.
struct UnreadSymbol {
  std::array<PicturePoint, 4> corners{};  // as in PhotoCode
  std::vector<std::string> likely;        // at most three of the known texts, likest first; a person decides
  int page = 1;
};

struct Photo {
  int width = 0, height = 0;  // of the first page that could be read, after the EXIF orientation
  std::vector<PhotoCode>
      codes;  // each symbol once, page by page in reading order: top to bottom, then left to right
  std::vector<UnreadSymbol> unread;
  CameraWords words;   // what the camera says of when, with what and where it was taken
  std::string damage;  // what could be read in part only, in words that name the file; empty when it is whole
  bool time_ran_out = false;  // `time_left` ended the search of a page before it was through
  int pages = 1;
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
  // Called before each page, so that the time of each can begin anew. Unset: one time for all pages.
  std::function<void()> page_begins{};
};

// The formats of image.h. `unreadable` when the file is none of these, is damaged, or holds more pixels than
// kLargestPhotoPixels: no more memory than a few times one page is ever used. A page that cannot be read becomes
// `damage` when another can. Safe to call from several threads.
inline constexpr double kLargestPhotoPixels = 400e6;
Result<Photo> read_photo(const std::string& path, const PhotoOptions& options);
// The same for a file that is in memory.
Result<Photo> read_photo_bytes(std::string_view bytes, const PhotoOptions& options);

}  // namespace counterfoil
