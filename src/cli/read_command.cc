#include <cmath>
#include <cstdio>
#include <filesystem>
#include <system_error>

#include "base/text.h"
#include "cli/arguments.h"
#include "cli/command.h"
#include "cli/output.h"
#include "cli/reading_terms.h"
#include "workflow/candidates.h"
#include "workflow/issued_texts.h"
#include "workflow/read.h"

namespace counterfoil {
namespace {

struct Options {
  std::vector<std::string> files;
  bool any = false;
  bool position = false;
  ReadingOptions reading;
};

Json corners_of(const std::array<PicturePoint, 4>& outline) {
  Json::Array corners;
  // Tenths of a pixel: finer is not measured.
  const auto tenths = [](double v) {
    return Json(static_cast<double>(static_cast<long long>(v * 10 + (v < 0 ? -0.5 : 0.5))) / 10);
  };
  for (const auto& corner : outline) corners.emplace_back(Json::Array{tenths(corner.x), tenths(corner.y)});
  return Json(std::move(corners));
}

Json code_of(const TagSeen& seen) {
  Json::Object code{{"text", seen.code.text},
                    {"symbology", seen.code.symbology},
                    {"number", Json()},
                    {"half", Json()},
                    {"copy", Json()},
                    {"corners", corners_of(seen.code.corners)},
                    {"page", seen.code.page},
                    {"pass", seen.code.pass},
                    {"identified", seen.code.identified}};
  if (seen.payload) {
    code["number"] = seen.payload->number.text();
    code["copy"] = seen.payload->copy;
    if (seen.payload->half != Half::label) code["half"] = to_text(seen.payload->half);
  }
  return Json(std::move(code));
}

std::string line_of(const TagSeen& seen) {
  if (seen.payload) {
    return seen.payload->number.grouped() + "  " + half_words(*seen.payload) +
           (seen.code.identified
                ? "  identified by likeness to the tags in use, not decoded: compare the number"
                : "");
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

std::int64_t milliseconds(double seconds) { return std::llround(seconds * 1000); }

Json likely_of(const UnreadTag& unread) {
  Json::Array likely;
  for (const auto& payload : unread.likely)
    likely.emplace_back(
        Json::Object{{"number", payload.number.text()},
                     {"half", payload.half == Half::label ? Json() : Json(to_text(payload.half))},
                     {"copy", payload.copy}});
  return Json(std::move(likely));
}

Json::Object object_of(const std::string& file, const PhotoRead& photo, bool with_position) {
  const TagReading& reading = *photo.reading;
  Json::Array codes, unread;
  for (const auto& seen : reading.tags) codes.push_back(code_of(seen));
  for (const auto& symbol : reading.unread)
    unread.emplace_back(Json::Object{
        {"corners", corners_of(symbol.corners)}, {"page", symbol.page}, {"likely", likely_of(symbol)}});
  Json::Object object{{"file", file},
                      {"codes", std::move(codes)},
                      {"unread", std::move(unread)},
                      {"pages", reading.pages},
                      {"taken", taken_of(reading.words)},
                      {"taken_ms", milliseconds_of(reading.words)},
                      {"camera", camera_of(reading.words.camera)},
                      {"damage", reading.damage.empty() ? Json() : Json(reading.damage)},
                      {"time_ran_out", reading.time_ran_out},
                      {"ms", milliseconds(photo.seconds)}};
  if (with_position) object["position"] = position_of(reading.words);
  return object;
}

void show_unread(const std::string& file, const UnreadTag& unread, const std::string& page,
                 const Record& record) {
  say("  a symbol was seen and not read" + page +
      (unread.likely.empty() ? "; take it again, or type the number"
                             : "; hold it against these tags, likeliest first (it may be none of them):"));
  for (const auto& likely : unread.likely) {
    const ValveTrip* trip = record.find(likely.number);
    say("    " + (trip == nullptr ? likely.number.grouped() : tag_line(*trip)));
  }
  if (!unread.likely.empty())
    say("    then log the right one by its number, such as: counterfoil log STEP " +
        unread.likely.front().number.text() + " --photo " + quoted(file));
}

void show_reading(const std::string& file, const TagReading& reading, bool with_position,
                  const Record& record) {
  say(heading(file, reading, with_position));
  if (!reading.damage.empty()) show_note(reading.damage);
  const auto on_page = [&](int page) {
    return reading.pages > 1 ? ", page " + std::to_string(page) : std::string();
  };
  for (const auto& seen : reading.tags) say("  " + line_of(seen) + on_page(seen.code.page));
  for (const auto& unread : reading.unread) show_unread(file, unread, on_page(unread.page), record);
  if (reading.tags.empty() && reading.unread.empty())
    say("  no tag found; take it again from nearer and straight on, or type the number");
  if (reading.time_ran_out) say("  " + std::string(kTimeRanOut));
}

// Of the desk that was named or that is here; nothing where there is none, as photographs can be read without.
Result<TagsInUse> tags_of_desk(const Context& context) {
  std::error_code ignored;
  if (context.ledger == "." && !std::filesystem::exists(desk_paths(context.ledger).ledger, ignored))
    return TagsInUse{};
  auto desk = Desk::open(context.ledger, context.passphrase, *context.clock);
  if (!desk) return desk.error();
  return tags_in_use(*desk);
}

Result<ExitCode> run(const Options& options, const Context& context) {
  bool all_read = true;
  bool all_opened = true;
  const auto files = with_folders_opened(options.files);
  if (!files) return files.error();
  auto terms = options.reading.terms(context);
  if (!terms) return terms.error();
  auto in_use = tags_of_desk(context);
  if (!in_use) return in_use.error();
  const auto take = [&](const PhotoRead& photo) {
    const std::string& file = (*files)[photo.index];
    clear_progress();
    if (photo.reading) {
      all_read = all_read && !photo.reading->tags.empty();
      if (context.json)
        show_json(object_of(file, photo, options.position));
      else
        show_reading(file, *photo.reading, options.position, in_use->record);
      return;
    }
    all_opened = false;
    if (context.json)
      show_json(
          {{"file", file}, {"error", photo.reading.error().message}, {"ms", milliseconds(photo.seconds)}});
    else
      show_error(context, photo.reading.error());
  };
  read_all(*files, options.any ? Sought::any : Sought::ours, *terms, &in_use->texts, take);
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
                      "counterfoil read --position photographs",
                      "counterfoil read --effort thorough --budget 30 IMG_0412.jpg"};
  command.notes =
      "JPEG, PNG, TIFF, WebP, HEIC and PDF, all pages; of a folder every picture in it and below. A file "
      "that\n"
      "cannot be read is said so and the rest goes on. Exit code 3 when a file could not be read, 1 when "
      "one\n"
      "shows no tag. In a desk's folder, or with --ledger, a tag that cannot be decoded is identified by "
      "its\n"
      "likeness to the tags in use, or the likeliest ones are listed. With --json, one object a line per "
      "file:\n"
      "file, codes (text, number, half, copy, corners, page, pass, symbology, identified), unread (corners, "
      "page,\n"
      "likely), pages, taken, taken_ms (of the second), camera (make, model, serial), damage, time_ran_out, "
      "ms;\n"
      "or file and error.";
  command.positionals = {{"FILE...", "photographs, or folders of them", &options->files, true}};
  command.options = {
      {"--any", "", "also report symbols that are not ours: QR, Data Matrix, Code 128", &options->any},
      {"--position", "", "also say where it was taken, if the camera kept that", &options->position}};
  for (auto& option : options->reading.options()) command.options.push_back(option);
  command.run = [options](const Context& context) { return run(*options, context); };
  return command;
}

}  // namespace counterfoil
