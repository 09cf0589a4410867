#include "reader/passes.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <opencv2/imgproc.hpp>
#include <utility>

namespace counterfoil {
namespace {

// The smallest QR Code has 21 modules a side (ISO/IEC 18004), and a module needs a pixel at the very least.
constexpr int kSmallestSide = 21;

cv::Mat inverted(const cv::Mat& grey) {
  cv::Mat out;
  cv::bitwise_not(grey, out);
  return out;
}

// White where a pixel is lighter than its neighbourhood's mean less `margin`.
cv::Mat above_local_mean(const cv::Mat& grey, int window, double margin) {
  cv::Mat out;
  cv::adaptiveThreshold(grey, out, 255, cv::ADAPTIVE_THRESH_MEAN_C, cv::THRESH_BINARY, window, margin);
  return out;
}

// Every neighbourhood to one mean and one spread, so that shadow and faint print look like the rest.
cv::Mat locally_normalised(const cv::Mat& grey, int window) {
  constexpr double kNoiseVariance = 4;  // keeps flat areas flat
  cv::Mat value, mean, square;
  grey.convertTo(value, CV_32F);
  cv::blur(value, mean, {window, window});
  cv::blur(value.mul(value), square, {window, window});
  cv::Mat spread = cv::max(square - mean.mul(mean), 0) + kNoiseVariance;
  cv::sqrt(spread, spread);
  cv::Mat out;
  cv::divide(value - mean, spread, value);
  value.convertTo(out, CV_8U, 50, 128);
  return out;
}

cv::Mat otsu(const cv::Mat& grey) {
  cv::Mat out;
  cv::threshold(grey, out, 0, 255, cv::THRESH_BINARY | cv::THRESH_OTSU);
  return out;
}

cv::Mat square(int side) { return cv::getStructuringElement(cv::MORPH_RECT, {side, side}); }

cv::Mat morphed(const cv::Mat& grey, int operation, int side) {
  cv::Mat out;
  cv::morphologyEx(grey, out, operation, square(side));
  return out;
}

// Only what is darker than its surroundings and narrower than `side`, as black on white.
cv::Mat narrow_darkness(const cv::Mat& grey, int side) {
  cv::Mat out = morphed(grey, cv::MORPH_BLACKHAT, side);
  cv::normalize(out, out, 255, 0, cv::NORM_MINMAX);
  return out;
}

cv::Mat sharpened(const cv::Mat& grey, double sigma, double amount) {
  cv::Mat soft, out;
  cv::GaussianBlur(grey, soft, {0, 0}, sigma);
  cv::addWeighted(grey, 1 + amount, soft, -amount, 0, out);
  return out;
}

cv::Mat median(const cv::Mat& grey, int side) {
  cv::Mat out;
  cv::medianBlur(grey, out, side);
  return out;
}

// The darkest and the lightest hundredth become black and white.
cv::Mat stretched(const cv::Mat& grey) {
  cv::Mat histogram, out;
  const int channel = 0, bins = 256;
  const float range[] = {0, 256};
  const float* ranges = range;
  cv::calcHist(&grey, 1, &channel, cv::noArray(), histogram, 1, &bins, &ranges);
  const double hundredth = static_cast<double>(grey.total()) / 100;
  int low = 0, high = 255;
  for (double sum = 0; low < 254 && (sum += histogram.at<float>(low)) < hundredth; ++low) {
  }
  for (double sum = 0; high > low + 1 && (sum += histogram.at<float>(high)) < hundredth; --high) {
  }
  const double gain = 255.0 / (high - low);
  grey.convertTo(out, CV_8U, gain, -gain * low);
  return out;
}

cv::Mat gamma_corrected(const cv::Mat& grey, double gamma) {
  cv::Mat table(1, 256, CV_8U), out;
  for (int i = 0; i < 256; ++i) {
    table.at<std::uint8_t>(i) = static_cast<std::uint8_t>(std::lround(255 * std::pow(i / 255.0, gamma)));
  }
  cv::LUT(grey, table, out);
  return out;
}

constexpr int kRestoringSide = 64;  // of the torus that restoring filters are worked out on
constexpr int kSupersampling = 8;

// A blur drawn at `kSupersampling` times its size by `draw`, as weights that sum to one.
template <typename Draw>
cv::Mat blur_kernel(Draw draw) {
  constexpr int kSide = kRestoringSide * kSupersampling;
  cv::Mat fine = cv::Mat::zeros(kSide, kSide, CV_32F), kernel;
  // Half a coarse pixel off the middle, so that the blur sits on the centre of a pixel and not on a corner.
  const int middle = kSide / 2 + kSupersampling / 2;
  draw(fine, cv::Point(middle, middle));
  cv::resize(fine, kernel, {kRestoringSide, kRestoringSide}, 0, 0, cv::INTER_AREA);
  return kernel / cv::sum(kernel)[0];
}

cv::Mat defocus(double radius) {
  return blur_kernel([=](cv::Mat& fine, cv::Point middle) {
    cv::circle(fine, middle, static_cast<int>(std::lround(radius * kSupersampling)), 1, cv::FILLED);
  });
}

cv::Mat motion(double length, double degrees) {
  return blur_kernel([=](cv::Mat& fine, cv::Point middle) {
    const double angle = degrees * std::numbers::pi / 180, half = length / 2 * kSupersampling;
    const cv::Point end(static_cast<int>(std::lround(std::cos(angle) * half)),
                        static_cast<int>(std::lround(std::sin(angle) * half)));
    cv::line(fine, middle - end, middle + end, 1, kSupersampling);
  });
}

// The Wiener filter that undoes a blur, as a kernel: conj(K) / (|K|^2 + noise). Our blurs are symmetric about
// their middle, so K is real but for the shift to that middle, which the conjugate undoes.
cv::Mat restoring_kernel(const cv::Mat& blur) {
  constexpr float kNoise = 0.01F;
  cv::Mat spectrum, kernel;
  cv::dft(blur, spectrum, cv::DFT_COMPLEX_OUTPUT);
  for (auto it = spectrum.begin<cv::Vec2f>(); it != spectrum.end<cv::Vec2f>(); ++it) {
    const float power = (*it)[0] * (*it)[0] + (*it)[1] * (*it)[1] + kNoise;
    *it = {(*it)[0] / power, -(*it)[1] / power};
  }
  cv::dft(spectrum, kernel, cv::DFT_INVERSE | cv::DFT_SCALE | cv::DFT_REAL_OUTPUT);
  // Its middle is at minus the blur's; rolled to the middle of an odd square for filter2D.
  constexpr int kReach = 24;
  cv::Mat centred(2 * kReach + 1, 2 * kReach + 1, CV_32F);
  for (int y = -kReach; y <= kReach; ++y) {
    for (int x = -kReach; x <= kReach; ++x) {
      const auto wrap = [](int i) { return (i + kRestoringSide / 2) % kRestoringSide; };
      centred.at<float>(y + kReach, x + kReach) = kernel.at<float>(wrap(y), wrap(x));
    }
  }
  return centred;
}

// filter2D correlates, which for a kernel symmetric about its middle is the same as to convolve.
cv::Mat restored(const cv::Mat& grey, const cv::Mat& blur) {
  cv::Mat out;
  cv::filter2D(grey, out, CV_8U, restoring_kernel(blur), {-1, -1}, 0, cv::BORDER_REFLECT_101);
  return out;
}

struct Recipe {
  Pass pass;
  cv::Mat (*work)(const cv::Mat&);
};

// Full-size passes work on at most 16 megapixels, so that a picture takes about two seconds at most; the two
// that run always see everything.
constexpr double kAll = kWorkingPixels, kFull = 16e6, kHalf = kFull / 4, kRestoring = 1e6;
constexpr auto kLuma = Channel::luma, kLightest = Channel::lightest;

// clang-format off
const Recipe kRecipes[] = {
    {{"plain", kLuma, true, true, 1, kAll}, [](const cv::Mat& m) { return m; }},
    {{"half-adaptive", kLuma, true, true, 2, kAll}, [](const cv::Mat& m) { return above_local_mean(m, 15, 2); }},
    {{"quarter-normalised", kLuma, true, true, 4, kHalf}, [](const cv::Mat& m) { return locally_normalised(m, 21); }},
    {{"half-inverted", kLuma, false, true, 2, kHalf}, inverted},
    {{"half-inverted-adaptive", kLuma, false, true, 2, kHalf}, [](const cv::Mat& m) { return above_local_mean(inverted(m), 31, 5); }},
    {{"half-normalised", kLuma, false, true, 2, kHalf}, [](const cv::Mat& m) { return locally_normalised(m, 31); }},
    {{"half-lightest", kLightest, false, false, 2, kHalf}, [](const cv::Mat& m) { return above_local_mean(m, 31, 5); }},
    {{"half-black-hat", kLuma, false, false, 2, kHalf}, [](const cv::Mat& m) { return narrow_darkness(m, 21); }},
    {{"half-sharpened", kLuma, false, false, 2, kHalf}, [](const cv::Mat& m) { return sharpened(m, 2, 2); }},
    {{"otsu", kLuma, false, false, 1, kFull}, otsu},
    {{"adaptive", kLuma, false, false, 1, kFull}, [](const cv::Mat& m) { return above_local_mean(m, 31, 5); }},
    {{"median", kLuma, false, false, 1, kFull}, [](const cv::Mat& m) { return median(m, 3); }},
    {{"stretched", kLuma, false, false, 1, kFull}, stretched},
    {{"gamma", kLuma, false, false, 1, kFull}, [](const cv::Mat& m) { return gamma_corrected(m, 0.4); }},
    {{"sharpened", kLuma, false, false, 1, kFull}, [](const cv::Mat& m) { return sharpened(m, 4, 2); }},
    {{"eroded", kLuma, false, false, 1, kFull}, [](const cv::Mat& m) { return morphed(m, cv::MORPH_ERODE, 5); }},
    {{"dilated", kLuma, false, false, 1, kFull}, [](const cv::Mat& m) { return morphed(m, cv::MORPH_DILATE, 5); }},
    {{"closed", kLuma, false, false, 1, kFull}, [](const cv::Mat& m) { return morphed(m, cv::MORPH_CLOSE, 3); }},
    {{"opened", kLuma, false, false, 1, kFull}, [](const cv::Mat& m) { return morphed(m, cv::MORPH_OPEN, 5); }},
    {{"refocused-3", kLuma, false, false, 3, kRestoring}, [](const cv::Mat& m) { return restored(m, defocus(3)); }},
    {{"refocused-2", kLuma, false, false, 2, kRestoring}, [](const cv::Mat& m) { return restored(m, defocus(2)); }},
    {{"refocused-4", kLuma, false, false, 2, kRestoring}, [](const cv::Mat& m) { return restored(m, defocus(4)); }},
    {{"unmoved-0", kLuma, false, false, 2, kRestoring}, [](const cv::Mat& m) { return restored(m, motion(9, 0)); }},
    {{"unmoved-45", kLuma, false, false, 2, kRestoring}, [](const cv::Mat& m) { return restored(m, motion(9, 45)); }},
    {{"unmoved-90", kLuma, false, false, 2, kRestoring}, [](const cv::Mat& m) { return restored(m, motion(9, 90)); }},
    {{"unmoved-135", kLuma, false, false, 2, kRestoring}, [](const cv::Mat& m) { return restored(m, motion(9, 135)); }},
};
// clang-format on

cv::Mat reduced(const cv::Mat& grey, int shrink) {
  cv::Mat out;
  const cv::Size size(std::max(grey.cols / shrink, 1), std::max(grey.rows / shrink, 1));
  cv::resize(grey, out, size, 0, 0, cv::INTER_AREA);
  return out;
}

}  // namespace

const std::vector<Pass>& passes() {
  static const std::vector<Pass> all = [] {
    std::vector<Pass> list;
    for (const Recipe& recipe : kRecipes) {
      list.push_back(recipe.pass);
      list.back().recipe = static_cast<int>(list.size()) - 1;
    }
    return list;
  }();
  return all;
}

struct Darkroom::Negative {
  GreyPicture picture;
  std::map<int, cv::Mat> reductions;  // by the factor; 1 is the picture itself
  cv::Mat developed;
};

Darkroom::Darkroom(GreyPicture picture) : negative_(std::make_unique<Negative>()) {
  negative_->picture = std::move(picture);
  auto& whole = negative_->picture;
  negative_->reductions[1] = cv::Mat(whole.height, whole.width, CV_8U, whole.pixels.data());
}
Darkroom::~Darkroom() = default;
Darkroom::Darkroom(Darkroom&&) noexcept = default;
Darkroom& Darkroom::operator=(Darkroom&&) noexcept = default;

GreyView Darkroom::develop(const Pass& pass) {
  const cv::Mat& whole = negative_->reductions[1];
  int shrink = pass.shrink;
  while (static_cast<double>(whole.total()) / shrink / shrink > pass.most_pixels) shrink *= 2;
  if (std::min(whole.cols, whole.rows) / shrink < kSmallestSide) return {};
  cv::Mat& reduction = negative_->reductions[shrink];
  if (reduction.empty()) {
    // From the half where that is there and divides: averaging averages is exact and a fourth of the work.
    const auto half = negative_->reductions.find(2);
    const bool from_half = shrink > 2 && shrink % 2 == 0 && half != negative_->reductions.end();
    reduction = from_half ? reduced(half->second, shrink / 2) : reduced(whole, shrink);
  }
  negative_->developed = kRecipes[pass.recipe].work(reduction);
  return {negative_->developed.data, negative_->developed.cols, negative_->developed.rows};
}

}  // namespace counterfoil
