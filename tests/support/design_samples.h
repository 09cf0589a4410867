// What the shipped designs are tried with: the shortest texts, the longest that each takes in Latin letters with accents,
// and the longest in Arabic and in Hebrew with Latin words between.
#pragma once

#include <algorithm>
#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "sheet/lettering.h"
#include "sheet/slot.h"
#include "sheet/words.h"
#include "support/sheet_samples.h"

namespace counterfoil {

enum class Filling { shortest, longest, arabic, hebrew };

inline std::vector<std::string> shipped_design_names() {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(kTemplates + "designs"))
    names.push_back(entry.path().stem().string());
  std::sort(names.begin(), names.end());
  return names;
}

// "spare-bag" of "spare-bag-large-second".
inline std::string kind_of(const std::string& design) {
  for (const std::string kind : {"spare-bag", "spare-box", "bag", "box", "label", "carton"})
    if (design.starts_with(kind + "-")) return kind;
  throw std::runtime_error(design + " is of no kind");
}

inline Words shipped_words(const std::string& language) {
  return value_of(load_words(kTemplates + "words", language));
}

// The longest beginning of the text, in whole letters, that every slot of that name takes at 2.8 mm.
inline std::string longest_fitting(const Design& design, const std::string& name, const std::string& text) {
  std::vector<std::size_t> ends;
  for (std::size_t i = 1; i <= text.size(); ++i)
    if (i == text.size() || (static_cast<unsigned char>(text[i]) & 0xc0) != 0x80) ends.push_back(i);
  Lettering lettering;
  const auto fits = [&](std::size_t end) {
    return std::all_of(design.data().slots.begin(), design.data().slots.end(), [&](const Slot& slot) {
      return slot.name != name || lettering.place(slot, text.substr(0, end), 0, 0);
    });
  };
  std::size_t low = 0, high = ends.size();  // ends[low] fits or low is the first
  while (high - low > 1) {
    const std::size_t middle = (low + high) / 2;
    (fits(ends[middle]) ? low : high) = middle;
  }
  return text.substr(0, ends[low]);
}

inline TagContent filled(const Design& design, Filling filling, const std::string& side,
                         const std::string& language = {}) {
  const std::string kind = kind_of(design.name());
  const std::string half = kind.ends_with("bag") ? "bag" : kind.ends_with("box") ? "box" : "label";
  TagContent tag;
  tag.payload = half == "bag"   ? "CF1.K70K2M8X61.BAG1"
                : half == "box" ? "CF1.K70K2M8X61.BOX1"
                                : "CF1.K70K2M8X61.LBL1";
  tag.side = side;
  tag.texts = {{"number", "K70K 2M8X 61"}, {"date", "2026-11-25"}, {"time", "09:30"}, {"count", "24"}};
  if (language.size()) shipped_words(language).put_on(tag, half);
  static const std::map<Filling, std::vector<std::string>> kLong = {
      {Filling::longest,
       {"ŽĎÁR 4 ÅNGERMANLAND COMPRESSOR HOUSE OF THE SECOND LINE UNIT NUMBER FOUR BY THE RIVER AND THE GREAT "
        "MEADOW BEYOND IT",
        "2. st. př. sání 1 upper head end pocket of Συμπιεστής 4, beside the manway that nobody opens in "
        "winter or in summer",
        "PN 8842-XY-0001928 SPRING SET 3 HEAVY WITH PEEK PLATES AND HOUSINGS OF FORGED STEEL, LAPPED BY HAND "
        "IN ONE SITTING"}},
      {Filling::arabic,
       {"الضاغط الرابع U-4 في المحطة الشمالية قرب النهر الكبير والمرج الأخضر الواسع",
        "المرحلة 1 جهة الرأس HE سحب 2 أعلى الاسطوانة بجانب الباب الذي لا يفتحه أحد",
        "صمام CV-118-B نوابض SP3 للخدمة الشاقة مع صفائح من البلاستيك المقوى"}},
      {Filling::hebrew,
       {"מדחס ארבע U-4 בתחנה הצפונית ליד הנהר הגדול והאחו הירוק הרחב מאוד",
        "שלב 1 צד ראש HE יניקה 2 בחלק העליון של הצילינדר ליד הפתח שאיש אינו פותח",
        "שסתום CV-118-B קפיצים SP3 לעבודה קשה עם לוחיות מפלסטיק מחוזק"}}};
  static const std::vector<std::pair<std::string, std::size_t>> kTexts = {
      {"unit", 0},   {"pocket", 1}, {"part", 2}, {"turnaround", 0}, {"desk", 0},  {"by", 0},
      {"serial", 2}, {"note", 1},   {"to", 0},   {"from", 0},       {"carton", 2}};
  const bool is_spare = kind.starts_with("spare");
  for (const auto& [name, which] : kTexts) {
    if (is_spare && (name == "unit" || name == "pocket" || name == "part")) continue;
    tag.texts[name] = filling == Filling::shortest ? (name == "unit"     ? "4"
                                                      : name == "pocket" ? "1"
                                                                         : "A")
                                                   : longest_fitting(design, name, kLong.at(filling)[which]);
  }
  if (filling == Filling::longest) tag.texts["copy"] = "COPY 9";
  return tag;
}

// How often a design is tried: texts, side, and the second language of designs that have one.
inline constexpr int kSpecimens = 4;
inline TagContent specimen(const Design& design, int which) {
  struct Kind {
    Filling filling;
    const char *side, *language;
  };
  constexpr Kind kKinds[kSpecimens] = {{Filling::longest, "discharge", "es"},
                                       {Filling::arabic, "suction", "ar"},
                                       {Filling::hebrew, "discharge", "cs"},
                                       {Filling::shortest, "", "es"}};
  const Kind& kind = kKinds[which];
  return filled(design, kind.filling, kind.side, design.has_second_language() ? kind.language : "");
}

// The same payload with another number: three digits of it.
inline TagContent numbered(TagContent tag, std::size_t number) {
  tag.payload.replace(tag.payload.find(".K7") + 3, 3, std::to_string(100 + number));
  return tag;
}

// Designs as they are printed: a bag half with the box half of its size, all others alone.
struct DesignGroup {
  Design first;
  std::optional<Design> box = {};  // first is its bag half then

  std::string name() const { return first.name() + (box ? ", " + box->name() : ""); }
};

inline std::vector<DesignGroup> grouped(const std::vector<Design>& designs) {
  std::vector<DesignGroup> groups;
  const auto half = [&](const Design& design, const std::string& from,
                        const std::string& to) -> const Design* {
    const std::string kind = kind_of(design.name());
    if (!kind.ends_with(from)) return nullptr;
    const std::string name = kind.substr(0, kind.size() - 3) + to + design.name().substr(kind.size());
    for (const auto& other : designs)
      if (other.name() == name) return &other;
    return nullptr;
  };
  for (const auto& design : designs) {
    if (half(design, "box", "bag") != nullptr) continue;
    const Design* box = half(design, "bag", "box");
    groups.push_back({design, box == nullptr ? std::nullopt : std::optional(*box)});
  }
  return groups;
}

inline SheetItem specimen(const DesignGroup& group, int which, std::size_t number) {
  const TagContent tag = numbered(specimen(group.first, which), number);
  if (!group.box) return SingleItem{tag, group.first};
  return PairItem{tag, numbered(specimen(*group.box, which), number),
                  0x9e3779b9u * static_cast<std::uint32_t>(number + 1), PairDesigns{group.first, *group.box}};
}

// What either half of a pair has on the stock.
inline Box tag_place(const Stock& stock) {
  const Box bag = stock.printable(stock.bag_label(0), stock.bag_half(0), false);
  const Box box = stock.printable(stock.box_label(0), stock.box_half(0), true);
  return {0, 0, std::min(bag.width_mm, box.width_mm), std::min(bag.height_mm, box.height_mm)};
}

inline bool fits(const Design& design, const Stock& stock) {
  constexpr double kSlackMm = 1e-6;
  const Box place = tag_place(stock);
  return design.width_mm() <= place.width_mm + kSlackMm && design.height_mm() <= place.height_mm + kSlackMm;
}

// A sheet of places for designs of one size, margin around each; two columns or more, an even number.
inline Stock bench_stock(double width_mm, double height_mm, int columns, int rows) {
  constexpr double kMarginMm = 4.2;  // clear of the match mark
  Stock stock;
  stock.name = "bench";
  stock.columns = columns;
  stock.rows = rows;
  stock.margin_mm = kMarginMm;
  stock.label_width_mm = width_mm + 2 * kMarginMm;
  stock.label_height_mm = height_mm + 2 * kMarginMm;
  stock.page_width_mm = columns * stock.label_width_mm;
  stock.page_height_mm = rows * stock.label_height_mm;
  return stock;
}

}  // namespace counterfoil
