#include "roundtrip/sheet_proof.h"

#include <algorithm>
#include <array>
#include <cstdio>
#include <set>

#include "roundtrip/raster.h"
#include "roundtrip/readers.h"
#include "sheet/match_mark.h"
#include "sheet/slot.h"
#include "sheet/symbol_place.h"
#include "support/sheet_samples.h"
#include "support/temp_folder.h"

namespace counterfoil {
namespace {

constexpr double kWhiteBesideMarkMm = 1;

Box grown(const Box& box, double by_mm) {
  return {box.x_mm - by_mm, box.y_mm - by_mm, box.width_mm + 2 * by_mm, box.height_mm + 2 * by_mm};
}

std::string where(const Box& box) {
  std::array<char, 80> text;
  std::snprintf(text.data(), text.size(), "%.2f x %.2f mm at %.2f, %.2f", box.width_mm, box.height_mm,
                box.x_mm, box.y_mm);
  return text.data();
}

std::string listed(const std::multiset<std::string>& texts) {
  std::string all;
  for (const auto& text : texts) all += (all.empty() ? "" : ", ") + text;
  return all.empty() ? "nothing" : all;
}

// Every item brings its own designs.
Design blank() {
  return value_of(Design::parse(
      "<svg xmlns='http://www.w3.org/2000/svg' width='1mm' height='1mm' viewBox='0 0 1 1'/>", "blank"));
}

// A tag that was printed: what it is, and where.
struct Printed {
  const Design* design = nullptr;
  const TagContent* tag = nullptr;
  TagPlace place;

  std::string name() const {
    return design->name() + " " + tag->payload + " on label " + std::to_string(place.label + 1);
  }
};

class Proof {
 public:
  Proof(const Stock& stock, const std::vector<SheetItem>& items, double dpi)
      : order_{stock,
               blank(),
               blank(),
               dpi,
               SheetFormat::pdf,
               folder_ / "tags.pdf",
               "Tags",
               "2026-11-25T09:30:15Z"},
        items_(items) {}

  SheetProof run(bool slots) {
    for (const auto& place : value_of(places_of(order_, items_))) {
      const auto& [design, content] = tag_at(order_, items_[place.item], place.box_half);
      tags_.push_back({&design, &content, place});
    }
    const auto pages = printed(items_);
    for (const auto& tag : tags_) read(tag, pages.at(static_cast<std::size_t>(tag.place.page)));
    for (std::size_t page = 0; page < pages.size(); ++page) look_outside(pages[page], page);
    if (slots) look_at_slots(pages, printed(without_texts()));
    proof_.pages = static_cast<int>(pages.size());
    proof_.tags = static_cast<int>(tags_.size());
    return proof_;
  }

 private:
  std::vector<Raster> printed(const std::vector<SheetItem>& items) const {
    return rasterised(value_of(draw_sheet(order_, items)).files.at(0), order_.dots_per_inch);
  }

  std::vector<SheetItem> without_texts() const {
    std::vector<SheetItem> bare = items_;
    for (auto& item : bare) {
      if (auto* single = std::get_if<SingleItem>(&item)) single->tag.texts.clear();
      if (auto* pair = std::get_if<PairItem>(&item)) pair->bag.texts.clear(), pair->box.texts.clear();
    }
    return bare;
  }

  void fault(const Printed& tag, const std::string& what) {
    proof_.faults.push_back(tag.name() + ": " + what);
  }

  // What a person would hold in front of a camera: the label, and the paper of its margin.
  void read(const Printed& tag, const Raster& page) {
    std::multiset<std::string> wanted;
    for (const auto& slot : tag.design->data().slots)
      if (slot.is_symbol()) wanted.insert(tag.tag->payload);
    proof_.symbols += static_cast<int>(wanted.size());
    const Raster label = page.cropped(tag.place.box);
    if (const auto texts = read_by_zxing(label); texts != wanted)
      fault(tag, "ZXing-cpp reads " + listed(texts) + " where there is " + listed(wanted));
    if (const auto texts = read_by_zbar(label); texts != wanted)
      fault(tag, "ZBar reads " + listed(texts) + " where there is " + listed(wanted));
  }

  Box area_of(const TagPlace& place) const {
    return order_.stock.printable(place.label, place.box, place.box_half);
  }

  void look_outside(Raster page, std::size_t index) {
    const Stock& stock = order_.stock;
    const double pixel = page.mm(1);
    page.clear({0, 0, stock.page_width_mm, stock.top_mm - 1});  // the line of 100 mm
    const Printed* first = nullptr;
    for (const auto& tag : tags_) {
      if (static_cast<std::size_t>(tag.place.page) != index) continue;
      if (first == nullptr) first = &tag;
      page.clear(grown(area_of(tag.place), pixel));
      if (std::holds_alternative<PairItem>(items_[tag.place.item]) || stock.pairing == Stock::Pairing::split)
        if (const auto edge = stock.mark_edge(tag.place.box_half)) page.clear(mark_strip(tag.place, *edge));
    }
    const Box stray = page.ink_in({0, 0, stock.page_width_mm, stock.page_height_mm});
    if (stray.width_mm > 0 && first != nullptr)
      fault(*first,
            "ink outside of labels' places on page " + std::to_string(index + 1) + ", " + where(stray));
  }

  // Where the bars are, and the cut between the halves with them; up to 1 mm from where a tag may lie, in white. One pixel
  // more all round.
  Box mark_strip(const TagPlace& place, Stock::Edge edge) const {
    const Stock& stock = order_.stock;
    const bool facing =
        edge == Stock::facing_edge(stock.pairing, place.box_half) && stock.pairs_per_page() > 0;
    const bool columns = stock.pairing == Stock::Pairing::columns;
    const double out = !facing ? 0 : std::max(0.1, (columns ? stock.gap_x_mm : stock.gap_y_mm) / 2);
    const Box area = area_of(place), half = place.box;
    const auto strip = [&](double left, double top, double right, double bottom) {
      return grown({left, top, right - left, bottom - top}, 25.4 / order_.dots_per_inch);
    };
    const double white = kWhiteBesideMarkMm;
    switch (edge) {
      case Stock::Edge::left:
        return strip(half.x_mm - out, half.y_mm, area.x_mm - white, half.bottom_mm());
      case Stock::Edge::right:
        return strip(area.right_mm() + white, half.y_mm, half.right_mm() + out, half.bottom_mm());
      case Stock::Edge::top:
        return strip(half.x_mm, half.y_mm - out, half.right_mm(), area.y_mm - white);
      case Stock::Edge::bottom:
        return strip(half.x_mm, area.bottom_mm() + white, half.right_mm(), half.bottom_mm() + out);
    }
    std::abort();
  }

  // Slots do not overlap (sheet/design.h), so that nothing lies over anything.
  void look_at_slots(const std::vector<Raster>& pages, const std::vector<Raster>& bare_pages) {
    for (const auto& tag : tags_) {
      const auto page = static_cast<std::size_t>(tag.place.page);
      const Box half = tag.place.box;
      Raster texts = pages[page].cropped(half);
      const Raster bare = bare_pages[page].cropped(half);
      for (std::size_t i = 0; i < texts.grey.size(); ++i)
        if (texts.grey[i] == bare.grey[i]) texts.grey[i] = 255;
      const auto [x, y] = design_corner(*tag.design, area_of(tag.place));
      // From the cropped raster's own corner, which is a whole pixel.
      const double left = x - texts.mm(pages[page].pixel(half.x_mm)),
                   top = y - texts.mm(pages[page].pixel(half.y_mm));
      for (const auto& slot : tag.design->data().slots) {
        const Box box{left + slot.box.x_mm, top + slot.box.y_mm, slot.box.width_mm, slot.box.height_mm};
        if (slot.is_symbol())
          look_at_symbol(tag, slot, bare.ink_in(box), box, bare.mm(1));
        else
          look_at_text(tag, slot, texts, bare, box);
      }
      const Box stray = texts.ink_in({0, 0, half.width_mm, half.height_mm});
      if (stray.width_mm > 0) fault(tag, "text beyond its slot, " + where(stray) + " of the label");
    }
  }

  // 25 modules or more in the middle of the slot, and nothing in the quiet zone of 4 around them.
  void look_at_symbol(const Printed& tag, const Slot& slot, const Box& ink, const Box& box, double pixel) {
    const double side = std::min(box.width_mm, box.height_mm);
    if (ink.width_mm * 33 / 25 > side + 2 * pixel || std::abs(ink.width_mm - ink.height_mm) > 1.5 * pixel)
      fault(tag, "slot " + slot.id + " is not a symbol in white, " + where(ink));
  }

  void look_at_text(const Printed& tag, const Slot& slot, Raster& texts, const Raster& bare, const Box& box) {
    const double pixel = texts.mm(1);
    // Half a pixel may be its neighbour's.
    const Box drawn = bare.ink_in(grown(box, -pixel / 2));
    if (drawn.width_mm > 0) fault(tag, "the drawing lies in slot " + slot.id + ", " + where(drawn));
    const auto text = tag.tag->texts.find(slot.name);
    if (text != tag.tag->texts.end() && !text->second.empty() && texts.ink_in(box).width_mm == 0)
      fault(tag, "slot " + slot.id + " is empty");
    texts.clear(grown(box, pixel));
  }

  const TempFolder folder_;
  SheetOrder order_;
  const std::vector<SheetItem>& items_;
  std::vector<Printed> tags_;
  SheetProof proof_;
};

}  // namespace

SheetProof prove_sheet(const Stock& stock, const std::vector<SheetItem>& items, double dots_per_inch,
                       bool slots) {
  return Proof(stock, items, dots_per_inch).run(slots);
}

}  // namespace counterfoil
