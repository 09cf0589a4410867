// Floors of what is read, and a ceiling of nothing read wrongly, on the pictures with known contents that lie
// beside the project on some machines. Every fifth of level 4, and of the clean ones: the
// easy ones would pass anyhow, and the whole takes too long. Under sanitizers every tenth.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "base/file.h"
#include "base/json.h"
#include "base/text.h"
#include "reader/photo.h"
#include "support/sanitized.h"

namespace counterfoil {
namespace {

const std::string kPictures = std::string(COUNTERFOIL_SHARED) + "/photos";
constexpr int kOneIn = kSanitized ? 10 : 5;

struct TrueCode {
  std::string text;
  std::array<PicturePoint, 4> corners;
  double module_pixels;
};
struct TruePicture {
  std::string path, set;
  std::vector<TrueCode> codes;
};

double number(const Json& json) { return json.real() ? *json.real() : static_cast<double>(*json.integer()); }

std::vector<TruePicture> true_pictures() {
  std::vector<TruePicture> out;
  for (const std::string& line : split(*read_file(kPictures + "/truth.jsonl", 10'000'000), '\n')) {
    if (line.empty()) continue;
    const Json json = *parse_json(line);
    if (*json.find("level")->integer() != 4 && *json.find("set")->string() != "clean") continue;
    if (*json.find("idx")->integer() % kOneIn != 0) continue;
    TruePicture picture{*json.find("path")->string(), *json.find("set")->string(), {}};
    for (const Json& code : *json.find("codes")->array()) {
      TrueCode truth{*code.find("text")->string(), {}, number(*json.find("px_per_module"))};
      for (std::size_t i = 0; i < 4; ++i) {
        const auto& point = *(*code.find("quad")->array())[i].array();
        truth.corners[i] = {number(point[0]), number(point[1])};
      }
      picture.codes.push_back(std::move(truth));
    }
    out.push_back(std::move(picture));
  }
  return out;
}

// The largest distance of a corner from where it truly is, in modules.
double corner_error(const PhotoCode& code, const TrueCode& truth) {
  double worst = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    worst = std::max(
        worst, std::hypot(code.corners[i].x - truth.corners[i].x, code.corners[i].y - truth.corners[i].y));
  }
  return worst / truth.module_pixels;
}

struct Tally {
  std::size_t read = 0, all = 0;
  double worst_corner = 0;
};

TEST(Pictures, MostAreReadAndNothingWrongly) {
  if (!std::filesystem::exists(kPictures)) GTEST_SKIP() << "the pictures are not here: " << kPictures;
  std::map<std::string, Tally> sets;
  for (const TruePicture& picture : true_pictures()) {
    const auto photo = read_photo(kPictures + "/" + picture.path,
                                  {[](std::string_view text) { return text.starts_with("CF1:"); }});
    ASSERT_TRUE(photo) << photo.error().message;
    Tally& tally = sets[picture.set];
    tally.all += picture.codes.size();
    for (const PhotoCode& code : photo->codes) {
      const auto truth = std::find_if(picture.codes.begin(), picture.codes.end(),
                                      [&](const TrueCode& it) { return it.text == code.text; });
      ASSERT_NE(truth, picture.codes.end()) << "read wrongly in " << picture.path << ": " << code.text;
      ++tally.read;
      tally.worst_corner = std::max(tally.worst_corner, corner_error(code, *truth));
    }
  }

  Tally all;
  for (const auto& [set, tally] : sets) {
    std::printf("%-10s %3zu of %3zu, corners within %.2f modules\n", set.c_str(), tally.read, tally.all,
                tally.worst_corner);
    all.read += tally.read;
    all.all += tally.all;
    // A corner that is torn off or crumpled is where the rest of the symbol lets one expect it.
    EXPECT_LT(tally.worst_corner, set == "crumple" ? 3 : 1.5) << set;
  }
  // 24 of 25 when this was written; a plain call of the decoder reads half of such pictures.
  EXPECT_GE(100 * all.read, 90 * all.all);
}

}  // namespace
}  // namespace counterfoil
