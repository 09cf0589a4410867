// A table that is read is rectangular, and its rows come back from their written records.
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "base/csv.h"

using namespace counterfoil;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto table = parse_csv({reinterpret_cast<const char*>(data), size});
  if (!table) return 0;
  if (table->rows.size() != table->lines.size()) std::abort();
  std::string written = csv_record(table->header);
  for (const auto& row : table->rows) {
    if (row.size() != table->header.size()) std::abort();
    written += csv_record(row);
  }
  const auto again = parse_csv(written);
  if (!again || again->rows.size() != table->rows.size()) std::abort();
  return 0;
}
