#include "recovery/reed_solomon.h"

extern "C" {  // which the header does not say itself
#include <fec.h>
}

#include <algorithm>
#include <array>
#include <cstdlib>
#include <memory>
#include <mutex>

namespace counterfoil {
namespace {

constexpr int kField = 255;  // codewords in a block that is not shortened

struct Free {
  void operator()(void* codec) const { free_rs_char(codec); }
};
using Codec = std::unique_ptr<void, Free>;

// A codec is only read once it is made. One for each shape of block that was met: some hundred in all of QR.
void* codec_for(int codewords, int parity) {
  if (parity < 1 || codewords <= parity || codewords > kField) std::abort();
  static std::mutex guard;
  static std::array<std::vector<Codec>, kField + 1> codecs;  // by parity, then by length
  const std::lock_guard lock(guard);
  auto& row = codecs[static_cast<std::size_t>(parity)];
  if (row.empty()) row.resize(kField + 1);
  Codec& codec = row[static_cast<std::size_t>(codewords)];
  if (!codec) codec.reset(init_rs_char(8, 0x11d, 0, 1, parity, kField - codewords));
  if (!codec) std::abort();
  return codec.get();
}

}  // namespace

std::vector<std::uint8_t> parity_of(std::span<const std::uint8_t> data, int parity) {
  std::vector<std::uint8_t> copy(data.begin(), data.end());  // the library takes no const
  std::vector<std::uint8_t> out(static_cast<std::size_t>(parity));
  encode_rs_char(codec_for(static_cast<int>(data.size()) + parity, parity), copy.data(), out.data());
  return out;
}

std::optional<Correction> correct_block(std::span<std::uint8_t> block, int parity,
                                        std::span<const int> erased, int held_back) {
  const int codewords = static_cast<int>(block.size());
  void* codec = codec_for(codewords, parity);
  if (static_cast<int>(erased.size()) > parity - held_back) return std::nullopt;
  // The library writes to this list what it finds, up to `parity` places.
  std::vector<int> places(static_cast<std::size_t>(parity), 0);
  for (std::size_t i = 0; i < erased.size(); ++i) {
    if (erased[i] < 0 || erased[i] >= codewords) std::abort();
    places[i] = erased[i];
  }
  std::vector<std::uint8_t> word(block.begin(), block.end());
  if (decode_rs_char(codec, word.data(), places.data(), static_cast<int>(erased.size())) < 0)
    return std::nullopt;
  // It says nothing of corrections that would lie in the part cut off, so that its word is looked at again.
  const auto data = std::span(word).first(static_cast<std::size_t>(codewords - parity));
  const auto again = parity_of(data, parity);
  if (!std::equal(again.begin(), again.end(), word.begin() + (codewords - parity))) return std::nullopt;
  Correction correction{0, static_cast<int>(erased.size())};
  for (int i = 0; i < codewords; ++i)
    if (word[static_cast<std::size_t>(i)] != block[static_cast<std::size_t>(i)] &&
        std::find(erased.begin(), erased.end(), i) == erased.end())
      ++correction.errors;
  if (2 * correction.errors + correction.erasures > parity - held_back) return std::nullopt;
  std::copy(word.begin(), word.end(), block.begin());
  return correction;
}

}  // namespace counterfoil
