// Any grid of grey values, held against any texts: nothing crashes, and what is mended is a symbol that the same
// code mends into itself. The first byte is the version, the second how many bytes are texts, one a line; when the
// first is odd the rest damages a symbol that bears the first text.
// fuzz: -runs=1500 -max_len=3000
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <vector>

#include "recovery/identify.h"
#include "recovery/mend.h"
#include "symbol/matrix.h"

using namespace counterfoil;

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

std::vector<std::string> lines_of(const std::string& bytes) {
  std::vector<std::string> lines{""};
  for (const char c : bytes) {
    if (c == '\n')
      lines.emplace_back();
    else
      lines.back() += c;
  }
  return lines;
}

float grey(std::uint8_t byte) {
  if (byte == 0x80) return std::nanf("");
  if (byte == 0x7f) return 1e30F;  // beyond what a sampler gives
  return static_cast<float>(static_cast<std::int8_t>(byte)) / 100;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size < 2) return 0;
  const int modules = 17 + 4 * (data[0] % 8);  // 17: no version has it
  const std::size_t letters = std::min<std::size_t>(data[1], size - 2);
  const KnownTexts known(lines_of(std::string(reinterpret_cast<const char*>(data) + 2, letters)));
  SampledSymbol sample{modules, {}};
  for (std::size_t i = 2 + letters; i < size; ++i) sample.darkness.push_back(grey(data[i]));
  const auto count = static_cast<std::size_t>(modules * modules);
  if (data[0] < 0xf0) {  // else as many as there are
    sample.darkness.resize(count);
    for (std::size_t i = size - 2 - letters; i < count;
         ++i)  // the finders are put where nothing else is said
      if (modules > 17) sample.darkness[i] = layout_of(sample.version()).colour[i];
  }

  if (data[0] % 2 == 1 && modules > 17 && sample.darkness.size() == count) {
    const auto symbol =
        encode_symbol(known[0], static_cast<CorrectionLevel>(data[0] / 8 % 4), sample.version());
    if (symbol && symbol->version == sample.version())
      for (std::size_t i = 0; i < count; ++i) {
        const bool damaged = i < size - 2 - letters && data[2 + letters + i] % 8 == 0;
        if (!damaged) sample.darkness[i] = symbol->dark[i] != 0 ? 1.0F : -1.0F;
      }
  }

  const auto found = identify_symbol(sample, known, data[0]);
  require(found.likely.size() <= 3 && (!found.certain || !found.likely.empty()));
  for (const auto& likeness : found.likely)
    require(likeness.text < known.size() && std::fabs(likeness.score) <= 1.001);

  const auto mended = mend_symbol(sample);
  if (!mended) return 0;
  require(mended->modules == modules && mended->dark.size() == count);
  SampledSymbol whole{modules, {}};
  for (const auto dark : mended->dark) whole.darkness.push_back(dark ? 1.0F : -1.0F);
  const auto again = mend_symbol(whole);
  require(again && again->dark == mended->dark && again->errors == 0 && !again->mirrored);
  return 0;
}
