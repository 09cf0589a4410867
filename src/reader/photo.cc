#include "reader/photo.h"

#include <utility>

#include "reader/image.h"
#include "reader/search.h"

namespace counterfoil {
namespace {

Result<Photo> read(const LoadAgain& load, const PhotoOptions& options) {
  auto picture = load(Channel::luma);
  if (!picture) return picture.error();
  Photo photo;
  photo.width = picture->width;
  photo.height = picture->height;
  photo.taken = picture->taken;
  photo.damage = picture->damage;
  Finds finds = search(std::move(*picture), load, options);
  photo.codes = std::move(finds.codes);
  photo.unread = std::move(finds.unread);
  if (photo.codes.empty() && !photo.damage.empty()) return unreadable(photo.damage);
  return photo;
}

}  // namespace

Result<Photo> read_photo(const std::string& path, const PhotoOptions& options) {
  return read([&](Channel channel) { return load_picture(path, channel); }, options);
}

Result<Photo> read_photo_bytes(std::string_view bytes, const PhotoOptions& options) {
  return read([&](Channel channel) { return load_picture_bytes(bytes, channel); }, options);
}

}  // namespace counterfoil
