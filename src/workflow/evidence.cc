#include "workflow/evidence.h"

#include <filesystem>
#include <system_error>

#include "base/file.h"
#include "base/text.h"

namespace counterfoil {
namespace {

namespace fs = std::filesystem;

fs::path place_of(const std::string& photos_folder, const Evidence& evidence) {
  return fs::path(photos_folder) / evidence.sha256.substr(0, 2) /
         (evidence.sha256 + to_lower(fs::path(evidence.name).extension().string()));
}

// A file name may hold any bytes; the record takes UTF-8 without control characters only.
std::string recorded_name(const std::string& path) {
  const std::string name = fs::path(path).filename().string();
  const auto checked = check_text(name, "the file's name");
  return checked ? *checked : "photograph";
}

}  // namespace

std::optional<std::string> kept_photo(const std::string& photos_folder, const Evidence& evidence) {
  const fs::path place = place_of(photos_folder, evidence);
  std::error_code ignored;
  if (!fs::is_regular_file(place, ignored)) return std::nullopt;
  return place.string();
}

Result<Evidence> take_evidence(const Desk& desk, const std::string& path, bool copy) {
  auto digest = sha256_of_file(path);
  if (!digest) return digest.error();
  const Evidence evidence{to_hex(bytes_of(*digest)), recorded_name(path)};
  if (!copy || kept_photo(desk.paths().photos, evidence)) return evidence;
  const fs::path place = place_of(desk.paths().photos, evidence);
  std::error_code failure;
  fs::create_directories(place.parent_path(), failure);
  // Copied beside its place and renamed, so that a copy that was killed half way is not taken for the
  // photograph.
  const fs::path draft = place.string() + ".new";
  if (!failure) fs::copy_file(path, draft, fs::copy_options::overwrite_existing, failure);
  if (!failure) fs::rename(draft, place, failure);
  if (failure)
    return unreadable("cannot keep " + path + " as evidence: " + failure.message(),
                      "free some room, or log with --no-copy and keep the photograph yourself");
  auto copied = sha256_of_file(place.string());
  if (!copied) return copied.error();
  if (*copied != *digest) return unreadable(path + " changed while it was copied", "try again");
  return evidence;
}

}  // namespace counterfoil
