#include <chrono>

#include "base/text.h"
#include "cli/command.h"
#include "cli/output.h"
#include "workflow/read.h"

namespace counterfoil {
namespace {

struct Options {
  std::vector<std::string> files;
  bool any = false;
};

Json corners_of(const PhotoCode& code) {
  Json::Array corners;
  // Tenths of a pixel: finer is not measured.
  const auto tenths = [](double v) {
    return Json(static_cast<double>(static_cast<long long>(v * 10 + (v < 0 ? -0.5 : 0.5))) / 10);
  };
  for (const auto& corner : code.corners)
    corners.emplace_back(Json::Array{tenths(corner.x), tenths(corner.y)});
  return Json(std::move(corners));
}

Json code_of(const TagSeen& seen) {
  Json::Object code{
      {"text", seen.code.text}, {"symbology", seen.code.symbology}, {"number", Json()},      {"half", Json()},
      {"copy", Json()},         {"corners", corners_of(seen.code)}, {"pass", seen.code.pass}};
  if (seen.payload) {
    code["number"] = seen.payload->number.text();
    code["copy"] = seen.payload->copy;
    if (seen.payload->half != Half::label) code["half"] = to_text(seen.payload->half);
  }
  return Json(std::move(code));
}

std::string line_of(const TagSeen& seen) {
  if (seen.payload) {
    std::string line = seen.payload->number.grouped() + "  ";
    line += seen.payload->half == Half::label ? "identification label"
                                              : std::string(to_text(seen.payload->half)) + " half";
    if (seen.payload->copy > 1) line += ", copy " + std::to_string(seen.payload->copy);
    return line;
  }
  const auto parsed = parse_payload(seen.code.text);
  const bool damaged = !parsed && parsed.error().kind == ErrorKind::malformed;
  return seen.code.symbology + " \"" + seen.code.text + "\"  " +
         (damaged ? "like a tag of ours, but " + parsed.error().message : "not a tag of ours");
}

Result<ExitCode> run(const Options& options, const Context& context) {
  bool all_read = true;
  bool all_opened = true;
  for (const auto& file : options.files) {
    const auto start = std::chrono::steady_clock::now();
    const auto reading = read_tags(file, options.any ? Sought::any : Sought::ours);
    const auto ms =
        std::chrono::duration_cast<std::chrono::milliseconds>(std::chrono::steady_clock::now() - start);
    if (!reading) {
      all_opened = false;
      if (context.json)
        show_json({{"file", file}, {"error", reading.error().message}, {"ms", std::int64_t{ms.count()}}});
      else
        show_error(context, reading.error());
      continue;
    }
    all_read = all_read && !reading->tags.empty();
    if (context.json) {
      Json::Array codes;
      for (const auto& seen : reading->tags) codes.push_back(code_of(seen));
      show_json({{"file", file},
                 {"codes", std::move(codes)},
                 {"taken", reading->taken ? Json(to_text(*reading->taken)) : Json()},
                 {"ms", std::int64_t{ms.count()}}});
      continue;
    }
    say(file + (reading->taken ? "  taken " + short_time(*reading->taken) : ""));
    for (const auto& seen : reading->tags) say("  " + line_of(seen));
    if (reading->tags.empty())
      say("  no tag found; take it again from nearer and straight on, or type the number");
  }
  if (!all_opened) return ExitCode::io;
  return all_read ? ExitCode::done : ExitCode::no;
}

}  // namespace

Command read_command() {
  auto options = std::make_shared<Options>();
  Command command;
  command.name = "read";
  command.summary = "Read the tags on photographs; writes nothing.";
  command.examples = {"counterfoil read IMG_0412.jpg IMG_0413.jpg",
                      "counterfoil read --any --json plate.jpg"};
  command.notes =
      "JPEG, PNG, TIFF and WebP. A file that cannot be read is said so and the rest goes on. Exit code 3 "
      "when\n"
      "a file could not be read, 1 when one shows no tag. With --json, one object a line per file: file, "
      "codes\n"
      "(text, number, half, copy, corners, pass, symbology), taken, ms; or file and error.";
  command.positionals = {{"FILE...", "photographs", &options->files, true}};
  command.options = {
      {"--any", "", "also report symbols that are not ours: QR, Data Matrix, Code 128", &options->any}};
  command.run = [options](const Context& context) { return run(*options, context); };
  return command;
}

}  // namespace counterfoil
