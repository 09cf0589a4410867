#include "recovery/layout.h"

#include <cstdlib>
#include <memory>
#include <mutex>

namespace counterfoil {
namespace {

constexpr int kLevels = 4;
using Column = std::array<int, kMostVersion>;

// ISO/IEC 18004:2015, table 9 (from memory; the tests hold it against libqrencode): codewords of parity in a
// block, and number of blocks, for versions 1 to 40.
constexpr std::array<Column, kLevels> kParity{{
    {7,  10, 15, 20, 26, 18, 20, 24, 30, 18, 20, 24, 26, 30, 22, 24, 28, 30, 28, 28,
     28, 28, 30, 30, 26, 28, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30},
    {10, 16, 26, 18, 24, 16, 18, 22, 22, 26, 30, 22, 22, 24, 24, 28, 28, 26, 26, 26,
     26, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28},
    {13, 22, 18, 26, 18, 24, 18, 22, 20, 24, 28, 26, 24, 20, 30, 24, 28, 28, 26, 30,
     28, 30, 30, 30, 30, 28, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30},
    {17, 28, 22, 16, 22, 28, 26, 26, 24, 28, 24, 28, 22, 24, 24, 30, 28, 28, 26, 28,
     30, 24, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30},
}};
constexpr std::array<Column, kLevels> kBlocks{{
    {1, 1, 1, 1,  1,  2,  2,  2,  2,  4,  4,  4,  4,  4,  6,  6,  6,  6,  7,  8,
     8, 9, 9, 10, 12, 12, 12, 13, 14, 15, 16, 17, 18, 19, 19, 20, 21, 22, 24, 25},
    {1,  1,  1,  2,  2,  4,  4,  4,  5,  5,  5,  8,  9,  9,  10, 10, 11, 13, 14, 16,
     17, 17, 18, 20, 21, 23, 25, 26, 28, 29, 31, 33, 35, 37, 38, 40, 43, 45, 47, 49},
    {1,  1,  2,  2,  4,  4,  6,  6,  8,  8,  8,  10, 12, 16, 12, 17, 16, 18, 21, 20,
     23, 23, 25, 27, 29, 34, 34, 35, 38, 40, 43, 45, 48, 51, 53, 56, 59, 62, 65, 68},
    {1,  1,  2,  4,  4,  4,  5,  6,  8,  8,  11, 11, 16, 16, 18, 16, 19, 21, 25, 25,
     25, 34, 30, 32, 35, 37, 40, 42, 45, 48, 51, 54, 57, 60, 63, 66, 70, 74, 77, 81},
}};

void require(bool holds) {
  if (!holds) std::abort();
}

std::size_t index_of(int number) { return static_cast<std::size_t>(number); }

// Centres of alignment patterns along one axis: 6, then evenly spaced from the far end by an even step.
std::vector<int> alignment_centres(int version) {
  if (version == 1) return {};
  const int count = version / 7 + 2;
  const int modules = 17 + 4 * version;
  const int step =
      version == 32 ? 26 : (version * 4 + count * 2 + 1) / (count * 2 - 2) * 2;  // 32 is out of line
  std::vector<int> centres{6};
  for (int i = count - 2; i >= 0; --i) centres.push_back(modules - 7 - i * step);
  return centres;
}

class Drawing {
 public:
  explicit Drawing(int version) {
    layout_.version = version;
    layout_.modules = 17 + 4 * version;
    layout_.alignment = alignment_centres(version);
    layout_.colour.assign(index_of(layout_.modules * layout_.modules), 0);
    taken_.assign(layout_.colour.size(), false);
  }

  Layout finish() {
    draw_timing();
    draw_alignment();
    const int last = layout_.modules - 1;
    draw_finder(3, 3);
    draw_finder(last - 3, 3);
    draw_finder(3, last - 3);
    draw_version();
    draw_format();
    place_bits();
    return std::move(layout_);
  }

 private:
  int at(int x, int y) const { return y * layout_.modules + x; }

  void set(int x, int y, bool dark) {
    layout_.colour[index_of(at(x, y))] = dark ? 1 : -1;
    taken_[index_of(at(x, y))] = true;
  }

  void draw_timing() {
    for (int i = 0; i < layout_.modules; ++i) {
      set(6, i, i % 2 == 0);
      set(i, 6, i % 2 == 0);
    }
  }

  void draw_alignment() {
    const auto& centres = layout_.alignment;
    for (const int cx : centres) {
      for (const int cy : centres) {
        const bool in_finder =
            (cx == 6 && cy == 6) || (cx == 6 && cy == centres.back()) || (cx == centres.back() && cy == 6);
        if (in_finder) continue;
        for (int dy = -2; dy <= 2; ++dy)
          for (int dx = -2; dx <= 2; ++dx) set(cx + dx, cy + dy, std::max(std::abs(dx), std::abs(dy)) != 1);
      }
    }
  }

  void draw_finder(int cx, int cy) {  // with its separator
    for (int dy = -4; dy <= 4; ++dy) {
      for (int dx = -4; dx <= 4; ++dx) {
        const int x = cx + dx, y = cy + dy;
        if (x < 0 || y < 0 || x >= layout_.modules || y >= layout_.modules) continue;
        const int ring = std::max(std::abs(dx), std::abs(dy));
        set(x, y, ring != 2 && ring != 4);
      }
    }
  }

  void draw_version() {
    if (layout_.version < 7) return;
    const int word = version_word(layout_.version);
    for (int i = 0; i < 18; ++i) {
      const int along = layout_.modules - 11 + i % 3, across = i / 3;
      set(along, across, (word >> i & 1) != 0);
      set(across, along, (word >> i & 1) != 0);
    }
  }

  void draw_format() {
    const int modules = layout_.modules;
    for (int bit = 0; bit < 15; ++bit) {
      const int near = bit < 6    ? at(8, bit)
                       : bit < 8  ? at(8, bit + 1)
                       : bit == 8 ? at(7, 8)
                                  : at(14 - bit, 8);
      const int far = bit < 8 ? at(modules - 1 - bit, 8) : at(8, modules - 15 + bit);
      layout_.format[0][index_of(14 - bit)] = near;
      layout_.format[1][index_of(14 - bit)] = far;
      taken_[index_of(near)] = taken_[index_of(far)] = true;
    }
    set(8, modules - 8, true);  // the dark module
  }

  // Two columns at a time from the right, upwards and downwards in turn, past the timing column.
  void place_bits() {
    const int modules = layout_.modules;
    std::vector<int> free;
    bool upwards = true;
    for (int right = modules - 1; right > 0; right -= 2, upwards = !upwards) {
      if (right == 6) right = 5;
      for (int step = 0; step < modules; ++step)
        for (const int x : {right, right - 1}) {
          const int module = at(x, upwards ? modules - 1 - step : step);
          if (!taken_[index_of(module)]) free.push_back(module);
        }
    }
    const auto whole = static_cast<std::ptrdiff_t>(free.size() / 8 * 8);
    layout_.bits.assign(free.begin(), free.begin() + whole);
    layout_.remainder.assign(free.begin() + whole, free.end());
  }

  Layout layout_;
  std::vector<bool> taken_;
};

BlockPlan plan_blocks(int version, SymbolLevel level) {
  const auto row = static_cast<std::size_t>(level), column = index_of(version - 1);
  const int count = kBlocks[row][column], parity = kParity[row][column];
  const int codewords = layout_of(version).codewords();
  const int longer = codewords % count;  // the last blocks have one codeword of data more
  BlockPlan plan;
  int most_data = 0;
  for (int i = 0; i < count; ++i) {
    Block block;
    block.parity = parity;
    block.data = codewords / count - parity + (i >= count - longer ? 1 : 0);
    plan.data += block.data;
    most_data = std::max(most_data, block.data);
    plan.blocks.push_back(block);
  }
  int place = 0;
  for (int i = 0; i < most_data; ++i)
    for (auto& block : plan.blocks)
      if (i < block.data) block.places.push_back(place++);
  for (int i = 0; i < parity; ++i)
    for (auto& block : plan.blocks) block.places.push_back(place++);
  return plan;
}

// A table that is made when it is first asked for.
template <typename T>
class Kept {
 public:
  template <typename Make>
  const T& get(Make make) {
    std::call_once(once_, [&] { value_ = std::make_unique<const T>(make()); });
    return *value_;
  }

 private:
  std::once_flag once_;
  std::unique_ptr<const T> value_;
};

}  // namespace

const Layout& layout_of(int version) {
  require(version >= 1 && version <= kMostVersion);
  static std::array<Kept<Layout>, kMostVersion> kept;
  return kept[index_of(version - 1)].get([&] { return Drawing(version).finish(); });
}

const BlockPlan& blocks_of(int version, SymbolLevel level) {
  require(version >= 1 && version <= kMostVersion);
  static std::array<Kept<BlockPlan>, kMostVersion * kLevels> kept;
  return kept[index_of((version - 1) * kLevels + static_cast<int>(level))].get(
      [&] { return plan_blocks(version, level); });
}

bool mask_turns(int mask, int x, int y) {
  switch (mask) {
    case 0:
      return (x + y) % 2 == 0;
    case 1:
      return y % 2 == 0;
    case 2:
      return x % 3 == 0;
    case 3:
      return (x + y) % 3 == 0;
    case 4:
      return (x / 3 + y / 2) % 2 == 0;
    case 5:
      return x * y % 2 + x * y % 3 == 0;
    case 6:
      return (x * y % 2 + x * y % 3) % 2 == 0;
    case 7:
      return ((x + y) % 2 + x * y % 3) % 2 == 0;
    default:
      std::abort();
  }
}

int format_word(SymbolFormat format) {
  require(format.mask >= 0 && format.mask < kMasks);
  constexpr std::array<int, kLevels> kIndicator{1, 0, 3, 2};
  const int data = kIndicator[static_cast<std::size_t>(format.level)] << 3 | format.mask;
  int rest = data;
  for (int i = 0; i < 10; ++i) rest = rest << 1 ^ (rest >> 9) * 0x537;
  return (data << 10 | rest) ^ 0x5412;
}

int version_word(int version) {
  require(version >= 1 && version <= kMostVersion);
  int rest = version;
  for (int i = 0; i < 12; ++i) rest = rest << 1 ^ (rest >> 11) * 0x1f25;
  return version << 12 | rest;
}

std::vector<std::uint8_t> draw_symbol(int version, SymbolFormat format,
                                      std::span<const std::uint8_t> codewords) {
  const Layout& layout = layout_of(version);
  require(static_cast<int>(codewords.size()) == layout.codewords());
  std::vector<std::uint8_t> dark(layout.colour.size());
  for (std::size_t i = 0; i < dark.size(); ++i) dark[i] = layout.colour[i] > 0;
  const auto masked = [&](int module, bool bit) {
    dark[index_of(module)] = bit != mask_turns(format.mask, module % layout.modules, module / layout.modules);
  };
  for (std::size_t i = 0; i < layout.bits.size(); ++i)
    masked(layout.bits[i], (codewords[i / 8] >> (7 - i % 8) & 1) != 0);
  for (const int module : layout.remainder) masked(module, false);
  const int word = format_word(format);
  for (const auto& copy : layout.format)
    for (std::size_t i = 0; i < copy.size(); ++i) dark[index_of(copy[i])] = word >> (14 - i) & 1;
  return dark;
}

}  // namespace counterfoil
