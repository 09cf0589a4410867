// Inside the sheet room: what the colours of a PDF mean to a printer. Owner of Little CMS.
#pragma once

#include <string>

namespace counterfoil {

// An ICC profile of sRGB (IEC 61966-2-1), the same bytes at any time.
std::string srgb_profile();

}  // namespace counterfoil
