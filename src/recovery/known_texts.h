// The texts that tags in use bear, made ready to be held against a symbol that cannot be decoded.
#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <vector>

#include "recovery/layout.h"

namespace counterfoil {

struct TextRows;

class KnownTexts {
 public:
  KnownTexts() = default;
  explicit KnownTexts(std::vector<std::string> texts);

  std::size_t size() const { return texts_.size(); }
  const std::string& operator[](std::size_t index) const { return texts_[index]; }

  // The codewords of all texts in symbols of that version and level: made when first asked for, kept as long as
  // this or a copy lives. A text of 20 characters takes 50 bytes or less. Safe to call from several threads.
  // Precondition: 1 <= version <= kMostVersion.
  std::shared_ptr<const TextRows> rows(int version, SymbolLevel level) const;

 private:
  struct Kept;
  std::vector<std::string> texts_;
  std::shared_ptr<Kept> kept_;  // null when there are no texts
};

}  // namespace counterfoil
