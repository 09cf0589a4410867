// A stock drawn by itself, to be laid over the real one: outlines, holes, what is left to print on, and which half
// of a pair lies where.
#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "sheet/sheet.h"

namespace counterfoil {

// At actual size; a stock whose pairs need two pages gives two. `created`: ISO 8601. Gives the files' names; fails,
// and leaves no file, when they cannot be written.
Result<std::vector<std::string>> draw_stock(const Stock& stock, SheetFormat format, const std::string& path,
                                            const std::string& created);

}  // namespace counterfoil
