#include "workflow/missing_dots.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>

namespace counterfoil {
namespace {

constexpr double kStepMm = 1 / kPixelsPerMm;
constexpr float kInk = 0.9F;                     // and all around it
constexpr double kLeastMm = 3;                   // of ink in the way
constexpr double kLightMm = 0.02;                // the least width: half a dot of 600 to the inch
constexpr double kMostLightMm = 0.4;             // three dots of 203 to the inch
constexpr float kLacks = 0.08F;                  // of a pixel's ink
constexpr double kMost = 0.75;                   // of the ink in the way
constexpr double kLeastOfTagMm = 0.5;            // of a tag's ink, so that the tag counts
constexpr int kLineSteps = 2, kBesideSteps = 9;  // that a line reaches; where its surroundings are looked at
constexpr double kMostBeside = 0.4;              // of what the line lacks
constexpr double kMostTags = 0.7;                // of those

// What is in the way of a line, in pixels of ink.
struct Way {
  double ink = 0, lacking = 0;  // all; what is missing, in parts of pixels
  double light = 0;             // pixels that lack some
};
using Ways = std::vector<Way>;  // by places of kStepMm from the page's edge

double mean_lack(const Way& way) { return way.ink > 0 ? way.lacking / way.ink : 0; }

double place_of(const InkedTag& tag, bool column, int x, int y) {
  const PicturePoint mm = tag.to_page({x + 0.5, y + 0.5});
  return column ? mm.x : mm.y;
}

// Whether all parts are printed on the whole as they should be. Of a tag that lacks some nothing is to be told of dots.
bool is_as_drawn(const InkedTag& tag) {
  constexpr double kLeastStrength = 0.6, kLeastLikeness = 0.75, kLeastInk = 25;
  return std::all_of(tag.ink->parts.begin(), tag.ink->parts.end(), [](const PartInk& part) {
    return part.meant < kLeastInk || (part.strength > kLeastStrength && part.likeness > kLeastLikeness);
  });
}

Ways ways_through(const InkedTag& tag, const Plane& core, bool column) {
  Ways ways;
  const Plane& seen = tag.print->planes.seen;
  for (int y = 0; y < core.height; ++y)
    for (int x = 0; x < core.width; ++x) {
      if (core.at(x, y) < kInk) continue;
      const double mm = place_of(tag, column, x, y);
      if (mm < 0) continue;
      const auto at = static_cast<std::size_t>(mm / kStepMm);
      if (at >= ways.size()) ways.resize(at + 1);
      const float lack = 1 - seen.at(x, y);
      ways[at].ink += 1;
      ways[at].lacking += double{lack};
      ways[at].light += lack > kLacks ? 1 : 0;
    }
  return ways;
}

// What ink lacks on one side of a place, near to it; nothing without ink there.
std::optional<double> lack_beside(const Ways& ways, std::size_t at, int side) {
  Way beside;
  for (int i = kLineSteps + 1; i <= kBesideSteps; ++i) {
    const auto k = static_cast<std::ptrdiff_t>(at) + side * i;
    if (k < 0 || k >= static_cast<std::ptrdiff_t>(ways.size())) break;
    beside.ink += ways[static_cast<std::size_t>(k)].ink;
    beside.lacking += ways[static_cast<std::size_t>(k)].lacking;
  }
  if (beside.ink < kLeastOfTagMm / kStepMm) return std::nullopt;
  return mean_lack(beside);
}

// What ink lacks beside a line as it always does; nothing where it is no line, but the edge or the midst of a place
// that lacks ink.
std::optional<double> usual_lack(const Ways& ways, std::size_t at) {
  const auto before = lack_beside(ways, at, -1), behind = lack_beside(ways, at, 1);
  if (!before && !behind) return std::nullopt;
  const double most = std::max(before.value_or(0), behind.value_or(0));
  return most < kMostBeside * mean_lack(ways[at]) ? std::optional(most) : std::nullopt;
}

bool shows(const Way& way, double least_ink) { return way.ink >= least_ink && way.light >= kMost * way.ink; }

void find_lines(bool column, const std::vector<Ways>& of_tags, std::vector<MissingDots>& lines) {
  Ways all;
  for (const auto& ways : of_tags) {
    all.resize(std::max(all.size(), ways.size()));
    for (std::size_t i = 0; i < ways.size(); ++i) {
      all[i].ink += ways[i].ink;
      all[i].lacking += ways[i].lacking;
      all[i].light += ways[i].light;
    }
  }
  for (std::size_t at = 1; at + 1 < all.size(); ++at) {
    if (!shows(all[at], kLeastMm / kStepMm)) continue;
    const double here = mean_lack(all[at]);
    if (here < mean_lack(all[at - 1]) || here <= mean_lack(all[at + 1])) continue;  // its middle
    const auto usual = usual_lack(all, at);
    if (!usual) continue;
    double width = 0, moment = 0;
    for (std::size_t i = at - std::min<std::size_t>(at, kLineSteps);
         i <= std::min(at + kLineSteps, all.size() - 1); ++i) {
      const double light = std::max(0.0, mean_lack(all[i]) - *usual);
      width += light * kStepMm;
      moment += light * kStepMm * (static_cast<double>(i) + 0.5) * kStepMm;
    }
    if (width < kLightMm || width > kMostLightMm) continue;
    int in_the_way = 0, shown = 0;
    for (const auto& ways : of_tags) {
      if (at >= ways.size() || ways[at].ink < kLeastOfTagMm / kStepMm) continue;
      ++in_the_way;
      shown += shows(ways[at], 1) ? 1 : 0;
    }
    if (shown == 0 || shown < kMostTags * in_the_way) continue;
    lines.push_back({column, moment / width, width, shown});
  }
}

}  // namespace

std::vector<MissingDots> missing_dots(const std::vector<InkedTag>& tags) {
  std::vector<MissingDots> lines;
  std::vector<Plane> cores;
  std::vector<InkedTag> fit;
  std::copy_if(tags.begin(), tags.end(), std::back_inserter(fit), is_as_drawn);
  for (const auto& tag : fit) cores.push_back(least_around(tag.print->planes.meant, 1));
  for (const bool column : {true, false}) {
    std::vector<Ways> of_tags;
    for (std::size_t i = 0; i < fit.size(); ++i) of_tags.push_back(ways_through(fit[i], cores[i], column));
    find_lines(column, of_tags, lines);
  }
  return lines;
}

void overlook(const std::vector<MissingDots>& lines, const std::vector<InkedTag>& tags) {
  constexpr double kAroundMm = 0.15;  // blur
  for (const auto& line : lines)
    for (const auto& tag : tags) {
      InkPlanes& planes = tag.print->planes;
      for (int y = 0; y < planes.meant.height; ++y)
        for (int x = 0; x < planes.meant.width; ++x)
          if (std::abs(place_of(tag, line.column, x, y) - line.at_mm) < line.width_mm / 2 + kAroundMm)
            planes.seen.at(x, y) = planes.meant.at(x, y);
    }
}

}  // namespace counterfoil
