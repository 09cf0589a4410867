// Inside the sheet room: what a PDF needs so that no printer spoils it, and Cairo 1.16 does not write. Cairo's
// bytes pass through here into the file, and an update of its last objects follows them (ISO 32000-1:2008,
// 7.5.6), in memory that does not grow with the document.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "base/crypto.h"
#include "base/file.h"
#include "base/result.h"

namespace counterfoil {

class PdfStream {
 public:
  // Passes Cairo's next bytes on. A name that stands twice in a page's table of drawings is blanked out the
  // second time: Cairo writes one entry for each use, and a dictionary may have only one (7.3.7).
  Result<void> add(std::string_view bytes, NewFile& file);

  // Behind Cairo's last byte. The pages are printed in their own size, on one side, from the tray that has it
  // (12.2); dates and title are stated for readers of old and new kinds; colours are those of sRGB; made to
  // ISO 19005-2, level B. `created`: ISO 8601. `unreadable` when the file cannot be written, or when Cairo's
  // bytes do not end as a PDF does.
  Result<void> finish(std::string_view title, std::string_view created, NewFile& file);

 private:
  Result<void> pass(std::string_view line, NewFile& file);
  void notice(std::string_view line);

  std::string line_;          // begun, its end not yet seen
  std::uint64_t length_ = 0;  // bytes passed on
  Sha256 digest_;
  // As Cairo stated them last: references as "39 0 R", how many objects, where its table of them lies.
  std::string pages_, root_, info_, objects_, table_at_;
  bool table_follows_ = false;
};

}  // namespace counterfoil
