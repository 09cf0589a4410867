// When a picture was taken, from its EXIF block. An EXIF block is a small TIFF file, so a TIFF file's own
// directory is read by the same few lines. Not a general EXIF reader: one date and its offset from UTC.
// Source: CIPA DC-008 (EXIF) tags 0x8769, 0x9003, 0x9011 and TIFF 6.0 section 2, from memory.
#pragma once

#include <optional>
#include <string_view>

#include "base/moment.h"

namespace counterfoil {

// `tiff` begins with the byte order mark "II" or "MM", or with "Exif\0\0" before that. DateTimeOriginal, with
// OffsetTimeOriginal if it is there. None when either is absent, says nothing (blank, 0000:00:00) or is no
// such day; a nonsensical offset is left out, since the time of day still stands.
std::optional<Moment> exif_taken(std::string_view tiff);

}  // namespace counterfoil
