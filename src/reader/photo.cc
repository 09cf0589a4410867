#include "reader/photo.h"

#include <algorithm>
#include <utility>

#include "reader/decode.h"
#include "reader/image.h"

namespace counterfoil {

Result<Photo> read_photo(const std::string& path, const PhotoOptions& options) {
  auto picture = load_picture(path, Channel::luma);
  if (!picture) return picture.error();
  Photo photo{picture->width, picture->height, {}, picture->taken};
  const auto symbologies = options.any ? Symbologies::qr_and_any : Symbologies::qr;
  for (auto& code : decode_symbols(picture->grey, symbologies)) {
    if (!options.any && options.wanted && !options.wanted(code.text)) continue;
    code.pass = "plain";
    for (auto& corner : code.corners) {
      corner.x *= picture->shrink;
      corner.y *= picture->shrink;
    }
    photo.codes.push_back(std::move(code));
  }
  if (photo.codes.empty() && !picture->damage.empty()) return unreadable(picture->damage);
  return photo;
}

}  // namespace counterfoil
