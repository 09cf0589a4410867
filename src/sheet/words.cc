#include "sheet/words.h"

#include <algorithm>
#include <array>
#include <filesystem>
#include <vector>

#include "base/file.h"
#include "base/json.h"
#include "base/nearest.h"
#include "base/text.h"
#include "sheet/slot.h"

namespace counterfoil {
namespace {

constexpr std::uint64_t kLargestFileBytes = 64 << 10;
constexpr std::array<std::string_view, 10> kKeys = {
    "suction", "discharge", "bag", "box", "label", "unit", "pocket", "care", "contamination", "purpose"};
// Words that stand on every tag, whatever its side and half.
constexpr std::array<std::string_view, 5> kOnEveryTag = {"unit", "pocket", "care", "contamination",
                                                         "purpose"};

std::vector<std::string> languages_of(const std::string& folder) {
  std::error_code failed;
  std::vector<std::string> names;
  std::filesystem::directory_iterator entry(folder, failed);
  for (; !failed && entry != std::filesystem::directory_iterator(); entry.increment(failed))
    if (entry->path().extension() == ".json") names.push_back(entry->path().stem().string());
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace

void Words::put_on(TagContent& tag, const std::string& half) const {
  const auto put = [&](std::string_view slot, const std::string& key) {
    if (const auto found = texts.find(key); found != texts.end())
      tag.texts[std::string(kSecondPrefix) + std::string(slot)] = found->second;
  };
  if (!tag.side.empty()) put("side", tag.side);
  put("half", half);
  for (const auto key : kOnEveryTag) put(key, std::string(key));
}

Result<Words> parse_words(std::string_view json, std::string_view language) {
  const auto fault = [&](const std::string& what, const std::string& hint = {}) {
    return malformed("words " + std::string(language) + ": " + what, hint);
  };
  const auto value = parse_json(json);
  if (!value) return fault(value.error().message, value.error().hint);
  const Json::Object* object = value->object();
  if (object == nullptr) return fault("it is not a JSON object");
  Words words;
  for (const auto& [key, text] : *object) {
    const bool is_title = key == "title";
    if (!is_title && std::find(kKeys.begin(), kKeys.end(), key) == kKeys.end())
      return fault(key + " is not a word of a tag", did_you_mean(key, {kKeys.begin(), kKeys.end()}) +
                                                        "the words are title, " +
                                                        listed({kKeys.begin(), kKeys.end()}));
    const std::string* const string = text.string();
    if (string == nullptr || trimmed(*string).empty() || has_control_characters(*string))
      return fault(key + " has to be a text");
    (is_title ? words.title : words.texts[key]) = *string;
  }
  for (const auto key : kKeys)
    if (!words.texts.contains(std::string(key))) return fault(std::string(key) + " is missing");
  if (words.title.empty()) return fault("title is missing");
  return words;
}

Result<Words> load_words(const std::string& folder, const std::string& language) {
  const bool is_name = !language.empty() && language.find_first_of("/\\") == std::string::npos;
  const auto path = std::filesystem::path(folder) / (language + ".json");
  std::error_code failed;
  if (!is_name || !std::filesystem::exists(path, failed)) {
    const auto known = languages_of(folder);
    return malformed("there are no words in \"" + language + "\"",
                     did_you_mean(language, known) + "there are words in " + listed(known));
  }
  auto json = read_file(path.string(), kLargestFileBytes);
  if (!json) return json.error();
  return parse_words(*json, language);
}

}  // namespace counterfoil
