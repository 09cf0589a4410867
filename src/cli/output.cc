#include "cli/output.h"

#include <algorithm>
#include <iostream>

#include "base/csv.h"

namespace counterfoil {
namespace {

std::string text_of(const Json& value) {
  if (const auto* text = value.string()) return *text;
  if (const auto* integer = value.integer()) return std::to_string(*integer);
  if (const auto* flag = value.boolean()) return *flag ? "yes" : "no";
  return {};
}

// Code points, which is what a terminal shows of the scripts that names here are written in, one cell each.
std::size_t width_of(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(
      text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xc0) != 0x80; }));
}

void show_text(const Table& table) {
  std::vector<std::size_t> shown;
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    const bool used = std::any_of(table.rows.begin(), table.rows.end(),
                                  [&](const auto& row) { return !text_of(row[c]).empty(); });
    if (!table.columns[c].heading.empty() && used) shown.push_back(c);
  }
  std::vector<std::size_t> widths;
  for (const auto c : shown) {
    std::size_t width = width_of(table.columns[c].heading);
    for (const auto& row : table.rows) width = std::max(width, width_of(text_of(row[c])));
    widths.push_back(width);
  }
  const auto line = [&](auto cell) {
    std::string out;
    for (std::size_t i = 0; i < shown.size(); ++i) {
      const std::string text = cell(shown[i]);
      out += text;
      if (i + 1 < shown.size()) out += std::string(widths[i] - width_of(text) + 2, ' ');
    }
    while (out.ends_with(' ')) out.pop_back();
    std::cout << out << '\n';
  };
  if (table.rows.empty()) return;
  line([&](std::size_t c) { return table.columns[c].heading; });
  for (const auto& row : table.rows) line([&](std::size_t c) { return text_of(row[c]); });
}

void show_csv(const Table& table) {
  std::vector<std::string> fields;
  for (const auto& column : table.columns) fields.push_back(column.key);
  std::cout << csv_record(fields);
  for (const auto& row : table.rows) {
    fields.clear();
    for (const auto& value : row) fields.push_back(text_of(value));
    std::cout << csv_record(fields);
  }
}

}  // namespace

void show(const Context& context, const Table& table) {
  if (context.csv) return show_csv(table);
  if (!context.json) return show_text(table);
  for (const auto& row : table.rows) {
    Json::Object object;
    for (std::size_t c = 0; c < table.columns.size(); ++c) object.emplace(table.columns[c].key, row[c]);
    show_json(object);
  }
}

void show_json(const Json::Object& object) { std::cout << canonical_json(Json(object)) << '\n'; }

void say(std::string_view line) { std::cout << line << '\n'; }

void show_error(const Context& context, const Error& error) {
  std::cerr << "counterfoil: " << error.message << '\n';
  if (!error.hint.empty()) std::cerr << "  " << error.hint << '\n';
  if (context.json) show_json({{"error", error.message}, {"hint", error.hint}});
}

void show_note(std::string_view text) { std::cerr << "note: " << text << '\n'; }

std::string quoted(const std::string& word) {
  if (!word.empty() && word.find_first_of(" \t\"'\\$`&;|<>()*?[]#~!") == std::string::npos) return word;
  std::string out = "\"";
  for (const char c : word) {
    if (c == '"' || c == '\\' || c == '$' || c == '`') out += '\\';
    out += c;
  }
  return out + "\"";
}

std::string short_time(const Moment& moment) {
  std::string text = to_text(moment).substr(0, 16);
  text[10] = ' ';
  return text;
}

}  // namespace counterfoil
