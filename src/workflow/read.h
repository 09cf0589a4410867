// Reading: the tags on a photograph.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "identity/payload.h"
#include "reader/photo.h"

namespace counterfoil {

struct TagSeen {
  PhotoCode code;
  std::optional<Payload> payload;  // nothing for a symbol that is not ours, or does not check
};

struct TagReading {
  std::vector<TagSeen> tags;
  CameraWords words;   // what the camera says; its position goes into no ledger
  std::string damage;  // what of the file could not be read, in words that name it; empty when it is whole
  int pages = 1;
};

enum class Sought {
  ours,                // only tags of ours
  ours_noting_others,  // the search is for ours; other symbols that it met are told too
  any,                 // every QR, Data Matrix and Code 128 symbol, such as a maker's serial on its plate
};

Result<TagReading> read_tags(const std::string& path, Sought sought = Sought::ours);

}  // namespace counterfoil
