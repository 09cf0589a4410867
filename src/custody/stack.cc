#include "custody/stack.h"

#include <charconv>
#include <optional>

#include "base/text.h"

namespace counterfoil {
namespace {

std::optional<int> parse_label(std::string_view text) {
  int label = 0;
  const auto digits = trimmed(text);
  const auto [end, failure] = std::from_chars(digits.data(), digits.data() + digits.size(), label);
  if (digits.empty() || failure != std::errc() || end != digits.data() + digits.size() || label < 1 ||
      label > kMostLabels)
    return std::nullopt;
  return label;
}

}  // namespace

int Stack::next() const {
  int label = 1;
  while (gone.contains(label)) ++label;
  return label;
}

std::vector<int> Stack::labels_left() const {
  std::vector<int> out;
  for (int label = 1; label <= labels; ++label)
    if (!gone.contains(label)) out.push_back(label);
  return out;
}

void take_from(Stack& stack, const PaperUse& paper) {
  if (stack.stock != paper.stock || stack.labels != paper.labels) {
    if (stack.is_begun()) ++stack.sheets;
    stack.stock = paper.stock;
    stack.labels = paper.labels;
    stack.gone.clear();
  }
  if (paper.first) {
    if (*paper.first == 1 && stack.is_begun()) ++stack.sheets;
    stack.gone.clear();
    for (int label = 1; label < *paper.first; ++label) stack.gone.insert(label);
  }
  stack.gone.insert(paper.spoiled.begin(), paper.spoiled.end());
  if (paper.sheets > 1) {
    stack.sheets += static_cast<std::uint64_t>(paper.sheets - 1);
    stack.gone.clear();
  }
  stack.gone.insert(paper.used.begin(), paper.used.end());
  if (stack.left() > 0) return;
  ++stack.sheets;
  stack.gone.clear();
}

std::map<std::string, Stack, std::less<>> stacks_of(const std::vector<LoggedEvent>& events,
                                                    const std::string& origin) {
  std::map<std::string, Stack, std::less<>> stacks;
  for (const auto& logged : events) {
    if (!logged.event.paper || logged.ref.origin != origin) continue;
    Stack& stack = stacks[logged.event.paper->stack];
    stack.name = logged.event.paper->stack;
    take_from(stack, *logged.event.paper);
    stack.last = logged.ref;
  }
  return stacks;
}

std::string label_words(const std::vector<int>& labels) {
  std::string out;
  for (std::size_t i = 0; i < labels.size();) {
    std::size_t end = i + 1;
    while (end < labels.size() && labels[end] == labels[end - 1] + 1) ++end;
    out += (out.empty() ? "" : ", ") + std::to_string(labels[i]);
    if (end > i + 1) out += "-" + std::to_string(labels[end - 1]);
    i = end;
  }
  return out;
}

Result<std::vector<int>> parse_labels(std::string_view text) {
  std::set<int> labels;
  for (const auto& part : split(text, ',')) {
    const auto dash = part.find('-');
    const auto first = parse_label(part.substr(0, dash));
    const auto last = dash == std::string::npos ? first : parse_label(part.substr(dash + 1));
    if (!first || !last)
      return malformed("\"" + part + "\" is not a label of a sheet",
                       "count labels from 1, row by row from the top left, as in 7,9-10");
    if (*last < *first)
      return malformed("\"" + part + "\" goes backwards",
                       "write " + std::to_string(*last) + "-" + std::to_string(*first));
    for (int label = *first; label <= *last; ++label) labels.insert(label);
  }
  return std::vector<int>(labels.begin(), labels.end());
}

}  // namespace counterfoil
