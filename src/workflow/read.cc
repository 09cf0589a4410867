#include "workflow/read.h"

namespace counterfoil {

Result<TagReading> read_tags(const std::string& path, Sought sought) {
  PhotoOptions options;
  options.any = sought != Sought::ours;
  options.wanted = [sought](std::string_view text) {
    if (sought == Sought::any) return true;
    const auto payload = parse_payload(text);
    // One that has our form and does not check is told to the person, not searched past.
    return payload || payload.error().kind == ErrorKind::malformed;
  };
  auto photo = read_photo(path, options);
  if (!photo) return photo.error();
  TagReading reading;
  reading.words = std::move(photo->words);
  reading.damage = std::move(photo->damage);
  reading.pages = photo->pages;
  for (auto& code : photo->codes) {
    auto payload = parse_payload(code.text);
    TagSeen seen{std::move(code), std::nullopt};
    if (payload) seen.payload = std::move(*payload);
    reading.tags.push_back(std::move(seen));
  }
  return reading;
}

}  // namespace counterfoil
