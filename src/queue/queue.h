// Straight to a printer, by the Internet Printing Protocol (RFC 8010 and 8011, PWG 5100.7 for the media): which
// queues there are, and a file into one of them, on a medium of a stated size and never scaled. Nothing here
// knows whether paper came out: what can be told is that the printer took the file.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace counterfoil {

struct Queue {
  std::string name;
  std::string about;  // where it stands or what it is, as its keeper wrote it; may be empty
};

// The queues of this computer's print server. `unreadable` when there is no server.
Result<std::vector<Queue>> queues();

struct QueueJob {
  std::string name;                    // as the printer's display shows it
  std::string path;                    // a PDF or PNG file
  double width_mm = 0, height_mm = 0;  // of the medium
};

struct SentJob {
  int number = 0;         // the printer's
  bool unscaled = false;  // the printer says that it can print a page in its own size
};

// `to`: the name of one of queues(), or a printer's own "ipp://HOST[:PORT]/PATH" ("ipps://" for TLS). Asks the
// printer first what it takes. `refused`: no such queue, it takes no jobs, not this kind of file, no medium of that size
// (within half a millimetre); the hint says what it has. `unreadable`: it does not answer, or the file cannot be read.
Result<SentJob> send(const std::string& to, const QueueJob& job);

}  // namespace counterfoil
