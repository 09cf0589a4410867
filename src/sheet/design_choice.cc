#include "sheet/design_choice.h"

#include <algorithm>
#include <array>
#include <cstdio>
#include <filesystem>

#include "base/nearest.h"

namespace counterfoil {
namespace {

constexpr double kSlackMm = 1e-6;

std::string shown(double width_mm, double height_mm) {
  std::array<char, 64> text;
  std::snprintf(text.data(), text.size(), "%.4g x %.4g mm", width_mm, height_mm);
  return text.data();
}

double area(const Design& design) { return design.width_mm() * design.height_mm(); }

// By name, so that the choice does not depend on the order of a folder.
Result<std::vector<Design>> designs_of(const std::string& folder, const std::string& kind) {
  std::error_code failed;
  std::vector<std::filesystem::path> files;
  std::filesystem::directory_iterator entry(folder, failed);
  for (; !failed && entry != std::filesystem::directory_iterator(); entry.increment(failed)) {
    const std::string name = entry->path().stem().string();
    if (entry->path().extension() == ".svg" && (name == kind || name.starts_with(kind + "-")))
      files.push_back(entry->path());
  }
  if (failed) return unreadable("cannot read the designs in " + folder + ": " + failed.message());
  std::sort(files.begin(), files.end());
  std::vector<Design> designs;
  for (const auto& file : files) {
    auto design = Design::outline(file.string());
    if (!design) return design.error();
    designs.push_back(std::move(*design));
  }
  return designs;
}

// "bag-large" and "bag-large-second" are both of the size "large".
bool is_of_size(const Design& design, const DesignWish& wish) {
  if (wish.size.empty()) return true;
  const std::string name = wish.kind + "-" + wish.size;
  return design.name() == name || design.name() == name + "-second";
}

// What --design takes: "large" of "bag-large-second".
std::vector<std::string> sizes_of(const std::vector<Design>& designs, const DesignWish& wish) {
  constexpr std::string_view kSecond = "-second";
  std::vector<std::string> sizes;
  for (const auto& design : designs) {
    if (design.has_second_language() != wish.two_languages || design.name().size() <= wish.kind.size())
      continue;
    std::string size = design.name().substr(wish.kind.size() + 1);
    if (size.ends_with(kSecond)) size.resize(size.size() - kSecond.size());
    sizes.push_back(std::move(size));
  }
  return sizes;
}

}  // namespace

Result<Design> choose_design(const std::string& folder, const DesignWish& wish) {
  auto designs = designs_of(folder, wish.kind);
  if (!designs) return designs.error();
  const Design* chosen = nullptr;
  const Design* smallest = nullptr;
  for (const auto& design : *designs) {
    if (design.has_second_language() != wish.two_languages || !is_of_size(design, wish)) continue;
    if (smallest == nullptr || area(design) < area(*smallest)) smallest = &design;
    if (design.width_mm() > wish.width_mm + kSlackMm || design.height_mm() > wish.height_mm + kSlackMm)
      continue;
    if (chosen == nullptr || area(design) > area(*chosen)) chosen = &design;
  }
  if (chosen != nullptr)
    return Design::load((std::filesystem::path(folder) / (chosen->name() + ".svg")).string());
  const std::string languages = wish.two_languages ? " for two languages" : "";
  if (smallest == nullptr) {
    const auto sizes = sizes_of(*designs, wish);
    return malformed(
        "there is no design " + wish.kind + (wish.size.empty() ? "" : "-" + wish.size) + languages,
        did_you_mean(wish.size, sizes) +
            (sizes.empty() ? "there has to be a file " + wish.kind + "-SIZE.svg in " + folder
                           : "the sizes are " + listed(sizes)));
  }
  return refused("no design for a " + wish.kind + languages + " fits a place of " +
                     shown(wish.width_mm, wish.height_mm) + ", the smallest, " + smallest->name() + ", is " +
                     shown(smallest->width_mm(), smallest->height_mm()),
                 "take a larger stock");
}

}  // namespace counterfoil
