// What is truly on pictures: truth.jsonl, a line a picture with `path` (from the file's folder), `set`,
// `level`, `px_per_module` and `codes`, each with its `text`.
#pragma once

#include <cstdint>
#include <set>
#include <string>
#include <vector>

#include "base/result.h"

namespace counterfoil {

struct TruePicture {
  std::string path;  // to be opened as it is
  std::string name;  // as the file has it
  std::string set;
  int level = 0;
  double module_pixels = 0;
  std::vector<std::string> texts;
};

Result<std::vector<TruePicture>> read_truth(const std::string& path);

// What all texts begin with, up to the first colon if there is one: "CF1:".
std::string common_beginning(const std::vector<TruePicture>& pictures);

// `count` texts that are not on any of the pictures and look like theirs: characters at places where theirs
// differ are drawn from all that theirs have at such places. Those of the pictures first when `with_theirs`.
std::vector<std::string> known_texts_for(const std::vector<TruePicture>& pictures, std::size_t count,
                                         bool with_theirs, std::uint32_t seed);

}  // namespace counterfoil
