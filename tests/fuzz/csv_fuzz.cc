// A table that is read is rectangular, and its rows come back from their written records.
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>
#include <vector>

#include "base/csv.h"

using namespace counterfoil;

// With the apostrophe that keeps a spreadsheet from running it.
static bool is_same_or_guarded(std::string_view written, std::string_view field) {
  return written == field || (written.starts_with("'") && written.substr(1) == field);
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto table = parse_csv({reinterpret_cast<const char*>(data), size});
  if (!table) return 0;
  if (table->rows.size() != table->lines.size()) std::abort();
  std::vector<std::string> names;
  for (std::size_t i = 0; i < table->header.size(); ++i) names.push_back("c" + std::to_string(i));
  std::string written = csv_record(names);
  for (const auto& row : table->rows) {
    if (row.size() != table->header.size()) std::abort();
    written += csv_record(row);
  }
  const auto again = parse_csv(written);
  if (!again || again->rows.size() != table->rows.size()) std::abort();
  for (std::size_t i = 0; i < table->rows.size(); ++i)
    for (std::size_t j = 0; j < names.size(); ++j)
      if (!is_same_or_guarded(again->rows[i][j], table->rows[i][j])) std::abort();
  return 0;
}
