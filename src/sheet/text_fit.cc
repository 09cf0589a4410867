#include "sheet/text_fit.h"

#include <algorithm>
#include <map>

#include "sheet/lettering.h"
#include "sheet/slot.h"

namespace counterfoil {
namespace {

class Rehearsal {
 public:
  void item(std::size_t index, const SheetOrder& order, const SheetItem& item) {
    tag(index, tag_at(order, item, false));
    if (std::holds_alternative<PairItem>(item)) tag(index, tag_at(order, item, true));
  }

  std::vector<TextMisfit> misfits;

 private:
  void tag(std::size_t item, const PlacedTag& tag) {
    const auto& [design, content] = tag;
    for (const auto& slot : design.data().slots) {
      if (slot.is_symbol()) continue;
      const auto text = content.texts.find(slot.name);
      if (text == content.texts.end()) continue;
      const TextOverflow over = overflow(design, slot, text->second);
      if (over.any())
        misfits.push_back(
            {item, design.name(), slot.name, text->second, over.wide_mm, over.high_mm, over.lines});
    }
  }

  // Tags have most of their texts in common.
  const TextOverflow& overflow(const Design& design, const Slot& slot, const std::string& text) {
    auto& known = known_[design.name() + "/" + slot.id];
    if (const auto found = known.find(text); found != known.end()) return found->second;
    return known.emplace(text, lettering_.overflow(slot, text)).first->second;
  }

  Lettering lettering_;
  std::map<std::string, std::map<std::string, TextOverflow>> known_;  // by design and slot, and by text
};

}  // namespace

bool has_slot(const SheetOrder& order, const SheetItem& item, const std::string& slot) {
  const auto has = [&](bool box_half) {
    const auto& slots = tag_at(order, item, box_half).design.data().slots;
    return std::any_of(slots.begin(), slots.end(), [&](const Slot& one) { return one.name == slot; });
  };
  return has(false) || has(true);
}

std::vector<TextMisfit> text_misfits(const SheetOrder& order, const std::vector<SheetItem>& items) {
  Rehearsal rehearsal;
  for (std::size_t i = 0; i < items.size(); ++i) rehearsal.item(i, order, items[i]);
  return std::move(rehearsal.misfits);
}

bool have_text_room(const SheetOrder& order, const std::vector<SheetItem>& items) {
  Rehearsal rehearsal;
  for (std::size_t i = 0; i < items.size() && rehearsal.misfits.empty(); ++i)
    rehearsal.item(i, order, items[i]);
  return rehearsal.misfits.empty();
}

}  // namespace counterfoil
