// What a sheet's file is, by the ending of its name.
#pragma once

#include <string>

#include "base/result.h"
#include "sheet/sheet.h"

namespace counterfoil {

Result<SheetFormat> format_of(const std::string& path);

}  // namespace counterfoil
