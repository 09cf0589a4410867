// Published vectors that lie beside the project where they are to be had; see tests/CMakeLists.txt. A test
// that needs them begins with SKIP_WITHOUT_VECTORS("merkle").
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "base/file.h"

#define SKIP_WITHOUT_VECTORS(name)                                \
  if (!std::filesystem::exists(::counterfoil::vector_path(name))) \
  GTEST_SKIP() << "no published vectors at " << ::counterfoil::vector_path(name)

namespace counterfoil {

inline std::string vector_path(std::string_view name) {
  return std::string(COUNTERFOIL_SHARED) + "/vectors/" + std::string(name);
}

// The bytes of one file of vectors; a failure of the test when it cannot be read.
inline std::string vector_file(std::string_view name) {
  auto bytes = read_file(vector_path(name), 64u << 20);
  if (!bytes) {
    ADD_FAILURE() << bytes.error().message;
    return {};
  }
  return std::move(*bytes);
}

// Names, under vectors/, of the files with that ending in a folder and those below, sorted.
inline std::vector<std::string> vector_names(std::string_view folder, std::string_view ending) {
  const std::filesystem::path root = vector_path("");
  std::vector<std::string> out;
  for (const auto& item : std::filesystem::recursive_directory_iterator(vector_path(folder)))
    if (item.is_regular_file() && item.path().string().ends_with(ending))
      out.push_back(item.path().lexically_relative(root).string());
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace counterfoil
