#include "workflow/sheet_file.h"

#include <filesystem>

#include "base/text.h"

namespace counterfoil {

Result<SheetFormat> format_of(const std::string& path) {
  const std::string ending = to_lower(std::filesystem::path(path).extension().string());
  if (ending == ".pdf") return SheetFormat::pdf;
  if (ending == ".png") return SheetFormat::png;
  if (ending == ".svg") return SheetFormat::svg;
  return malformed("cannot tell from \"" + path + "\" what to write", "end the name in .pdf, .png or .svg");
}

}  // namespace counterfoil
