#include "cli/arguments.h"

#include <algorithm>
#include <array>
#include <filesystem>
#include <system_error>

#include "base/text.h"

namespace counterfoil {
namespace {

bool is_file(const std::string& word) {
  std::error_code ignored;
  return std::filesystem::exists(word, ignored);
}

bool is_group(const std::string& word, std::size_t length) {
  return word.size() == length && !is_file(word) && std::all_of(word.begin(), word.end(), [](char c) {
           return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
         });
}

bool looks_like_picture(const std::string& word) {
  constexpr std::array<std::string_view, 8> kEndings = {".jpg",  ".jpeg", ".png",  ".tif",
                                                        ".tiff", ".webp", ".heic", ".pdf"};
  const std::string lower = to_lower(word);
  return word.find('/') != std::string::npos ||
         std::any_of(kEndings.begin(), kEndings.end(),
                     [&](std::string_view e) { return lower.ends_with(e); });
}

}  // namespace

std::vector<std::string> joined_groups(const std::vector<std::string>& words) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i + 2 < words.size() && is_group(words[i], 4) && is_group(words[i + 1], 4) &&
        is_group(words[i + 2], 2)) {
      out.push_back(words[i] + " " + words[i + 1] + " " + words[i + 2]);
      i += 2;
    } else {
      out.push_back(words[i]);
    }
  }
  return out;
}

PhotosAndNumbers photos_and_numbers(const std::vector<std::string>& words) {
  PhotosAndNumbers out;
  for (const auto& word : joined_groups(words))
    (is_file(word) || looks_like_picture(word) ? out.photos : out.numbers).push_back(word);
  return out;
}

}  // namespace counterfoil
