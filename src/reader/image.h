// Picture files to grey pixels, by libvips. Files come from anywhere, so the content and not the name says
// what a file is, only the four loaders below are ever called, the size is judged from the header before a
// pixel is decoded, and memory stays bounded whatever the header claims. Knows nothing of symbols.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/grey.h"
#include "base/moment.h"
#include "base/result.h"

namespace counterfoil {

// What becomes of a colour picture. Brown oil on white paper is dark in blue and nearly white in red.
enum class Channel {
  luma,      // 0.299 R + 0.587 G + 0.114 B, ITU-R BT.601
  lightest,  // the largest of the three
};

struct Picture {
  GreyPicture grey;           // upright: the EXIF orientation is applied
  int width = 0, height = 0;  // upright size of the file's own picture
  int shrink = 1;       // the file's pixels per pixel of `grey`, more than 1 only in very large pictures
  bool colour = false;  // whether another channel would differ from luma
  std::optional<Moment> taken;  // EXIF DateTimeOriginal
  std::string damage;           // why the file could be decoded in part only; empty when it is whole
};

// Larger pictures are shrunk while they are decoded, to at most this many pixels.
inline constexpr double kWorkingPixels = 64e6;
// Formats that cannot be decoded row by row (WebP, interlaced PNG, progressive JPEG) are refused above this.
inline constexpr double kLargestWholePixels = 128e6;

// JPEG, PNG, TIFF (its first page), WebP (its first frame). `unreadable` when it is none of these, is too
// large or too damaged to give any pixels.
Result<Picture> load_picture(const std::string& path, Channel channel);
Result<Picture> load_picture_bytes(std::string_view bytes, Channel channel);

}  // namespace counterfoil
