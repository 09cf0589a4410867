// Known texts as codewords of symbols of one version and level, one row a text: the data codewords that texts
// take, and the parity of the blocks which those lie in. Blocks and data codewords that no text reaches hold the
// same padding for all, and are left out.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "recovery/layout.h"

namespace counterfoil {

struct TextRows {
  std::size_t columns = 0;
  std::size_t data_columns = 0;           // the first ones; parity follows, block by block
  std::vector<int> places;                // for each column, its codeword's place in the symbol's order
  std::vector<std::size_t> parity_start;  // for each block that texts reach, its first column, and the end
  std::vector<std::uint32_t> texts;       // for each row, the text's index; texts that do not fit have no row
  std::vector<std::uint16_t> used;        // for each row, data codewords that the text takes
  std::vector<std::uint8_t> codewords;    // rows x columns

  std::size_t rows() const { return texts.size(); }
  const std::uint8_t* row(std::size_t index) const { return codewords.data() + index * columns; }
};

// As data_bits.h writes the texts. Precondition: 1 <= version <= kMostVersion.
TextRows make_rows(const std::vector<std::string>& texts, int version, SymbolLevel level);

}  // namespace counterfoil
