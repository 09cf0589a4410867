// Nothing is read as a tag of ours where none is. The benchmark `reading --no-tags` goes on from here.
#include "support/no_tag_picture.h"

#include <gtest/gtest.h>

#include <map>

#include "reader/photo.h"
#include "recovery/known_texts.h"
#include "support/sanitized.h"
#include "support/stand_in_texts.h"

namespace counterfoil {
namespace {

bool wanted(std::string_view text) { return text.starts_with("CF1:"); }

void expect_nothing_read(std::uint64_t from, std::uint64_t end) {
  const KnownTexts known(stand_in_texts(3000, 1));
  PhotoOptions options{wanted};
  options.known = &known;
  // The whole search takes seconds on a texture; the benchmark has it, on as many pictures as one likes.
  options.effort = Effort::quick;
  for (std::uint64_t index = from; index < end; ++index) {
    const auto made = picture_without_tag(index);
    const auto photo = read_photo_bytes(jpeg_of(made.picture, 90), options);
    ASSERT_TRUE(photo) << index << ", " << made.kind;
    for (const auto& code : photo->codes) {
      ADD_FAILURE() << index << ", " << made.kind << ": " << (code.identified ? "identified " : "decoded ")
                    << code.text << " by " << code.pass;
    }
  }
}

// In two tests, for two cores; in each every one of the 14 kinds twice, under sanitizers once.
constexpr std::uint64_t kHalf = kSanitized ? 14 : 28;
TEST(NoTagPicture, NothingIsReadInTheFirstHalf) { expect_nothing_read(0, kHalf); }
TEST(NoTagPicture, NothingIsReadInTheSecondHalf) { expect_nothing_read(kHalf, 2 * kHalf); }

// Else the tests above would say nothing about foreign symbols.
TEST(NoTagPicture, ForeignSymbolsAreReadableAsWhatTheyAre) {
  PhotoOptions options{wanted};
  options.any = true;
  options.effort = Effort::quick;
  std::map<std::string, int> pictures, read;
  for (std::uint64_t index = 0; index < 56; ++index) {
    if (index % 14 < 5 || index % 14 > 7) continue;  // Code 128, Data Matrix, QR Code
    const auto made = picture_without_tag(index);
    ++pictures[made.kind];
    const auto photo = read_photo_bytes(jpeg_of(made.picture, 90), options);
    if (photo && !photo->codes.empty() && photo->codes[0].text == made.text) ++read[made.kind];
  }
  ASSERT_EQ(pictures.size(), 3u);
  for (const auto& [kind, count] : pictures) EXPECT_GE(2 * read[kind], count) << kind;
}

TEST(NoTagPicture, IndexDecidesEverything) {
  for (const std::uint64_t index : {0u, 9u, 1000u}) {
    EXPECT_EQ(picture_without_tag(index).picture.pixels, picture_without_tag(index).picture.pixels);
    EXPECT_NE(picture_without_tag(index).picture.pixels, picture_without_tag(index + 14).picture.pixels);
  }
}

}  // namespace
}  // namespace counterfoil
