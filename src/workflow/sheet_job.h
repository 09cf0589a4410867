// What a printing needs before its tags are known: the stock, the designs that go on it, the printer; and what is said when
// tags have no room there.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "sheet/sheet.h"
#include "workflow/desk.h"
#include "workflow/tag_items.h"

namespace counterfoil {

struct PrintTerms;

struct SheetJob {
  // Malformed: terms that do not go together or name what is not there. Refused, with the smallest stock that would do:
  // no design fits the stock.
  static Result<SheetJob> make(const Desk& desk, const PrintTerms& terms, std::string title);

  // Refused with all tags that have no room for a text, or the first that has none for its symbol; the hint names a stock
  // that has it.
  Result<SheetReport> draw(const std::vector<SheetItem>& items) const;

  // What draw() would say of texts; nothing where all have room.
  Result<std::optional<Error>> text_trouble(const std::vector<SheetItem>& items) const;

  SheetOrder order;
  TagItems tags;
  std::string templates;  // folder
};

}  // namespace counterfoil
