// What one printing puts on its tags: what the record knows of a valve, in the words that a tag shows, on the largest
// designs that fit the stock, with the standing words in a second language where one is asked for.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "custody/event.h"
#include "custody/record.h"
#include "sheet/sheet.h"
#include "sheet/words.h"
#include "workflow/desk.h"

namespace counterfoil {

struct PrintTerms;

class TagItems {
 public:
  // `desk` has to outlive this object.
  static Result<TagItems> open(const Desk& desk, const PrintTerms& terms, const Stock& stock);

  // "bag", "spare-box", "label": chosen when first asked for.
  Result<Design> design(const std::string& kind);

  // A pair, or the label of a valve that is not tracked.
  Result<SheetItem> of(const ValveTrip& trip);
  Result<SheetItem> half_of(const ValveTrip& trip, Half half);
  Result<SheetItem> label_of(const Event& removal);

  const std::string& size() const { return size_; }  // of designs; empty: any

  // The same tags on another stock, with the designs of that size, or the largest there when it is empty.
  Result<void> refit(const Stock& stock, const std::string& size, SheetOrder& order,
                     std::vector<SheetItem>& items) const;

 private:
  TagItems(const Desk& desk, std::string folder, std::string size, Box place, std::optional<Words> words)
      : desk_(&desk),
        folder_(std::move(folder)),
        size_(std::move(size)),
        place_(place),
        words_(std::move(words)) {}

  Result<SheetItem> pair_of(const ValveTrip& trip);
  TagContent content_of(const ValveTrip& trip, Half half, int copy) const;
  Result<void> change(const TagItems& other, Design& design);

  const Desk* desk_;
  std::string folder_, size_;
  Box place_;  // that every tag has on the stock
  std::optional<Words> words_;
  std::map<std::string, Design> chosen_;
};

}  // namespace counterfoil
