// Symbols printed on a picture with known faults. Pixels are filled by how much of a module covers them.
#pragma once

#include <algorithm>
#include <cmath>
#include <map>
#include <stdexcept>
#include <utility>
#include <vector>

#include "base/grey.h"
#include "grade/symbol_check.h"
#include "symbol/matrix.h"

namespace counterfoil {

struct PrintedSymbol {
  SymbolMatrix matrix;
  double pixels_x = 10, pixels_y = 10;  // a module
  int dark = 0, light = 255;
  int margin = 6;                            // modules of paper around it
  std::map<std::pair<int, int>, int> greys;  // of modules that differ, by x and y; the quiet zone's too
  struct Patch {                             // modules that lie elsewhere
    int left, top, right, bottom;            // both included
    double dx, dy;                           // in modules
  };
  std::vector<Patch> patches;

  void turn(int x, int y) { greys[{x, y}] = is_dark(x, y) ? light : dark; }
  bool is_dark(int x, int y) const {
    return x >= 0 && y >= 0 && x < matrix.modules && y < matrix.modules && matrix.at(x, y);
  }

  Framing framing(double off_x = 0, double off_y = 0) const {
    Framing framing;
    framing.modules = matrix.modules;
    framing.place.m = {pixels_x, 0, pixels_x * (margin + off_x), 0, pixels_y, pixels_y * (margin + off_y), 0,
                       0,        1};
    return framing;
  }

  GreyPicture picture() const {
    const int side = matrix.modules + 2 * margin;
    GreyPicture out{
        static_cast<int>(std::lround(side * pixels_x)), static_cast<int>(std::lround(side * pixels_y)), {}};
    std::vector<double> ink(static_cast<std::size_t>(out.width) * static_cast<std::size_t>(out.height),
                            light);
    const auto in_patch = [&](int x, int y) {
      return std::any_of(patches.begin(), patches.end(), [&](const Patch& p) {
        return x >= p.left && x <= p.right && y >= p.top && y <= p.bottom;
      });
    };
    for (int y = -margin; y < matrix.modules + margin; ++y)
      for (int x = -margin; x < matrix.modules + margin; ++x)
        if (!in_patch(x, y)) fill(ink, out, x, y, grey_of(x, y));
    for (const auto& p : patches)
      for (int y = p.top; y <= p.bottom; ++y)
        for (int x = p.left; x <= p.right; ++x) fill(ink, out, x + p.dx, y + p.dy, grey_of(x, y));
    for (const double value : ink) out.pixels.push_back(static_cast<std::uint8_t>(std::lround(value)));
    return out;
  }

  SymbolCheck check(double off_x = 0, double off_y = 0) const {
    const auto checked = check_symbol(picture(), framing(off_x, off_y));
    if (!checked) throw std::runtime_error("no symbol");
    return *checked;
  }

 private:
  int grey_of(int x, int y) const {
    const auto own = greys.find({x, y});
    return own != greys.end() ? own->second : is_dark(x, y) ? dark : light;
  }
  // What the module covers of a pixel replaces so much of what was there.
  void fill(std::vector<double>& ink, const GreyPicture& size, double x, double y, int grey) const {
    const double left = (x + margin) * pixels_x, right = left + pixels_x, top = (y + margin) * pixels_y,
                 bottom = top + pixels_y;
    for (int py = std::max(0, static_cast<int>(top)); py < std::min<double>(size.height, bottom); ++py) {
      const double high = std::min(bottom, py + 1.0) - std::max(top, static_cast<double>(py));
      for (int px = std::max(0, static_cast<int>(left)); px < std::min<double>(size.width, right); ++px) {
        const double cover = high * (std::min(right, px + 1.0) - std::max(left, static_cast<double>(px)));
        double& pixel = ink[static_cast<std::size_t>(py) * static_cast<std::size_t>(size.width) +
                            static_cast<std::size_t>(px)];
        pixel += cover * (grey - light) - (cover == 1 ? pixel - light : 0);
      }
    }
  }
};

inline PrintedSymbol printed(CorrectionLevel level, int version,
                             std::string_view text = "CF1.K74Q2M8X61.BAG1") {
  PrintedSymbol symbol;
  auto matrix = encode_symbol(text, level, version);
  if (!matrix || matrix->version != version || matrix->level != level)
    throw std::runtime_error("not that version");
  symbol.matrix = *matrix;
  return symbol;
}

// Where the bits of a codeword lie; the codewords are counted as they come in the symbol.
inline FixedPatterns::Module module_of(const PrintedSymbol& symbol, int codeword, int bit) {
  const Layout& layout = layout_of(symbol.matrix.version);
  const int module = layout.bits[static_cast<std::size_t>(codeword * 8 + bit)];
  return {module % layout.modules, module / layout.modules};
}

}  // namespace counterfoil
