#include "reader/photo.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "reader/decode.h"
#include "reader/image.h"
#include "reader/passes.h"

namespace counterfoil {
namespace {

PicturePoint centre(const PhotoCode& code) {
  PicturePoint sum;
  for (const auto& corner : code.corners) sum = {sum.x + corner.x / 4, sum.y + corner.y / 4};
  return sum;
}

// From the centre to the farthest corner.
double reach(const PhotoCode& code) {
  const auto middle = centre(code);
  double farthest = 0;
  for (const auto& corner : code.corners) {
    farthest = std::max(farthest, std::hypot(corner.x - middle.x, corner.y - middle.y));
  }
  return farthest;
}

// Two physical symbols do not overlap, so one text at two such places is one symbol found twice.
bool same_symbol(const PhotoCode& a, const PhotoCode& b) {
  const auto at = centre(a), bt = centre(b);
  return a.text == b.text && a.symbology == b.symbology &&
         std::hypot(at.x - bt.x, at.y - bt.y) < std::max(reach(a), reach(b));
}

// Line by line as one reads: a line is what begins above the lower end of its topmost symbol.
void sort_as_read(std::vector<PhotoCode>& codes) {
  std::sort(codes.begin(), codes.end(),
            [](const auto& a, const auto& b) { return centre(a).y < centre(b).y; });
  for (auto line = codes.begin(); line != codes.end();) {
    const double end = centre(*line).y + reach(*line) / 2;
    const auto next = std::find_if(line, codes.end(), [&](const auto& code) { return centre(code).y > end; });
    std::sort(line, next, [](const auto& a, const auto& b) { return centre(a).x < centre(b).x; });
    line = next;
  }
}

// One search through one picture.
class Search {
 public:
  explicit Search(const PhotoOptions& options) : options_(options) {}

  bool found_wanted() const { return found_wanted_; }

  void look(Darkroom& darkroom, const Picture& picture, const Pass& pass) {
    const GreyView view = darkroom.develop(pass);
    if (view.empty()) return;
    const bool any = options_.any && pass.any_kind;
    for (auto& code : decode_symbols(view, pass.tones, any ? Symbologies::any : Symbologies::qr)) {
      code.pass = pass.name;
      for (auto& corner : code.corners) {
        corner = {corner.x * picture.width / view.width, corner.y * picture.height / view.height};
      }
      take(std::move(code));
    }
  }

  std::vector<PhotoCode> finish() {
    sort_as_read(codes_);
    return std::move(codes_);
  }

 private:
  void take(PhotoCode code) {
    const bool wanted = !options_.wanted || options_.wanted(code.text);
    found_wanted_ = found_wanted_ || wanted;
    if (!wanted && !options_.any) return;
    const auto same = [&](const PhotoCode& other) { return same_symbol(code, other); };
    if (std::none_of(codes_.begin(), codes_.end(), same)) codes_.push_back(std::move(code));
  }

  const PhotoOptions& options_;
  std::vector<PhotoCode> codes_;
  bool found_wanted_ = false;
};

// `load` gives the picture again in another channel, for the few passes that ask for one: keeping the colours
// of every picture would treble the memory.
template <typename Load>
Result<Photo> read_page(Load load, const PhotoOptions& options) {
  auto picture = load(Channel::luma);
  if (!picture) return picture.error();
  Darkroom darkroom(std::move(picture->grey));
  Search search(options);
  const bool damaged = !picture->damage.empty();  // worth a glance, no more
  for (const Pass& pass : passes()) {
    if (!pass.cheap && (search.found_wanted() || damaged)) break;
    if (pass.channel == Channel::luma) {
      search.look(darkroom, *picture, pass);
    } else if (picture->colour) {
      auto again = load(pass.channel);
      if (!again) continue;
      Darkroom other(std::move(again->grey));
      search.look(other, *picture, pass);
    }
  }

  Photo photo{picture->width, picture->height, search.finish(), {}, {}, picture->damage};
  if (photo.codes.empty() && damaged) return unreadable(picture->damage);
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
    if (page > 1 && options.time_left && !options.time_left()) break;
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
