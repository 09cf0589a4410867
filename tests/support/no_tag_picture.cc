#include "support/no_tag_picture.h"

#include <algorithm>
#include <array>

#include "support/grounds.h"
#include "support/tag_scene.h"
#include "support/zxing.h"
#include "symbol/matrix.h"

namespace counterfoil {
namespace {

constexpr std::string_view kSigns = "0123456789ABCDEFGHJKLMNPQRSTUVWXYZ";

std::string signs(Chance& chance, int count) {
  std::string out;
  for (int i = 0; i < count; ++i)
    out += kSigns[static_cast<std::size_t>(chance.below(static_cast<int>(kSigns.size())))];
  return out;
}

std::string in_groups(const std::string& beginning, Chance& chance, const std::vector<int>& counts) {
  std::string groups;
  for (const int count : counts) groups += (groups.empty() ? "" : "-") + signs(chance, count);
  return beginning + groups;
}

// Of many forms, none of which begins as a tag's text does.
std::string foreign_text(Chance& chance) {
  switch (chance.below(6)) {
    case 0:
      return "https://example.com/" + signs(chance, 4 + chance.below(20));
    case 1:
      return signs(chance, 3 + chance.below(14));
    case 2:
      return std::to_string(1000000 + chance.below(8999999));
    case 3:
      return in_groups("CF2:", chance, {4, 4, 2});
    case 4:
      return in_groups("MAILTO:", chance, {6, 8});
    default:
      return in_groups("PART ", chance, {3, 4, 2});
  }
}

Field stripes(cv::Size size, Chance& chance) {
  const double angle = chance.angle(), period = chance.between(4, 40), hard = chance.between(0.5, 8);
  const double bend = chance.between(0, 0.4);
  const Field waves = chance.smooth_noise(size, 4, 3);
  Field out(size);
  for (int y = 0; y < size.height; ++y) {
    for (int x = 0; x < size.width; ++x) {
      const double along =
          (x * std::cos(angle) + y * std::sin(angle)) / period + bend * static_cast<double>(waves(y, x));
      out(y, x) = single(0.5 + 0.45 * std::tanh(hard * std::sin(2 * CV_PI * along)));
    }
  }
  return out;
}

// Two gratings over each other: a checkerboard when both are hard and at right angles.
Field grid(cv::Size size, Chance& chance, bool right_angles) {
  const double a = chance.angle(), b = right_angles ? a + CV_PI / 2 : chance.angle();
  const double pa = chance.between(4, 30), pb = right_angles ? pa : chance.between(4, 30),
               hard = right_angles ? 30 : 1;
  Field out(size);
  for (int y = 0; y < size.height; ++y) {
    for (int x = 0; x < size.width; ++x) {
      const double first = std::sin(CV_PI * (x * std::cos(a) + y * std::sin(a)) / pa);
      const double second = std::sin(CV_PI * (x * std::cos(b) + y * std::sin(b)) / pb);
      out(y, x) = single(0.5 + 0.45 * std::tanh(hard * first * second));
    }
  }
  return out;
}

Field halftone(cv::Size size, Chance& chance) {
  const Field tone = chance.smooth_noise(size, 5, 4);
  const double angle = chance.angle(), pitch = chance.between(4, 12);
  Field out(size);
  for (int y = 0; y < size.height; ++y) {
    for (int x = 0; x < size.width; ++x) {
      const double u = (x * std::cos(angle) + y * std::sin(angle)) / pitch;
      const double v = (y * std::cos(angle) - x * std::sin(angle)) / pitch;
      const double dot = std::cos(2 * CV_PI * u) + std::cos(2 * CV_PI * v);
      out(y, x) = single(step(dot / 2 - 0.5 * static_cast<double>(tone(y, x)), -0.2, 0.2) * 0.85 + 0.08);
    }
  }
  return out;
}

Field noise(cv::Size size, Chance& chance) {
  const int cells = 4 << chance.below(6);
  Field out = chance.smooth_noise(size, cells, cells);
  if (chance.one_in(2)) out += chance.smooth_noise(size, 4 * cells, 3 * cells);
  if (chance.one_in(3)) cv::threshold(out, out, 0, 1, cv::THRESH_BINARY);
  return linear(out, 0.22, 0.5);
}

Field text_page(cv::Size size, Chance& chance) {
  Field out(size, 0.9f);
  const double scale = chance.between(0.25, 0.9);
  const int line = cvRound(34 * scale);
  for (int y = line; y < size.height; y += line) {
    std::string words;
    while (words.size() < 60) words += signs(chance, 1 + chance.below(8)) + " ";
    const int left = chance.below(20), font = chance.below(4), thick = 1 + chance.below(2);
    cv::putText(out, words, {left, y}, font, scale, cv::Scalar(0.1), thick, cv::LINE_8);
  }
  return out;
}

// A code of dots or bars as large as fits, with a white border.
Field bar_code(cv::Size size, Chance& chance, ForeignFormat format, const std::string& text) {
  const auto code = foreign_code(format, text);
  const bool bars = code.height == 1;
  const int room = bars ? size.width * 8 / 10 : size.height * 7 / 10;
  const int module = std::max(1, std::min(room / code.width, 2 + chance.below(9)));
  const int width = module * code.width, height = bars ? std::max(30, size.height / 3) : module * code.height;
  Field out(size, 0.9f);
  const int left = (size.width - width) / 2, top = (size.height - height) / 2;
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      if (!code.at(x / module, bars ? 0 : y / module)) continue;
      if (left + x >= 0 && left + x < size.width && top + y >= 0 && top + y < size.height)
        out(top + y, left + x) = 0.08f;
    }
  }
  return out;
}

// Finder patterns where a symbol has them or anywhere, with chance modules between them or nothing.
Field finders(cv::Size size, Chance& chance) {
  Field out(size, 0.9f);
  const int module = 3 + chance.below(4), n = 21 + 4 * chance.below(4);
  const int left = (size.width - n * module) / 2, top = (size.height - n * module) / 2;
  const auto square = [&](int x, int y, int side, double tone) {
    cv::rectangle(out, cv::Rect(left + x * module, top + y * module, side * module, side * module),
                  cv::Scalar(tone), cv::FILLED);
  };
  const auto finder = [&](int x, int y) {
    square(x - 1, y - 1, 9, 0.9);
    square(x, y, 7, 0.08);
    square(x + 1, y + 1, 5, 0.9);
    square(x + 2, y + 2, 3, 0.08);
  };
  const double share = chance.one_in(3) ? 0 : chance.between(0.1, 0.6);
  for (int y = 0; y < n; ++y) {
    for (int x = 0; x < n; ++x) {
      if (chance.between(0, 1) < share) square(x, y, 1, 0.08);
    }
  }
  if (chance.one_in(4)) {
    for (int i = 0; i < 6; ++i) {
      const int x = chance.below(n), y = chance.below(n);
      finder(x, y);
    }
  } else {
    finder(0, 0);
    finder(n - 7, 0);
    finder(0, n - 7);
    if (chance.one_in(4)) finder(n - 7, n - 7);
  }
  return out;
}

Field grey(const Colours& colours) {
  Field out;
  cv::cvtColor(colours, out, cv::COLOR_RGB2GRAY);
  return out;
}

// Turned, a little aslant, lit, blurred, noisy.
GreyPicture taken(Field scene, Chance& chance) {
  const auto size = scene.size();
  const double degrees = chance.between(-25, 25), zoom = chance.between(0.8, 1.2);
  cv::Mat turn = cv::getRotationMatrix2D(cv::Point2f(size) / 2, degrees, zoom);
  cv::Matx23d how(turn);
  how(0, 1) += chance.between(-0.15, 0.15);
  Field seen;
  cv::warpAffine(scene, seen, how, size, cv::INTER_LINEAR, cv::BORDER_REFLECT);
  Colours colours;
  cv::cvtColor(seen, colours, cv::COLOR_GRAY2RGB);
  const double blur = chance.between(0, 1.5), grain = chance.between(0.004, 0.04);
  develop(colours, blur, grain, chance);
  cv::Mat_<std::uint8_t> bytes;
  grey(colours).convertTo(bytes, CV_8U, 255);
  return {size.width, size.height, {bytes.datastart, bytes.dataend}};
}

// A sound or a damaged symbol of somebody else's, of the versions and levels that tags have.
NoTagPicture foreign_symbol(cv::Size size, Chance& chance, bool damaged) {
  TagScene scene;
  scene.text = foreign_text(chance);
  scene.correction = std::array{CorrectionLevel::low, CorrectionLevel::medium, CorrectionLevel::quartile,
                                CorrectionLevel::high}[static_cast<std::size_t>(chance.below(4))];
  scene.least_version = 1 + chance.below(4);
  scene.width = size.width;
  scene.height = size.height;
  scene.module_pixels = chance.between(2.5, 5);
  const auto& faults = all_faults();
  const Fault fault =
      damaged ? faults[static_cast<std::size_t>(1 + chance.below(static_cast<int>(faults.size()) - 1))]
              : Fault::none;
  const int level = damaged ? 2 + chance.below(4) : 1;
  const auto shot = photograph(scene, fault, level, chance.seed());
  return {grey_of(shot.picture), damaged ? "foreign QR, damaged" : "foreign QR", scene.text};
}

}  // namespace

NoTagPicture picture_without_tag(std::uint64_t index) {
  Chance chance(index * 0x2545F4914F6CDD1Du + 1);
  const cv::Size size = std::array{cv::Size(320, 240), cv::Size(400, 300),
                                   cv::Size(480, 360)}[static_cast<std::size_t>(chance.below(3))];
  switch (index % 14) {
    case 0:
      return {taken(noise(size, chance), chance), "noise", {}};
    case 1:
      return {taken(stripes(size, chance), chance), "stripes", {}};
    case 2:
      return {taken(grid(size, chance, true), chance), "checkerboard", {}};
    case 3:
      return {taken(halftone(size, chance), chance), "halftone", {}};
    case 4:
      return {taken(text_page(size, chance), chance), "text", {}};
    case 5: {
      std::string text = signs(chance, 4 + chance.below(8));
      return {taken(bar_code(size, chance, ForeignFormat::code_128, text), chance), "code 128", text};
    }
    case 6: {
      std::string text = foreign_text(chance);
      return {taken(bar_code(size, chance, ForeignFormat::data_matrix, text), chance), "data matrix", text};
    }
    case 7:
      return foreign_symbol(size, chance, false);
    case 8:
    case 9:
      return foreign_symbol(size, chance, true);
    case 10:
      return {taken(finders(size, chance), chance), "finder patterns", {}};
    case 11:
      return {taken(grid(size, chance, false), chance), "gratings", {}};
    case 12:
      return {taken(grey(wood_ground(size, chance)), chance), "wood", {}};
    default:
      return {taken(grey(metal_ground(size, chance)), chance), "brushed metal", {}};
  }
}

}  // namespace counterfoil
