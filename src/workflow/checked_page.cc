#include "workflow/checked_page.h"

#include <algorithm>
#include <cmath>
#include <deque>
#include <map>
#include <utility>

#include "grade/find_symbol.h"

namespace counterfoil {
namespace {

constexpr const char* kMissing = "missing";
constexpr double kSamePlaceMm = 5;  // a symbol so near to a place lies at it

using Outline4 = std::array<PicturePoint, 4>;

Outline4 outline_of(const ReferenceGrid& grid) {
  const double n = grid.modules();
  return {grid.ideal(0, 0), grid.ideal(n, 0), grid.ideal(n, n), grid.ideal(0, n)};
}

Outline4 outline_of(const Affine& map, const Box& box) {
  const double right = box.x_mm + box.width_mm, bottom = box.y_mm + box.height_mm;
  return {map({box.x_mm, box.y_mm}), map({right, box.y_mm}), map({right, bottom}), map({box.x_mm, bottom})};
}

PicturePoint middle(const Outline4& outline) {
  PicturePoint sum;
  for (const auto& corner : outline) sum = {sum.x + corner.x / 4, sum.y + corner.y / 4};
  return sum;
}

PicturePoint middle(const Box& box) { return {box.x_mm + box.width_mm / 2, box.y_mm + box.height_mm / 2}; }

std::string tag_words(const Payload& payload) { return payload.number.grouped() + " " + half_words(payload); }

constexpr double kLeastCreepMm = 0.25;  // from one end of a page to the other
// No printer is so far off: the sheet is held against other terms than it was printed by.
constexpr double kOtherTerms = 0.08, kOtherTermsMm = 12;
constexpr const char* kOtherTermsAdvice =
    "so much is no printer's doing: see that --stock, --start-at, --spoiled and --scan-dpi are those of this "
    "sheet";

// The check of one page, as far as it has come.
class PageCheck {
 public:
  PageCheck(GreyView picture, const std::vector<TagSeen>& seen, const PageTruth& truth)
      : picture_(picture), seen_(seen), truth_(truth), used_(seen.size(), false) {}

  CheckedPage run() {
    choose_page();
    if (page_.page == 0) {
      tell_page(PrintVerdict::reprint, "none of the tags that should be here was read",
                "see that the scan, the turnaround or numbers, and the page go together");
      tell_foreign();
      page_.verdict = worst(page_.findings);
      return std::move(page_);
    }
    match();
    fit();
    if (sort_twins()) fit();
    judge_stock();
    look_for_unread();
    judge_tags();
    judge_neighbours();
    judge_ink();
    judge_geometry();
    tell_foreign();
    page_.verdict = worst(page_.findings);
    for (auto& tag : page_.tags) {
      std::stable_sort(tag.findings.begin(), tag.findings.end(),
                       [](const auto& a, const auto& b) { return a.verdict > b.verdict; });
      tag.verdict = worst(tag.findings);
      page_.verdict = std::max(page_.verdict, tag.verdict);
    }
    return std::move(page_);
  }

 private:
  void tell_page(PrintVerdict verdict, std::string what, std::string advice) {
    page_.findings.push_back({verdict, std::move(what), std::move(advice)});
  }

  // The page most of whose symbols were read.
  void choose_page() {
    std::map<int, int> read;  // symbols of each page
    for (const auto& tag : seen_)
      for (const auto& symbol : truth_.symbols)
        if (symbol.payload == tag.code.text) ++read[symbol.tag.page + 1];
    page_.page = truth_.page;
    int most = 0;
    for (const auto& [page, count] : read)
      if (count > most && truth_.page == 0) {
        most = count;
        page_.page = page;
      }
    if (truth_.page != 0 && read[truth_.page] == 0) page_.page = 0;
    for (const auto& symbol : truth_.symbols)
      if (symbol.tag.page + 1 == page_.page) expected_.push_back(&symbol);
  }

  // What was read goes to what should say it, each once, whichever of several that say the same.
  void match() {
    for (const auto* expected : expected_) {
      CheckedTag tag;
      tag.text = expected->payload;
      if (auto payload = parse_payload(tag.text)) tag.payload = *payload;
      tag.label = expected->tag.label + 1;
      for (std::size_t i = 0; i < seen_.size(); ++i) {
        if (used_[i] || seen_[i].code.text != expected->payload) continue;
        used_[i] = true;
        tag.read = !seen_[i].code.identified;
        tag.outline = seen_[i].code.corners;
        look_at(tag, *expected);
        if (!tag.check)
          tag.findings.push_back(
              {PrintVerdict::reprint, "its symbol is too damaged to be measured", "print it again"});
        break;
      }
      page_.tags.push_back(std::move(tag));
    }
  }

  void look_at(CheckedTag& tag, const SheetSymbol& expected) const {
    const auto framing = find_symbol(picture_, tag.outline, expected.matrix.modules);
    if (!framing) return;
    tag.check = check_symbol(picture_, *framing);
    if (tag.check) tag.outline = outline_of(tag.check->grid);
  }

  void fit() {
    std::vector<FoundSymbol> found;
    std::vector<std::size_t> from;
    for (std::size_t i = 0; i < page_.tags.size(); ++i) {
      if (!page_.tags[i].check) continue;
      found.push_back({expected_[i]->box, page_.tags[i].check->grid});
      from.push_back(i);
    }
    fit_ = fit_page(found);
    if (!fit_) return;
    page_.rms_mm = fit_->rms_mm;
    page_.map = fit_->map;
    page_.width_mm = truth_.stock->page_width_mm;
    page_.height_mm = truth_.stock->page_height_mm;
    page_.geometry =
        geometry_of(fit_->map, *truth_.stock, picture_.width, picture_.height, truth_.dots_per_inch);
    back_ = fit_->map.inverse();
    for (const std::size_t i : from) {
      const PicturePoint at = back_(middle(page_.tags[i].outline)), meant = middle(expected_[i]->box);
      page_.tags[i].stray_mm = PicturePoint{at.x - meant.x, at.y - meant.y};
    }
  }

  // Symbols that say the same (copies of a label, two on one tag) go to the places that they lie nearest to. True if any
  // changed places.
  bool sort_twins() {
    if (!fit_) return false;
    bool changed = false;
    const auto off = [&](std::size_t tag, std::size_t place) {
      const PicturePoint at = back_(middle(page_.tags[tag].outline)), meant = middle(expected_[place]->box);
      return std::hypot(at.x - meant.x, at.y - meant.y);
    };
    for (std::size_t i = 0; i < page_.tags.size(); ++i) {
      for (std::size_t k = i + 1; k < page_.tags.size(); ++k) {
        CheckedTag &a = page_.tags[i], &b = page_.tags[k];
        if (a.text != b.text || (!a.check && !b.check)) continue;
        const double now = (a.check ? off(i, i) : 0) + (b.check ? off(k, k) : 0);
        const double then = (a.check ? off(i, k) : 0) + (b.check ? off(k, i) : 0);
        if (then >= now) continue;
        std::swap(a, b);
        std::swap(a.label, b.label);
        changed = true;
      }
    }
    return changed;
  }

  // Where a symbol should be that was not read there may be one all the same.
  void look_for_unread() {
    for (std::size_t i = 0; i < page_.tags.size(); ++i) {
      CheckedTag& tag = page_.tags[i];
      if (tag.check || tag.read) continue;
      if (fit_ && !wrong_stock_) {
        tag.outline = outline_of(fit_->map, expected_[i]->box);
        if (const auto framing = find_symbol(picture_, tag.outline, 0);
            framing && framing->modules == expected_[i]->matrix.modules && !is_taken(tag.outline))
          tag.check = check_symbol(picture_, *framing);
      }
      tag.findings.push_back(
          tag.check ? PrintFinding{PrintVerdict::reprint, "cannot be read", "print it again"}
                    : PrintFinding{PrintVerdict::reprint, kMissing,
                                   wrong_stock_ ? "on that stock it may lie on another sheet"
                                                : "no symbol was found in its place; print it again"});
    }
  }

  // By something that was read there.
  bool is_taken(const Outline4& outline) const {
    const PicturePoint at = back_(middle(outline));
    return std::any_of(seen_.begin(), seen_.end(), [&](const TagSeen& tag) {
      const PicturePoint other = back_(middle(tag.code.corners));
      return std::hypot(at.x - other.x, at.y - other.y) < kSamePlaceMm;
    });
  }

  void judge_tags() {
    for (std::size_t i = 0; i < page_.tags.size(); ++i) {
      CheckedTag& tag = page_.tags[i];
      if (!tag.check) continue;
      if (!tag.read && tag.findings.empty())
        tag.findings.push_back(
            {PrintVerdict::reprint, "cannot be decoded, was told by its likeness", "print it again"});
      for (auto& finding : findings_of(*tag.check)) tag.findings.push_back(std::move(finding));
      if (!tag.check->right.empty() && tag.check->right != expected_[i]->matrix.dark)
        tag.findings.push_back(
            {PrintVerdict::usable, "another symbol than would be printed today",
             "it says the same; the sheet may be of an earlier version or other settings"});
      if (!tag.stray_mm || wrong_stock_) continue;
      const double off = std::hypot(tag.stray_mm->x, tag.stray_mm->y);
      if (off > kGoodStrayMm)
        tag.findings.push_back({off > kUsableStrayMm ? PrintVerdict::reprint : PrintVerdict::usable,
                                "lies " + mm_text(off) + " from its place among the others",
                                off > kOtherTermsMm ? kOtherTermsAdvice : "check the feed"});
    }
  }

  // Which tag lies at each place; the halves of a pair have to lie side by side.
  void judge_neighbours() {
    if (!fit_ || wrong_stock_) return;
    for (std::size_t i = 0; i < expected_.size(); ++i) {
      const PicturePoint meant = middle(expected_[i]->box);
      for (std::size_t k = 0; k < seen_.size(); ++k) {
        const TagSeen& seen = seen_[k];
        const PicturePoint at = back_(middle(seen.code.corners));
        if (seen.code.text == expected_[i]->payload || !seen.payload ||
            std::hypot(at.x - meant.x, at.y - meant.y) > kSamePlaceMm)
          continue;
        // What lies there says more than that the right one does not.
        std::erase_if(page_.tags[i].findings, [](const auto& f) { return f.what == kMissing; });
        if (const auto due = due_copy(*seen.payload);
            due && page_.tags[i].payload->number == seen.payload->number) {
          page_.tags[i].findings.push_back({PrintVerdict::reprint,
                                            copy_words(*seen.payload, *due) + " lies in its place",
                                            "destroy it; print the newest copy"});
          used_[k] = true;  // told
          continue;
        }
        const bool splits = !page_.tags[i].payload || seen.payload->number != page_.tags[i].payload->number;
        page_.tags[i].findings.push_back({PrintVerdict::reprint,
                                          tag_words(*seen.payload) + " lies in its place" +
                                              (splits ? ", beside the other half of this pair" : ""),
                                          "destroy the sheet, whose halves would be stuck on as pairs"});
      }
    }
  }

  // Words, sides and match bars, of each tag once, however many symbols it has.
  void judge_ink() {
    if (!fit_ || wrong_stock_ || truth_.items == nullptr) return;
    const auto drawn = DrawnPage::make(*truth_.order, *truth_.items, page_.page - 1);
    if (!drawn) {
      tell_page(PrintVerdict::usable, "words could not be compared: " + drawn.error().message,
                drawn.error().hint);
      return;
    }
    std::deque<DrawnTag> meant;
    std::deque<TagPrint> prints;
    std::deque<TagInk> inks;
    std::vector<InkedTag> inked;
    std::vector<CheckedTag*> of;
    bool coarse = false;
    const TagPlace* last = nullptr;
    for (std::size_t i = 0; i < expected_.size(); ++i) {
      const TagPlace& place = expected_[i]->tag;
      const bool again = last != nullptr && last->label == place.label && last->box_half == place.box_half;
      CheckedTag& tag = page_.tags[i];
      if (again || !tag.check || lies_elsewhere(tag)) continue;
      last = &place;
      meant.push_back(drawn->tag(place.label, place.box_half));
      prints.push_back(tag_print(picture_, meant.back(), map_near(tag)));
      coarse = coarse || prints.back().coarse;
      inks.push_back(measured_ink(meant.back(), prints.back()));
      inked.push_back({&meant.back(), &prints.back(), &inks.back(), chained(prints.back().map, back_)});
      of.push_back(&tag);
    }
    find_missing_dots(inked);
    for (std::size_t i = 0; i < inked.size(); ++i) {
      if (!page_.missing_dots.empty()) inks[i] = measured_ink(meant[i], prints[i]);
      of[i]->ink = ink_findings(meant[i], prints[i], inks[i]);
      for (const auto& found : of[i]->ink) of[i]->findings.push_back(found.finding);
    }
    if (coarse)
      tell_page(PrintVerdict::good, "words were not compared: the scan is too coarse or blurred for them",
                "scan at 300 dpi or more, and look at words, sides and match bars yourself");
  }

  static bool lies_elsewhere(const CheckedTag& tag) {
    return tag.stray_mm && std::hypot(tag.stray_mm->x, tag.stray_mm->y) > kSamePlaceMm;
  }

  // The page's map, moved so that the tag's symbol lies where it was found.
  Affine map_near(const CheckedTag& tag) const {
    Affine map = fit_->map;
    if (!tag.stray_mm) return map;
    const PicturePoint moved = map(*tag.stray_mm), origin{map.x0, map.y0};
    map.x0 += moved.x - origin.x;
    map.y0 += moved.y - origin.y;
    return map;
  }

  void judge_geometry() {
    if (!fit_ || wrong_stock_) return;
    if (!page_.geometry) {
      tell_page(PrintVerdict::usable,
                "the scan's resolution is unknown, so that the page's size cannot be told",
                "give --scan-dpi");
      return;
    }
    const auto& [dpi, scale_x, scale_y, turn, shear, offset] = *page_.geometry;
    const double off = std::max(std::abs(scale_x - 1), std::abs(scale_y - 1));
    // What a small label creeps by is less than a scan tells.
    const double creep_mm =
        std::max(std::abs(scale_x - 1) * page_.width_mm, std::abs(scale_y - 1) * page_.height_mm);
    if (off > kGoodScale && creep_mm > kLeastCreepMm) {
      const bool alike = std::abs(scale_x - scale_y) < kGoodScale;
      std::string percent = percent_text(scale_x);
      if (!alike) percent += " across and " + percent_text(scale_y) + " down";
      tell_page(
          off > kUsableScale ? PrintVerdict::reprint : PrintVerdict::usable,
          "the page was printed at " + percent,
          std::string(off > kOtherTerms ? kOtherTermsAdvice
                      : alike ? "the driver scaled it, so print at actual size (100 %), not \"fit to page\""
                              : "measure the printer, and check its feed") +
              (truth_.dots_per_inch == 0 ? "; give --scan-dpi if the scan has not " + dots_text(dpi) + " dpi"
                                         : ""));
    }
    if (offset) {
      const double far = std::max(std::abs(offset->x), std::abs(offset->y));
      if (far > kGoodOffsetMm)
        tell_page(
            far > kUsableOffsetMm ? PrintVerdict::reprint : PrintVerdict::usable,
            "the page starts " + offset_text(*offset) + ", by the edges of the scan",
            far > kOtherTermsMm
                ? kOtherTermsAdvice
                : "measure the printer with `counterfoil calibrate`, if the sheet lay well on the scanner");
    }
  }

  // What was measured, and what it should be.
  std::vector<MeasuredSymbol> measured() const {
    std::vector<MeasuredSymbol> symbols;
    for (std::size_t i = 0; i < page_.tags.size(); ++i)
      if (page_.tags[i].check) symbols.push_back({expected_[i], page_.tags[i].check->grid});
    return symbols;
  }

  void judge_stock() {
    const auto* better = better_stock(measured(), *truth_.stock, truth_.others,
                                      {picture_.width, picture_.height, truth_.dots_per_inch});
    if (better == nullptr) return;
    wrong_stock_ = true;
    page_.geometry.reset();
    tell_page(
        PrintVerdict::reprint,
        "the tags lie as on stock " + better->stock.name + ", not as on " + truth_.stock->name,
        "check against --stock " + better->stock.name + ", or print again for the stock in the printer");
  }

  void find_missing_dots(std::vector<InkedTag> tags) {
    std::erase_if(tags, [](const InkedTag& tag) { return tag.print->coarse; });
    page_.missing_dots = missing_dots(tags);
    overlook(page_.missing_dots, tags);
    for (const auto& line : page_.missing_dots)
      tell_page(PrintVerdict::usable,
                std::string(line.column ? "a column of dots is missing " : "a row of dots is missing ") +
                    mm_text(line.at_mm) + (line.column ? " from the left edge" : " from the top edge"),
                line.column ? "clean the print head; if it stays, a dot of the head is dead"
                            : "check the feed for slipping and the ribbon for creases");
  }

  // What was read and has no place on this page.
  void tell_foreign() {
    for (std::size_t i = 0; i < seen_.size(); ++i) {
      if (used_[i] || !seen_[i].payload) continue;
      const Payload& payload = *seen_[i].payload;
      const bool ours = std::any_of(truth_.symbols.begin(), truth_.symbols.end(),
                                    [&](const auto& s) { return s.payload == seen_[i].code.text; });
      const auto due = due_copy(payload);
      if (due && !ours) {
        tell_page(PrintVerdict::reprint, copy_words(payload, *due) + " is there",
                  "destroy it; print the newest copy");
        continue;
      }
      std::string whose = " is there, and is not of this order";
      if (ours) whose = " is there, and should be on another sheet or once only";
      const std::string turnaround =
          ours || !truth_.turnaround_of ? "" : truth_.turnaround_of(payload.number);
      if (!turnaround.empty()) whose += " but of turnaround " + turnaround;
      tell_page(PrintVerdict::reprint, tag_words(payload) + whose,
                "see that the scan shows the sheet that is meant");
    }
  }

  // The copy of that half or label that the order has.
  std::optional<int> due_copy(const Payload& payload) const {
    for (const auto& symbol : truth_.symbols)
      if (const auto due = parse_payload(symbol.payload);
          due && due->number == payload.number && due->half == payload.half && due->copy != payload.copy)
        return due->copy;
    return std::nullopt;
  }

  static std::string copy_words(Payload payload, int due) {
    const int copy = std::exchange(payload.copy, 1);  // said in words of its own
    return (copy < due ? "an earlier copy of " : "another copy of ") + tag_words(payload) + " (copy " +
           std::to_string(copy) + " where copy " + std::to_string(due) + " is due)";
  }

  GreyView picture_;
  const std::vector<TagSeen>& seen_;
  const PageTruth& truth_;
  std::vector<bool> used_;  // of what was seen
  std::vector<const SheetSymbol*> expected_;
  std::optional<PageFit> fit_;
  bool wrong_stock_ = false;  // places and sizes mean nothing then
  Affine back_;               // pixels to mm of the page
  CheckedPage page_;
};

}  // namespace

CheckedPage check_page(GreyView picture, const std::vector<TagSeen>& tags, const PageTruth& truth) {
  return PageCheck(picture, tags, truth).run();
}

}  // namespace counterfoil
