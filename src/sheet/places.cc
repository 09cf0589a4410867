#include "sheet/places.h"

#include <algorithm>
#include <optional>
#include <string>

namespace counterfoil {
namespace {

// A place for one tag: a label, or half of one that is cut across.
struct Slot {
  int label = 0;
  Box box;
};

// One page of a stock, the same for all sheets.
class Page {
 public:
  explicit Page(const Stock& stock) : slots_a_label_(stock.pairing == Stock::Pairing::split ? 2 : 1) {
    for (int label = 0; label < stock.labels_per_page(); ++label) {
      if (stock.pairing == Stock::Pairing::split) {
        slots_.push_back({label, stock.bag_half(label)});
        slots_.push_back({label, stock.box_half(label)});
      } else {
        slots_.push_back({label, stock.label(label)});
      }
    }
    const std::size_t second = slots_a_label_ - 1;  // of the label, from its first
    for (int pair = 0; pair < stock.pairs_per_page(); ++pair)
      pairs_.push_back({static_cast<std::size_t>(stock.bag_label(pair)) * slots_a_label_,
                        static_cast<std::size_t>(stock.box_label(pair)) * slots_a_label_ + second});
  }

  struct Pair {
    std::size_t bag = 0, box = 0;  // slots
  };
  std::size_t slots_a_label() const { return slots_a_label_; }
  const std::vector<Slot>& slots() const { return slots_; }  // label by label
  const std::vector<Pair>& pairs() const { return pairs_; }

 private:
  std::size_t slots_a_label_;
  std::vector<Slot> slots_;
  std::vector<Pair> pairs_;
};

// The sheet that is being filled.
class Filling {
 public:
  explicit Filling(const Page& page) : page_(page), taken_(page.slots().size(), false) {}

  // 1 is the first label.
  void skip(int label) {
    const std::size_t a_label = page_.slots_a_label();
    for (std::size_t part = 0; part < a_label; ++part)
      taken_[static_cast<std::size_t>(label - 1) * a_label + part] = true;
  }
  void next_sheet() {
    std::fill(taken_.begin(), taken_.end(), false);
    next_slot_ = next_pair_ = 0;
  }
  std::optional<std::size_t> take_single() {
    while (next_slot_ < taken_.size() && taken_[next_slot_]) ++next_slot_;
    if (next_slot_ == taken_.size()) return std::nullopt;
    taken_[next_slot_] = true;
    return next_slot_;
  }
  std::optional<Page::Pair> take_pair() {
    for (; next_pair_ < page_.pairs().size(); ++next_pair_) {
      const Page::Pair pair = page_.pairs()[next_pair_];
      if (taken_[pair.bag] || taken_[pair.box]) continue;
      taken_[pair.bag] = taken_[pair.box] = true;
      return pair;
    }
    return std::nullopt;
  }

 private:
  const Page& page_;
  std::vector<bool> taken_;
  std::size_t next_slot_ = 0, next_pair_ = 0;  // what is before them is taken
};

Result<void> check(const Stock& stock, const PartSheet& part) {
  const int labels = stock.labels_per_page();
  const auto there = [&](int label) { return label >= 1 && label <= labels; };
  const auto wrong = there(part.start_at) ? std::find_if_not(part.skipped.begin(), part.skipped.end(), there)
                                          : part.skipped.end();
  if (!there(part.start_at) || wrong != part.skipped.end())
    return malformed(
        "stock " + stock.name + " has no label " +
            std::to_string(there(part.start_at) ? *wrong : part.start_at),
        labels == 1 ? "it has one label a page, so there is no part sheet of it"
                    : "its labels are 1 to " + std::to_string(labels) + ", row by row from the top left");
  return {};
}

// Pairs and singles alike have all the places of their kind, so item and place need no memory.
std::vector<TagPlace> piled(const Page& page, bool pairs, std::size_t items) {
  const std::size_t places = pairs ? page.pairs().size() : page.slots().size();
  const std::size_t sheets = (items + places - 1) / places;
  std::vector<TagPlace> out;
  for (std::size_t sheet = 0; sheet < sheets; ++sheet)
    for (std::size_t place = 0; place < places; ++place) {
      const std::size_t item = place * sheets + sheet;
      if (item >= items) break;
      const auto add = [&](std::size_t slot, bool box_half) {
        out.push_back(
            {item, box_half, static_cast<int>(sheet), page.slots()[slot].label, page.slots()[slot].box});
      };
      add(pairs ? page.pairs()[place].bag : place, false);
      if (pairs) add(page.pairs()[place].box, true);
    }
  return out;
}

// A page is one label, and every half has a page.
std::vector<TagPlace> one_by_one(const Stock& stock, const std::vector<bool>& is_pair) {
  std::vector<TagPlace> out;
  int page = 0;
  for (std::size_t item = 0; item < is_pair.size(); ++item) {
    out.push_back({item, false, page++, 0, stock.label(0)});
    if (is_pair[item]) out.push_back({item, true, page++, 0, stock.label(0)});
  }
  return out;
}

}  // namespace

Result<std::vector<TagPlace>> places_of(const Stock& stock, const PartSheet& part, SheetSequence sequence,
                                        const std::vector<bool>& is_pair) {
  if (auto done = check(stock, part); !done) return done.error();
  const Page page(stock);
  const bool any_pair = std::find(is_pair.begin(), is_pair.end(), true) != is_pair.end();
  if (stock.pairing == Stock::Pairing::successive) {
    if (sequence == SheetSequence::cut_and_stack)
      return malformed("stock " + stock.name + " is a roll, whose labels come in order anyhow");
    return one_by_one(stock, is_pair);
  }
  if (any_pair && page.pairs().empty())
    return refused("stock " + stock.name + " has no place for a pair", "take another stock");
  if (sequence == SheetSequence::cut_and_stack) {
    if (!part.is_whole())
      return refused("a part sheet cannot be cut and stacked: its stacks would not be of one length",
                     "begin with a whole sheet, or print in the order of the sheets");
    if (any_pair && std::find(is_pair.begin(), is_pair.end(), false) != is_pair.end())
      return malformed("pairs and single tags cannot be cut and stacked together",
                       "print them one after the other");
    return piled(page, any_pair, is_pair.size());
  }

  Filling sheet(page);
  for (int label = 1; label < part.start_at; ++label) sheet.skip(label);
  for (const int label : part.skipped) sheet.skip(label);
  std::vector<TagPlace> out;
  int at = 0;
  for (std::size_t item = 0; item < is_pair.size(); ++item) {
    const auto add = [&](std::size_t slot, bool box_half) {
      out.push_back({item, box_half, at, page.slots()[slot].label, page.slots()[slot].box});
    };
    const auto lay = [&] {
      if (is_pair[item]) {
        const auto pair = sheet.take_pair();
        if (!pair) return false;
        add(pair->bag, false);
        add(pair->box, true);
        return true;
      }
      const auto slot = sheet.take_single();
      if (!slot) return false;
      add(*slot, false);
      return true;
    };
    if (lay()) continue;
    if (item == 0)
      return refused(std::string("no ") + (is_pair[item] ? "pair" : "tag") +
                         " fits on what is left of the part sheet of stock " + stock.name,
                     std::string(is_pair[item] ? "a pair needs both of its places free; " : "") +
                         "take that sheet off, and begin a whole one with --start-at 1");
    sheet.next_sheet();
    ++at;
    lay();  // a whole sheet has room for one of either kind
  }
  return out;
}

}  // namespace counterfoil
