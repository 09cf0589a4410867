// A folder as photographs come off a telephone or a memory card: the pictures in it, in the order of their names, and
// what lies between them.
#pragma once

#include <string>
#include <vector>

#include "base/result.h"

namespace counterfoil {

struct LeftOut {
  std::string path;
  std::string what;  // in the plural: "films", "lists of edits", "files that are no pictures"
};

struct Album {
  std::vector<std::string> pictures;  // paths that begin with the folder's
  std::vector<LeftOut> left_out;
};

// All pictures below the folder, told by their content; folders in it in their turn, by name among the files. What is
// hidden (a leading dot) is passed over, links to folders are not followed. `refused` when there is no picture;
// `unreadable` when the folder cannot be read.
Result<Album> open_album(const std::string& folder);

}  // namespace counterfoil
