// Reed-Solomon blocks as QR Code symbols have them (ISO/IEC 18004:2015, 6.5.2, from memory): GF(256) by 0x11d, the
// generator's roots from alpha^0 on; by libfec. Safe to call from several threads.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace counterfoil {

// `parity` codewords for a block of data. Precondition: 1 <= parity, data and parity at most 255 codewords.
std::vector<std::uint8_t> parity_of(std::span<const std::uint8_t> data, int parity);

struct Correction {
  int errors = 0;    // codewords that were wrong and not among the erased
  int erasures = 0;  // as many as were given
};

// Corrects a block, data and then `parity` codewords, whose codewords at `erased` are unknown (no place twice).
// Nothing, and the block as it was, unless 2 * errors + erasures <= parity - held_back: what is held back is
// what keeps damage from being corrected into another word, each codeword by a factor of about 256.
std::optional<Correction> correct_block(std::span<std::uint8_t> block, int parity,
                                        std::span<const int> erased, int held_back);

}  // namespace counterfoil
