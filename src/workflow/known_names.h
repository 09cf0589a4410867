// Names as people type them against names as the record has them. A pocket or a serial that is spelled a little
// otherwise (case, blanks, dashes) is the same thing; taken for another one it would slip past the side check and split
// the history.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "custody/record.h"

namespace counterfoil {

class KnownNames {
 public:
  // The record must outlive this.
  explicit KnownNames(const Record& record) : record_(record) {}

  // The pocket as the record spells it; nothing when the record has none that can be meant.
  std::optional<Pocket> pocket(const std::string& unit, const std::string& name) const;
  // Units that have a pocket of that name.
  std::vector<std::string> units_with(const std::string& pocket_name) const;
  // Pockets of that unit, as the record spells them; empty when the unit is not known.
  std::vector<std::string> pockets_of(const std::string& unit) const;
  // The serial as the record spells it.
  std::optional<std::string> serial(const std::string& typed) const;

 private:
  std::vector<Pocket> pockets() const;
  const Record& record_;
};

}  // namespace counterfoil
