// Stacks of label sheets, as a person has them in a drawer: what the top sheet has left. Computed from the
// events that took sheets or looked at them, and kept nowhere. Pure: no store, no clock.
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "custody/record.h"

namespace counterfoil {

struct Stack {
  std::string name;          // the desk's own
  std::string stock;         // of the sheets that lie there now
  int labels = 0;            // on one sheet
  std::set<int> gone;        // used or spoiled on the top sheet, counted from 1; never all of them
  std::uint64_t sheets = 0;  // that have left the stack: full, or thrown away begun
  EventRef last;             // the newest event about it

  bool is_begun() const { return !gone.empty(); }
  int left() const { return labels - static_cast<int>(gone.size()); }
  int next() const;  // the first label that is left
  std::vector<int> labels_left() const;
};

// What the top sheet has left after this, printed or only said. Another stock than before: a new stack under
// the old name. A stated first label replaces what was known of the top sheet; the first of all says that a whole
// sheet lies on top.
void take_from(Stack& stack, const PaperUse& paper);

// The stacks of the desk with that log, by name. Events of other desks speak of other drawers.
std::map<std::string, Stack, std::less<>> stacks_of(const std::vector<LoggedEvent>& events,
                                                    const std::string& origin);

// "4", "5-8", "1-3, 7": labels in order for sentences.
std::string label_words(const std::vector<int>& labels);
// The way back, from what a person types: "7,9-10". Malformed: anything else, labels under 1 or over
// kMostLabels. Sorted, each once.
Result<std::vector<int>> parse_labels(std::string_view text);

}  // namespace counterfoil
