// Any grey picture, and any place on it that is said to hold a symbol: nothing crashes, and what is measured is within its
// bounds. The first bytes say where and how large, the rest is the picture; when the second byte is odd a symbol is
// printed there first, and the bytes lie over it.
// fuzz: -runs=40 -len_control=0 -max_len=3000
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <vector>

#include "grade/find_symbol.h"
#include "grade/ink_difference.h"
#include "grade/registration.h"
#include "grade/symbol_check.h"
#include "symbol/matrix.h"

using namespace counterfoil;

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size < 12) return 0;
  const int version = 1 + data[0] % 8, modules = 17 + 4 * version;
  const auto byte = [&](std::size_t i) { return static_cast<std::int8_t>(data[i]) / 128.0; };
  const int side = 60 + data[10];
  GreyPicture picture{side, side, std::vector<std::uint8_t>(static_cast<std::size_t>(side * side), 255)};
  Framing framing{modules, {}, 0, false};
  const double module = side / (modules + 10.0);
  framing.place.m = {module * (1 + byte(2) / 4),
                     byte(3) * module / 8,
                     (5 + 2 * byte(4)) * module,
                     byte(5) * module / 8,
                     module * (1 + byte(6) / 4),
                     (5 + 2 * byte(7)) * module,
                     byte(8) / 1e4,
                     byte(9) / 1e4,
                     1};
  if (data[1] == 254) framing.place.m[0] = std::nan("");
  if (data[1] == 252) framing.place.m[2] = 1e300;
  if (data[1] % 2 == 1) {
    const auto symbol = encode_symbol("CF1", static_cast<CorrectionLevel>(data[1] / 2 % 4), version);
    if (symbol)
      for (int y = 0; y < side; ++y)
        for (int x = 0; x < side; ++x) {
          const int u = static_cast<int>(std::floor(x / module - 5)),
                    v = static_cast<int>(std::floor(y / module - 5));
          if (u >= 0 && v >= 0 && u < symbol->modules && v < symbol->modules && symbol->at(u, v))
            picture.pixels[static_cast<std::size_t>(y * side + x)] = 0;
        }
  }
  for (std::size_t i = 11; i < size; ++i)
    if (data[i] != 0) picture.pixels[(i * 2654435761U) % picture.pixels.size()] = data[i];

  const auto check = check_symbol(picture, framing);
  if (check) {
    require(check->grade >= 0 && check->grade <= kBestGrade && check->pixels_per_module > 0);
    for (const auto& parameter : check->parameters)
      require(!parameter || (std::isfinite(parameter->value) && parameter->grade >= check->grade &&
                             parameter->grade <= kBestGrade));
    require((*check)[Parameter::decoding]->grade == 0 || !check->right.empty());
  }
  // The picture as a print of half of itself.
  const Plane scan = flattened(picture, {}, side, side);
  Plane drawing = scan;
  for (std::size_t i = 0; i < drawing.values.size() / 2; ++i) drawing.values[i] = data[i % size];
  const Affine map = registered(drawing, scan);
  require(std::isfinite(map.xx) && std::isfinite(map.x0) && std::abs(map.x0) < 2 * side);
  const InkPlanes planes = ink_planes(drawing, scan);
  const InkDifference difference = ink_difference(planes.meant, planes.seen);
  for (std::size_t i = 0; i < difference.missing.values.size(); ++i)
    require(difference.missing.values[i] >= 0 && difference.extra.values[i] >= 0 &&
            difference.missing.values[i] < 50 && difference.extra.values[i] < 50);
  const double n = modules;
  find_symbol(picture, {framing.place(0, 0), framing.place(n, 0), framing.place(n, n), framing.place(0, n)},
              data[1] % 3 == 0 ? modules : 0);
  return 0;
}
