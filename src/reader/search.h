// The search through one picture: pass after pass, a plain decoder and the hunt for damaged symbols, until all that
// is seen is read.
#pragma once

#include <functional>
#include <vector>

#include "base/result.h"
#include "reader/image.h"
#include "reader/photo.h"

namespace counterfoil {

// Gives the same picture again in another channel: keeping the colours of every picture would treble the memory.
using LoadAgain = std::function<Result<Picture>(Channel)>;

struct Finds {
  std::vector<PhotoCode> codes;  // in reading order
  std::vector<UnreadSymbol> unread;
  bool time_ran_out = false;
};

Finds search(Picture picture, const LoadAgain& load_again, const PhotoOptions& options);

}  // namespace counterfoil
