// Tables for people: columns as wide as they need to be. And the order statistics that go in them.
#pragma once

#include <algorithm>
#include <cstdio>
#include <string>
#include <vector>

namespace counterfoil {

// The smallest value that at least that share (0 < share <= 1) of all values do not exceed: nearest rank.
// 0 when there are none.
inline double percentile(std::vector<double> values, double share) {
  if (values.empty()) return 0;
  std::sort(values.begin(), values.end());
  const double rank = share * static_cast<double>(values.size());
  std::size_t index = static_cast<std::size_t>(rank);
  if (static_cast<double>(index) == rank && index > 0) --index;
  return values[std::min(index, values.size() - 1)];
}

// "12.3"
inline std::string fixed(double value, int decimals) {
  char text[64];
  std::snprintf(text, sizeof text, "%.*f", decimals, value);
  return text;
}

// "66.7" for 2 of 3; "-" of none.
inline std::string percent(std::size_t part, std::size_t whole, int decimals = 1) {
  if (whole == 0) return "-";
  return fixed(100.0 * static_cast<double>(part) / static_cast<double>(whole), decimals);
}

class TextTable {
 public:
  using Row = std::vector<std::string>;

  void add(Row row) { rows_.push_back(std::move(row)); }

  // The first column from the left, the others from the right, two spaces between; every line ends in a line
  // feed and not in spaces. Rows may be of different lengths.
  std::string text() const {
    std::vector<std::size_t> widths;
    for (const Row& row : rows_) {
      widths.resize(std::max(widths.size(), row.size()));
      for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], row[i].size());
    }
    std::string out;
    for (const Row& row : rows_) {
      std::string line;
      for (std::size_t i = 0; i < row.size(); ++i) {
        const std::string space(widths[i] - row[i].size(), ' ');
        if (i > 0) line += "  ";
        line += i == 0 ? row[i] + space : space + row[i];
      }
      line.erase(line.find_last_not_of(' ') + 1);
      out += line + '\n';
    }
    return out;
  }

 private:
  std::vector<Row> rows_;
};

}  // namespace counterfoil
