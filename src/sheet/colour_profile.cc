#include "sheet/colour_profile.h"

#include <lcms2.h>

#include <cstdlib>
#include <memory>

namespace counterfoil {
namespace {

struct Close {
  void operator()(void* profile) const { cmsCloseProfile(profile); }
};

// ICC.1:2010 7.2: in bytes 24 to 35 of the header stands when the profile was made, six numbers of two bytes.
constexpr std::size_t kDateAt = 24;
constexpr unsigned char kDate[] = {2000 / 256, 2000 % 256, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0};

}  // namespace

std::string srgb_profile() {
  const std::unique_ptr<void, Close> profile(cmsCreate_sRGBProfile());
  cmsUInt32Number size = 0;
  // The one cause is memory that has run out.
  if (!profile || !cmsSaveProfileToMem(profile.get(), nullptr, &size)) std::abort();
  std::string bytes(size, '\0');
  if (!cmsSaveProfileToMem(profile.get(), bytes.data(), &size)) std::abort();
  return bytes.replace(kDateAt, sizeof kDate, reinterpret_cast<const char*>(kDate), sizeof kDate);
}

}  // namespace counterfoil
