#include "cli/arguments.h"

#include <algorithm>
#include <array>
#include <filesystem>
#include <map>
#include <system_error>

#include "base/text.h"
#include "cli/output.h"
#include "workflow/album.h"

namespace counterfoil {
namespace {

bool is_file(const std::string& word) {
  std::error_code ignored;
  return std::filesystem::exists(word, ignored);
}

bool is_group(const std::string& word, std::size_t length) {
  return word.size() == length && !is_file(word) && std::all_of(word.begin(), word.end(), [](char c) {
           return c == '?' || (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
         });
}

}  // namespace

bool looks_like_picture(const std::string& word) {
  constexpr std::array<std::string_view, 10> kEndings = {".jpg",  ".jpeg", ".png",  ".tif", ".tiff",
                                                         ".webp", ".heic", ".heif", ".hif", ".pdf"};
  const std::string lower = to_lower(word);
  return word.find('/') != std::string::npos ||
         std::any_of(kEndings.begin(), kEndings.end(),
                     [&](std::string_view e) { return lower.ends_with(e); });
}

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

Result<std::vector<std::string>> with_folders_opened(const std::vector<std::string>& photos) {
  std::vector<std::string> out;
  for (const auto& photo : photos) {
    std::error_code ignored;
    if (!std::filesystem::is_directory(photo, ignored)) {
      out.push_back(photo);
      continue;
    }
    auto album = open_album(photo);
    if (!album) return album.error();
    out.insert(out.end(), album->pictures.begin(), album->pictures.end());
    std::map<std::string, std::vector<std::string>> left_out;
    for (auto& file : album->left_out) left_out[file.what].push_back(std::move(file.path));
    for (const auto& [what, files] : left_out) {
      const std::string more = files.size() > 1 ? " and " + std::to_string(files.size() - 1) + " more" : "";
      show_note("left out (" + what + "): " + files.front() + more);
    }
  }
  return out;
}

}  // namespace counterfoil
