#include "base/nearest.h"

#include <algorithm>

#include "base/text.h"

namespace counterfoil {
namespace {

constexpr std::size_t kMostSlips = 2;

// Edit distance with neighbours swapped as one slip (optimal string alignment).
std::size_t slips(std::string_view a, std::string_view b) {
  std::vector<std::vector<std::size_t>> row(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i)
    for (std::size_t j = 0; j <= b.size(); ++j) {
      if (i == 0 || j == 0) {
        row[i][j] = i + j;
        continue;
      }
      row[i][j] = std::min({row[i - 1][j] + 1, row[i][j - 1] + 1,
                            row[i - 1][j - 1] + static_cast<std::size_t>(a[i - 1] != b[j - 1])});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        row[i][j] = std::min(row[i][j], row[i - 2][j - 2] + 1);
    }
  return row[a.size()][b.size()];
}

}  // namespace

std::string nearest(std::string_view typed, const std::vector<std::string>& known) {
  if (!is_utf8(typed)) return {};
  const std::string wanted = folded(typed);
  const std::size_t most = std::min(kMostSlips, wanted.size() / 3);
  std::string found;
  std::size_t fewest = most + 1;
  for (const auto& name : known) {
    const std::string other = folded(name);
    if (std::max(other.size(), wanted.size()) - std::min(other.size(), wanted.size()) >= fewest) continue;
    if (const std::size_t between = slips(wanted, other); between < fewest) {
      fewest = between;
      found = name;
    }
  }
  return found;
}

std::string did_you_mean(std::string_view typed, const std::vector<std::string>& known) {
  const std::string name = nearest(typed, known);
  return name.empty() ? name : "did you mean " + name + "? ";
}

std::string listed(const std::vector<std::string>& names) {
  std::string all;
  for (const auto& name : names) all += (all.empty() ? "" : ", ") + name;
  return all;
}

}  // namespace counterfoil
