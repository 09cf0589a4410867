#include "recovery/known_texts.h"

#include <array>
#include <cstdlib>
#include <mutex>

#include "recovery/text_rows.h"

namespace counterfoil {

struct KnownTexts::Kept {
  struct Slot {
    std::once_flag once;
    std::shared_ptr<const TextRows> rows;
  };
  std::array<Slot, kMostVersion * kSymbolLevels.size()> slots;
};

KnownTexts::KnownTexts(std::vector<std::string> texts)
    : texts_(std::move(texts)), kept_(std::make_shared<Kept>()) {}

std::shared_ptr<const TextRows> KnownTexts::rows(int version, SymbolLevel level) const {
  if (version < 1 || version > kMostVersion) std::abort();
  if (!kept_) return std::make_shared<const TextRows>();
  auto& slot = kept_->slots[static_cast<std::size_t>(version - 1) * kSymbolLevels.size() +
                            static_cast<std::size_t>(level)];
  std::call_once(slot.once,
                 [&] { slot.rows = std::make_shared<const TextRows>(make_rows(texts_, version, level)); });
  return slot.rows;
}

}  // namespace counterfoil
