#include "sheet/symbols_ahead.h"

#include "sheet/slot.h"

namespace counterfoil {
namespace {

constexpr std::size_t kMostAhead = 256;

// Walks over places and slots, a symbol a call.
class Walk {
 public:
  Walk(const SheetOrder& order, const std::vector<SheetItem>& items, const std::vector<TagPlace>& places)
      : order_(order), items_(items), places_(places), dots_(dots_on_paper(order)) {}

  std::optional<Result<FittedSymbol>> operator()() {
    for (; place_ < places_.size(); ++place_, slot_ = 0) {
      const auto [design, content] = tag_at(order_, items_[places_[place_].item], places_[place_].box_half);
      for (const auto& slots = design.data().slots; slot_ < slots.size();)
        if (const Slot& slot = slots[slot_++]; slot.is_symbol())
          return fit_symbol(slot, content.payload, dots_);
    }
    return std::nullopt;
  }

 private:
  const SheetOrder& order_;
  const std::vector<SheetItem>& items_;
  const std::vector<TagPlace>& places_;
  DotsOnPaper dots_;
  std::size_t place_ = 0, slot_ = 0;  // where the next is looked for
};

}  // namespace

SymbolsAhead::SymbolsAhead(const SheetOrder& order, const std::vector<SheetItem>& items,
                           const std::vector<TagPlace>& places)
    : fitted_(kMostAhead, Walk(order, items, places)) {}

}  // namespace counterfoil
