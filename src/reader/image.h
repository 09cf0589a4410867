// Picture files to grey pixels, a page at a time. Files come from anywhere, so the content and not the name says what
// a file is, each kind goes to the one library that is meant for it (raster.h, heif.h, pdf.h) and no other kind to
// any, the size is judged before a pixel is decoded, and memory stays bounded whatever the file claims. Knows nothing
// of symbols.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "base/grey.h"
#include "base/result.h"
#include "reader/exif.h"

namespace counterfoil {

// What becomes of a colour picture. Brown oil on white paper is dark in blue and nearly white in red.
enum class Channel {
  luma,      // 0.299 R + 0.587 G + 0.114 B, ITU-R BT.601
  lightest,  // the largest of the three
};

struct Picture {
  GreyPicture grey;           // upright: the orientation that the file states is applied
  int width = 0, height = 0;  // upright size of the page's own picture
  int shrink = 1;  // the file's pixels per pixel of `grey`, more than 1 only in very large pictures
  // Of the file's own picture, across and down, as it says; 0 where it does not. Scanners mean it, cameras do not.
  double dots_per_inch_x = 0, dots_per_inch_y = 0;
  bool colour = false;  // whether another channel would differ from luma
  std::string damage;   // why the page could be decoded in part only; empty when it is whole
};

// Larger pictures are shrunk while they are decoded, to at most this many pixels.
inline constexpr double kWorkingPixels = 64e6;
// Formats that cannot be decoded row by row (WebP, HEIF, interlaced PNG, progressive JPEG) are refused above this.
inline constexpr double kLargestWholePixels = 128e6;
// Pages behind this one are not read.
inline constexpr int kMostPages = 1000;

// A picture file that is open. Holds no pixels between calls. Not for several threads at once.
class PictureFile {
 public:
  PictureFile() = default;
  PictureFile(const PictureFile&) = delete;
  PictureFile& operator=(const PictureFile&) = delete;
  virtual ~PictureFile() = default;

  virtual int pages() const = 0;                 // 1 to kMostPages
  virtual const CameraWords& words() const = 0;  // of the first page
  // `page` counts from 1. What is said of an error or damage names the file, and the page if there are several.
  virtual Result<Picture> load(int page, Channel channel) = 0;
};

// JPEG, PNG, TIFF (all its pages), WebP (its first frame), HEIF (its primary image, HEVC), PDF. `unreadable` when it is
// none of these, is too large or too damaged to give any pixels.
Result<std::unique_ptr<PictureFile>> open_picture(const std::string& path);
// `bytes` must outlive what is returned.
Result<std::unique_ptr<PictureFile>> open_picture_bytes(std::string_view bytes);

// Whether the file's content begins like one of the above. False for what cannot be opened.
bool is_picture(const std::string& path);

// The first page alone.
Result<Picture> load_picture(const std::string& path, Channel channel);
Result<Picture> load_picture_bytes(std::string_view bytes, Channel channel);

}  // namespace counterfoil
