// Whatever a symbol says, it is no calibration sheet's, or its plan lies on its page.
#include <cstdlib>

#include "sheet/calibration.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace counterfoil;
  const auto code = parse_calibration_code({reinterpret_cast<const char*>(data), size});
  if (!code) return 0;
  const auto again = parse_calibration_code(write_calibration_code(*code));
  if (!again || write_calibration_code(*again) != write_calibration_code(*code)) std::abort();
  const auto plan = plan_calibration(code->width_mm, code->height_mm, code->dots_per_inch);
  if (!plan) return 0;
  for (const auto& disc : plan->discs)
    if (!(disc.x > 0 && disc.y > 0 && disc.x < plan->width_mm && disc.y < plan->height_mm)) std::abort();
  return 0;
}
