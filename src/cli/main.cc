// counterfoil: parses the command line, runs one command, turns its outcome into an exit code.

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <exception>
#include <filesystem>
#include <iostream>

#include "base/file.h"
#include "base/text.h"
#include "cli/command.h"
#include "cli/output.h"
#include "cli/parser.h"

namespace counterfoil {
namespace {

constexpr std::uint64_t kLargestPassphraseBytes = 1024;

std::string environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? std::string() : std::string(value);
}

// The machine's clock with its offset from UTC, or a fixed time for rehearsals and tests.
class DeskClock : public Clock {
 public:
  explicit DeskClock(std::optional<Moment> fixed) : fixed_(fixed) {}
  Moment now() const override {
    if (fixed_) return *fixed_;
    const std::time_t seconds = std::time(nullptr);
    std::tm local{};
    localtime_r(&seconds, &local);
    const int offset_minutes = static_cast<int>(local.tm_gmtoff / 60);
    Moment moment = utc_from_seconds(seconds + offset_minutes * 60);
    moment.offset_minutes = offset_minutes;
    return moment;
  }

 private:
  std::optional<Moment> fixed_;
};

// Beside the program when it was installed, else where it was built from.
std::string templates_folder() {
  if (const auto named = environment("COUNTERFOIL_TEMPLATES"); !named.empty()) return named;
  std::error_code failure;
  const auto program = std::filesystem::read_symlink("/proc/self/exe", failure);
  const auto installed =
      program.parent_path().parent_path() / COUNTERFOIL_DATA_FOLDER / "counterfoil" / "templates";
  if (!failure && std::filesystem::is_directory(installed, failure)) return installed.string();
  return COUNTERFOIL_SOURCE_TEMPLATES;
}

Result<std::string> passphrase_from(const std::string& file) {
  if (file.empty()) return environment("COUNTERFOIL_PASSPHRASE");
  auto text = read_file(file, kLargestPassphraseBytes);
  if (!text) return text.error();
  std::string line = text->substr(0, text->find('\n'));
  if (line.ends_with('\r')) line.pop_back();
  if (line.empty()) return malformed("the passphrase file is empty: " + file);
  return line;
}

ExitCode fail(const Context& context, const Error& error) {
  show_error(context, error);
  return exit_code_of(error.kind);
}

ExitCode run(int argc, const char* const* argv) {
  Context context;
  std::string passphrase_file;
  context.ledger = environment("COUNTERFOIL_LEDGER");
  if (context.ledger.empty()) context.ledger = ".";
  const std::vector<Option> global = {
      {"--ledger", "PATH", "the desk's folder or ledger file; else COUNTERFOIL_LEDGER, else this folder",
       &context.ledger},
      {"--passphrase-file", "FILE", "first line: what the key is sealed with; else COUNTERFOIL_PASSPHRASE",
       &passphrase_file},
      {"--json", "", "JSON, one object a line", &context.json},
      {"--csv", "", "lists as CSV, for spreadsheets", &context.csv},
  };
  const auto commands = all_commands();
  auto line = parse_line(argc, argv, commands, global);
  if (!line) return fail(context, line.error());
  if (line->command == nullptr) {
    std::cout << line->text;
    return ExitCode::done;
  }
  if (context.csv && !line->command->lists)
    return fail(context, malformed("`" + line->command->name + "` makes no list, so --csv says nothing"));
  if (context.csv && context.json) return fail(context, malformed("--csv and --json exclude each other"));
  std::optional<Moment> fixed;
  if (const auto named = environment("COUNTERFOIL_NOW"); !named.empty()) {
    auto moment = parse_moment(named);
    if (!moment || !moment->offset_minutes)
      return fail(context, malformed("COUNTERFOIL_NOW is not a time with an offset: \"" + named + "\""));
    fixed = *moment;
  }
  const DeskClock clock(fixed);
  context.clock = &clock;
  context.steady_seconds = [still = fixed.has_value()] {
    const auto since = std::chrono::steady_clock::now().time_since_epoch();
    return still ? 0.0 : std::chrono::duration<double>(since).count();
  };
  context.templates = templates_folder();
  auto passphrase = passphrase_from(passphrase_file);
  if (!passphrase) return fail(context, passphrase.error());
  context.passphrase = *passphrase;
  auto outcome = line->command->run(context);
  if (!outcome) return fail(context, outcome.error());
  std::cout.flush();
  if (!std::cout) return fail({}, unreadable("cannot write to standard output"));
  return *outcome;
}

}  // namespace
}  // namespace counterfoil

int main(int argc, char** argv) {
  try {
    return static_cast<int>(counterfoil::run(argc, argv));
  } catch (const std::exception& error) {
    std::cerr << "counterfoil: a bug of ours, not yours: " << error.what() << '\n';
    return static_cast<int>(counterfoil::ExitCode::bug);
  }
}
