// What people and scripts see: tables, JSON lines, CSV, errors. Data to standard output, messages to standard
// error.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/json.h"
#include "base/result.h"
#include "cli/command.h"

namespace counterfoil {

struct Column {
  std::string key;      // in JSON and CSV
  std::string heading;  // for people; empty: for scripts only
};

// Rows of strings and integers; null is an empty cell.
struct Table {
  std::vector<Column> columns;
  std::vector<std::vector<Json>> rows;
};

// As the context asks: aligned text, CSV with its header line, or one JSON object a line.
void show(const Context& context, const Table& table);

// One JSON object on one line of standard output.
void show_json(const Json::Object& object);

// A line of plain text on standard output.
void say(std::string_view line);

// On standard error: "counterfoil: message", and the hint on a line of its own. With --json also an object on
// standard output, so that a script which reads only that sees it.
void show_error(const Context& context, const Error& error);

// "note: ..." on standard error.
void show_note(std::string_view text);

// As a shell takes it as one word: in double quotes where that is needed.
std::string quoted(const std::string& word);

// A time for people: "2026-11-25 09:30", seconds and zone left to --json.
std::string short_time(const Moment& moment);

}  // namespace counterfoil
