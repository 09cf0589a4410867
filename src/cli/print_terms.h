// The options that print, reprint and labels share.
#pragma once

#include <string>
#include <vector>

#include "cli/command.h"
#include "workflow/print.h"

namespace counterfoil {

struct PrintOptions {
  std::string stock, out, preview, to, design, second_language;
