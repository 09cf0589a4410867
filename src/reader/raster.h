// JPEG, PNG, TIFF and WebP, by libvips. Of the library's loaders only those four can run: its plug-in modules are kept
// out and the others are blocked.
#pragma once

#include "reader/image.h"

namespace counterfoil {

enum class RasterFormat { jpeg, png, tiff, webp };

// From a file, or from bytes that outlive what is returned.
Result<std::unique_ptr<PictureFile>> open_raster(const std::string& path, RasterFormat format);
Result<std::unique_ptr<PictureFile>> open_raster_bytes(std::string_view bytes, RasterFormat format);

}  // namespace counterfoil
