#include "workflow/album.h"

#include <algorithm>
#include <filesystem>
#include <string_view>
#include <system_error>
#include <utility>

#include "base/text.h"
#include "reader/image.h"

namespace counterfoil {
namespace {

namespace fs = std::filesystem;

// What telephones and computers put beside photographs, by the ending of its name. Films are the moving half of a
// photograph, or films; either way they are no pictures.
std::string_view companion(const fs::path& path) {
  constexpr std::pair<std::string_view, std::string_view> kEndings[] = {
      {".aae", "lists of edits"}, {".xmp", "lists of edits"},
      {".mov", "films"},          {".mp4", "films"},
      {".m4v", "films"},          {".3gp", "films"},
      {".thm", "thumbnails"},     {".json", "lists beside pictures"}};
  const std::string ending = to_lower(path.extension().string());
  for (const auto& [known, what] : kEndings)
    if (ending == known) return what;
  if (to_lower(path.filename().string()) == "thumbs.db") return "thumbnails";
  return {};
}

Result<void> add_folder(const fs::path& folder, Album& album) {
  std::error_code failed;
  std::vector<fs::path> entries;
  fs::directory_iterator entry(folder, failed);
  for (; !failed && entry != fs::directory_iterator(); entry.increment(failed))
    entries.push_back(entry->path());
  if (failed) return unreadable("cannot read the folder " + folder.string() + ": " + failed.message());
  std::sort(entries.begin(), entries.end());
  for (const auto& path : entries) {
    const std::string name = path.string();
    if (path.filename().string().starts_with('.')) continue;
    std::error_code ignored;
    if (fs::is_directory(path, ignored)) {
      if (fs::is_symlink(path, ignored)) {
        album.left_out.push_back({name, "links to folders"});
      } else if (auto added = add_folder(path, album); !added) {
        return added;
      }
    } else if (const auto what = companion(path); !what.empty()) {
      album.left_out.push_back({name, std::string(what)});
    } else if (is_picture(name)) {
      album.pictures.push_back(name);
    } else {
      album.left_out.push_back({name, "files that are no pictures"});
    }
  }
  return {};
}

}  // namespace

Result<Album> open_album(const std::string& folder) {
  Album album;
  if (auto added = add_folder(folder, album); !added) return added.error();
  if (album.pictures.empty())
    return refused("no picture is in the folder " + folder, "name the folder that the photographs are in");
  return album;
}

}  // namespace counterfoil
