// The texts that tags in use bear, made ready to be held against a symbol that cannot be decoded.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace counterfoil {

class KnownTexts {
 public:
  KnownTexts() = default;
  explicit KnownTexts(std::vector<std::string> texts) : texts_(std::move(texts)) {}

  std::size_t size() const { return texts_.size(); }
  const std::string& operator[](std::size_t index) const { return texts_[index]; }

 private:
  std::vector<std::string> texts_;
};

}  // namespace counterfoil
