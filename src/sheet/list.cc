#include "sheet/list.h"

#include <algorithm>

#include "base/text.h"
#include "sheet/drafting.h"

namespace counterfoil {
namespace {

constexpr double kTitleMm = 6;     // height of capitals
constexpr double kHeadingsMm = 7;  // height of the row of headings
constexpr double kPadMm = 1.5;     // around what stands in a cell
constexpr double kSymbolMm = 18;   // with its quiet zone
constexpr double kTickMm = 7;
constexpr double kTickColumnMm = 20;
constexpr double kLeastTextMm = 15;  // width of a column
constexpr int kMostLines = 6;
constexpr std::size_t kMostColumns = 20;
constexpr double kThin = 0.2, kThick = 0.5;

using Kind = ListColumn::Kind;

bool is_text(Kind kind) { return kind == Kind::text || kind == Kind::number; }

TextStyle style_of(Kind kind) {
  TextStyle style;
  style.bold = style.mono = kind == Kind::number;
  return style;
}

double fixed_width(Kind kind) {
  if (kind == Kind::symbol) return kSymbolMm + 2;
  if (kind == Kind::side) return kSideMarkWidthMm + 2 * kPadMm;
  return kind == Kind::tick ? kTickColumnMm : 0;
}

// Where everything of a list lies, found before the first line is drawn.
class Layout {
 public:
  Result<void> lay(const PaperList& list, const Box& on) {
    area = on;
    if (list.columns.empty() || list.columns.size() > kMostColumns || list.rows.empty())
      return malformed("the list \"" + list.title + "\" has no rows or columns, or more than 20 columns");
    if (auto done = set_columns(list); !done) return done;
    if (auto done = set_head(list); !done) return done;
    return set_rows(list);
  }

  Box area;
  std::vector<double> lefts, widths;  // of columns
  std::vector<int> fact_lines;
  double head_mm = 0;  // title and facts
  struct Row {
    int page = 0;
    double top = 0, height = 0;
    std::vector<int> lines;  // by column, of text
  };
  std::vector<Row> rows;
  int pages() const { return rows.back().page + 1; }

 private:
  Result<void> set_columns(const PaperList& list) {
    double left = area.width_mm, shares = 0;
    for (const auto& column : list.columns) {
      left -= fixed_width(column.kind);
      if (is_text(column.kind)) shares += column.share;
      if (!(column.share > 0 && column.share <= 1000))
        return malformed("a column's share of the width is more than 0");
    }
    double x = area.x_mm;
    for (const auto& column : list.columns) {
      const double width = is_text(column.kind) ? left * column.share / shares : fixed_width(column.kind);
      if (is_text(column.kind) && width < kLeastTextMm)
        return refused("the list \"" + list.title + "\" leaves no room for its column " + column.heading,
                       "take wider paper or fewer columns");
      lefts.push_back(x);
      widths.push_back(width);
      x += width;
    }
    if (x > area.x_mm + area.width_mm + 1e-6)
      return refused("the columns of the list \"" + list.title + "\" are wider than the paper",
                     "take wider paper");
    return {};
  }

  Result<void> set_head(const PaperList& list) {
    head_mm = kTitleMm * 1.75 + 1;
    for (const auto& [name, value] : list.facts) {
      auto lines = measure_.lines(name, area.width_mm, name + ": " + value, {}, kMostLines);
      if (!lines) return lines.error();
      fact_lines.push_back(*lines);
      head_mm += height_of_lines({}, *lines);
    }
    head_mm += 2;
    return {};
  }

  Result<void> set_rows(const PaperList& list) {
    const double first = area.y_mm + head_mm + kHeadingsMm;
    const double last = area.y_mm + area.height_mm;
    double top = first;
    int page = 0;
    for (std::size_t i = 0; i < list.rows.size(); ++i) {
      const auto& cells = list.rows[i];
      const std::string where = "row " + std::to_string(i + 1);
      if (cells.size() != list.columns.size())
        return malformed(where + " of the list \"" + list.title + "\" has " + counted(cells.size(), "cell") +
                         " for " + counted(list.columns.size(), "column"));
      Row row;
      for (std::size_t c = 0; c < cells.size(); ++c) {
        const auto kind = list.columns[c].kind;
        double height = kind == Kind::symbol ? kSymbolMm : kind == Kind::side ? kSideMarkHeightMm : kTickMm;
        int lines = 0;
        if (is_text(kind)) {
          auto needed = measure_.lines(list.columns[c].heading, widths[c] - 2 * kPadMm, cells[c],
                                       style_of(kind), kMostLines);
          if (!needed)
            return Error{needed.error().kind, where + ": " + needed.error().message, needed.error().hint};
          lines = *needed;
          height = height_of_lines(style_of(kind), lines);
        }
        row.lines.push_back(lines);
        row.height = std::max(row.height, height + (kind == Kind::symbol ? 0.5 : 2 * kPadMm));
      }
      if (top + row.height > last) {
        if (top == first)
          return refused(where + " of the list \"" + list.title + "\" is higher than the paper",
                         "take larger paper");
        ++page;
        top = first;
      }
      row.page = page;
      row.top = top;
      top += row.height;
      rows.push_back(std::move(row));
    }
    return {};
  }

  TextMeasure measure_;
};

class Drawing {
 public:
  Drawing(const PaperList& list, const Layout& layout, Drafting& paper)
      : list_(list), layout_(layout), paper_(paper) {}

  Result<void> head() {
    const Box& area = layout_.area;
    double y = area.y_mm;
    TextStyle title{kTitleMm, true};
    if (auto done =
            paper_.text("the title", {area.x_mm, y, area.width_mm, kTitleMm * 1.75}, list_.title, title);
        !done)
      return done;
    y += kTitleMm * 1.75 + 1;
    for (std::size_t i = 0; i < list_.facts.size(); ++i) {
      const auto& [name, value] = list_.facts[i];
      TextStyle style;
      style.lines = layout_.fact_lines[i];
      const double height = height_of_lines(style, style.lines);
      if (auto done = paper_.text(name, {area.x_mm, y, area.width_mm, height}, name + ": " + value, style);
          !done)
        return done;
      y += height;
    }
    y = area.y_mm + layout_.head_mm;
    for (std::size_t c = 0; c < list_.columns.size(); ++c) {
      TextStyle style{kLeastLetterMm, true};
      style.align = is_text(list_.columns[c].kind) ? Slot::Align::start : Slot::Align::middle;
      const Box box{layout_.lefts[c] + kPadMm, y + 0.5, layout_.widths[c] - 2 * kPadMm, kHeadingsMm - 1};
      if (auto done = paper_.text("a heading", box, list_.columns[c].heading, style); !done) return done;
    }
    paper_.fill({area.x_mm, y, area.width_mm, kThick});
    paper_.fill({area.x_mm, y + kHeadingsMm - kThick, area.width_mm, kThick});
    return {};
  }

  Result<void> row(std::size_t i) {
    const Layout::Row& row = layout_.rows[i];
    for (std::size_t c = 0; c < list_.columns.size(); ++c)
      if (auto done = cell(row, c, list_.rows[i][c]); !done)
        return Error{done.error().kind, "row " + std::to_string(i + 1) + ": " + done.error().message,
                     done.error().hint};
    paper_.fill({layout_.area.x_mm, row.top + row.height - kThin, layout_.area.width_mm, kThin});
    return {};
  }

 private:
  Result<void> cell(const Layout::Row& row, std::size_t c, const std::string& text) {
    const ListColumn& column = list_.columns[c];
    const Box box{layout_.lefts[c], row.top, layout_.widths[c], row.height};
    const double middle_x = box.x_mm + box.width_mm / 2, middle_y = box.y_mm + box.height_mm / 2;
    if (column.kind == Kind::symbol)
      return text.empty() ? Result<void>() : paper_.symbol(column.heading, box, text);
    if (column.kind == Kind::side)
      return paper_.side_mark(middle_x - kSideMarkWidthMm / 2, middle_y - kSideMarkHeightMm / 2, text);
    if (column.kind == Kind::tick) {
      paper_.outline({middle_x - kTickMm / 2, middle_y - kTickMm / 2, kTickMm, kTickMm}, kThick);
      return {};
    }
    TextStyle style = style_of(column.kind);
    style.lines = row.lines[c];
    const double height = height_of_lines(style, style.lines);
    return paper_.text(column.heading,
                       {box.x_mm + kPadMm, middle_y - height / 2, box.width_mm - 2 * kPadMm, height}, text,
                       style);
  }

  const PaperList& list_;
  const Layout& layout_;
  Drafting& paper_;
};

}  // namespace

Result<DocumentReport> draw_list(const DocumentOrder& order, const PaperList& list) {
  // The area is known before the number of pages is, which a file's names depend on.
  auto area = Drafting::area_of(order);
  if (!area) return area.error();
  Layout layout;
  if (auto done = layout.lay(list, *area); !done) return done.error();
  auto paper = Drafting::open(order, list.title, layout.pages());
  if (!paper) return paper.error();
  Drawing drawing(list, layout, *paper);
  for (std::size_t i = 0; i < list.rows.size();) {
    const int page = layout.rows[i].page;
    if (auto done = paper->begin_page(); !done) return done.error();
    if (auto done = drawing.head(); !done) return done.error();
    for (; i < list.rows.size() && layout.rows[i].page == page; ++i)
      if (auto done = drawing.row(i); !done) return done.error();
    if (auto done = paper->end_page(); !done) return done.error();
  }
  return paper->commit();
}

PaperList paper_list(const CartonList& carton) {
  PaperList list;
  list.title = "Carton " + carton.carton;
  for (const auto& [name, value] :
       {std::pair{"From", &carton.from}, {"To", &carton.to}, {"Packed", &carton.date}})
    if (!value->empty()) list.facts.emplace_back(name, *value);
  list.facts.emplace_back(
      "In this carton", carton.lines.size() == 1 ? "1 box" : std::to_string(carton.lines.size()) + " boxes");
  list.columns = {{"SYMBOL", ListColumn::Kind::symbol},
                  {"NUMBER", ListColumn::Kind::number, 1.35},
                  {"UNIT, POCKET"},
                  {"SIDE", ListColumn::Kind::side},
                  {"PART", ListColumn::Kind::text, 0.9},
                  {"RECEIVED", ListColumn::Kind::tick}};
  for (const auto& line : carton.lines)
    list.rows.push_back({line.payload, line.number,
                         line.unit + (line.unit.empty() || line.pocket.empty() ? "" : ", ") + line.pocket,
                         line.side, line.part, ""});
  return list;
}

PaperList paper_list(const PickList& pick) {
  PaperList list;
  list.title = "Pick list " + pick.turnaround;
  if (!pick.walk.empty()) list.facts.emplace_back("Walk", pick.walk);
  list.facts.emplace_back("Take along", counted(pick.lines.size(), "pair"));
  list.columns = {{"POCKET", ListColumn::Kind::text, 1.1},  {"SIDE", ListColumn::Kind::side},
                  {"PAIR", ListColumn::Kind::number, 1.35}, {"SYMBOL", ListColumn::Kind::symbol},
                  {"PART", ListColumn::Kind::text, 0.9},    {"TAKEN", ListColumn::Kind::tick}};
  for (const auto& line : pick.lines)
    list.rows.push_back({line.unit + (line.unit.empty() || line.pocket.empty() ? "" : ", ") + line.pocket,
                         line.side, line.number, line.payload, line.part, ""});
  return list;
}

}  // namespace counterfoil
