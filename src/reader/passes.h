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

struct Pass {
  std::string_view name;
  Channel channel = Channel::luma;
  Tones tones = Tones::grey;  // of what the pass makes
  int shrink = 1;             // works on the picture reduced to one of so many pixels, either way
  double most_pixels = 16e6;  // a larger picture is halved until it has at most so many, before `shrink`
  bool cheap = false;         // works on the whole of any picture, and runs even when the search is over
  bool any_kind = false;      // worth it for symbologies other than QR Code as well
  std::size_t recipe = 0;     // what is done; known to passes.cc
};

const std::vector<Pass>& passes();

// Holds a picture and its reductions, which several passes share.
class Darkroom {
 public:
  explicit Darkroom(GreyPicture picture);
  ~Darkroom();
  Darkroom(Darkroom&&) noexcept;
  Darkroom& operator=(Darkroom&&) noexcept;

  // What the pass makes of the picture. Valid until the next call. Empty when the reduced picture would be
  // too small to hold a symbol.
  GreyView develop(const Pass& pass);

 private:
  struct Negative;
  std::unique_ptr<Negative> negative_;
};

}  // namespace counterfoil
