// Where everything lies in a QR Code symbol of version 1 to 40, by ISO/IEC 18004:2015, 6.3 (function patterns), 6.5
// to 6.7 (blocks, codeword placement), 6.8 (masks) and 6.9, 6.10 (format and version information); clauses from
// memory. Tables, no picture and no text. What it gives lives until the program ends.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

namespace counterfoil {

inline constexpr int kMostVersion = 40;
inline constexpr int kMasks = 8;

enum class SymbolLevel { low, medium, quartile, high };  // L M Q H: about 7, 15, 25, 30 % of codewords
inline constexpr std::array kSymbolLevels{SymbolLevel::low, SymbolLevel::medium, SymbolLevel::quartile,
                                          SymbolLevel::high};

struct SymbolFormat {
  SymbolLevel level = SymbolLevel::low;
  int mask = 0;  // 0 .. 7

  friend bool operator==(const SymbolFormat&, const SymbolFormat&) = default;
};

// Modules are named by y * modules + x, from the top left.
struct Layout {
  int version = 0;
  int modules = 0;                  // along one side
  std::vector<std::int8_t> colour;  // modules x modules: 1 dark and -1 light where the version alone says so
      // (finders, separators, timing, alignment, version, the dark module), else 0
  std::vector<int> bits;       // the module of each codeword bit: 8 for a codeword, the highest bit first
  std::vector<int> remainder;  // modules that are masked and hold no bit
  std::vector<int>
      alignment;  // along one side: middles of alignment patterns, the timing pattern's place first; none
                  // in version 1. A pattern at each two of them, but for the finder patterns' corners
  std::array<std::array<int, 15>, 2> format;  // both copies of the format information, the highest bit first

  int codewords() const { return static_cast<int>(bits.size() / 8); }
};

// One Reed-Solomon block. `places` says where each of its codewords, data first, comes among the symbol's.
struct Block {
  int data = 0, parity = 0;
  std::vector<int> places;
};

struct BlockPlan {
  std::vector<Block> blocks;  // their data, one after the other, are the symbol's data
  int data = 0;               // codewords of data in all
};

// Precondition of all: 1 <= version <= kMostVersion, 0 <= mask < kMasks; aborts otherwise.
const Layout& layout_of(int version);
const BlockPlan& blocks_of(int version, SymbolLevel level);
// Whether that mask turns the module around.
bool mask_turns(int mask, int x, int y);
// 15 bits, BCH (15,5), masked as they stand in a symbol.
int format_word(SymbolFormat format);
// 18 bits, BCH (18,6); symbols from version 7 on bear it.
int version_word(int version);

// The matrix of a symbol with these codewords, in the symbol's order: 1 dark, 0 light, as an encoder gives it.
// Precondition: as many codewords as the layout has.
std::vector<std::uint8_t> draw_symbol(int version, SymbolFormat format,
                                      std::span<const std::uint8_t> codewords);

}  // namespace counterfoil
