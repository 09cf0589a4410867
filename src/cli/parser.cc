#include "cli/parser.h"

#include <CLI/CLI.hpp>
#include <algorithm>

#include "cli/help.h"

namespace counterfoil {
namespace {

void add(CLI::App& app, const Option& option) {
  std::visit(
      [&](auto* target) {
        using Target = std::remove_pointer_t<decltype(target)>;
        if constexpr (std::is_same_v<Target, bool>)
          app.add_flag(option.name, *target);
        else if constexpr (std::is_same_v<Target, std::vector<std::string>>)
          app.add_option(option.name, *target)->expected(1)->take_all()->allow_extra_args(false);
        else
          app.add_option(option.name, *target);
      },
      option.target);
}

// Edit distance, to guess what a mistyped command was meant to be.
std::size_t distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t corner = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t swap = corner + (a[i - 1] == b[j - 1] ? 0 : 1);
      corner = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, swap});
    }
  }
  return row[b.size()];
}

Error unknown_command(const std::string& typed, const std::vector<Command>& commands) {
  const auto nearest = std::min_element(commands.begin(), commands.end(), [&](const auto& a, const auto& b) {
    return distance(a.name, typed) < distance(b.name, typed);
  });
  const bool close = distance(nearest->name, typed) <= 2;
  return malformed("there is no command \"" + typed + "\"",
                   close ? "did you mean `counterfoil " + nearest->name + "`?"
                         : "`counterfoil --help` lists the commands");
}

// The words that are no options, to the positionals: one each, the rest to one that takes many.
Result<void> hand_out(const std::vector<std::string>& words, const Command& command) {
  const std::string see = "see `counterfoil " + command.name + " --help`";
  auto word = words.begin();
  for (const auto& positional : command.positionals) {
    const bool many = positional.value.ends_with("...");
    while (word != words.end() && (many || positional.target->empty())) positional.target->push_back(*word++);
    if (positional.required && positional.target->empty())
      return malformed("`" + command.name + "` needs " + positional.value + ": " + positional.help, see);
  }
  if (word != words.end()) return malformed("not understood: " + *word, see);
  return {};
}

// The library's words for the commonest slips, in plainer ones.
Error plainer(const CLI::ParseError& error, const std::string& command) {
  std::string what = error.what();
  std::replace(what.begin(), what.end(), '\n', ' ');
  if (dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr)
    what = "not understood: " + what.substr(what.find(':') == std::string::npos ? 0 : what.find(':') + 2);
  else if (dynamic_cast<const CLI::ConversionError*>(&error) != nullptr)
    what = "not a number: " + what.substr(what.find(':') == std::string::npos ? 0 : what.find(':') + 2);
  else if (!what.empty() && what[0] >= 'A' && what[0] <= 'Z')
    what[0] = static_cast<char>(what[0] - 'A' + 'a');
  return malformed(what, "see `counterfoil " + command + (command.empty() ? "" : " ") + "--help`");
}

}  // namespace

Result<ParsedLine> parse_line(int argc, const char* const* argv, const std::vector<Command>& commands,
                              const std::vector<Option>& global) {
  CLI::App app;
  app.set_help_flag();
  bool help = false;
  bool version = false;
  std::vector<std::string> words;  // all that are no options
  app.fallthrough();
  app.add_flag("-h,--help", help);
  app.add_flag("--version", version);
  for (const auto& option : global) add(app, option);
  for (const auto& command : commands) {
    CLI::App* sub = app.add_subcommand(command.name);
    sub->set_help_flag();
    sub->fallthrough();
    for (const auto& option : command.options) add(*sub, option);
    sub->add_option("words", words);
  }
  const auto named = [&]() -> const Command* {
    for (const auto& command : commands)
      if (app.got_subcommand(command.name)) return &command;
    return nullptr;
  };
  // A first word that is no command and no option: say so before the library complains of the rest.
  if (argc == 2 && std::string_view(argv[1]) == "help")
    return ParsedLine{nullptr, help_text(commands, global)};
  if (argc > 1 && argv[1][0] != '-' &&
      std::none_of(commands.begin(), commands.end(), [&](const auto& c) { return c.name == argv[1]; }))
    return unknown_command(argv[1], commands);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    // Help is given whatever else is wrong with the line.
    if (!help) return plainer(error, named() == nullptr ? "" : named()->name);
  }
  if (version) return ParsedLine{nullptr, "counterfoil " COUNTERFOIL_VERSION "\n"};
  const Command* command = named();
  if (help)
    return ParsedLine{nullptr,
                      command == nullptr ? help_text(commands, global) : help_text(*command, global)};
  if (command == nullptr) return malformed("no command was given", "`counterfoil --help` lists the commands");
  if (auto done = hand_out(words, *command); !done) return done.error();
  return ParsedLine{command, {}};
}

}  // namespace counterfoil
