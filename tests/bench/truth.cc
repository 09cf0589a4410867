#include "bench/truth.h"

#include <algorithm>
#include <filesystem>
#include <random>

#include "base/file.h"
#include "base/json.h"
#include "base/text.h"

namespace counterfoil {
namespace {

double number(const Json* json) {
  if (!json) return 0;
  if (json->real()) return *json->real();
  return json->integer() ? static_cast<double>(*json->integer()) : 0;
}

std::string word(const Json* json) { return json && json->string() ? *json->string() : std::string(); }

}  // namespace

Result<std::vector<TruePicture>> read_truth(const std::string& path) {
  const auto bytes = read_file(path, 100u << 20);
  if (!bytes) return bytes.error();
  const auto folder = std::filesystem::path(path).parent_path();
  std::vector<TruePicture> out;
  std::size_t line_number = 0;
  for (const std::string& line : split(*bytes, '\n')) {
    ++line_number;
    if (trimmed(line).empty()) continue;
    const auto json = parse_json(line);
    if (!json) return malformed(path + ":" + std::to_string(line_number) + ": " + json.error().message);
    TruePicture picture;
    picture.name = word(json->find("path"));
    picture.path = (folder / picture.name).string();
    picture.set = word(json->find("set"));
    picture.level = static_cast<int>(number(json->find("level")));
    picture.module_pixels = number(json->find("px_per_module"));
    const Json* codes = json->find("codes");
    if (picture.name.empty() || !codes || !codes->array()) {
      return malformed(path + ":" + std::to_string(line_number) + ": no path, or no codes");
    }
    for (const Json& code : *codes->array()) picture.texts.push_back(word(code.find("text")));
    out.push_back(std::move(picture));
  }
  return out;
}

std::string common_beginning(const std::vector<TruePicture>& pictures) {
  std::string out;
  bool first = true;
  for (const auto& picture : pictures) {
    for (const auto& text : picture.texts) {
      if (first) out = text;
      first = false;
      const auto end = std::mismatch(out.begin(), out.end(), text.begin(), text.end()).first;
      out.erase(end, out.end());
    }
  }
  const auto colon = out.find(':');
  return colon == std::string::npos ? out : out.substr(0, colon + 1);
}

std::vector<std::string> known_texts_for(const std::vector<TruePicture>& pictures, std::size_t count,
                                         bool with_theirs, std::uint32_t seed) {
  std::set<std::string> theirs;
  for (const auto& picture : pictures) theirs.insert(picture.texts.begin(), picture.texts.end());
  std::vector<std::string> out;
  if (with_theirs) out.assign(theirs.begin(), theirs.end());
  if (theirs.empty()) return out;

  const std::vector<std::string> forms(theirs.begin(), theirs.end());
  std::size_t longest = 0;
  for (const auto& form : forms) longest = std::max(longest, form.size());
  std::vector<std::set<char>> seen(longest);
  for (const auto& form : forms) {
    for (std::size_t i = 0; i < form.size(); ++i) seen[i].insert(form[i]);
  }
  std::set<char> varying;
  for (const auto& at : seen) {
    if (at.size() > 1) varying.insert(at.begin(), at.end());
  }
  const std::string alphabet(varying.begin(), varying.end());
  if (alphabet.empty()) return out;  // one text only: nothing says what another would look like

  std::mt19937 chance(seed);
  std::set<std::string> taken = theirs;
  for (std::size_t tries = 0; count > 0 && tries < 1'000'000; ++tries) {
    std::string text = forms[chance() % forms.size()];
    for (std::size_t i = 0; i < text.size(); ++i) {
      if (seen[i].size() > 1) text[i] = alphabet[chance() % alphabet.size()];
    }
    if (!taken.insert(text).second) continue;
    out.push_back(std::move(text));
    --count;
  }
  return out;
}

}  // namespace counterfoil
