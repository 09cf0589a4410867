// Any bytes as a picture file: nothing crashes, memory stays bounded, and what is read makes sense.
// fuzz: -runs=500 -max_len=4096
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "base/text.h"
#include "reader/exif.h"
#include "reader/photo.h"

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace counterfoil;
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  if (const auto taken = read_exif(bytes).taken) {
    const auto again = parse_moment(to_text(*taken));
    require(again && *again == *taken);
  }
  PhotoOptions options{nullptr, true};
  options.effort = Effort::quick;  // what the files hold is looked at elsewhere; here they are opened
  const auto photo = read_photo_bytes(bytes, options);
  if (!photo) {
    require(photo.error().kind == ErrorKind::unreadable && !photo.error().message.empty());
    return 0;
  }
  require(photo->width > 0 && photo->height > 0);
  for (const auto& code : photo->codes) require(is_utf8(code.text) && !code.pass.empty());
  return 0;
}
