// What readings are worth, held against what is truly on the pictures; and the tables of it.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "base/json.h"
#include "bench/readers.h"
#include "bench/truth.h"

namespace counterfoil {

// Codes, not pictures, but for `wrong` ones, which no code of the picture has.
struct Score {
  std::size_t codes = 0, read = 0;
  std::size_t identified = 0;  // of `read`: told by likeness
  std::size_t wrong = 0, wrong_identified = 0;
  std::size_t likeliest = 0, likely = 0;  // of those not read: the true text is first, is among the likely
  std::size_t unread_symbols = 0;         // symbols reported as seen and not read, on whatever picture
  std::size_t failed = 0;                 // pictures that were not opened

  void add(const TruePicture& truth, const Reading& reading);
  void add(const Score& other);
};

// How one picture went, in a word or two: "2/2", "1/1 identified", "0/1 likeliest", "0/1 WRONG CF1:...".
std::string verdict(const TruePicture& truth, const Reading& reading);

struct ReaderResults {
  std::string name;
  std::vector<Reading> readings;  // one for each picture, in their order
};

// Percent of the codes read: a line a set, for each reader a column a level and one for all.
std::string recall_table(const std::vector<TruePicture>& pictures, const std::vector<ReaderResults>& results);
// A line a reader: codes, read, identified, wrong, unread, time.
std::string summary_table(const std::vector<TruePicture>& pictures, const std::vector<ReaderResults>& results,
                          bool with_times);
// Which passes of ours read how many codes, of the last reader that names them.
std::string pass_table(const ReaderResults& results);
// The same figures for programs: {"readers":[{"name":...,"sets":[{"set":...,"level":...,...}]}]}.
Json results_json(const std::vector<TruePicture>& pictures, const std::vector<ReaderResults>& results,
                  bool with_times);

}  // namespace counterfoil
