#include "reader/photo.h"

#include <utility>

#include "reader/image.h"
#include "reader/search.h"

namespace counterfoil {
namespace {

// One page. `load` gives the picture again in another channel, for the few passes that ask for one.
Result<Photo> read_page(const LoadAgain& load, const PhotoOptions& options) {
  auto picture = load(Channel::luma);
  if (!picture) return picture.error();
  Photo photo;
  photo.width = picture->width;
  photo.height = picture->height;
  photo.damage = picture->damage;
  Finds finds = search(std::move(*picture), load, options);
  photo.codes = std::move(finds.codes);
  photo.unread = std::move(finds.unread);
  photo.time_ran_out = finds.time_ran_out;
  if (photo.codes.empty() && !photo.damage.empty()) return unreadable(photo.damage);
  return photo;
}

// One page after the other, so that no two are in memory at once.
Result<Photo> read_pages(const Result<std::unique_ptr<PictureFile>>& file, const PhotoOptions& options) {
  if (!file) return file.error();
  Photo all;
  all.words = (*file)->words();
  all.pages = (*file)->pages();
  std::optional<Error> first_error;
  for (int page = 1; page <= all.pages; ++page) {
    if (options.page_begins) options.page_begins();
    if (page > 1 && options.time_left && !options.time_left()) {
      all.time_ran_out = true;
      break;
    }
    auto photo = read_page([&](Channel channel) { return (*file)->load(page, channel); }, options);
    if (!photo) {
      if (!first_error) first_error = photo.error();
      continue;
    }
    if (all.width == 0) {
      all.width = photo->width;
      all.height = photo->height;
    }
    if (all.damage.empty()) all.damage = photo->damage;
    all.time_ran_out = all.time_ran_out || photo->time_ran_out;
    for (auto& code : photo->codes) {
      code.page = page;
      all.codes.push_back(std::move(code));
    }
    for (auto& unread : photo->unread) {
      unread.page = page;
      all.unread.push_back(std::move(unread));
    }
  }
  if (first_error && all.width == 0) return *first_error;
  if (first_error && all.damage.empty()) all.damage = first_error->message;
  return all;
}

}  // namespace

Result<Photo> read_photo(const std::string& path, const PhotoOptions& options) {
  return read_pages(open_picture(path), options);
}

Result<Photo> read_photo_bytes(std::string_view bytes, const PhotoOptions& options) {
  return read_pages(open_picture_bytes(bytes), options);
}

}  // namespace counterfoil
