// Whatever a printer profile holds, it is refused, or its map can be undone and it is written so that it parses again.
#include <cmath>
#include <cstdlib>

#include "printer/profile.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace counterfoil;
  const auto profile = parse_printer_profile({reinterpret_cast<const char*>(data), size});
  if (!profile) return 0;
  const PicturePoint there = profile->map().inverse()(profile->map()({100, 200}));
  if (!(std::hypot(there.x - 100, there.y - 200) < 1e-6)) std::abort();
  const auto again = parse_printer_profile(to_json(*profile));
  if (!again || to_json(*again) != to_json(*profile)) std::abort();
  return 0;
}
