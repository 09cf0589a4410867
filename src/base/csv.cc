#include "base/csv.h"

#include <algorithm>
#include <utility>

#include "base/text.h"

namespace counterfoil {
namespace {

bool is_number(std::string_view field) {
  const auto digits = field.substr(field.starts_with('-') || field.starts_with('+') ? 1 : 0);
  return !digits.empty() && digits.find_first_not_of("0123456789.") == std::string_view::npos;
}

// By the first line that is not blank.
char separator_of(std::string_view text) {
  text.remove_prefix(std::min(text.find_first_not_of("\r\n"), text.size()));
  const auto line = text.substr(0, text.find_first_of("\r\n"));
  for (const char c : {',', ';', '\t'})
    if (line.find(c) != std::string_view::npos) return c;
  return ',';
}

std::string on_line(std::size_t line) { return "line " + std::to_string(line); }

// Reads one table, character by character.
class Reader {
 public:
  explicit Reader(std::string_view text) : text_(text), separator_(separator_of(text)) {}

  Result<CsvTable> read() {
    for (at_ = 0; at_ < text_.size(); ++at_) {
      const char c = text_[at_];
      if (c == '\0') return malformed(on_line(line_) + " holds a NUL byte");
      auto taken = in_quotes_ ? take_quoted(c) : take_bare(c);
      if (!taken) return taken.error();
    }
    if (in_quotes_) return malformed(on_line(record_line_) + " opens a quote that nothing closes");
    if (auto done = end_record(); !done) return done.error();
    if (table_.header.empty()) return malformed("the file is empty");
    return std::move(table_);
  }

 private:
  bool next_is(char c) const { return at_ + 1 < text_.size() && text_[at_ + 1] == c; }

  Result<void> take_quoted(char c) {
    if (c == '\n') ++line_;
    if (c != '"') {
      field_ += c;
    } else if (next_is('"')) {
      field_ += c;
      ++at_;
    } else {
      in_quotes_ = false;
    }
    return {};
  }

  Result<void> take_bare(char c) {
    if (c == '\r' || c == '\n') {
      if (c == '\r' && next_is('\n')) ++at_;
      ++line_;
      return end_record();
    }
    if (c == separator_) {
      end_field();
    } else if (was_quoted_) {
      if (c != ' ' && c != '\t') return malformed(on_line(line_) + " has text behind a closing quote");
    } else if (c == '"' && trimmed(field_).empty()) {
      field_.clear();
      in_quotes_ = was_quoted_ = true;
    } else {
      field_ += c;
    }
    return {};
  }

  void end_field() {
    fields_.emplace_back(was_quoted_ ? std::string_view(field_) : trimmed(field_));
    field_.clear();
    was_quoted_ = false;
  }

  Result<void> end_record() {
    end_field();
    auto fields = std::exchange(fields_, {});
    const std::size_t line = std::exchange(record_line_, line_);
    if (std::all_of(fields.begin(), fields.end(), [](const auto& field) { return field.empty(); })) return {};
    if (table_.header.empty()) return take_header(std::move(fields));
    if (fields.size() != table_.header.size())
      return malformed(on_line(line) + " has " + counted(fields.size(), "field") + ", the header has " +
                       std::to_string(table_.header.size()));
    table_.rows.push_back(std::move(fields));
    table_.lines.push_back(line);
    return {};
  }

  Result<void> take_header(std::vector<std::string> names) {
    for (auto& name : names) {
      name = to_lower(trimmed(name));
      if (!name.empty() && table_.column(name) != CsvTable::npos)
        return malformed("the header has two columns \"" + name + "\"");
      table_.header.push_back(std::move(name));
    }
    return {};
  }

  std::string_view text_;
  char separator_;
  CsvTable table_;
  std::vector<std::string> fields_;
  std::string field_;
  std::size_t at_ = 0;
  std::size_t line_ = 1;
  std::size_t record_line_ = 1;  // the line that the open record began on
  bool in_quotes_ = false;
  bool was_quoted_ = false;  // the open field began with a quote
};

}  // namespace

std::size_t CsvTable::column(std::string_view name) const {
  const auto found = std::find(header.begin(), header.end(), name);
  return found == header.end() ? npos : static_cast<std::size_t>(found - header.begin());
}

Result<CsvTable> parse_csv(std::string_view text) {
  if (text.starts_with("\xef\xbb\xbf")) text.remove_prefix(3);
  if (!is_utf8(text))
    return malformed("the file is not UTF-8 text", "save it from the spreadsheet as CSV UTF-8");
  return Reader(text).read();
}

std::string csv_record(const std::vector<std::string>& fields) {
  std::string out;
  for (std::size_t i = 0; i < fields.size(); ++i) {
    if (i > 0) out += ',';
    std::string field = fields[i];
    if (!field.empty() && std::string_view("=+-@\t\r").find(field[0]) != std::string_view::npos &&
        !is_number(field))
      field.insert(0, "'");
    if (field.find_first_of(",\"\r\n") == std::string::npos && trimmed(field) == field) {
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
