// HEIF, the form in which telephones keep photographs: the primary image, by libheif. The orientation is a property of
// the image there, which the library applies; the EXIF orientation beside it says the same again and is not looked at.
#pragma once

#include "reader/image.h"

namespace counterfoil {

// Bytes must outlive what is returned.
Result<std::unique_ptr<PictureFile>> open_heif(const std::string& path);
Result<std::unique_ptr<PictureFile>> open_heif_bytes(std::string_view bytes);

}  // namespace counterfoil
