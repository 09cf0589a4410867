#include "workflow/check_print.h"

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "base/file.h"
#include "reader/image.h"
#include "sheet/marked_picture.h"
#include "workflow/checked_page.h"
#include "workflow/issue.h"
#include "workflow/issued_texts.h"
#include "workflow/stocks.h"

namespace counterfoil {
namespace {

// The order on the stocks that it could have been printed on by mistake; where it cannot be, never mind.
std::vector<OtherStock> on_other_stocks(const Desk& desk, const PrintOrder& order, const Stock& own) {
  std::vector<OtherStock> others;
  auto all = stocks(order.terms.templates);
  if (!all) return others;
  for (const auto& stock : *all) {
    if (stock.name == own.name) continue;
    PrintOrder again = order;
    again.terms.stock = stock.name;
    again.terms.paper = {};
    auto planned = plan_sheet(desk, again);
    if (!planned) continue;
    auto symbols = symbols_of(planned->order, planned->items);
    if (symbols) others.push_back({stock, std::move(*symbols)});
  }
  return others;
}

PictureMark::Colour colour_of(PrintVerdict verdict) {
  return verdict == PrintVerdict::good     ? PictureMark::Colour::green
         : verdict == PrintVerdict::usable ? PictureMark::Colour::amber
                                           : PictureMark::Colour::red;
}

// The first words, before what was measured: labels of neighbours may not run into each other.
std::string short_words(const std::string& what) {
  std::size_t end = what.size();
  for (const char* mark : {" (", ":", " by ", " from ", ", "}) end = std::min(end, what.find(mark));
  return what.substr(0, end);
}

// Whether the finding has words at a place of its own on the picture.
bool says_in_its_place(const CheckedTag& tag, const PrintFinding& finding) {
  return std::any_of(tag.ink.begin(), tag.ink.end(),
                     [&](const InkFinding& found) { return found.finding.what == finding.what; });
}

std::vector<PictureMark> marks_of(const CheckedPage& page, int width, int height) {
  std::vector<PictureMark> marks;
  const auto add = [&](std::vector<PicturePoint> outline, PictureMark::Colour colour, std::string words) {
    PictureMark mark;
    mark.outline = std::move(outline);
    mark.colour = colour;
    mark.words = std::move(words);
    marks.push_back(std::move(mark));
  };
  std::string sheet = "sheet: " + std::string(to_text(page.verdict));
  for (const auto& finding : page.findings)
    if (const std::string words = "; " + short_words(finding.what);
        finding.verdict != PrintVerdict::good && sheet.find(words) == std::string::npos)
      sheet += words;
  add({{2, 2}, {width - 2.0, 2}, {width - 2.0, height - 2.0}, {2, height - 2.0}}, colour_of(page.verdict),
      sheet + ". Not an ISO grade");
  for (const auto& tag : page.tags) {
    std::string words(to_text(tag.verdict));
    if (tag.verdict != PrintVerdict::good && !tag.findings.empty() &&
        !says_in_its_place(tag, tag.findings.front()))
      words += ": " + short_words(tag.findings.front().what);
    add({tag.outline.begin(), tag.outline.end()}, colour_of(tag.verdict), std::move(words));
    for (const auto& found : tag.ink)
      for (const auto& [outline, words_there] : found.places)
        add({outline.begin(), outline.end()}, colour_of(found.finding.verdict), words_there);
    if (!tag.check) continue;
    const auto& grid = tag.check->grid;
    for (const auto& m : tag.check->fixed.wrong)
      add({grid.at(m.x, m.y), grid.at(m.x + 1, m.y), grid.at(m.x + 1, m.y + 1), grid.at(m.x, m.y + 1)},
          PictureMark::Colour::red, {});
  }
  for (const auto& line : page.missing_dots) {
    if (!page.map) break;
    const auto& map = *page.map;
    add(line.column ? std::vector{map({line.at_mm, 0}), map({line.at_mm, page.height_mm})}
                    : std::vector{map({0, line.at_mm}), map({page.width_mm, line.at_mm})},
        PictureMark::Colour::amber, line.column ? "column of dots missing" : "row of dots missing");
  }
  return marks;
}

std::string numbered(const std::string& path, int index) {
  const std::filesystem::path whole(path);
  return (whole.parent_path() /
          (whole.stem().string() + "-" + std::to_string(index) + whole.extension().string()))
      .string();
}

// The same as plan_sheet, in the words of somebody who has printed already.
Result<PlannedSheet> plan_named(const Desk& desk, const PrintOrder& order) {
  if (order.turnaround.empty() && order.numbers.empty())
    return malformed("check the scan against what?",
                     "give --turnaround NAME, or the numbers that were printed");
  if (!order.turnaround.empty() && !order.numbers.empty())
    return malformed("check the scan against a turnaround or against numbers?",
                     "give either --turnaround NAME or numbers, not both");
  auto planned = plan_sheet(desk, order);
  if (planned || planned.error().kind != ErrorKind::refused || order.turnaround.empty()) return planned;
  auto events = desk.events_with({"turnaround:" + order.turnaround});
  if (!events || !events->empty()) return planned;
  return refused("no pair was issued for a turnaround \"" + order.turnaround + "\"",
                 "name the turnaround that the sheet was printed for");
}

// What was left of the first sheet: as it is stated, or as the printing was logged.
Result<PartSheet> part_of(const Desk& desk, const PrintOrder& order, const PlannedSheet& planned) {
  const PaperTerms& paper = order.terms.paper;
  if (paper.start_at == kNotSaid && paper.spoiled.empty()) {
    auto logged = part_as_printed(desk, [&](const Event& event) {
      if (event.paper->stock != planned.order.stock.name) return false;
      if (!order.turnaround.empty()) return event.turnaround == order.turnaround && !event.number;
      return event.number && std::find(planned.numbers.begin(), planned.numbers.end(), *event.number) !=
                                 planned.numbers.end();
    });
    if (!logged) return logged.error();
    if (*logged) return **logged;
  }
  auto plan = PaperPlan::make(desk, paper, planned.order.stock);
  if (!plan) return plan.error();
  return plan->part();
}

class Checker {
 public:
  Checker(const PrintCheckOrder& order, PageTruth truth, TagsInUse in_use)
      : order_(order), truth_(std::move(truth)), in_use_(std::move(in_use)) {}

  Result<void> take(const std::string& scan) {
    auto reading = read_tags(scan, Sought::ours, order_.reading, &in_use_.texts);
    if (!reading) return reading.error();
    auto file = open_picture(scan);
    if (!file) return file.error();
    for (int number = 1; number <= (*file)->pages(); ++number) {
      auto picture = (*file)->load(number, Channel::luma);
      if (!picture) return picture.error();
      std::vector<TagSeen> seen;
      for (const auto& tag : reading->tags) {
        if (tag.code.page != number) continue;
        seen.push_back(tag);
        for (auto& corner : seen.back().code.corners)
          corner = {corner.x / picture->shrink, corner.y / picture->shrink};
      }
      PageTruth truth = truth_;
      // What cameras and programs state for want of anything better, 72 or 96, is no scanner's.
      constexpr double kLeastOfScanner = 100;
      if (truth.dots_per_inch == 0 && picture->dots_per_inch_x >= kLeastOfScanner &&
          picture->dots_per_inch_x == picture->dots_per_inch_y)
        truth.dots_per_inch = std::round(10 * picture->dots_per_inch_x) / 10;  // a file counts by the metre
      truth.dots_per_inch /= picture->shrink;
      CheckedPage page = check_page(picture->grey, seen, truth);
      page.file = scan;
      page.file_page = number;
      if (!order_.marked.empty())
        if (auto done = mark(page, picture->grey, order_.scans.size() > 1 || (*file)->pages() > 1); !done)
          return done;
      result_.pages.push_back(std::move(page));
    }
    return {};
  }

  PrintCheck finish(int sheets) {
    result_.sheets = sheets;
    for (int sheet = 1; sheet <= sheets; ++sheet)
      if (std::none_of(result_.pages.begin(), result_.pages.end(),
                       [&](const auto& p) { return p.page == sheet; }))
        result_.not_scanned.push_back(sheet);
    for (const auto& page : result_.pages) result_.verdict = std::max(result_.verdict, page.verdict);
    return std::move(result_);
  }

 private:
  Result<void> mark(CheckedPage& page, GreyView picture, bool several) {
    page.marked =
        several ? numbered(order_.marked, static_cast<int>(result_.pages.size()) + 1) : order_.marked;
    auto png = marked_png(picture, marks_of(page, picture.width, picture.height));
    if (!png) return png.error();
    return write_file(page.marked, *png);
  }

  const PrintCheckOrder& order_;
  PageTruth truth_;
  TagsInUse in_use_;
  PrintCheck result_;
};

}  // namespace

Result<PrintCheck> check_print(const Desk& desk, const PrintCheckOrder& order) {
  if (order.scans.empty()) return malformed("check which scan?", "give a scan of a printed sheet");
  if (!order.marked.empty() && std::filesystem::path(order.marked).extension() != ".png")
    return malformed("cannot tell from \"" + order.marked + "\" what to write", "end the name in .png");
  if (order.dots_per_inch != 0 && !(order.dots_per_inch >= 50 && order.dots_per_inch <= 9600))
    return malformed("no scanner has so many dots per inch", "common ones have 300 or 600");
  auto planned = plan_named(desk, order.print);
  if (!planned) return planned.error();
  auto part = part_of(desk, order.print, *planned);
  if (!part) return part.error();
  planned->order.part = *part;
  auto symbols = symbols_of(planned->order, planned->items);
  if (!symbols) return symbols.error();
  int sheets = 0;
  for (const auto& symbol : *symbols) sheets = std::max(sheets, symbol.tag.page + 1);
  if (order.page < 0 || order.page > sheets)
    return malformed("there is no sheet " + std::to_string(order.page),
                     "the order has sheets 1 to " + std::to_string(sheets));
  auto in_use = tags_in_use(desk);
  if (!in_use) return in_use.error();
  Checker checker(
      order,
      {&planned->order.stock, std::move(*symbols), on_other_stocks(desk, order.print, planned->order.stock),
       order.page, order.dots_per_inch, &planned->order, &planned->items},
      std::move(*in_use));
  for (const auto& scan : order.scans)
    if (auto done = checker.take(scan); !done) return done.error();
  return checker.finish(sheets);
}

}  // namespace counterfoil
