// The hunt through one picture for symbols that no plain decoder has read: finder patterns from as many
// black-and-white versions of the picture as the caller makes, frames guessed from them, grids fitted, samples
// mended. What has been seen is kept from one version to the next.
#pragma once

#include <array>
#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

#include "base/grey.h"
#include "recovery/finder_pattern.h"
#include "recovery/framing.h"
#include "recovery/known_texts.h"
#include "recovery/mend.h"
#include "recovery/sampled_symbol.h"

namespace counterfoil {

using Outline = std::array<PicturePoint, 4>;  // top left, top right, bottom right, bottom left of a symbol

// A place where there is a symbol, going by its function patterns.
struct Sighting {
  Outline outline{};
  Framing framing;                     // the best so far
  float fidelity = 0;                  // of its function patterns
  std::vector<SampledSymbol> samples;  // best first
  std::optional<MendedSymbol> mended;  // once a sample could be
  bool closed = false;                 // read, here or elsewhere: no more is done about it
};

class Hunt {
 public:
  // The picture must outlive the hunt. `go_on` is asked between steps of some milliseconds.
  Hunt(GreyView grey, std::function<bool()> go_on) : grey_(grey), go_on_(std::move(go_on)) {}

  // A symbol that was read by other means: nothing is looked for inside.
  void close(const Outline& outline);
  // Looks for more symbols. `black_and_white` shows the same picture, in any size.
  void seek(GreyView black_and_white, Proposed proposed);
  // Samples what is sighted and open once more, on another version of the picture, in any size.
  void look_again(GreyView grey);

  // Seen so far; the caller closes what it could read.
  std::vector<Sighting>& sightings() { return sightings_; }
  bool has_open() const;

 private:
  void examine(GreyView grey, const Framing& framing);
  bool is_closed(PicturePoint place) const;
  bool is_taken(const Framing& framing) const;  // by a symbol that is closed or mended
  bool is_in_vain() const;

  GreyView grey_;
  std::function<bool()> go_on_;
  std::vector<Outline> closed_;
  std::vector<FinderPattern> patterns_;
  std::vector<TriedPlace> tried_;
  std::vector<Framing> examined_;
  std::vector<Sighting> sightings_;
};

}  // namespace counterfoil
