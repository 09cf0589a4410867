// The data codewords of a symbol as segments, ISO/IEC 18004:2015, 7.4 (from memory): how a text is written as one
// segment, and whether codewords are segments at all. What a symbol says is not read here.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace counterfoil {

// The text as one segment and the terminator: numeric when it is all digits, alphanumeric when all its characters
// are in that set, else bytes. Only as many codewords as it takes; the symbol's others are pad_codeword's.
// Nothing when it is empty or takes more than `codewords`. As libqrencode writes a text that it sees no gain in
// splitting: it splits off runs of 13 digits and more, and longer runs of capitals and digits out of bytes.
std::optional<std::vector<std::uint8_t>> text_codewords(std::string_view text, int version, int codewords);

// The codeword at `index` behind `used` codewords of text: 0xec and 0x11 in turn.
inline std::uint8_t pad_codeword(std::size_t index, std::size_t used) {
  return (index - used) % 2 == 0 ? 0xec : 0x11;
}

// How many of the bits the segments take, terminator and padding not counted; nothing when these codewords are not
// what an encoder writes: an unknown mode, no character at all, a segment beyond the end, a group of digits or
// characters that does not exist, a terminator or padding that is not the standard's. Modes whose segments are
// not walked here (Hanzi) count with all that is behind them.
std::optional<int> bits_taken(std::span<const std::uint8_t> data, int version);

}  // namespace counterfoil
