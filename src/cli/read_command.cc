#include <chrono>
#include <cmath>
#include <cstdio>

#include "base/text.h"
#include "cli/arguments.h"
#include "cli/command.h"
#include "cli/output.h"
#include "workflow/read.h"

namespace counterfoil {
namespace {

struct Options {
  std::vector<std::string> files;
  bool any = false;
  bool position = false;
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
  Json::Object code{{"text", seen.code.text}, {"symbology", seen.code.symbology},
                    {"number", Json()},       {"half", Json()},
                    {"copy", Json()},         {"corners", corners_of(seen.code)},
                    {"page", seen.code.page}, {"pass", seen.code.pass}};
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

Json taken_of(const CameraWords& words) { return words.taken ? Json(to_text(*words.taken)) : Json(); }

Json milliseconds_of(const CameraWords& words) {
  return words.milliseconds ? Json(*words.milliseconds) : Json();
}

Json camera_of(const Camera& camera) {
  if (camera == Camera{}) return {};
  return Json(Json::Object{{"make", camera.make}, {"model", camera.model}, {"serial", camera.serial}});
}

// Five decimals are a metre.
Json position_of(const CameraWords& words) {
  if (!words.position) return {};
  const auto rounded = [](double degrees) { return Json(std::round(degrees * 1e5) / 1e5); };
  return Json(
      Json::Object{{"north", rounded(words.position->north)}, {"east", rounded(words.position->east)}});
}

std::string degrees(double value, char positive, char negative) {
  char text[32];
  std::snprintf(text, sizeof text, "%.5f %c", std::abs(value), value < 0 ? negative : positive);
  return text;
}

std::string heading(const std::string& file, const TagReading& reading, bool with_position) {
  std::string line = file;
  if (reading.pages > 1) line += "  " + counted(static_cast<std::uint64_t>(reading.pages), "page");
  if (reading.words.taken) line += "  taken " + short_time(*reading.words.taken);
  if (with_position && reading.words.position)
    line += "  at " + degrees(reading.words.position->north, 'N', 'S') + ", " +
            degrees(reading.words.position->east, 'E', 'W');
  return line;
}

Result<ExitCode> run(const Options& options, const Context& context) {
  bool all_read = true;
  bool all_opened = true;
  const auto files = with_folders_opened(options.files);
  if (!files) return files.error();
  for (const auto& file : *files) {
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
      Json::Object object{{"file", file},
                          {"codes", std::move(codes)},
                          {"pages", reading->pages},
                          {"taken", taken_of(reading->words)},
                          {"taken_ms", milliseconds_of(reading->words)},
                          {"camera", camera_of(reading->words.camera)},
                          {"damage", reading->damage.empty() ? Json() : Json(reading->damage)},
                          {"ms", std::int64_t{ms.count()}}};
      if (options.position) object["position"] = position_of(reading->words);
      show_json(object);
      continue;
    }
    say(heading(file, *reading, options.position));
    if (!reading->damage.empty()) show_note(reading->damage);
    for (const auto& seen : reading->tags)
      say("  " + line_of(seen) + (reading->pages > 1 ? ", page " + std::to_string(seen.code.page) : ""));
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
  command.examples = {"counterfoil read IMG_0412.jpg IMG_0413.jpg", "counterfoil read --any --json plate.jpg",
                      "counterfoil read --position photographs"};
  command.notes =
      "JPEG, PNG, TIFF, WebP, HEIC and PDF, all pages; of a folder every picture in it and below. A file "
      "that\n"
      "cannot be read is said so and the rest goes on. Exit code 3 when a file could not be read, 1 when "
      "one\n"
      "shows no tag. With --json, one object a line per file: file, codes (text, number, half, copy, "
      "corners,\n"
      "page, pass, symbology), pages, taken, taken_ms (of the second), camera (make, model, serial), "
      "damage,\n"
      "ms; or file and error.";
  command.positionals = {{"FILE...", "photographs, or folders of them", &options->files, true}};
  command.options = {
      {"--any", "", "also report symbols that are not ours: QR, Data Matrix, Code 128", &options->any},
      {"--position", "", "also say where it was taken, if the camera kept that", &options->position}};
  command.run = [options](const Context& context) { return run(*options, context); };
  return command;
}

}  // namespace counterfoil
