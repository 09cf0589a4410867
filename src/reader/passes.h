// What is done to a picture before it is decoded: an ordered list of passes, each of which makes some damage
// harmless that the decoder alone does not bear. The arithmetic is OpenCV's core and imgproc. The order is by
// what a pass gains for its time, measured on pictures with known contents.
// Source: unsharp masking, black-hat and other morphology, Wiener filter as in Gonzalez & Woods, Digital
// Image Processing, chapters 3, 5 and 9, from memory.
#pragma once

#include <cstddef>
#include <memory>
#include <string_view>
#include <vector>

#include "reader/decode.h"
#include "reader/image.h"

namespace counterfoil {

// What the hunt for damaged symbols makes of a pass.
enum class HuntBy {
  nothing,
  whole_patterns,  // seeks symbols by finder patterns that are whole
  any_patterns,    // also by partly covered ones
  sampling,        // samples what it has seen once more
};

struct Pass {
  std::string_view name;
  Channel channel = Channel::luma;
  Tones tones = Tones::grey;  // of what the pass makes
  int shrink = 1;             // works on the picture reduced to one of so many pixels, either way
  double most_pixels = 16e6;  // a larger picture is halved until it has at most so many, before `shrink`
  bool cheap = false;         // works on the whole of any picture, and runs even when the search is over
  bool any_kind = false;      // worth it for symbologies other than QR Code as well
  HuntBy hunt = HuntBy::nothing;
  bool decodes = true;     // a plain decoder has a look as well
  bool last = false;       // dear: what is known by other means is not put through it
  std::size_t recipe = 0;  // what is done; known to passes.cc
};

const std::vector<Pass>& passes();

// Holds a picture and its reductions, which several passes share.
class Darkroom {
 public:
  explicit Darkroom(GreyPicture picture);
  ~Darkroom();
  Darkroom(Darkroom&&) noexcept;
  Darkroom& operator=(Darkroom&&) noexcept;

  // The picture as it was given.
  GreyView original() const;
  // What the pass makes of the picture. Valid until the next call. Empty when the reduced picture would be
  // too small to hold a symbol.
  GreyView develop(const Pass& pass);

 private:
  struct Negative;
  std::unique_ptr<Negative> negative_;
};

}  // namespace counterfoil
