// What a camera says of a picture in its EXIF block: when, with which camera, where. An EXIF block is a small TIFF
// file, so a TIFF file's own directory is read by the same few lines. Not a general EXIF reader.
// Source: CIPA DC-008 (EXIF) tags 0x010F, 0x0110, 0x8769, 0x8825, 0x9003, 0x9011, 0x9291, 0xA431, GPS tags 1 to 4,
// and TIFF 6.0 section 2, from memory.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/moment.h"

namespace counterfoil {

// Which camera it was: its clock may be wrong, and then all its pictures are.
struct Camera {
  std::string make, model, serial;  // UTF-8 without control characters, trimmed; empty where it says nothing

  friend bool operator==(const Camera&, const Camera&) = default;
};

// Where the camera was, in degrees of WGS 84.
struct Position {
  double north = 0, east = 0;  // -90 to 90, -180 to 180
};

struct CameraWords {
  // DateTimeOriginal, with OffsetTimeOriginal if it is there. None when it is absent, says nothing (blank,
  // 0000:00:00) or is no such day; a nonsensical offset is left out, since the time of day still stands. No other
  // date stands in for it: DateTime is when the file was last changed, DateTimeDigitized when paper was scanned.
  std::optional<Moment> taken;
  std::optional<int> milliseconds;  // of `taken`, from SubSecTimeOriginal
  Camera camera;
  std::optional<Position> position;
};

// `tiff` begins with the byte order mark "II" or "MM", or with "Exif\0\0" before that. What it does not say, or says
// against its own grammar, is left out.
CameraWords read_exif(std::string_view tiff);

}  // namespace counterfoil
