#include "cli/help.h"

#include <algorithm>

namespace counterfoil {
namespace {

constexpr std::size_t kLineWidth = 96;

std::string left_part(const Option& option) {
  return option.name + (option.value.empty() ? "" : " " + option.value);
}

// Text behind a column of terms, broken at spaces.
std::string entry(const std::string& term, std::size_t column, const std::string& text) {
  std::string out = "  " + term;
  out += std::string(column > out.size() ? column - out.size() : 2, ' ');
  std::size_t at = out.size();
  std::string word;
  const auto put = [&] {
    if (at + word.size() > kLineWidth) {
      while (out.ends_with(' ')) out.pop_back();
      out += "\n" + std::string(column, ' ');
      at = column;
    }
    out += word + " ";
    at += word.size() + 1;
    word.clear();
  };
  for (const char c : text) {
    if (c == ' ')
      put();
    else
      word += c;
  }
  put();
  while (out.ends_with(' ')) out.pop_back();
  return out + "\n";
}

std::string options_text(const std::vector<Option>& options) {
  std::size_t column = 0;
  for (const auto& option : options) column = std::max(column, left_part(option).size() + 4);
  column = std::min<std::size_t>(column, 30);
  std::string out;
  for (const auto& option : options) out += entry(left_part(option), column, option.help);
  return out;
}

}  // namespace

std::string help_text(const std::vector<Command>& commands, const std::vector<Option>& global) {
  std::string out =
      "Example:\n  counterfoil desk hollow-creek --name \"Storeroom Hollow Creek\" --role storeroom --prefix "
      "K7\n"
      "  cd hollow-creek\n"
      "  counterfoil issue --turnaround TA26 --pockets pockets.csv\n"
      "  counterfoil print --turnaround TA26 --out tags.pdf\n\n"
      "counterfoil prints and follows the tags of compressor valves. Records and arithmetic only: the\n"
      "maker's manual, the site's procedure and qualified, licensed people decide.\n\n"
      "Usage: counterfoil COMMAND [OPTION]...\n\nCommands:\n";
  std::size_t column = 0;
  for (const auto& command : commands) column = std::max(column, command.name.size() + 4);
  for (const auto& command : commands) out += entry(command.name, column, command.summary);
  out += "\nOptions for every command:\n" + options_text(global);
  out +=
      "\nExit codes: 0 done; 1 the answer is no; 2 usage or malformed input; 3 cannot read or write; 4 a "
      "bug.\n"
      "Each command has a help of its own: counterfoil COMMAND --help\n";
  return out;
}

std::string help_text(const Command& command, const std::vector<Option>& global) {
  std::string out = command.examples.size() == 1 ? "Example:\n" : "Examples:\n";
  for (const auto& example : command.examples) out += "  " + example + "\n";
  out += "\n" + command.summary + "\n\nUsage: counterfoil " + command.name;
  for (const auto& positional : command.positionals)
    out += positional.required ? " " + positional.value : " [" + positional.value + "]";
  out += " [OPTION]...\n";
  if (!command.positionals.empty()) {
    out += "\n";
    std::size_t column = 0;
    for (const auto& positional : command.positionals) column = std::max(column, positional.value.size() + 4);
    for (const auto& positional : command.positionals)
      out += entry(positional.value, column, positional.help);
  }
  if (!command.options.empty()) out += "\nOptions:\n" + options_text(command.options);
  if (!command.notes.empty()) out += "\n" + command.notes + "\n";
  out += "\nOptions for every command:\n" + options_text(global);
  return out;
}

}  // namespace counterfoil
