#include "recovery/hunt.h"

#include <algorithm>
#include <cmath>

#include "recovery/flattened.h"
#include "recovery/grid.h"
#include "recovery/growth.h"

namespace counterfoil {
namespace {

constexpr std::size_t kMostPatterns = 32;    // beyond that it is a texture
constexpr std::size_t kFramingsAtOnce = 10;  // examined for each version of the picture
// Of 223 frames in which a symbol was mended or identified none had less than 1.88.
constexpr double kLeastPromise = 1.75;
constexpr std::size_t kMostSamples = 4;  // kept of one symbol
constexpr float kLeastFidelity = 0.45F;  // of function patterns, for there to be a symbol at all
// A picture on which so many frames or places were tried, or so many patterns found, and none looked like a symbol, is a
// texture. Where a symbol was mended at last, in 600 pictures of damaged tags, there had been 30 frames and 631 places
// at most, and 24 patterns in 164 of another 165.
constexpr float kPromising = 0.55F;  // fidelity
constexpr std::size_t kMostVainFrames = 60, kMostBarren = 900, kMostFound = 64;

bool holds(const Outline& outline, PicturePoint at) {
  bool inside = false;
  for (std::size_t i = 0, j = 3; i < 4; j = i++) {
    const auto &a = outline[i], &b = outline[j];
    if ((a.y > at.y) != (b.y > at.y) && at.x < (b.x - a.x) * (at.y - a.y) / (b.y - a.y) + a.x) {
      inside = !inside;
    }
  }
  return inside;
}

PicturePoint middle(const Outline& outline) {
  PicturePoint sum;
  for (const auto& corner : outline) sum = {sum.x + corner.x / 4, sum.y + corner.y / 4};
  return sum;
}

// By some modules, so that finder patterns at the very corners are well inside.
Outline enlarged(const Outline& outline, double times) {
  const PicturePoint centre = middle(outline);
  Outline out = outline;
  for (auto& corner : out) {
    corner = {centre.x + times * (corner.x - centre.x), centre.y + times * (corner.y - centre.y)};
  }
  return out;
}

// Whether its middle or that of one of its finder patterns is inside: of two such at most one is a symbol.
bool lies_on(const Framing& framing, const Outline& outline) {
  const double n = framing.modules, near = 3.5, far = n - near;
  for (const auto& [u, v] :
       {std::pair{n / 2, n / 2}, std::pair{near, near}, std::pair{far, near}, std::pair{near, far}}) {
    if (holds(outline, framing.place(u, v))) return true;
  }
  return false;
}

Framing scaled(Framing framing, double by) {
  for (std::size_t i = 0; i < 6; ++i) framing.place.m[i] *= by;
  return framing;
}

bool nearly_same(const Framing& a, const Framing& b) {
  if (a.modules != b.modules || a.inverted != b.inverted) return false;
  const double n = a.modules;
  for (const auto& [u, v] : {std::pair{0.0, 0.0}, std::pair{n, 0.0}, std::pair{n, n}, std::pair{0.0, n}}) {
    const auto p = a.place(u, v), q = b.place(u, v), next = a.place(u + 1, v);
    if (std::hypot(p.x - q.x, p.y - q.y) > 0.75 * std::hypot(next.x - p.x, next.y - p.y)) return false;
  }
  return true;
}

}  // namespace

void Hunt::close(const Outline& outline) {
  closed_.push_back(enlarged(outline, 1.05));
  for (Sighting& sighting : sightings_) {
    if (lies_on(sighting.framing, closed_.back())) sighting.closed = true;
  }
}

bool Hunt::is_closed(PicturePoint place) const {
  return std::any_of(closed_.begin(), closed_.end(),
                     [&](const auto& outline) { return holds(outline, place); });
}

bool Hunt::is_taken(const Framing& framing) const {
  const auto mended_there = [&](const Sighting& sighting) {
    return sighting.mended && lies_on(framing, sighting.outline);
  };
  return std::any_of(closed_.begin(), closed_.end(),
                     [&](const auto& outline) { return lies_on(framing, outline); }) ||
         std::any_of(sightings_.begin(), sightings_.end(), mended_there);
}

bool Hunt::has_open() const {
  return std::any_of(sightings_.begin(), sightings_.end(), [](const auto& s) { return !s.closed; });
}

bool Hunt::is_in_vain() const {
  const auto barren = static_cast<std::size_t>(
      std::count_if(tried_.begin(), tried_.end(), [](const auto& place) { return place.barren; }));
  return (examined_.size() > kMostVainFrames || barren > kMostBarren ||
          tried_.size() - barren >= kMostFound) &&
         std::none_of(sightings_.begin(), sightings_.end(),
                      [](const auto& s) { return s.fidelity > kPromising; });
}

void Hunt::seek(GreyView black_and_white, Proposed proposed) {
  if (is_in_vain()) return;
  const auto closed = [this](PicturePoint place) { return is_closed(place); };
  add_finder_patterns(patterns_, tried_, black_and_white, grey_, proposed, closed, kMostPatterns);
  std::vector<FinderPattern> open;
  for (const FinderPattern& pattern : patterns_) {
    if (!is_closed(pattern.centre)) open.push_back(pattern);
  }
  std::size_t count = 0;
  for (const Framing& framing : framings(grey_, open, 4 * kFramingsAtOnce)) {
    if (framing.promise < kLeastPromise || count == kFramingsAtOnce || !go_on_()) break;
    if (is_taken(framing)) continue;
    const auto same = [&](const Framing& other) { return nearly_same(framing, other); };
    if (std::any_of(examined_.begin(), examined_.end(), same)) continue;
    examined_.push_back(framing);
    ++count;
    examine(grey_, framing);
  }
}

void Hunt::look_again(GreyView grey) {
  const double scale = static_cast<double>(grey.width) / grey_.width;
  std::vector<Framing> open;
  for (const Sighting& sighting : sightings_) {
    if (!sighting.closed) open.push_back(sighting.framing);
  }
  for (const Framing& framing : open) {
    if (!go_on_()) break;
    examine(grey, scaled(framing, scale));
  }
}

void Hunt::examine(GreyView grey, const Framing& framing) {
  const Flattened flattened(grey, framing);
  const Grid grid(flattened);
  if (grid.fidelity() < kLeastFidelity) return;
  const double scale = static_cast<double>(grey_.width) / grey.width, n = framing.modules;
  const auto at = [&](double u, double v) {
    const auto flat = grid(u, v);
    const auto place = framing.place(flat.x, flat.y);
    return PicturePoint{scale * place.x, scale * place.y};
  };
  Sighting seen;
  seen.outline = {at(0, 0), at(n, 0), at(n, n), at(0, n)};
  seen.framing = scaled(framing, scale);
  seen.fidelity = grid.fidelity();
  seen.samples = {grid.sample(flattened)};
  if (is_taken(seen.framing)) return;
  seen.mended = mend_symbol(seen.samples.front());
  if (!seen.mended) {
    // Where creases are too sharp for the lattice.
    seen.samples.push_back(grown_sample(flattened, grid));
    seen.mended = mend_symbol(seen.samples.back());
  }

  if (seen.mended) {
    // Two of its finder patterns may have been sighted from their other side before.
    std::erase_if(sightings_, [&](const Sighting& other) {
      return !other.mended && lies_on(other.framing, seen.outline) &&
             !holds(seen.outline, middle(other.outline));
    });
  }
  const auto overlaps = [&](const Sighting& other) {
    return holds(other.outline, middle(seen.outline)) || holds(seen.outline, middle(other.outline));
  };
  const auto known = std::find_if(sightings_.begin(), sightings_.end(), overlaps);
  if (known == sightings_.end()) {
    sightings_.push_back(std::move(seen));
    return;
  }
  if (known->mended) return;
  const bool better = seen.mended || seen.fidelity > known->fidelity;
  auto samples = std::move(known->samples);
  samples.insert(better ? samples.begin() : samples.end(), seen.samples.begin(), seen.samples.end());
  if (samples.size() > kMostSamples) samples.resize(kMostSamples);
  if (better) *known = std::move(seen);
  known->samples = std::move(samples);
}

}  // namespace counterfoil
