#include "sheet/card.h"

#include <algorithm>
#include <array>

#include "sheet/drafting.h"

namespace counterfoil {
namespace {

constexpr double kThin = 0.25, kThick = 0.6;

Error within(const std::string& what, const Error& error) {
  return {error.kind, what + ": " + error.message, error.hint};
}

// ---- Pocket map

constexpr double kTitleMm = 7;
constexpr double kBodyMm = 18;  // height of a cylinder
constexpr double kRodMm = 10;   // piston rod, on the frame's side
constexpr double kBoxGapMm = 3;
constexpr double kStemMm = 4;  // from a row of boxes to the next thing
constexpr double kNameMm = 8;  // height of a cylinder's name
constexpr double kPocketWidthMm = kSideMarkWidthMm + 2;
constexpr double kPocketNameMm = 8, kPocketSecondMm = 6;
constexpr double kPanelGapMm = 5;

double pocket_height(bool with_second) {
  return 1.5 + kPocketNameMm + (with_second ? kPocketSecondMm : 0) + kSideMarkHeightMm + 2;
}

// One cylinder with its boxes in rows, nearest rows first, over and under.
struct Panel {
  const MapCylinder* cylinder = nullptr;
  int page = 0;
  double top = 0, height = 0;
  int over = 0, under = 0;  // rows
  double row_mm = 0;
};

bool is_over(MapPocket::Place place) {
  return place == MapPocket::Place::head_over || place == MapPocket::Place::crank_over;
}
bool is_head(MapPocket::Place place) {
  return place == MapPocket::Place::head_over || place == MapPocket::Place::head_under;
}

class MapDrawing {
 public:
  MapDrawing(const PocketMap& map, const Box& area) : map_(map), area_(area) {}

  Result<int> lay() {
    end_mm_ = (area_.width_mm - kRodMm) / 2;
    a_row_ = static_cast<int>((end_mm_ - kBoxGapMm) / (kPocketWidthMm + kBoxGapMm));
    if (a_row_ < 1) return refused("the map's boxes are wider than the paper", "take wider paper");
    auto lines = measure_.lines("the viewing rule", area_.width_mm, rule(), {}, 4);
    if (!lines) return lines.error();
    rule_lines_ = *lines;
    head_mm_ = kTitleMm * 1.75 + height_of_lines({}, rule_lines_) + 5;
    const double first = area_.y_mm + head_mm_;
    double top = first;
    int page = 0;
    for (const auto& cylinder : map_.cylinders) {
      Panel panel = panel_of(cylinder);
      if (panel.height > area_.y_mm + area_.height_mm - first)
        return refused("cylinder " + cylinder.name + " has more pockets than a page has room for",
                       "take larger paper");
      if (top + panel.height > area_.y_mm + area_.height_mm) {
        ++page;
        top = first;
      }
      panel.page = page;
      panel.top = top;
      top += panel.height + kPanelGapMm;
      panels_.push_back(panel);
    }
    return page + 1;
  }

  Result<void> page(Drafting& paper, int page) const {
    if (auto done = head(paper); !done) return done;
    for (const auto& panel : panels_)
      if (panel.page == page)
        if (auto done = draw(paper, panel); !done)
          return within("cylinder " + panel.cylinder->name, done.error());
    return {};
  }

 private:
  std::string rule() const { return "Pockets: " + map_.viewing_rule + ". Map of " + map_.valid_from + "."; }

  Panel panel_of(const MapCylinder& cylinder) const {
    Panel panel;
    panel.cylinder = &cylinder;
    std::array<int, 4> boxes{};
    bool with_second = false;
    for (const auto& pocket : cylinder.pockets) {
      ++boxes[static_cast<std::size_t>(pocket.place)];
      with_second = with_second || !pocket.second.empty();
    }
    const auto rows = [&](MapPocket::Place head, MapPocket::Place crank) {
      const int most =
          std::max(boxes[static_cast<std::size_t>(head)], boxes[static_cast<std::size_t>(crank)]);
      return (most + a_row_ - 1) / a_row_;
    };
    panel.over = rows(MapPocket::Place::head_over, MapPocket::Place::crank_over);
    panel.under = rows(MapPocket::Place::head_under, MapPocket::Place::crank_under);
    panel.row_mm = pocket_height(with_second);
    panel.height = kNameMm + kBodyMm + (panel.over + panel.under) * (panel.row_mm + kStemMm);
    return panel;
  }

  Result<void> head(Drafting& paper) const {
    const double title_mm = kTitleMm * 1.75;
    if (auto done = paper.text("the unit", {area_.x_mm, area_.y_mm, area_.width_mm, title_mm},
                               "Pockets of unit " + map_.unit, {kTitleMm, true});
        !done)
      return done;
    TextStyle style;
    style.lines = rule_lines_;
    const double height = height_of_lines(style, rule_lines_);
    if (auto done = paper.text("the viewing rule",
                               {area_.x_mm, area_.y_mm + title_mm, area_.width_mm, height}, rule(), style);
        !done)
      return done;
    paper.fill({area_.x_mm, area_.y_mm + title_mm + height + 1, area_.width_mm, kThick});
    return {};
  }

  Result<void> draw(Drafting& paper, const Panel& panel) const {
    const double left = area_.x_mm;
    if (auto done = paper.text("the name", {left, panel.top, area_.width_mm, kNameMm}, panel.cylinder->name,
                               {4.2, true});
        !done)
      return done;
    const double body_top = panel.top + kNameMm + panel.over * (panel.row_mm + kStemMm);
    if (auto done = body(paper, body_top); !done) return done;
    std::array<int, 4> taken{};
    for (const auto& pocket : panel.cylinder->pockets) {
      const int index = taken[static_cast<std::size_t>(pocket.place)]++;
      const int row = index / a_row_;  // from the cylinder outwards
      const double x = left + (is_head(pocket.place) ? 0 : end_mm_) + kBoxGapMm +
                       (index % a_row_) * (kPocketWidthMm + kBoxGapMm);
      const double step = panel.row_mm + kStemMm;
      const double y =
          is_over(pocket.place) ? body_top - (row + 1) * step : body_top + kBodyMm + kStemMm + row * step;
      const double stem = is_over(pocket.place) ? y + panel.row_mm : y - kStemMm;
      paper.fill({x + kPocketWidthMm / 2 - kThick / 2, stem, kThick, kStemMm});
      if (auto done = box(paper, pocket, {x, y, kPocketWidthMm, panel.row_mm}); !done)
        return within("pocket " + pocket.name, done.error());
    }
    return {};
  }

  // The cylinder lies with its outer head at the left; the rod goes to the frame at the right.
  Result<void> body(Drafting& paper, double top) const {
    const double left = area_.x_mm, width = 2 * end_mm_;
    constexpr double kHeadMm = 2.5;
    paper.outline({left, top, width, kBodyMm}, kThick);
    paper.fill({left, top, kHeadMm, kBodyMm});
    paper.fill({left + end_mm_ - 1.5, top + 1.5, 3, kBodyMm - 3});  // the piston
    paper.fill({left + end_mm_, top + kBodyMm / 2 - 0.6, end_mm_ + kRodMm - 2, 1.2});
    paper.fill({left + width + kRodMm - 2, top - 1, 2, kBodyMm + 2});  // the frame
    const double half = kBodyMm / 2 - 1.5;
    TextStyle style;
    style.align = Slot::Align::middle;
    const auto put = [&](double x, double y, const char* text) {
      return paper.text("an end", {x + 4, top + y, end_mm_ - 8, half}, text, style);
    };
    if (auto done = put(left, 1, "HE, head end"); !done) return done;
    if (auto done = put(left, half + 2, "outer head"); !done) return done;
    if (auto done = put(left + end_mm_, 1, "CE, crank end"); !done) return done;
    return put(left + end_mm_, half + 2, "frame side");
  }

  static Result<void> box(Drafting& paper, const MapPocket& pocket, const Box& box) {
    paper.outline(box, kThin);
    TextStyle name{5, true};
    name.align = Slot::Align::middle;
    double y = box.y_mm + 1;
    if (auto done =
            paper.text("its name", {box.x_mm + 1.5, y, box.width_mm - 3, kPocketNameMm}, pocket.name, name);
        !done)
      return done;
    y += kPocketNameMm;
    TextStyle second;
    second.align = Slot::Align::middle;
    if (auto done = paper.text("its second line", {box.x_mm + 1.5, y, box.width_mm - 3, kPocketSecondMm},
                               pocket.second, second);
        !done)
      return done;
    return paper.side_mark(box.x_mm + (box.width_mm - kSideMarkWidthMm) / 2,
                           box.y_mm + box.height_mm - kSideMarkHeightMm - 1.5, pocket.side);
  }

  const PocketMap& map_;
  Box area_;
  double end_mm_ = 0;  // width of one end of a cylinder
  int a_row_ = 0;      // boxes of one end in a row
  int rule_lines_ = 0;
  double head_mm_ = 0;
  std::vector<Panel> panels_;
  TextMeasure measure_;
};

// ---- Tray card

constexpr std::size_t kMostSteps = 12;
constexpr double kCardSymbolMm = 46;
constexpr double kCardNumberMm = 13;
constexpr double kStepBoxMm = 7;
constexpr double kStepRowMm = 11;

Result<void> draw_card(Drafting& paper, const TrayCard& card) {
  const Box& area = paper.area();
  const double number_mm = kCardNumberMm * 1.4;
  TextStyle number{kCardNumberMm, true, true};
  number.align = Slot::Align::middle;
  if (auto done =
          paper.text("the number", {area.x_mm, area.y_mm, area.width_mm, number_mm}, card.number, number);
      !done)
    return done;
  double y = area.y_mm + number_mm + 1;
  paper.fill({area.x_mm, y, area.width_mm, kThick});
  y += 2;
  if (auto done = paper.symbol("the symbol", {area.x_mm, y, kCardSymbolMm, kCardSymbolMm}, card.payload);
      !done)
    return done;
  const double x = area.x_mm + kCardSymbolMm + 4;
  const double width = area.x_mm + area.width_mm - x;
  TextStyle keep{5.5, true};
  if (auto done = paper.text("standing words", {x, y, width, 9}, "KEEP WITH THE PARTS", keep); !done)
    return done;
  if (auto done = paper.side_mark(x, y + 10.5, card.side); !done) return done;
  double line = y + 19;
  const std::array<std::pair<const char*, const std::string*>, 4> facts = {
      {{"Unit", &card.unit}, {"Pocket", &card.pocket}, {"Part", &card.part}, {"From", &card.desk}}};
  for (const auto& [name, value] : facts) {
    if (auto done = paper.text(name, {x, line, 18, 6.5}, name, {}); !done) return done;
    if (auto done = paper.text(name, {x + 19, line, width - 19, 6.5}, *value, {4, true}); !done) return done;
    paper.fill({x + 19, line + 6.4, width - 19, kThin});  // to write on where nothing is known
    line += 6.75;
  }
  y += kCardSymbolMm + 2;
  const int columns = std::max(1, static_cast<int>(area.width_mm / 60));
  const double column_mm = area.width_mm / columns;
  for (std::size_t i = 0; i < card.steps.size(); ++i) {
    const double left = area.x_mm + static_cast<double>(static_cast<int>(i) % columns) * column_mm;
    const double top = y + static_cast<double>(static_cast<int>(i) / columns) * kStepRowMm;
    if (top + kStepRowMm > area.y_mm + area.height_mm)
      return refused("the card has more steps than the paper has room for",
                     "take larger paper or fewer steps");
    paper.outline({left, top + (kStepRowMm - kStepBoxMm) / 2, kStepBoxMm, kStepBoxMm}, kThick);
    TextStyle step;
    step.lines = 2;
    if (auto done = paper.text("step " + std::to_string(i + 1),
                               {left + kStepBoxMm + 2, top, column_mm - kStepBoxMm - 4, kStepRowMm},
                               card.steps[i], step);
        !done)
      return done;
  }
  const auto rows = (static_cast<int>(card.steps.size()) + columns - 1) / columns;
  const double note_top = y + rows * kStepRowMm + 1;
  if (card.note.empty()) return {};
  TextStyle note;
  note.lines = 3;
  return paper.text("the note", {area.x_mm, note_top, area.width_mm, area.y_mm + area.height_mm - note_top},
                    card.note, note);
}

}  // namespace

Result<DocumentReport> draw_pocket_map(const DocumentOrder& order, const PocketMap& map) {
  if (map.cylinders.empty()) return malformed("the map of unit " + map.unit + " has no cylinder");
  if (map.viewing_rule.empty() || map.valid_from.empty())
    return malformed(
        "the map of unit " + map.unit + " does not say from where it is seen, or since when it is valid",
        "maps differ from site to site: say \"facing the outer head, clockwise\", and a date");
  auto area = Drafting::area_of(order);
  if (!area) return area.error();
  MapDrawing drawing(map, *area);
  auto pages = drawing.lay();
  if (!pages) return pages.error();
  auto paper = Drafting::open(order, "Pockets of unit " + map.unit, *pages);
  if (!paper) return paper.error();
  for (int page = 0; page < *pages; ++page) {
    if (auto done = paper->begin_page(); !done) return done.error();
    if (auto done = drawing.page(*paper, page); !done) return done.error();
    if (auto done = paper->end_page(); !done) return done.error();
  }
  return paper->commit();
}

Result<DocumentReport> draw_tray_cards(const DocumentOrder& order, const std::vector<TrayCard>& cards) {
  if (cards.empty()) return malformed("there is no card to draw");
  auto paper = Drafting::open(order, "Tray cards", static_cast<int>(cards.size()));
  if (!paper) return paper.error();
  for (const auto& card : cards) {
    if (card.number.empty() || card.payload.empty())
      return malformed("a tray card needs a number and its symbol");
    if (card.steps.size() > kMostSteps)
      return malformed("the tray card of " + card.number + " has more than 12 steps");
    if (auto done = paper->begin_page(); !done) return done.error();
    if (auto done = draw_card(*paper, card); !done)
      return within("the tray card of " + card.number, done.error());
    if (auto done = paper->end_page(); !done) return done.error();
  }
  return paper->commit();
}

}  // namespace counterfoil
