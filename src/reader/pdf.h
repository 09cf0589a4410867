// Pages of a PDF, as scanners write it, by Poppler: each is drawn at 300 dots per inch, or at what keeps it within
// kWorkingPixels. Nothing in the file is run: the library has no scripts, and links and forms are not followed.
#pragma once

#include "reader/image.h"

namespace counterfoil {

// Bytes must outlive what is returned.
Result<std::unique_ptr<PictureFile>> open_pdf(const std::string& path);
Result<std::unique_ptr<PictureFile>> open_pdf_bytes(std::string_view bytes);

}  // namespace counterfoil
