#include "base/csv.h"

#include <algorithm>

#include "base/text.h"

namespace counterfoil {
namespace {

bool is_number(std::string_view field) {
  const auto digits = field.substr(field.starts_with('-') || field.starts_with('+') ? 1 : 0);
  return !digits.empty() && digits.find_first_not_of("0123456789.") == std::string_view::npos;
}

char separator_of(std::string_view text) {
  const auto line = text.substr(0, text.find('\n'));
  for (const char c : {',', ';', '\t'})
    if (line.find(c) != std::string_view::npos) return c;
  return ',';
}

}  // namespace

std::size_t CsvTable::column(std::string_view name) const {
  const auto found = std::find(header.begin(), header.end(), name);
  return found == header.end() ? npos : static_cast<std::size_t>(found - header.begin());
}

Result<CsvTable> parse_csv(std::string_view text) {
  if (text.starts_with("\xef\xbb\xbf")) text.remove_prefix(3);
  if (!is_utf8(text)) return malformed("the file is not UTF-8 text", "save it from the spreadsheet as CSV UTF-8");
  const char separator = separator_of(text);
  CsvTable table;
  std::vector<std::string> fields;
  std::string field;
  std::size_t line = 1;
  std::size_t record_line = 1;
  bool quoted = false;      // inside quotes
  bool was_quoted = false;  // the field began with one
  const auto end_field = [&] {
    fields.emplace_back(was_quoted ? field : std::string(trimmed(field)));
    field.clear();
    was_quoted = false;
  };
  const auto end_record = [&]() -> Result<void> {
    end_field();
    const bool blank = fields.size() == 1 && fields[0].empty();
    if (!blank && table.header.empty()) {
      for (auto& name : fields) name = to_lower(trimmed(name));
      table.header = std::move(fields);
    } else if (!blank) {
      if (fields.size() != table.header.size())
        return malformed("line " + std::to_string(record_line) + " has " + counted(fields.size(), "field") +
                         ", the header has " + std::to_string(table.header.size()));
      table.rows.push_back(std::move(fields));
      table.lines.push_back(record_line);
    }
    fields.clear();
    return {};
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '\0') return malformed("line " + std::to_string(line) + " holds a NUL byte");
    if (c == '\n') ++line;
    if (quoted) {
      if (c != '"') {
        field += c;
      } else if (i + 1 < text.size() && text[i + 1] == '"') {
        field += '"';
        ++i;
      } else {
        quoted = false;
      }
    } else if (c == '"' && trimmed(field).empty() && !was_quoted) {
      field.clear();
      quoted = was_quoted = true;
    } else if (c == separator) {
      end_field();
    } else if (c == '\n') {
      if (auto done = end_record(); !done) return done.error();
      record_line = line;
    } else if (c != '\r' && !(was_quoted && (c == ' ' || c == '\t'))) {
      if (was_quoted) return malformed("line " + std::to_string(line) + " has text behind a closing quote");
      field += c;
    }
  }
  if (quoted) return malformed("line " + std::to_string(record_line) + " opens a quote that nothing closes");
  if (auto done = end_record(); !done) return done.error();
  if (table.header.empty()) return malformed("the file is empty");
  return table;
}

std::string csv_record(const std::vector<std::string>& fields) {
  std::string out;
  for (std::size_t i = 0; i < fields.size(); ++i) {
    if (i > 0) out += ',';
    std::string field = fields[i];
    if (!field.empty() && std::string_view("=+-@\t\r").find(field[0]) != std::string_view::npos && !is_number(field))
      field.insert(0, "'");
    if (field.find_first_of(",\"\r\n") == std::string::npos) {
      out += field;
      continue;
    }
    out += '"';
    for (const char c : field) out += c == '"' ? std::string("\"\"") : std::string(1, c);
    out += '"';
  }
  return out + "\r\n";
}

}  // namespace counterfoil
