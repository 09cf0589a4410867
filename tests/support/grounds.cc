#include "support/grounds.h"

#include <algorithm>

namespace counterfoil {
namespace {

Colours tinted(const Field& tone, const Colour& tint) {
  Colours out(tone.size());
  for (int y = 0; y < tone.rows; ++y) {
    for (int x = 0; x < tone.cols; ++x) out(y, x) = tint * std::clamp(tone(y, x), 0.0f, 1.0f);
  }
  return out;
}

}  // namespace

Colours wood_ground(cv::Size size, Chance& chance) {
  const Field bend = chance.smooth_noise(size, 3, 5), grain = chance.smooth_noise(size, 12, size.height / 3);
  const double rings = chance.between(7, 16), phase = chance.angle();
  Field tone(size);
  for (int y = 0; y < size.height; ++y) {
    for (int x = 0; x < size.width; ++x) {
      const double ring =
          std::sin(2 * CV_PI * (rings * y / size.height + 0.35 * bend(y, x)) + phase + 0.5 * x / size.width);
      tone(y, x) = single(0.58 + 0.06 * ring + 0.025 * grain(y, x));
    }
  }
  return tinted(tone, {1.0f, 0.8f, 0.58f});
}

Colours metal_ground(cv::Size size, Chance& chance) {
  const Field brushed = chance.smooth_noise(size, 6, size.height / 2),
              broad = chance.smooth_noise(size, 3, 2);
  Field tone;
  cv::addWeighted(brushed, 0.035, broad, 0.05, 0.54, tone);
  for (int i = 0; i < 30; ++i) {
    const cv::Point from{chance.below(size.width), chance.below(size.height)};
    const cv::Point to{from.x + chance.below(size.width / 2), from.y + chance.below(41) - 20};
    cv::line(tone, from, to, cv::Scalar(chance.between(0.35, 0.85)), 1, cv::LINE_8);
  }
  return tinted(tone, {0.98f, 1.0f, 1.03f});
}

Colours cardboard_ground(cv::Size size, Chance& chance) {
  const Field fibre = chance.smooth_noise(size, size.width / 3, size.height / 4);
  const Field broad = chance.smooth_noise(size, 5, 4);
  const double flutes = chance.between(60, 120);
  Field tone(size);
  for (int y = 0; y < size.height; ++y) {
    for (int x = 0; x < size.width; ++x) {
      tone(y, x) = single(0.66 + 0.01 * std::sin(2 * CV_PI * flutes * x / size.width) + 0.02 * fibre(y, x) +
                          0.025 * broad(y, x));
    }
  }
  return tinted(tone, {1.0f, 0.83f, 0.64f});
}

Colours bench_ground(cv::Size size, Chance& chance) {
  const Field rough = chance.smooth_noise(size, size.width / 4, size.height / 4);
  const Field broad = chance.smooth_noise(size, 4, 3);
  Field tone;
  cv::addWeighted(rough, 0.02, broad, 0.05, 0.22, tone);
  return tinted(tone, {0.95f, 1.0f, 1.0f});
}

Colours any_ground(cv::Size size, Chance& chance) {
  switch (chance.below(4)) {
    case 0:
      return wood_ground(size, chance);
    case 1:
      return metal_ground(size, chance);
    case 2:
      return cardboard_ground(size, chance);
    default:
      return bench_ground(size, chance);
  }
}

void develop(Colours& picture, double blur_pixels, double noise, Chance& chance) {
  const double angle = chance.angle(), slope = chance.between(0.05, 0.25), rim = chance.between(0.05, 0.15);
  for (int y = 0; y < picture.rows; ++y) {
    for (int x = 0; x < picture.cols; ++x) {
      const double u = 2.0 * x / picture.cols - 1, v = 2.0 * y / picture.rows - 1;
      const double light = 0.95 + slope * (u * std::cos(angle) + v * std::sin(angle)) - rim * (u * u + v * v);
      picture(y, x) *= single(light);
    }
  }
  if (blur_pixels > 0) cv::GaussianBlur(picture, picture, {}, blur_pixels);
  const Field grain = chance.noise(picture.size());
  for (int y = 0; y < picture.rows; ++y) {
    for (int x = 0; x < picture.cols; ++x) {
      picture(y, x) += Colour::all(single(noise * grain(y, x)));
    }
  }
}

cv::Mat_<cv::Vec3b> bytes_of(const Colours& picture) {
  cv::Mat_<cv::Vec3b> out;
  picture.convertTo(out, CV_8UC3, 255);
  return out;
}

}  // namespace counterfoil
