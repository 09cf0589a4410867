// What people type at the command line, put in order.
#pragma once

#include <string>
#include <vector>

#include "base/result.h"

namespace counterfoil {

// A number typed in its groups without quotes arrives as three words: K74Q 2B8X 61, or K74Q ?B8X 61 where a character
// cannot be read. Joins them; leaves the rest.
std::vector<std::string> joined_groups(const std::vector<std::string>& words);

// Whether a word is meant as a picture's name, there or not: by its ending, or as it has a folder.
bool looks_like_picture(const std::string& word);

struct PhotosAndNumbers {
  std::vector<std::string> photos, numbers;
};
// A word that names a file is a photograph, and so is one with a picture's ending, so that a mistyped file
// name is not told to be a bad number; the rest are numbers.
PhotosAndNumbers photos_and_numbers(const std::vector<std::string>& words);

// The same photographs, with the pictures in it for each folder among them. What is left out of a folder is said on
// standard error, a line for each kind of it.
Result<std::vector<std::string>> with_folders_opened(const std::vector<std::string>& photos);

}  // namespace counterfoil
