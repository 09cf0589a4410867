// Label sheets and the stacks that they come from: which labels a printing may take, what it leaves, and what a
// person says who looked into the drawer.
#pragma once

#include <functional>
#include <limits>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "custody/stack.h"
#include "sheet/sheet.h"
#include "workflow/desk.h"

namespace counterfoil {

inline constexpr int kNotSaid = std::numeric_limits<int>::min();

// As a person says it.
struct PaperTerms {
  std::string stack;        // the desk's own name of it; empty: nothing is remembered
  int start_at = kNotSaid;  // the first label that is left
  std::string spoiled;      // "7,9-10"; empty: none
};

using Stacks = std::map<std::string, Stack, std::less<>>;
Result<Stacks> stacks_on_record(const Desk& desk);

// The stock that a stack is known to hold; nothing for a stack that is new, or without one. Refuses when another
// stock is asked for: the sheets that lie there would not fit.
Result<std::optional<std::string>> stock_of_stack(const Desk& desk, const std::string& stack,
                                                  const std::string& asked);

// One printing's sheets. Made before the drawing and, for a stack, inside the transaction that logs it.
class PaperPlan {
 public:
  // Refuses a stack of a stock that has one label a page, such as a roll.
  static Result<PaperPlan> make(const Desk& desk, const PaperTerms& terms, const Stock& stock);

  const PartSheet& part() const { return part_; }
  bool is_remembered() const { return !before_.name.empty(); }
  // What the printing took. Precondition: the sheet was drawn on part().
  PaperUse use(const SheetReport& sheet) const;
  // What is left then.
  Stack after(const SheetReport& sheet) const;
  // For people: "starts at label 5 of the sheet on top of stack drawer 2; leaves 3 labels (6-8)". Empty for whole
  // sheets of no stack.
  std::string words(const SheetReport& sheet) const;

 private:
  Stack before_;
  PaperUse said_;
  PartSheet part_;
};

// What the top sheet had left for the newest printing that `is_meant` picks among those which took paper from a stack;
// nothing when there is none.
Result<std::optional<PartSheet>> part_as_printed(const Desk& desk,
                                                 const std::function<bool(const Event&)>& is_meant);

struct StackOrder {
  PaperTerms paper;
  bool new_sheet = false;  // a whole sheet lies on top: the one that was there is gone
  std::string stock;       // empty: as before
  std::string templates;   // folder with stocks/
  std::string by, reason;
};
// Logs what a person says of the sheet on top of a stack. Returns the stack as it is then; nothing, and nothing is logged,
// when a whole sheet is said to lie where one does.
Result<std::optional<Stack>> correct_stack(Desk& desk, const StackOrder& order);

// The label on the top sheet where the next pair would begin; nothing when that has no room for a pair, though single tags
// may have. Malformed when the stack's stock is none that `templates` has, but a file of a user's own.
Result<std::optional<int>> next_pair(const Stack& stack, const std::string& templates);

}  // namespace counterfoil
