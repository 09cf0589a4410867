// Reading: the tags on photographs, one or many.
#pragma once

#include <array>
#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "identity/payload.h"
#include "reader/photo.h"

namespace counterfoil {

struct TagSeen {
  PhotoCode code;
  std::optional<Payload> payload;  // nothing for a symbol that is not ours, or does not check
};

// A symbol that was seen and not read. Which tag it is, a person has to say.
struct UnreadTag {
  std::array<PicturePoint, 4> corners{};  // as in PhotoCode
  int page = 1;
  std::vector<Payload> likely;  // at most three tags in use, of different numbers, likeliest first
};

struct TagReading {
  std::vector<TagSeen> tags;
  std::vector<UnreadTag> unread;
  CameraWords words;   // what the camera says; its position goes into no ledger
  std::string damage;  // what of the file could not be read, in words that name it; empty when it is whole
  int pages = 1;
  bool time_ran_out = false;  // a longer search might have found more
};

enum class Sought {
  ours,                // only tags of ours
  ours_noting_others,  // the search is for ours; other symbols that it met are told too
  any,                 // every QR, Data Matrix and Code 128 symbol, such as a maker's serial on its plate
};

// How photographs are read.
struct ReadingTerms {
  Effort effort = Effort::normal;
  // Seconds by a clock that never goes back; called from all threads. Unset: no reading is ended for its time.
  std::function<double()> clock{};
  double seconds_a_picture = 0;  // each page of a file counts as a picture
  int threads = 1;               // that many pictures are in memory at once
  // Called on the caller's thread, each time that more photographs are read.
  std::function<void(std::size_t done, std::size_t all)> progress{};
};

// `known`: texts of the tags in use (issued_texts.h), null when there is no record of them.
Result<TagReading> read_tags(const std::string& path, Sought sought = Sought::ours,
                             const ReadingTerms& terms = {}, const KnownTexts* known = nullptr);

// What was made of one photograph of several.
struct PhotoRead {
  std::size_t index = 0;  // in the order given
  Result<TagReading> reading;
  double seconds = 0;  // that it took, by the terms' clock
};
// Hands each photograph's reading to `take`, in the order given and on the caller's thread, as soon as that can be.
void read_all(const std::vector<std::string>& paths, Sought sought, const ReadingTerms& terms,
              const KnownTexts* known, const std::function<void(PhotoRead)>& take);
// The same, kept.
std::vector<Result<TagReading>> read_all(const std::vector<std::string>& paths, Sought sought,
                                         const ReadingTerms& terms, const KnownTexts* known);

// Which tag of its number it is: "bag half, copy 2", "identification label".
std::string half_words(const Payload& payload);
// When the time ran out, and what to try then.
inline constexpr std::string_view kTimeRanOut = "time ran out; --budget 10 or --effort thorough looks longer";
// The advice for a photograph on which a tag was missed; to look longer stands first when the time ran out.
std::string advice_after(const TagReading& reading, std::string_view advice);

}  // namespace counterfoil
