#include "recovery/text_rows.h"

#include <algorithm>
#include <array>

#include "recovery/data_bits.h"
#include "recovery/reed_solomon.h"

namespace counterfoil {
namespace {

// Room for the parity of any block (30 codewords at most), as words that are added at one stroke.
using Parity = std::array<std::uint64_t, 4>;

Parity packed(const std::vector<std::uint8_t>& parity) {
  Parity words{};
  for (std::size_t i = 0; i < parity.size(); ++i) words[i / 8] |= std::uint64_t{parity[i]} << 8 * (i % 8);
  return words;
}

void add(Parity& to, const Parity& what) {
  for (std::size_t i = 0; i < to.size(); ++i) to[i] ^= what[i];
}

// The code is linear: a block's parity is the sum of what each of its data codewords brings, so that a text costs
// one look-up for each of its codewords. Texts replace padding, which has two phases.
class BlockParity {
 public:
  BlockParity(const Block& block, std::size_t first, std::size_t reached)
      : first_(first), parity_(block.parity) {
    std::vector<std::uint8_t> data(static_cast<std::size_t>(block.data), 0);
    tables_.resize(std::min(reached, data.size()));
    for (std::size_t place = 0; place < tables_.size(); ++place) {
      auto& table = tables_[place];
      table[0] = {};
      for (std::size_t value = 1; value < table.size(); ++value) {
        const auto lower = value & (value - 1);
        if (lower == 0) {
          data[place] = static_cast<std::uint8_t>(value);
          table[value] = packed(parity_of(data, parity_));
          data[place] = 0;
        } else {
          table[value] = table[lower];
          add(table[value], table[value ^ lower]);
        }
      }
    }
    for (std::size_t phase = 0; phase < padding_.size(); ++phase) {
      for (std::size_t i = 0; i < data.size(); ++i) data[i] = pad_codeword(first + i, phase);
      padding_[phase] = packed(parity_of(data, parity_));
    }
  }

  void write(const std::vector<std::uint8_t>& text, std::uint8_t* out) const {
    Parity sum = padding_[text.size() % 2];
    for (std::size_t i = 0; i < tables_.size() && first_ + i < text.size(); ++i)
      add(sum, tables_[i][text[first_ + i] ^ pad_codeword(first_ + i, text.size() % 2)]);
    for (std::size_t i = 0; i < static_cast<std::size_t>(parity_); ++i)
      out[i] = static_cast<std::uint8_t>(sum[i / 8] >> 8 * (i % 8));
  }

 private:
  std::size_t first_;  // index of the block's first codeword among the symbol's data
  int parity_;
  std::vector<std::array<Parity, 256>> tables_;
  std::array<Parity, 2> padding_{};
};

}  // namespace

TextRows make_rows(const std::vector<std::string>& texts, int version, SymbolLevel level) {
  const BlockPlan& plan = blocks_of(version, level);
  TextRows rows;
  std::vector<std::vector<std::uint8_t>> written;
  written.reserve(texts.size());
  for (std::size_t i = 0; i < texts.size(); ++i) {
    auto codewords = text_codewords(texts[i], version, plan.data);
    if (!codewords) continue;
    rows.data_columns = std::max(rows.data_columns, codewords->size());
    rows.texts.push_back(static_cast<std::uint32_t>(i));
    rows.used.push_back(static_cast<std::uint16_t>(codewords->size()));
    written.push_back(std::move(*codewords));
  }
  std::vector<BlockParity> parities;
  std::vector<int> parity_places;
  std::size_t first = 0;
  for (const Block& block : plan.blocks) {
    if (first >= rows.data_columns) break;
    const auto data = static_cast<std::size_t>(block.data);
    for (std::size_t i = 0; i < data && first + i < rows.data_columns; ++i)
      rows.places.push_back(block.places[i]);
    rows.parity_start.push_back(parity_places.size());
    parity_places.insert(parity_places.end(), block.places.begin() + block.data, block.places.end());
    parities.emplace_back(block, first, rows.data_columns - first);
    first += data;
  }
  rows.parity_start.push_back(parity_places.size());
  for (auto& start : rows.parity_start) start += rows.data_columns;
  rows.places.insert(rows.places.end(), parity_places.begin(), parity_places.end());
  rows.columns = rows.places.size();
  rows.codewords.resize(rows.rows() * rows.columns);
  for (std::size_t i = 0; i < rows.rows(); ++i) {
    const auto& text = written[i];
    std::uint8_t* out = rows.codewords.data() + i * rows.columns;
    std::copy(text.begin(), text.end(), out);
    for (std::size_t at = text.size(); at < rows.data_columns; ++at) out[at] = pad_codeword(at, text.size());
    for (std::size_t block = 0; block < parities.size(); ++block)
      parities[block].write(text, out + rows.parity_start[block]);
  }
  return rows;
}

}  // namespace counterfoil
