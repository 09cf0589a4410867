#include "support/tag_scene.h"

#include <algorithm>
#include <cstdlib>

#include "support/grounds.h"
#include "support/tag_layers.h"

namespace counterfoil {
namespace {

constexpr double kArtScale = 10;  // pixels a module, of the tag seen straight on
constexpr double kInk = 0.07, kPaper = 0.88;
constexpr double kMargin = 1.5;  // paper outside the quiet zone, in modules

void write(Tag& tag, const std::string& text, double u, double v, double height_modules) {
  const double size = height_modules * tag.scale / 21;  // capitals are 21 units high
  cv::putText(tag.paper, text, tag.pixel(u, v + height_modules), cv::FONT_HERSHEY_SIMPLEX, size,
              cv::Scalar::all(kInk), std::max(1, static_cast<int>(size * 2.2)), cv::LINE_8);
}

void fill(Tag& tag, double u, double v, double width, double height, double tone) {
  const auto from = tag.pixel(u, v);
  cv::rectangle(
      tag.paper,
      cv::Rect(cvRound(from.x), cvRound(from.y), cvRound(width * tag.scale), cvRound(height * tag.scale)),
      cv::Scalar::all(tone), cv::FILLED);
}

Tag blank_tag(double left, double top, double width, double height) {
  Tag tag;
  tag.scale = kArtScale;
  tag.left = left, tag.top = top;
  tag.width = width, tag.height = height;
  const cv::Size size(cvRound(tag.width * tag.scale), cvRound(tag.height * tag.scale));
  tag.paper = Colours(size, Colour::all(single(kPaper)));
  tag.shift = Shifts(size, cv::Vec2f(0, 0));
  tag.shade = Field(size, 1.0f);
  tag.shine = Colours(size, Colour(0, 0, 0));
  return tag;
}

// Edges of modules go to whole pixels each, so that no gap is between two.
void print(Tag& tag, const PrintedArea::Placed& placed) {
  const SymbolMatrix& symbol = placed.symbol;
  const auto at = [&](int x, int y) {
    const auto exact = tag.pixel(placed.left + x * placed.module, placed.top + y * placed.module);
    return cv::Point(cvRound(exact.x), cvRound(exact.y));
  };
  for (int y = 0; y < symbol.modules; ++y) {
    for (int x = 0; x < symbol.modules; ++x) {
      if (symbol.at(x, y))
        cv::rectangle(tag.paper, cv::Rect(at(x, y), at(x + 1, y + 1)), cv::Scalar::all(kInk), cv::FILLED);
    }
  }
}

// A border, the symbol in its quiet zone, and beside it words, a line and boxes.
Tag printed_tag(const SymbolMatrix& symbol, const std::string& text) {
  const double n = symbol.modules, edge = kQuietZoneModules + kMargin, beside = 0.9 * n;
  Tag tag = blank_tag(-edge, -edge, n + 2 * edge + beside, n + 2 * edge);
  tag.modules = tag.across = tag.down = n;

  fill(tag, tag.left + 0.6, tag.top + 0.6, tag.width - 1.2, tag.height - 1.2, kInk);
  fill(tag, tag.left + 0.9, tag.top + 0.9, tag.width - 1.8, tag.height - 1.8, kPaper);
  print(tag, {symbol});
  const double column = n + kQuietZoneModules;
  const std::size_t cut = text.find_first_of(":-/");
  write(tag, text.substr(0, std::min<std::size_t>(cut, 8)), column, 0, 4);
  if (cut != std::string::npos) write(tag, text.substr(cut + 1, 12), column, 6.5, 2);
  write(tag, "suction  stage 1", column, 11, 1.4);
  write(tag, "pocket 3  25.11.", column, 14, 1.4);
  fill(tag, column, 17, beside - 1, 0.25, kInk);
  fill(tag, column, 19, 4, 4, kInk);
  fill(tag, column + 0.3, 19.3, 3.4, 3.4, kPaper);
  return tag;
}

Tag printed_area(const PrintedArea& area) {
  constexpr double kEdge = 3;
  const double whole = area.side + 2 * kEdge;
  Tag tag = blank_tag(-kEdge, -kEdge, whole, whole);
  tag.modules = kSymbolSide;
  tag.across = tag.down = area.side;
  tag.scattered = true;
  // printed_tag's paper has the usual number of patches.
  const double usual_height = kSymbolSide + 2 * (kQuietZoneModules + kMargin);
  tag.patches_x = whole / (usual_height + 0.9 * kSymbolSide);
  tag.patches_y = whole / usual_height;
  fill(tag, tag.left + 0.6, tag.top + 0.6, whole - 1.2, whole - 1.2, kInk);
  fill(tag, tag.left + 0.9, tag.top + 0.9, whole - 1.8, whole - 1.8, kPaper);
  for (const auto& placed : area.symbols) print(tag, placed);
  return tag;
}

struct Seen {
  Colours tone;
  Field cover;  // 1 where there is paper, 0 where it was folded or pulled away
};

Seen seen_straight_on(const Tag& tag) {
  Field map_x(tag.paper.size()), map_y(tag.paper.size());
  for (int y = 0; y < tag.paper.rows; ++y) {
    for (int x = 0; x < tag.paper.cols; ++x) {
      const auto& shift = tag.shift(y, x);
      map_x(y, x) = single(x) + shift[0] * single(tag.scale);
      map_y(y, x) = single(y) + shift[1] * single(tag.scale);
    }
  }
  Seen seen;
  cv::remap(tag.paper, seen.tone, map_x, map_y, cv::INTER_LINEAR, cv::BORDER_REPLICATE);
  cv::remap(Field(tag.paper.size(), 1.0f), seen.cover, map_x, map_y, cv::INTER_LINEAR, cv::BORDER_CONSTANT);
  for (int y = 0; y < tag.paper.rows; ++y) {
    for (int x = 0; x < tag.paper.cols; ++x) {
      seen.tone(y, x) = seen.tone(y, x) * std::max(0.0f, tag.shade(y, x)) + tag.shine(y, x);
    }
  }
  return seen;
}

// A camera whose focal length is 1.2 times the picture's width looks at the middle of what faults are on.
class Camera {
 public:
  Camera(const TagView& scene, const Tag& tag, const Pose& pose)
      : focal_(1.2 * scene.width),
        distance_(focal_ / scene.module_pixels),
        half_(tag.across / 2, tag.down / 2),
        pose_(pose),
        centre_(pose.x * scene.width, pose.y * scene.height) {
    if (pose.cut_side >= 0) move_out(scene, tag.across, tag.down);
  }

  cv::Point2d project(double u, double v) const {
    const double x = u - half_.x, y = v - half_.y;
    const double across = x * std::cos(pose_.turn) - y * std::sin(pose_.turn);
    const double down = x * std::sin(pose_.turn) + y * std::cos(pose_.turn);
    const double z = across * std::sin(pose_.tilt_y) + down * std::sin(pose_.tilt_x);
    const double scale = focal_ / (distance_ + z);
    return {centre_.x + scale * across * std::cos(pose_.tilt_y),
            centre_.y + scale * down * std::cos(pose_.tilt_x)};
  }

  cv::Matx33d to_picture(double left, double top, double width, double height) const {
    std::array<cv::Point2f, 4> tag, picture;
    const std::array<cv::Point2d, 4> corners{
        {{left, top}, {left + width, top}, {left + width, top + height}, {left, top + height}}};
    for (std::size_t i = 0; i < 4; ++i) {
      tag[i] = corners[i];
      picture[i] = project(corners[i].x, corners[i].y);
    }
    return cv::getPerspectiveTransform(tag.data(), picture.data());
  }

 private:
  // So that the wanted share of the symbol's extent lies beyond that side.
  void move_out(const TagView& scene, double across, double down) {
    double low_x = 1e9, high_x = -1e9, low_y = 1e9, high_y = -1e9;
    for (const auto& p : {project(0, 0), project(across, 0), project(across, down), project(0, down)}) {
      low_x = std::min(low_x, p.x), high_x = std::max(high_x, p.x);
      low_y = std::min(low_y, p.y), high_y = std::max(high_y, p.y);
    }
    const double out_x = pose_.cut * (high_x - low_x), out_y = pose_.cut * (high_y - low_y);
    if (pose_.cut_side == 0) centre_.x -= low_x + out_x;
    if (pose_.cut_side == 1) centre_.y -= low_y + out_y;
    if (pose_.cut_side == 2) centre_.x += scene.width - high_x + out_x;
    if (pose_.cut_side == 3) centre_.y += scene.height - high_y + out_y;
  }

  double focal_, distance_;
  cv::Point2d half_;
  Pose pose_;
  cv::Point2d centre_;
};

// Where a place of the paper is seen on the tag: the shift undone, by steps.
cv::Point2d seen_place(const Tag& tag, double u, double v) {
  cv::Point2d seen(u, v);
  for (int i = 0; i < 8; ++i) {
    const auto at = tag.pixel(seen.x, seen.y);
    const int x = std::clamp(cvFloor(at.x), 0, tag.shift.cols - 1);
    const int y = std::clamp(cvFloor(at.y), 0, tag.shift.rows - 1);
    const auto& shift = tag.shift(y, x);
    seen = {u - static_cast<double>(shift[0]), v - static_cast<double>(shift[1])};
  }
  return seen;
}

// The tag on the ground, with its shadow. Drawn at twice the size and halved, for smooth edges.
Colours laid(const Tag& tag, const TagView& scene, const cv::Matx33d& modules_to_picture, Chance& chance) {
  const cv::Size size(scene.width, scene.height);
  Colours picture = any_ground(size, chance);
  const cv::Matx33d art_to_modules(1 / tag.scale, 0, tag.left, 0, 1 / tag.scale, tag.top, 0, 0, 1);
  // warpPerspective takes places of pixel centres, as we count from the corners of pixels.
  const cv::Matx33d to_corner(1, 0, 0.5, 0, 1, 0.5, 0, 0, 1), to_centre(1, 0, -0.5, 0, 1, -0.5, 0, 0, 1);
  const cv::Matx33d twice(2, 0, 0, 0, 2, 0, 0, 0, 1);
  const cv::Matx33d how = to_centre * twice * modules_to_picture * art_to_modules * to_corner;
  const Seen flat = seen_straight_on(tag);
  Colours seen, small;
  cv::warpPerspective(flat.tone, seen, how, size * 2, cv::INTER_LINEAR, cv::BORDER_REPLICATE);
  cv::resize(seen, small, size, 0, 0, cv::INTER_AREA);
  Field cover, small_cover, shadow;
  cv::warpPerspective(flat.cover, cover, how, size * 2, cv::INTER_LINEAR);
  cv::resize(cover, small_cover, size, 0, 0, cv::INTER_AREA);
  const double deep = scene.module_pixels;
  const cv::Matx23d aside(1, 0, 0.6 * deep, 0, 1, 0.8 * deep);
  cv::warpAffine(small_cover, shadow, aside, size);
  cv::GaussianBlur(shadow, shadow, {}, deep);
  for (int y = 0; y < picture.rows; ++y) {
    for (int x = 0; x < picture.cols; ++x) {
      const Colour ground = picture(y, x) * (1 - 0.5f * shadow(y, x));
      picture(y, x) = mixed(ground, small(y, x), static_cast<double>(small_cover(y, x)));
    }
  }
  return picture;
}

std::vector<Fault> parts_of(Fault fault, Chance& chance) {
  if (fault != Fault::combined) return {fault};
  const std::vector<Fault> choice{Fault::water,     Fault::pen,   Fault::tape,    Fault::fold,
                                  Fault::lens,      Fault::mixed, Fault::wrinkle, Fault::glare,
                                  Fault::printline, Fault::oil,   Fault::tilt,    Fault::stretch};
  std::vector<Fault> out;
  while (out.size() < 3) {
    const Fault one = choice[static_cast<std::size_t>(chance.below(static_cast<int>(choice.size())))];
    if (std::find(out.begin(), out.end(), one) == out.end()) out.push_back(one);
  }
  return out;
}

struct Taken {
  Tag tag;
  Camera camera;
  RgbPicture picture;
};

// Scenery and damage each from a chance of its own, so that the fault does not change where the tag lies, nor
// on what.
Taken taken(Tag tag, Pose pose, const TagView& view, Fault fault, double level, Chance& scenery,
            Chance& damage) {
  const auto parts = parts_of(fault, damage);
  for (const Fault part : parts) {
    pose_fault(pose, part, level, damage);
    tag_fault(tag, part, level, damage);
  }

  const Camera camera(view, tag, pose);
  const cv::Matx33d to_picture = camera.to_picture(tag.left, tag.top, tag.width, tag.height);
  Shot shot{laid(tag, view, to_picture, scenery), to_picture.inv(),
            camera.project(tag.across / 2, tag.down / 2), 5, view.module_pixels};
  if (tag.scattered) shot.spread = std::max(tag.across, tag.down) / 2;
  for (const Fault part : parts) shot_fault(shot, part, level, damage);
  const double blur = scenery.between(0.6, 1.0), grain = scenery.between(0.006, 0.014);
  develop(shot.picture, blur, grain, scenery);
  const auto bytes = bytes_of(shot.picture);
  return {std::move(tag), camera, {view.width, view.height, {bytes.datastart, bytes.dataend}}};
}

Pose any_pose(Chance& scenery) {
  Pose pose;
  pose.turn = scenery.between(-0.45, 0.45);
  pose.tilt_x = scenery.between(-0.22, 0.22);
  pose.tilt_y = scenery.between(-0.22, 0.22);
  pose.x = scenery.between(0.3, 0.45);
  pose.y = scenery.between(0.42, 0.58);
  return pose;
}

std::uint64_t damage_seed(Fault fault, std::uint64_t seed) {
  return seed + 0x5851F42D4C957F2Du * (static_cast<std::uint64_t>(fault) + 1);
}

}  // namespace

const std::vector<Fault>& all_faults() {
  static const std::vector<Fault> faults{
      Fault::none,   Fault::water,     Fault::pen,   Fault::tape,   Fault::fold,    Fault::stretch,
      Fault::cutoff, Fault::lens,      Fault::mixed, Fault::screen, Fault::wrinkle, Fault::crumple,
      Fault::glare,  Fault::printline, Fault::oil,   Fault::tilt,   Fault::combined};
  return faults;
}

std::string_view name_of(Fault fault) {
  static constexpr std::array<std::string_view, 17> kNames{
      "none",   "water",   "pen",     "tape",  "fold",      "stretch", "cutoff", "lens",    "mixed",
      "screen", "wrinkle", "crumple", "glare", "printline", "oil",     "tilt",   "combined"};
  return kNames[static_cast<std::size_t>(fault)];
}

TagPicture photograph(const TagScene& scene, Fault fault, double level, std::uint64_t seed) {
  auto symbol = encode_symbol(scene.text, scene.correction, scene.least_version);
  if (!symbol) std::abort();
  Chance scenery(seed), damage(damage_seed(fault, seed));
  const Pose pose = any_pose(scenery);
  Taken made = taken(printed_tag(*symbol, scene.text), pose, scene, fault, level, scenery, damage);

  TagPicture out;
  out.picture = std::move(made.picture);
  const double n = made.tag.modules;
  const std::array<cv::Point2d, 4> corners{{{0, 0}, {n, 0}, {n, n}, {0, n}}};
  for (std::size_t i = 0; i < 4; ++i) {
    const auto seen = seen_place(made.tag, corners[i].x, corners[i].y);
    const auto at = made.camera.project(seen.x, seen.y);
    out.corners[i] = {at.x, at.y};
  }
  for (std::size_t i = 0; i < 4; ++i) {
    const auto& a = out.corners[i];
    const auto& b = out.corners[(i + 1) % 4];
    out.module_pixels += std::hypot(a.x - b.x, a.y - b.y) / (4 * n);
  }
  out.symbol = std::move(*symbol);
  return out;
}

RgbPicture photograph_area(const PrintedArea& area, const TagView& view, Fault fault, double level,
                           std::uint64_t seed) {
  Chance scenery(seed), damage(damage_seed(fault, seed));
  Pose pose = any_pose(scenery);
  pose.x = pose.x + 0.125;  // nothing is beside the area
  return taken(printed_area(area), pose, view, fault, level, scenery, damage).picture;
}

}  // namespace counterfoil
