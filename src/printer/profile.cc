#include "printer/profile.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/file.h"
#include "base/json.h"
#include "base/moment.h"
#include "base/nearest.h"
#include "base/text.h"

namespace counterfoil {
namespace {

constexpr std::uint64_t kLargestFileBytes = 64 << 10;
constexpr double kLeastDotsPerInch = 72, kMostDotsPerInch = 4800;  // what a sheet can be drawn for
constexpr double kMostOffsetMm = 50;
constexpr double kLeastScale = 0.8, kMostScale = 1.25;
constexpr double kMostDegrees = 5;
constexpr double kMostUnreachedMm = 50;
constexpr int kLastColumn = 200'000;
constexpr std::size_t kMostDeadColumns = 1000;
constexpr double kPerDegree = std::numbers::pi / 180;

// A number of a profile: its name in the file, where it lies, what it may be, to how much it is written.
struct Figure {
  const char* name;
  double PrinterProfile::*member;
  double least, most;
  double step;
  bool required;
};
constexpr std::array<Figure, 7> kFigures = {{
    {"dots_per_inch", &PrinterProfile::dots_per_inch, kLeastDotsPerInch, kMostDotsPerInch, 1e-4, true},
    {"offset_x_mm", &PrinterProfile::offset_x_mm, -kMostOffsetMm, kMostOffsetMm, 1e-3, false},
    {"offset_y_mm", &PrinterProfile::offset_y_mm, -kMostOffsetMm, kMostOffsetMm, 1e-3, false},
    {"scale_x", &PrinterProfile::scale_x, kLeastScale, kMostScale, 1e-6, false},
    {"scale_y", &PrinterProfile::scale_y, kLeastScale, kMostScale, 1e-6, false},
    {"turn_deg", &PrinterProfile::turn_deg, -kMostDegrees, kMostDegrees, 1e-4, false},
    {"shear_deg", &PrinterProfile::shear_deg, -kMostDegrees, kMostDegrees, 1e-4, false},
}};
struct Edge {
  const char* name;
  double PrinterProfile::Unreached::*member;
};
constexpr std::array<Edge, 4> kEdges = {{{"left", &PrinterProfile::Unreached::left_mm},
                                         {"top", &PrinterProfile::Unreached::top_mm},
                                         {"right", &PrinterProfile::Unreached::right_mm},
                                         {"bottom", &PrinterProfile::Unreached::bottom_mm}}};

Error fault(const std::string& member, const std::string& what) {
  return malformed("printer profile: " + member + " " + what);
}

std::vector<std::string> members() {
  std::vector<std::string> names = {"name"};
  for (const auto& figure : kFigures) names.push_back(figure.name);
  names.insert(names.end(), {"dead_columns", "unreached_mm", "measured", "rests_on"});
  return names;
}

// Before all else: a name that was mistyped may be why another is missing.
Result<void> check_members(const Json::Object& object) {
  const auto known = members();
  for (const auto& entry : object)
    if (std::find(known.begin(), known.end(), entry.first) == known.end())
      return malformed("printer profile: " + entry.first + " is not a field of a profile",
                       did_you_mean(entry.first, known) + "the fields are " + listed(known));
  return {};
}

double rounded(double value, double step) { return std::round(value / step) * step; }

// As short as it can be written: 1.013 and not 1.0130000000000001.
std::string figure_text(double value, double step) {
  const int decimals = static_cast<int>(std::lround(-std::log10(step)));
  char text[64];
  std::snprintf(text, sizeof text, "%.*f", decimals, value);
  std::string digits = text;
  while (digits.back() == '0') digits.pop_back();
  if (digits.back() == '.') digits.pop_back();
  return digits == "-0" ? "0" : digits;
}

std::optional<double> number_of(const Json& value) {
  if (const double* real = value.real()) return *real;
  if (const std::int64_t* integer = value.integer()) return static_cast<double>(*integer);
  return std::nullopt;
}

std::string range_text(double least, double most) {
  return "has to be a number from " + figure_text(least, 1e-2) + " to " + figure_text(most, 1e-2);
}

Result<void> check_line(const std::string& member, const std::string& text, bool required) {
  if (has_control_characters(text) || (required && trimmed(text).empty()) || text.size() > 500)
    return fault(member, "has to be a text of one line");
  return {};
}

Result<std::string> line_of(const Json::Object& object, const std::string& member) {
  const auto found = object.find(member);
  if (found == object.end()) return std::string();
  const std::string* text = found->second.string();
  if (text == nullptr) return fault(member, "has to be a text of one line");
  return *text;
}

Result<std::vector<int>> columns_of(const Json& value) {
  const Json::Array* array = value.array();
  std::vector<int> columns;
  if (array == nullptr) return fault("dead_columns", "has to be a list of whole numbers");
  for (const auto& entry : *array) {
    const std::int64_t* column = entry.integer();
    if (column == nullptr || *column < 0 || *column > kLastColumn)
      return fault("dead_columns", "has to be a list of whole numbers from 0 to 200000");
    columns.push_back(static_cast<int>(*column));
  }
  return columns;
}

Result<PrinterProfile::Unreached> unreached_of(const Json& value) {
  const Json::Object* object = value.object();
  if (object == nullptr || object->size() != kEdges.size())
    return fault("unreached_mm", "has to have left, top, right and bottom, and no more");
  PrinterProfile::Unreached unreached;
  for (const auto& edge : kEdges) {
    const auto found = object->find(edge.name);
    const auto mm = found == object->end() ? std::nullopt : number_of(found->second);
    if (!mm) return fault("unreached_mm", "has to have left, top, right and bottom, each a length in mm");
    unreached.*edge.member = *mm;
  }
  return unreached;
}

}  // namespace

Affine PrinterProfile::map() const {
  const double level = turn_deg * kPerDegree, upright = (turn_deg + shear_deg) * kPerDegree;
  return {scale_x * std::cos(level), -scale_y * std::sin(upright), offset_x_mm,
          scale_x * std::sin(level), scale_y * std::cos(upright),  offset_y_mm};
}

void PrinterProfile::set_map(const Affine& map) {
  offset_x_mm = map.x0;
  offset_y_mm = map.y0;
  scale_x = std::hypot(map.xx, map.yx);
  scale_y = std::hypot(map.xy, map.yy);
  turn_deg = std::atan2(map.yx, map.xx) / kPerDegree;
  shear_deg = std::atan2(-map.xy, map.yy) / kPerDegree - turn_deg;
}

Result<void> check(const PrinterProfile& profile) {
  if (auto done = check_line("name", profile.name, true); !done) return done;
  if (auto done = check_line("rests_on", profile.rests_on, false); !done) return done;
  for (const auto& figure : kFigures) {
    const double value = profile.*figure.member;
    // Also false for what is no number.
    if (!(value >= figure.least && value <= figure.most))
      return fault(figure.name, range_text(figure.least, figure.most));
  }
  if (profile.dead_columns.size() > kMostDeadColumns)
    return fault("dead_columns", "has more than 1000 entries: the head is worn out");
  for (std::size_t i = 0; i < profile.dead_columns.size(); ++i)
    if (profile.dead_columns[i] < 0 || profile.dead_columns[i] > kLastColumn ||
        (i > 0 && profile.dead_columns[i - 1] >= profile.dead_columns[i]))
      return fault("dead_columns", "has to ascend, each column once");
  if (profile.unreached)
    for (const auto& edge : kEdges)
      if (const double mm = (*profile.unreached).*edge.member; !(mm >= 0 && mm <= kMostUnreachedMm))
        return fault(std::string("unreached_mm ") + edge.name, range_text(0, kMostUnreachedMm));
  if (!profile.measured.empty())
    if (auto moment = parse_moment(profile.measured); !moment)
      return fault("measured", "is no date: " + moment.error().message);
  return {};
}

Result<PrinterProfile> parse_printer_profile(std::string_view json) {
  auto value = parse_json(json);
  if (!value) return malformed("printer profile: " + value.error().message, value.error().hint);
  const Json::Object* object = value->object();
  if (object == nullptr) return malformed("printer profile: is not a JSON object");
  if (auto done = check_members(*object); !done) return done.error();
  PrinterProfile profile;
  if (!object->contains("name")) return fault("name", "is missing");
  for (const auto& figure : kFigures) {
    const auto found = object->find(figure.name);
    if (found == object->end()) {
      if (figure.required) return fault(figure.name, "is missing");
      continue;
    }
    const auto number = number_of(found->second);
    if (!number || !(*number >= figure.least && *number <= figure.most))
      return fault(figure.name,
                   "is " + canonical_json(found->second) + ", and " + range_text(figure.least, figure.most));
    profile.*figure.member = *number;
  }
  for (const auto& [member, target] :
       {std::pair{"name", &profile.name}, std::pair{"rests_on", &profile.rests_on},
        std::pair{"measured", &profile.measured}}) {
    auto text = line_of(*object, member);
    if (!text) return text.error();
    *target = *text;
  }
  if (const Json* columns = value->find("dead_columns")) {
    auto list = columns_of(*columns);
    if (!list) return list.error();
    profile.dead_columns = *std::move(list);
  }
  if (const Json* edges = value->find("unreached_mm")) {
    auto unreached = unreached_of(*edges);
    if (!unreached) return unreached.error();
    profile.unreached = *unreached;
  }
  if (auto done = check(profile); !done) return done.error();
  return profile;
}

Result<PrinterProfile> load_printer_profile(const std::string& path) {
  auto json = read_file(path, kLargestFileBytes);
  if (!json) return json.error();
  auto profile = parse_printer_profile(*json);
  if (!profile)
    return Error{profile.error().kind, path + ": " + profile.error().message, profile.error().hint};
  return profile;
}

std::string to_json(const PrinterProfile& profile) {
  std::string out = "{\n  \"name\": " + canonical_json(Json(profile.name));
  for (const auto& figure : kFigures)
    out += std::string(",\n  \"") + figure.name +
           "\": " + figure_text(rounded(profile.*figure.member, figure.step), figure.step);
  Json::Array columns(profile.dead_columns.begin(), profile.dead_columns.end());
  out += ",\n  \"dead_columns\": " + canonical_json(Json(std::move(columns)));
  if (profile.unreached) {
    out += ",\n  \"unreached_mm\": {";
    for (const auto& edge : kEdges)
      out += std::string(edge.name == kEdges[0].name ? "\"" : ", \"") + edge.name +
             "\": " + figure_text((*profile.unreached).*edge.member, 1e-2);
    out += "}";
  }
  if (!profile.measured.empty()) out += ",\n  \"measured\": " + canonical_json(Json(profile.measured));
  if (!profile.rests_on.empty()) out += ",\n  \"rests_on\": " + canonical_json(Json(profile.rests_on));
  return out + "\n}\n";
}

}  // namespace counterfoil
