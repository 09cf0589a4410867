#include "reader/search.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "reader/decode.h"
#include "reader/passes.h"
#include "recovery/hunt.h"
#include "recovery/identify.h"

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

// Of an unread symbol, how much of its function patterns must be right for it to be told to a person.
constexpr float kWorthTelling = 0.6F;
// How often the samples of one sighting are held against the known texts, at most.
constexpr std::size_t kIdentifications = 3;

class Search {
 public:
  Search(Picture picture, const LoadAgain& load_again, const PhotoOptions& options)
      : options_(options),
        load_again_(load_again),
        picture_(std::move(picture)),
        darkroom_(std::move(picture_.grey)),
        hunt_(darkroom_.original(), [this] { return has_time(); }) {}

  Finds run() {
    const bool damaged = !picture_.damage.empty();  // worth a glance, no more
    bool past_cheap = false, past_usual = false;
    for (const Pass& pass : passes()) {
      // A symbol that is known by its likeness needs no dear passes, but for a patient person.
      const bool first_dear = !pass.cheap && !past_cheap, first_last = pass.last && !past_usual;
      if ((first_dear || first_last) && options_.effort != Effort::thorough) identify();
      past_cheap = past_cheap || !pass.cheap;
      past_usual = past_usual || pass.last;
      if (damaged && !pass.cheap) break;
      if (options_.effort == Effort::quick && !pass.cheap) break;
      if (!pass.cheap && found_wanted_ && !hunt_.has_open()) break;
      if (!has_time()) break;
      work(pass);
    }
    identify();
    Finds finds;
    for (const Sighting& sighting : hunt_.sightings()) {
      if (!sighting.closed && sighting.fidelity > kWorthTelling)
        finds.unread.push_back({to_picture(sighting.outline), likely_texts(sighting)});
    }
    sort_as_read(codes_);
    finds.codes = std::move(codes_);
    // What needed no more time did not run out of it.
    finds.time_ran_out = time_ran_out_ && !(past_cheap && found_wanted_ && !hunt_.has_open());
    return finds;
  }

 private:
  bool has_time() {
    time_ran_out_ = time_ran_out_ || (options_.time_left && !options_.time_left());
    return !time_ran_out_;
  }

  void work(const Pass& pass) {
    if (!pass.decodes && pass.hunt == HuntBy::sampling && !hunt_.has_open()) return;
    if (pass.channel == Channel::luma) {
      look(darkroom_.develop(pass), pass);
    } else if (picture_.colour) {
      auto again = load_again_(pass.channel);
      if (!again) return;
      Darkroom other(std::move(again->grey));
      look(other.develop(pass), pass);
    }
  }

  void look(GreyView view, const Pass& pass) {
    if (view.empty()) return;
    if (pass.decodes) {
      const bool any = options_.any && pass.any_kind;
      for (auto& code : decode_symbols(view, pass.tones, any ? Symbologies::any : Symbologies::qr)) {
        code.pass = pass.name;
        for (auto& corner : code.corners) {
          corner = {corner.x * picture_.width / view.width, corner.y * picture_.height / view.height};
        }
        if (code.symbology == "QR Code") hunt_.close(to_hunt(code.corners));
        take(std::move(code));
      }
    }
    switch (pass.hunt) {
      case HuntBy::nothing:
        return;
      case HuntBy::whole_patterns:
        hunt_.seek(view, Proposed::crossed);
        break;
      case HuntBy::any_patterns:
        hunt_.seek(view, Proposed::any);
        break;
      case HuntBy::sampling:
        hunt_.look_again(view);
        break;
    }
    take_mended(pass);
  }

  void take_mended(const Pass& pass) {
    for (Sighting& sighting : hunt_.sightings()) {
      if (sighting.closed || !sighting.mended) continue;
      const auto text = decode_matrix(sighting.mended->dark, sighting.mended->modules);
      sighting.mended.reset();
      if (!text) continue;
      sighting.closed = true;
      take({*text, "QR Code", to_picture(sighting.outline), std::string(pass.name), false});
    }
  }

  Identification identification(const Sighting& sighting) const {
    Identification best;
    for (const SampledSymbol& sample : sighting.samples) {
      auto found = identify_symbol(sample, *options_.known, kIdentifications * sighting.samples.size());
      const bool better = found.certain != best.certain ? found.certain
                                                        : found.evidence_nats - found.needed_nats >
                                                              best.evidence_nats - best.needed_nats;
      if (best.likely.empty() || better) best = std::move(found);
    }
    return best;
  }

  void identify() {
    if (!options_.known || options_.known->size() == 0) return;
    for (Sighting& sighting : hunt_.sightings()) {
      if (sighting.closed) continue;
      const Identification found = identification(sighting);
      if (!found.certain) continue;
      sighting.closed = true;
      take({(*options_.known)[found.likely.front().text], "QR Code", to_picture(sighting.outline),
            "identification", true});
    }
  }

  std::vector<std::string> likely_texts(const Sighting& sighting) const {
    std::vector<std::string> texts;
    if (!options_.known || options_.known->size() == 0) return texts;
    for (const Likeness& likeness : identification(sighting).likely)
      texts.push_back((*options_.known)[likeness.text]);
    return texts;
  }

  // The hunt works on the grey picture, which is smaller than the file's where that is very large.
  double shrink() const { return static_cast<double>(picture_.width) / darkroom_.original().width; }
  Outline to_hunt(Outline outline) const { return scaled(outline, 1 / shrink()); }
  Outline to_picture(Outline outline) const { return scaled(outline, shrink()); }
  static Outline scaled(Outline outline, double by) {
    for (auto& corner : outline) corner = {by * corner.x, by * corner.y};
    return outline;
  }

  void take(PhotoCode code) {
    const bool wanted = !options_.wanted || options_.wanted(code.text);
    found_wanted_ = found_wanted_ || wanted;
    if (!wanted && !options_.any) return;
    const auto same = [&](const PhotoCode& other) { return same_symbol(code, other); };
    if (std::none_of(codes_.begin(), codes_.end(), same)) codes_.push_back(std::move(code));
  }

  const PhotoOptions& options_;
  const LoadAgain& load_again_;
  Picture picture_;  // its grey pixels are in the darkroom
  Darkroom darkroom_;
  Hunt hunt_;
  std::vector<PhotoCode> codes_;
  bool found_wanted_ = false;
  bool time_ran_out_ = false;
};

}  // namespace

Finds search(Picture picture, const LoadAgain& load_again, const PhotoOptions& options) {
  return Search(std::move(picture), load_again, options).run();
}

}  // namespace counterfoil
