#include "workflow/tag_items.h"

#include <algorithm>
#include <filesystem>

#include "base/crypto.h"
#include "sheet/design_choice.h"
#include "workflow/print.h"

namespace counterfoil {
namespace {

// Bars across the cut line: the halves of one pair agree because both come from the number.
std::uint32_t match_mark(const Number& number) {
  const Digest digest = sha256(number.text());
  return static_cast<std::uint32_t>(digest[0]) << 24 | static_cast<std::uint32_t>(digest[1]) << 16 |
         static_cast<std::uint32_t>(digest[2]) << 8 | digest[3];
}

// Meant for no pocket, and not pulled from one yet: a person writes on it where it belongs.
bool is_spare(const ValveTrip& trip) { return !trip.meant_for && !trip.removed_from; }

// Both halves take what fits the smaller of their places.
Box place_on(const Stock& stock) {
  const Box bag = stock.printable(stock.bag_label(0), stock.bag_half(0), false);
  const Box box = stock.printable(stock.box_label(0), stock.box_half(0), true);
  return {0, 0, std::min(bag.width_mm, box.width_mm), std::min(bag.height_mm, box.height_mm)};
}

}  // namespace

Result<TagItems> TagItems::open(const Desk& desk, const PrintTerms& terms, const Stock& stock) {
  const std::filesystem::path templates(terms.templates);
  std::optional<Words> words;
  if (!terms.second_language.empty()) {
    auto loaded = load_words((templates / "words").string(), terms.second_language);
    if (!loaded) return loaded.error();
    words = std::move(*loaded);
  }
  return TagItems(desk, (templates / "designs").string(), terms.design, place_on(stock), std::move(words));
}

Result<Design> TagItems::design(const std::string& kind) {
  if (const auto found = chosen_.find(kind); found != chosen_.end()) return found->second;
  auto chosen = choose_design(folder_, {kind, place_.width_mm, place_.height_mm, words_.has_value(), size_});
  if (chosen) chosen_.emplace(kind, *chosen);
  return chosen;
}

TagContent TagItems::content_of(const ValveTrip& trip, Half half, int copy) const {
  TagContent content;
  content.payload = write_payload({*trip.number, half, copy}, desk_->card().host);
  content.texts["number"] = trip.number->grouped();
  if (copy > 1) content.texts["copy"] = "COPY " + std::to_string(copy);
  if (!trip.turnaround.empty()) content.texts["turnaround"] = trip.turnaround;
  if (!trip.part.empty()) content.texts["part"] = trip.part;
  content.texts["desk"] = desk_->card().name;
  const auto& pocket = trip.meant_for ? trip.meant_for : trip.removed_from;
  if (pocket) {
    content.texts["unit"] = pocket->unit;
    content.texts["pocket"] = pocket->name;
    if (pocket->side) content.side = to_text(*pocket->side);
  }
  if (words_) words_->put_on(content, std::string(to_text(half)));
  return content;
}

Result<SheetItem> TagItems::pair_of(const ValveTrip& trip) {
  PairItem pair{content_of(trip, Half::bag, trip.bag_copy), content_of(trip, Half::box, trip.box_copy),
                match_mark(*trip.number)};
  if (is_spare(trip)) {
    auto bag = design("spare-bag");
    if (!bag) return bag.error();
    auto box = design("spare-box");
    if (!box) return box.error();
    pair.designs = PairDesigns{std::move(*bag), std::move(*box)};
  }
  return SheetItem{std::move(pair)};
}

Result<SheetItem> TagItems::half_of(const ValveTrip& trip, Half half) {
  const std::string name(to_text(half));
  auto chosen = design(is_spare(trip) ? "spare-" + name : name);
  if (!chosen) return chosen.error();
  const int copy = half == Half::bag ? trip.bag_copy : trip.box_copy;
  return SheetItem{SingleItem{content_of(trip, half, copy), std::move(*chosen)}};
}

Result<SheetItem> TagItems::label_of(const Event& removal) {
  auto chosen = design("label");
  if (!chosen) return chosen.error();
  ValveTrip trip;
  trip.number = removal.number;
  trip.label = true;
  trip.turnaround = removal.turnaround;
  trip.removed_from = removal.pocket;
  trip.part = removal.part;
  TagContent content = content_of(trip, Half::label, 1);
  content.texts["date"] = date_text(removal.at);
  content.texts["time"] = to_text(removal.at).substr(11, 5);
  if (!removal.by.empty()) content.texts["by"] = removal.by;
  return SheetItem{SingleItem{std::move(content), std::move(*chosen)}};
}

Result<SheetItem> TagItems::of(const ValveTrip& trip) {
  if (!trip.label) return pair_of(trip);
  auto events = desk_->events_with({"number:" + trip.number->text()});
  if (!events) return events.error();
  for (const auto& logged : *events)
    if (logged.event.step == Step::removing) return label_of(logged.event);
  return refused("label " + trip.number->grouped() + " has no removal to show");
}

// The design of the same kind as the other's.
Result<void> TagItems::change(const TagItems& other, Design& design) {
  for (const auto& [kind, chosen] : other.chosen_) {
    if (chosen.name() != design.name()) continue;
    auto mine = this->design(kind);
    if (!mine) return mine.error();
    design = std::move(*mine);
    return {};
  }
  return {};
}

Result<void> TagItems::refit(const Stock& stock, const std::string& size, SheetOrder& order,
                             std::vector<SheetItem>& items) const {
  TagItems there(*desk_, folder_, size, place_on(stock), words_);
  order.stock = stock;
  std::vector<Design*> designs = {&order.bag, &order.box};
  for (auto& item : items) {
    if (auto* single = std::get_if<SingleItem>(&item)) designs.push_back(&single->design);
    if (auto* pair = std::get_if<PairItem>(&item); pair != nullptr && pair->designs)
      designs.insert(designs.end(), {&pair->designs->bag, &pair->designs->box});
  }
  for (Design* design : designs)
    if (auto done = there.change(*this, *design); !done) return done;
  return {};
}

}  // namespace counterfoil
