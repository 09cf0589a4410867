// Whatever an SVG file holds, it is refused or all its slots lie in the drawing and none overlaps another.
// fuzz: -runs=5000 -max_len=2048
#include <cstdlib>

#include "sheet/design.h"
#include "sheet/slot.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace counterfoil;
  const auto design = Design::parse({reinterpret_cast<const char*>(data), size}, "fuzz");
  if (!design) return 0;
  const auto& slots = design->data().slots;
  constexpr double kSlack = 0.01;
  for (std::size_t i = 0; i < slots.size(); ++i) {
    const Box& a = slots[i].box;
    if (a.x_mm < 0 || a.y_mm < 0 || a.x_mm + a.width_mm > design->width_mm() + kSlack ||
        a.y_mm + a.height_mm > design->height_mm() + kSlack)
      std::abort();
    for (std::size_t j = 0; j < i; ++j) {
      const Box& b = slots[j].box;
      if (a.x_mm + kSlack < b.x_mm + b.width_mm && b.x_mm + kSlack < a.x_mm + a.width_mm &&
          a.y_mm + kSlack < b.y_mm + b.height_mm && b.y_mm + kSlack < a.y_mm + a.height_mm)
        std::abort();
    }
  }
  return 0;
}
