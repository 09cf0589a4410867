// The program's exit codes, in one place.
#pragma once

#include "base/result.h"

namespace counterfoil {

enum class ExitCode {
  done = 0,
  no = 1,     // the answer is no: refused, or something is wrong with what was looked at
  usage = 2,  // the command or the input is not of the right form
  io = 3,     // cannot read or write
  bug = 4,    // ours, never yours
};

inline ExitCode exit_code_of(ErrorKind kind) {
  switch (kind) {
    case ErrorKind::refused:
      return ExitCode::no;
    case ErrorKind::malformed:
      return ExitCode::usage;
    case ErrorKind::unreadable:
      return ExitCode::io;
  }
  return ExitCode::bug;
}

}  // namespace counterfoil
