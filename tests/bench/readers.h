// Readers of tags side by side: two bare libraries, and ours in two ways. One reader serves one thread.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "reader/photo.h"

namespace counterfoil {

struct Reading {
  struct Text {
    std::string text;
    bool identified = false;
    std::string pass;
  };
  std::vector<Text> texts;
  std::vector<std::vector<std::string>> unread;  // per symbol that was seen and not read: likely texts
  std::string failure;                           // why the picture could not be opened
  double seconds = 0;                            // on the clock, file to texts
  double cpu_seconds = 0;  // of the whole process; means nothing while other threads read
};

class TagReader {
 public:
  virtual ~TagReader() = default;
  // Without the times.
  virtual Reading read(const std::string& path) = 0;
  Reading timed(const std::string& path);
};

struct OurWay {
  std::string wanted_beginning;       // "CF1:"
  const KnownTexts* known = nullptr;  // to tell apart what cannot be decoded
  std::optional<double> budget_seconds;
  Effort effort = Effort::normal;
};
// A budget runs from this call on.
PhotoOptions our_options(const OurWay& way);

// libvips to grey, then one call of ZXing-cpp: QR Code only, TryHarder on.
std::unique_ptr<TagReader> plain_reader();
// libvips to grey, then ZBar: QR Code only.
std::unique_ptr<TagReader> zbar_reader();
std::unique_ptr<TagReader> our_reader(OurWay way);

}  // namespace counterfoil
