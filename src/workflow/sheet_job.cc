#include "workflow/sheet_job.h"

#include <algorithm>
#include <functional>
#include <map>
#include <utility>

#include "base/nearest.h"
#include "base/text.h"
#include "printer/profile.h"
#include "sheet/text_fit.h"
#include "workflow/calibrate.h"
#include "workflow/print.h"
#include "workflow/sheet_file.h"

namespace counterfoil {
namespace {

constexpr const char* kSheetBySheet = "sheet-by-sheet";
constexpr const char* kCutAndStack = "cut-and-stack";

// "--stock letter-2x3"
struct StockAdvice {
  std::string option;
  bool same_page = false;  // goes into the same printer
};

// The smallest stock that does, of those on pages of the same size if one does. Nothing where none does.
Result<std::optional<StockAdvice>> stock_advice(const std::string& templates, const Stock& now,
                                                const std::function<bool(const Stock&)>& does) {
  const auto same_page = [&](const Stock& stock) {
    return stock.page_width_mm == now.page_width_mm && stock.page_height_mm == now.page_height_mm;
  };
  for (const bool same : {true, false}) {
    auto smallest = smallest_stock(
        templates, [&](const Stock& stock) { return same_page(stock) == same && does(stock); });
    if (!smallest) return smallest.error();
    if (!smallest->empty()) return std::optional(StockAdvice{"--stock " + *smallest, same});
  }
  return std::optional<StockAdvice>();
}

// A refusal for want of room names a stock that has it.
Error advised(Error error, const std::string& templates, const Stock& now,
              const std::function<bool(const Stock&)>& does) {
  if (error.kind != ErrorKind::refused) return error;
  auto stock = stock_advice(templates, now, does);
  if (!stock) return stock.error();
  if (!*stock)
    error.hint = "no stock has room for it at this printer's dots: " + error.hint;
  else
    error.hint = ((*stock)->same_page ? "the smallest stock on such pages that would do: "
                                      : "the smallest stock that would do: ") +
                 (*stock)->option;
  return error;
}

Result<void> use_printer(const std::string& path, SheetOrder& order) {
  auto printer = load_printer_profile(path);
  if (!printer) return printer.error();
  order.correction = printer->map().inverse();
  order.dead_columns = printer->dead_columns;
  if (const auto& edge = printer->unreached)
    order.reached =
        Box{edge->left_mm, edge->top_mm, order.stock.page_width_mm - edge->left_mm - edge->right_mm,
            order.stock.page_height_mm - edge->top_mm - edge->bottom_mm};
  return {};
}

Result<void> use_preview(const PrintTerms& terms, SheetOrder& order) {
  order.preview = terms.preview;
  order.preview_only = terms.preview_only;
  if (order.preview.empty()) return {};
  auto preview = format_of(order.preview);
  if (!preview || *preview != SheetFormat::png)
    return malformed("a preview is a picture, and cannot be \"" + order.preview + "\"",
                     "end its name in .png");
  if (order.preview == order.path && !order.preview_only)
    return malformed("the sheet and its preview cannot both be \"" + order.path + "\"",
                     "give --preview another name");
  return {};
}

std::string tag_name(const SheetItem& item) {
  const auto* single = std::get_if<SingleItem>(&item);
  const TagContent& tag = single != nullptr ? single->tag : std::get<PairItem>(item).bag;
  const auto number = tag.texts.find("number");
  return number == tag.texts.end() ? "a tag" : number->second;
}

std::string excess(const TextMisfit& misfit) {
  std::string out;
  const auto add = [&](const std::string& words) { out += (out.empty() ? "" : " and ") + words; };
  if (misfit.wide_mm > 0) add(decimal(misfit.wide_mm, 2) + " mm too wide");
  if (misfit.lines > 0)
    add(counted(static_cast<std::uint64_t>(misfit.lines), "line") + " too many");
  else if (misfit.high_mm > 0)
    add(decimal(misfit.high_mm, 2) + " mm too high");
  return out + " for " + misfit.design;
}

// A text, by how much it misses each of its places, and the tags that have it.
struct LongText {
  const TextMisfit* first;
  std::vector<std::string> by, tags;
};

std::vector<LongText> by_text(const std::vector<TextMisfit>& misfits, const std::vector<SheetItem>& items) {
  std::vector<LongText> texts;
  std::map<std::pair<std::string, std::string>, std::size_t> known;
  for (const auto& misfit : misfits) {
    const auto [found, fresh] = known.try_emplace({misfit.slot, misfit.text}, texts.size());
    if (fresh) texts.push_back({&misfit, {}, {}});
    LongText& text = texts[found->second];
    if (auto by = excess(misfit); std::find(text.by.begin(), text.by.end(), by) == text.by.end())
      text.by.push_back(std::move(by));
    // The halves of a tag follow each other.
    if (auto tag = tag_name(items[misfit.item]); text.tags.empty() || text.tags.back() != tag)
      text.tags.push_back(std::move(tag));
  }
  return texts;
}

}  // namespace

Result<SheetJob> SheetJob::make(const Desk& desk, const PrintTerms& terms, std::string title) {
  auto dots = dots_of(terms.dots_per_inch, terms.printer);
  if (!dots) return dots.error();
  auto format = format_of(terms.path);
  if (!format) return format.error();
  auto kept = stock_of_stack(desk, terms.paper.stack, terms.stock);
  if (!kept) return kept.error();
  auto stock = stock_named(terms.templates, kept->value_or(terms.stock));
  if (!stock) return stock.error();
  auto tags = TagItems::open(desk, terms, *stock);
  if (!tags) return tags.error();
  auto bag = tags->design("bag");
  auto box = tags->design("box");
  if (!bag || !box)
    return advised(bag ? box.error() : bag.error(), terms.templates, *stock, [&](const Stock& other) {
      auto there = TagItems::open(desk, terms, other);
      return there && there->design("bag") && there->design("box");
    });
  SheetOrder order{std::move(*stock), std::move(*bag), std::move(*box),  *dots,
                   *format,           terms.path,      std::move(title), to_text(desk.now())};
  if (!terms.printer.empty())
    if (auto done = use_printer(terms.printer, order); !done) return done.error();
  if (terms.order == kCutAndStack)
    order.sequence = SheetSequence::cut_and_stack;
  else if (!terms.order.empty() && terms.order != kSheetBySheet)
    return malformed("\"" + terms.order + "\" is not an order of tags",
                     "say " + std::string(kSheetBySheet) + " or " + kCutAndStack);
  if (auto done = use_preview(terms, order); !done) return done.error();
  return SheetJob{std::move(order), std::move(*tags), terms.templates};
}

Result<SheetReport> SheetJob::draw(const std::vector<SheetItem>& items) const {
  auto sheet = draw_sheet(order, items);
  if (sheet || sheet.error().kind == ErrorKind::unreadable) return sheet;
  auto trouble = text_trouble(items);
  if (!trouble) return trouble.error();
  if (*trouble) return **trouble;
  if (sheet.error().kind != ErrorKind::refused || check_fit(order, items)) return sheet;
  return advised(sheet.error(), templates, order.stock, [&](const Stock& stock) {
    SheetOrder there = order;
    auto others = items;
    return tags.refit(stock, tags.size(), there, others) && check_fit(there, others);
  });
}

Result<std::optional<Error>> SheetJob::text_trouble(const std::vector<SheetItem>& items) const {
  const auto misfits = text_misfits(order, items);
  if (misfits.empty()) return std::optional<Error>();
  const auto texts = by_text(misfits, items);
  Error trouble =
      refused(counted(texts.size(), "text") + (texts.size() == 1 ? " has" : " have") +
              " no room on the tags of stock " + order.stock.name + ", even in the smallest letters");
  for (const auto& text : texts)
    trouble.hint += text.first->slot + " \"" + text.first->text + "\": " + listed(text.by) + "\n    on " +
                    listed(text.tags) + "\n  ";

  std::vector<SheetItem> concerned;
  std::vector<std::size_t> place;  // of each misfit's item there
  for (std::size_t i = 0; i < misfits.size(); ++i) {
    if (i == 0 || misfits[i].item != misfits[i - 1].item) concerned.push_back(items[misfits[i].item]);
    place.push_back(concerned.size() - 1);
  }
  // `shown`: also that the tags there have a place for what is too long here.
  const auto have_room = [&](const Stock& stock, std::vector<SheetItem> some, bool shown) {
    SheetOrder there = order;
    if (!tags.refit(stock, {}, there, some) || !have_text_room(there, some) || !check_fit(there, some))
      return false;
    for (std::size_t i = 0; shown && i < misfits.size(); ++i)
      if (!has_slot(there, some[place[i]], misfits[i].slot)) return false;
    return true;
  };
  const std::string size = tags.size().empty() ? "" : " and without --design";
  // Small tags leave out what people can do without; then that is said.
  for (const bool shown : {true, false}) {
    // The few that it is about first: where they have room the others are likely to have it too.
    auto stock = stock_advice(templates, order.stock, [&](const Stock& other) {
      return have_room(other, concerned, shown) && have_room(other, items, false);
    });
    if (!stock) return stock.error();
    if (!*stock) continue;
    trouble.hint +=
        shown ? "all of them have room with " + (*stock)->option + size
              : "no stock has room for all of them; tags with " + (*stock)->option + size + " leave some out";
    return std::optional(std::move(trouble));
  }
  trouble.hint += "no stock has room for all of them: they have to be shorter";
  return std::optional(std::move(trouble));
}

}  // namespace counterfoil
