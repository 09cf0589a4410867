// Comma-separated values as RFC 4180 has them, in and out. Reading also takes what spreadsheets write:
// semicolons or tabs between the fields when the header line has those and no comma, LF or CR line ends, a
// byte order mark, and lines of nothing but separators.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace counterfoil {

struct CsvTable {
  std::vector<std::string> header;             // trimmed, lower case, no name twice
  std::vector<std::vector<std::string>> rows;  // each as long as the header; without rows of only empty
                                               // fields; fields trimmed unless they were quoted
  std::vector<std::size_t> lines;              // the line of the file, from 1, that each row starts on

  // The column of that name, or npos.
  static constexpr std::size_t npos = static_cast<std::size_t>(-1);
  std::size_t column(std::string_view name) const;
};

// Errors name the line.
Result<CsvTable> parse_csv(std::string_view text);

// One record with its CRLF; fields are quoted where they must be. A field that a spreadsheet would run as a
// formula
// (=, +, -, @, tab or CR first) gets an apostrophe in front, as the common guard has it, unless it is a
// number.
std::string csv_record(const std::vector<std::string>& fields);

}  // namespace counterfoil
