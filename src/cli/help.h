// Help texts, made from the commands' own data: forms first, then examples, then options.
#pragma once

#include <string>
#include <vector>

#include "cli/command.h"

namespace counterfoil {

std::string help_text(const std::vector<Command>& commands, const std::vector<Option>& global);
std::string help_text(const Command& command, const std::vector<Option>& global);

}  // namespace counterfoil
