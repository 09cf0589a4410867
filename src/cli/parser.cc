#include "cli/parser.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <optional>

#include "base/nearest.h"
#include "base/text.h"
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

Error unknown_command(const std::string& typed, const std::vector<Command>& commands) {
  std::vector<std::string> names;
  for (const auto& command : commands) names.push_back(command.name);
  const std::string meant = nearest(typed, names);
  return malformed("there is no command \"" + typed + "\"",
                   meant.empty() ? "`counterfoil --help` lists the commands"
                                 : "did you mean `counterfoil " + meant + "`?");
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

// The options that may stand on a line, and what to say of them.
class Slips {
 public:
  Slips(const Command* command, const std::vector<Option>& global) : command_(command) {
    if (command != nullptr) options_ = command->options;
    options_.insert(options_.end(), global.begin(), global.end());
  }

  std::string see() const {
    return "see `counterfoil " + (command_ == nullptr ? std::string() : command_->name + " ") + "--help`";
  }

  // An option in the place of another's value, which the library would take for it.
  std::optional<Error> swallowed(int argc, const char* const* argv) const {
    for (int i = 1; i + 1 < argc; ++i) {
      const Option* option = find(argv[i]);
      if (option != nullptr && !option->value.empty() && find(argv[i + 1]) != nullptr)
        return no_value(*option);
    }
    return std::nullopt;
  }

  // What the library complains of, in our words; in its own where none of ours is known.
  Error plainer(const CLI::ParseError& error) const {
    std::string what = error.what();
    std::replace(what.begin(), what.end(), '\n', ' ');
    const auto behind_colon = what.find(": ");
    const std::string tail = behind_colon == std::string::npos ? what : what.substr(behind_colon + 2);
    if (dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr) return unknown(tail);
    if (dynamic_cast<const CLI::ConversionError*>(&error) != nullptr) {  // "Could not convert: --dpi = abc"
      const auto equals = tail.find(" = ");
      if (const Option* option = find(tail.substr(0, equals));
          option != nullptr && equals != std::string::npos)
        return no_number(*option, tail.substr(equals + 3));
    }
    if (const Option* option = find(what.substr(0, behind_colon)))  // "--dpi: 1 required FLOAT missing"
      return tail.ends_with(" missing") ? no_value(*option)
                                        : malformed(option->name + " is given more than once", see());
    return malformed(what, see());
  }

 private:
  const Option* find(std::string_view name) const {
    const auto found = std::find_if(options_.begin(), options_.end(),
                                    [&](const auto& option) { return option.name == name; });
    return found == options_.end() ? nullptr : &*found;
  }

  Error no_value(const Option& option) const {
    return malformed(option.name + " needs a value", taken_by(option));
  }

  Error no_number(const Option& option, const std::string& typed) const {
    if (option.value.empty()) return malformed(option.name + " takes no value", see());
    const bool whole = std::holds_alternative<int*>(option.target);
    return malformed(option.name + " takes a " + (whole ? "whole " : "") + "number, not \"" + typed + "\"",
                     taken_by(option));
  }

  static std::string taken_by(const Option& option) {
    return option.name + " " + option.value + ": " + option.help;
  }

  // Of several words the first that is meant as an option: the others may be what it takes.
  Error unknown(const std::string& words) const {
    const auto all = split(words, ' ');
    const auto typed =
        std::find_if(all.begin(), all.end(), [](const auto& word) { return word.starts_with('-'); });
    if (typed == all.end()) return malformed("not understood: " + words, see());
    std::vector<std::string> names;
    for (const auto& option : options_) names.push_back(option.name);
    const std::string of = command_ == nullptr ? std::string() : "`" + command_->name + "` has ";
    return malformed(of + (of.empty() ? "there is " : "") + "no option " + *typed,
                     did_you_mean(*typed, names) + see());
  }

  const Command* command_;
  std::vector<Option> options_;
};

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
  std::optional<Error> slip;
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    slip = Slips(named(), global).plainer(error);
  }
  if (auto swallowed = Slips(named(), global).swallowed(argc, argv)) slip = std::move(swallowed);
  // Help is given whatever else is wrong with the line.
  if (slip && !help) return *slip;
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
