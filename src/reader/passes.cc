#include "reader/passes.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <numbers>
#include <opencv2/imgproc.hpp>
#include <utility>

namespace counterfoil {
namespace {

// The smallest QR Code has 21 modules a side (ISO/IEC 18004), and a module needs a pixel at the very least.
constexpr int kSmallestSide = 21;

using Work = std::function<cv::Mat(const cv::Mat& grey)>;

// A work whose result one OpenCV call writes into its second argument.
template <typename Call>
Work work(Call call) {
  return [=](const cv::Mat& grey) {
    cv::Mat out;
    call(grey, out);
    return out;
  };
}

Work nothing() {
  return [](const cv::Mat& grey) { return grey; };
}

Work both(Work first, Work second) {
  return [=](const cv::Mat& grey) { return second(first(grey)); };
}

Work invert() {
  return work([](const cv::Mat& grey, cv::Mat& out) { cv::bitwise_not(grey, out); });
}

// White where a pixel is lighter than its neighbourhood's mean less `margin`.
Work above_local_mean(int window, double margin) {
  return work([=](const cv::Mat& grey, cv::Mat& out) {
    cv::adaptiveThreshold(grey, out, 255, cv::ADAPTIVE_THRESH_MEAN_C, cv::THRESH_BINARY, window, margin);
  });
}

Work above(double threshold) {
  return work([=](const cv::Mat& grey, cv::Mat& out) {
    cv::threshold(grey, out, threshold, 255, cv::THRESH_BINARY);
  });
}

Work above_otsu_threshold() {
  return work([](const cv::Mat& grey, cv::Mat& out) {
    cv::threshold(grey, out, 0, 255, cv::THRESH_BINARY | cv::THRESH_OTSU);
  });
}

// Every neighbourhood to one mean and one spread, so that shadow and faint print look like the rest.
Work normalise_locally(int window) {
  return work([=](const cv::Mat& grey, cv::Mat& out) {
    constexpr double kNoiseVariance = 4;  // keeps flat areas flat
    cv::Mat mean, variance;
    cv::boxFilter(grey, mean, CV_32F, {window, window});
    cv::sqrBoxFilter(grey, variance, CV_32F, {window, window});
    cv::subtract(variance, mean.mul(mean), variance);
    cv::sqrt(cv::max(variance, 0) + kNoiseVariance, variance);
    cv::subtract(grey, mean, mean, cv::noArray(), CV_32F);
    cv::divide(mean, variance, mean);
    mean.convertTo(out, CV_8U, 50, 128);
  });
}

Work morph(cv::MorphTypes operation, int side) {
  return work([=](const cv::Mat& grey, cv::Mat& out) {
    cv::morphologyEx(grey, out, operation, cv::getStructuringElement(cv::MORPH_RECT, {side, side}));
  });
}

// Only what is darker than its surroundings and narrower than `side`, as black on white.
Work keep_narrow_darkness(int side) {
  return both(morph(cv::MORPH_BLACKHAT, side), work([](const cv::Mat& grey, cv::Mat& out) {
                cv::normalize(grey, out, 255, 0, cv::NORM_MINMAX);
                cv::bitwise_not(out, out);
              }));
}

Work sharpen(double sigma, double amount) {
  return work([=](const cv::Mat& grey, cv::Mat& out) {
    cv::Mat soft;
    cv::GaussianBlur(grey, soft, {0, 0}, sigma);
    cv::addWeighted(grey, 1 + amount, soft, -amount, 0, out);
  });
}

Work median(int side) {
  return work([=](const cv::Mat& grey, cv::Mat& out) { cv::medianBlur(grey, out, side); });
}

// For symbols whose modules are hardly a pixel or two wide.
Work enlarge(int times) {
  return work(
      [=](const cv::Mat& grey, cv::Mat& out) { cv::resize(grey, out, {}, times, times, cv::INTER_CUBIC); });
}

// The darkest and the lightest hundredth become black and white.
Work stretch() {
  return work([](const cv::Mat& grey, cv::Mat& out) {
    cv::Mat histogram;
    const int channel = 0, bins = 256;
    const float range[] = {0, 256};
    const float* ranges = range;
    cv::calcHist(&grey, 1, &channel, cv::noArray(), histogram, 1, &bins, &ranges);
    const double hundredth = static_cast<double>(grey.total()) / 100;
    int low = 0, high = 255;
    for (double sum = histogram.at<float>(0); low < 254 && sum < hundredth;
         sum += histogram.at<float>(++low)) {
    }
    for (double sum = histogram.at<float>(255); high > low + 1 && sum < hundredth;
         sum += histogram.at<float>(--high)) {
    }
    const double gain = 255.0 / (high - low);
    grey.convertTo(out, CV_8U, gain, -gain * low);
  });
}

Work correct_gamma(double gamma) {
  cv::Mat table(1, 256, CV_8U);
  for (int i = 0; i < 256; ++i) {
    table.at<std::uint8_t>(i) = static_cast<std::uint8_t>(std::lround(255 * std::pow(i / 255.0, gamma)));
  }
  return work([=](const cv::Mat& grey, cv::Mat& out) { cv::LUT(grey, table, out); });
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

// The Wiener filter that undoes a blur, as a kernel: conj(K) / (|K|^2 + noise), rolled to the middle of an
// odd square. filter2D correlates, which for blurs that are symmetric about their middle is the same as to
// convolve.
Work undo(const cv::Mat& blur) {
  constexpr float kNoise = 0.01F;
  constexpr int kReach = 24;
  cv::Mat spectrum, torus, kernel(2 * kReach + 1, 2 * kReach + 1, CV_32F);
  cv::dft(blur, spectrum, cv::DFT_COMPLEX_OUTPUT);
  for (auto it = spectrum.begin<cv::Vec2f>(); it != spectrum.end<cv::Vec2f>(); ++it) {
    const float power = (*it)[0] * (*it)[0] + (*it)[1] * (*it)[1] + kNoise;
    *it = {(*it)[0] / power, -(*it)[1] / power};
  }
  cv::dft(spectrum, torus, cv::DFT_INVERSE | cv::DFT_SCALE | cv::DFT_REAL_OUTPUT);
  for (int y = -kReach; y <= kReach; ++y) {
    for (int x = -kReach; x <= kReach; ++x) {
      const auto from_middle = [](int i) { return (i + kRestoringSide / 2) % kRestoringSide; };
      kernel.at<float>(y + kReach, x + kReach) = torus.at<float>(from_middle(y), from_middle(x));
    }
  }
  return work([=](const cv::Mat& grey, cv::Mat& out) {
    cv::filter2D(grey, out, CV_8U, kernel, {-1, -1}, 0, cv::BORDER_REFLECT_101);
  });
}

Work undo_defocus(double radius) {
  return undo(blur_kernel([=](cv::Mat& fine, cv::Point middle) {
    cv::circle(fine, middle, static_cast<int>(std::lround(radius * kSupersampling)), 1, cv::FILLED);
  }));
}

Work undo_motion(double length, double degrees) {
  return undo(blur_kernel([=](cv::Mat& fine, cv::Point middle) {
    const double angle = degrees * std::numbers::pi / 180, half = length / 2 * kSupersampling;
    const cv::Point end(static_cast<int>(std::lround(std::cos(angle) * half)),
                        static_cast<int>(std::lround(std::sin(angle) * half)));
    cv::line(fine, middle - end, middle + end, 1, kSupersampling);
  }));
}

struct Recipe {
  Pass pass;
  Work work;
};

constexpr double kRestoring = 4e6;  // restoring filters are dear
constexpr auto kBinary = Tones::black_and_white;

// clang-format off
const std::vector<Recipe>& recipes() {
  static const std::vector<Recipe> all = {
      {{.name = "plain", .cheap = true, .any_kind = true}, nothing()},
      {{.name = "half-adaptive", .tones = kBinary, .shrink = 2, .cheap = true, .any_kind = true},
       above_local_mean(15, 2)},
      {{.name = "quarter-normalised", .shrink = 4, .cheap = true, .any_kind = true}, normalise_locally(21)},
      {{.name = "half-level", .tones = kBinary, .shrink = 2, .cheap = true, .hunt = HuntBy::whole_patterns},
       above_local_mean(45, 3)},
      {{.name = "half-inverted", .shrink = 2, .any_kind = true}, invert()},
      {{.name = "half-level-again", .tones = kBinary, .shrink = 2, .hunt = HuntBy::any_patterns, .decodes = false},
       above_local_mean(45, 3)},
      {{.name = "half-adaptive-again", .tones = kBinary, .shrink = 2, .hunt = HuntBy::any_patterns,
        .decodes = false}, above_local_mean(15, 2)},
      {{.name = "half-inverted-adaptive", .tones = kBinary, .shrink = 2, .any_kind = true},
       both(invert(), above_local_mean(31, 5))},
      {{.name = "half-normalised", .shrink = 2, .any_kind = true}, normalise_locally(31)},
      {{.name = "half-lightest", .channel = Channel::lightest, .tones = kBinary, .shrink = 2,
        .hunt = HuntBy::any_patterns}, above_local_mean(31, 5)},
      {{.name = "lightest", .channel = Channel::lightest, .hunt = HuntBy::sampling, .decodes = false}, nothing()},
      {{.name = "half-black-hat", .shrink = 2}, keep_narrow_darkness(21)},
      {{.name = "half-sharpened", .shrink = 2, .hunt = HuntBy::sampling}, sharpen(2, 2)},
      {{.name = "half", .shrink = 2, .any_kind = true}, nothing()},
      {{.name = "third", .shrink = 3, .any_kind = true}, nothing()},
      {{.name = "third-adaptive", .tones = kBinary, .shrink = 3, .hunt = HuntBy::any_patterns},
       above_local_mean(21, 3)},
      {{.name = "half-adaptive-wide", .tones = kBinary, .shrink = 2, .hunt = HuntBy::any_patterns},
       above_local_mean(51, 8)},
      {{.name = "half-gamma", .shrink = 2}, correct_gamma(0.4)},
      {{.name = "half-median", .shrink = 2, .hunt = HuntBy::sampling}, median(5)},
      {{.name = "half-dark", .tones = kBinary, .shrink = 2}, above(64)},
      {{.name = "half-light", .tones = kBinary, .shrink = 2}, above(192)},
      {{.name = "otsu", .tones = kBinary}, above_otsu_threshold()},
      {{.name = "adaptive", .tones = kBinary, .hunt = HuntBy::any_patterns}, above_local_mean(31, 5)},
      {{.name = "quarter-level", .tones = kBinary, .shrink = 4, .hunt = HuntBy::any_patterns, .decodes = false},
       above_local_mean(31, 3)},
      {{.name = "median"}, median(3)},
      {{.name = "stretched"}, stretch()},
      {{.name = "sharpened"}, sharpen(4, 2)},
      {{.name = "doubled", .last = true}, enlarge(2)},
      {{.name = "gamma"}, correct_gamma(0.4)},
      {{.name = "eroded", .hunt = HuntBy::sampling}, morph(cv::MORPH_ERODE, 5)},
      {{.name = "dilated", .hunt = HuntBy::sampling}, morph(cv::MORPH_DILATE, 5)},
      {{.name = "closed"}, morph(cv::MORPH_CLOSE, 3)},
      {{.name = "opened"}, morph(cv::MORPH_OPEN, 5)},
      {{.name = "refocused-3", .shrink = 3, .most_pixels = kRestoring, .hunt = HuntBy::sampling, .last = true},
       undo_defocus(3)},
      {{.name = "refocused-2", .shrink = 2, .most_pixels = kRestoring, .hunt = HuntBy::sampling, .last = true},
       undo_defocus(2)},
      {{.name = "refocused-4", .shrink = 2, .most_pixels = kRestoring, .hunt = HuntBy::sampling, .last = true},
       undo_defocus(4)},
      {{.name = "unmoved-0", .shrink = 2, .most_pixels = kRestoring, .hunt = HuntBy::sampling, .last = true},
       undo_motion(8, 0)},
      {{.name = "unmoved-30", .shrink = 2, .most_pixels = kRestoring, .hunt = HuntBy::sampling, .last = true},
       undo_motion(8, 30)},
      {{.name = "unmoved-60", .shrink = 2, .most_pixels = kRestoring, .hunt = HuntBy::sampling, .last = true},
       undo_motion(8, 60)},
      {{.name = "unmoved-90", .shrink = 2, .most_pixels = kRestoring, .hunt = HuntBy::sampling, .last = true},
       undo_motion(8, 90)},
      {{.name = "unmoved-120", .shrink = 2, .most_pixels = kRestoring, .hunt = HuntBy::sampling, .last = true},
       undo_motion(8, 120)},
      {{.name = "unmoved-150", .shrink = 2, .most_pixels = kRestoring, .hunt = HuntBy::sampling, .last = true},
       undo_motion(8, 150)},
  };
  return all;
}
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
    for (const Recipe& recipe : recipes()) {
      list.push_back(recipe.pass);
      list.back().recipe = list.size() - 1;
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
  // Whoever has several pictures reads them at once; threads within each would only be in the way.
  static const bool one_thread = (cv::setNumThreads(1), true);
  static_cast<void>(one_thread);
  negative_->picture = std::move(picture);
  auto& whole = negative_->picture;
  negative_->reductions[1] = cv::Mat(whole.height, whole.width, CV_8U, whole.pixels.data());
}
Darkroom::~Darkroom() = default;
Darkroom::Darkroom(Darkroom&&) noexcept = default;
Darkroom& Darkroom::operator=(Darkroom&&) noexcept = default;

GreyView Darkroom::original() const { return negative_->picture; }

GreyView Darkroom::develop(const Pass& pass) try {
  const cv::Mat& whole = negative_->reductions[1];
  const double pixels = static_cast<double>(whole.total());
  int shrink = 1;
  while (!pass.cheap && pixels / shrink / shrink > pass.most_pixels) shrink *= 2;
  shrink *= pass.shrink;
  if (std::min(whole.cols, whole.rows) / shrink < kSmallestSide) return {};
  cv::Mat& reduction = negative_->reductions[shrink];
  if (reduction.empty()) {
    // From the half where that is there and divides: averaging averages is exact and a fourth of the work.
    const auto half = negative_->reductions.find(2);
    const bool from_half = shrink > 2 && shrink % 2 == 0 && half != negative_->reductions.end();
    reduction = from_half ? reduced(half->second, shrink / 2) : reduced(whole, shrink);
  }
  negative_->developed = recipes()[pass.recipe].work(reduction);
  return {negative_->developed.data, negative_->developed.cols, negative_->developed.rows};
} catch (const cv::Exception&) {
  return {};  // such as memory that is not there: this pass shows nothing, others may
}

}  // namespace counterfoil
