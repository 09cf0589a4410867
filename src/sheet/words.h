// The standing words of a tag in a second language: data, one JSON file a language under templates/words, which
// templates/README.md describes. A design for two languages has slots for them, "second-side" and so on.
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "base/result.h"
#include "sheet/sheet.h"

namespace counterfoil {

struct Words {
  std::string title;                         // "Spanish"
  std::map<std::string, std::string> texts;  // by what they say: "suction", "care"

  // Gives the tag the texts of its slots for the second language. `half`: "bag", "box" or "label".
  void put_on(TagContent& tag, const std::string& half) const;
};

// Refuses a file that lacks a word or has one that no design shows.
Result<Words> parse_words(std::string_view json, std::string_view language);
// The language is the file's name: "es". The hint of the error lists those that are there.
Result<Words> load_words(const std::string& folder, const std::string& language);

}  // namespace counterfoil
