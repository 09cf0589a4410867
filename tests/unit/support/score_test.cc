#include "bench/score.h"

#include <gtest/gtest.h>

#include "base/file.h"
#include "support/temp_folder.h"

namespace counterfoil {
namespace {

TruePicture picture(std::vector<std::string> texts, std::string set = "oil", int level = 2) {
  return {"a.jpg", "a.jpg", std::move(set), level, 5.0, std::move(texts)};
}

TEST(Score, EachTrueTextCountsOnceHoweverOftenItIsReported) {
  Score score;
  score.add(picture({"CF1:A", "CF1:B"}), {{{"CF1:A", true, "known"}, {"CF1:A", false, "plain"}}, {}, {}});
  EXPECT_EQ(score.codes, 2u);
  EXPECT_EQ(score.read, 1u);
  EXPECT_EQ(score.identified, 0u) << "what was decoded as well is not counted as identified";
  EXPECT_EQ(score.wrong, 0u);
}

TEST(Score, TextThatIsNotOnThePictureIsWrong) {
  Score score;
  score.add(picture({"CF1:A"}), {{{"CF1:X", true, "known"}, {"CF1:Y", false, "plain"}}, {}, {}});
  EXPECT_EQ(score.read, 0u);
  EXPECT_EQ(score.wrong, 2u);
  EXPECT_EQ(score.wrong_identified, 1u);
}

TEST(Score, LikelyTextsCountForCodesThatWereNotRead) {
  Score score;
  score.add(picture({"CF1:A"}), {{}, {{"CF1:X", "CF1:A"}, {"CF1:Y"}}, {}});
  score.add(picture({"CF1:A"}), {{}, {{"CF1:A", "CF1:X"}}, {}});
  score.add(picture({"CF1:A"}), {{{"CF1:A", false, "plain"}}, {{"CF1:A"}}, {}});
  EXPECT_EQ(score.read, 1u);
  EXPECT_EQ(score.likeliest, 1u);
  EXPECT_EQ(score.likely, 2u);
  EXPECT_EQ(score.unread_symbols, 4u);
}

TEST(Score, VerdictNamesWhatIsWrong) {
  EXPECT_EQ(verdict(picture({"CF1:A"}), {{{"CF1:A", true, "known"}}, {}, {}}), "1/1 identified");
  EXPECT_EQ(verdict(picture({"CF1:A"}), {{{"CF1:B", false, "plain"}}, {}, {}}), "0/1 WRONG CF1:B");
  EXPECT_EQ(verdict(picture({"CF1:A"}), {{}, {{"CF1:B"}}, {}}), "0/1 seen");
}

TEST(Score, RecallTableHasSetsLevelsAndAll) {
  const std::vector<TruePicture> pictures{picture({"CF1:A"}, "oil", 2), picture({"CF1:B", "CF1:C"}, "oil", 4),
                                          picture({"CF1:D"}, "fold", 4)};
  const std::vector<ReaderResults> results{
      {"ours", {{{{"CF1:A", false, "plain"}}, {}, {}}, {{{"CF1:B", false, "plain"}}, {}, {}}, {}}}};
  EXPECT_EQ(recall_table(pictures, results),
            "             ours\n"
            "set   codes    L2  L4   all\n"
            "oil       3   100  50  66.7\n"
            "fold      1     -   0   0.0\n"
            "all       4   100  33  50.0\n");
}

TEST(Truth, KnownTextsLookLikeThePicturesAndAreAllDifferent) {
  const std::vector<TruePicture> pictures{picture({"CF1:AB7-X"}), picture({"CF1:BA9-X", "CF1:7AB-X"})};
  EXPECT_EQ(common_beginning(pictures), "CF1:");
  const auto texts = known_texts_for(pictures, 20, true, 1);
  ASSERT_EQ(texts.size(), 23u);
  EXPECT_EQ(std::set<std::string>(texts.begin(), texts.end()).size(), 23u);
  for (const auto& text : texts) {
    EXPECT_EQ(text.size(), 9u);
    EXPECT_TRUE(text.starts_with("CF1:") && text.ends_with("-X")) << text;
    EXPECT_EQ(text.find_first_not_of("AB79", 4), 7u) << text;
  }
  const auto absent = known_texts_for(pictures, 20, false, 1);
  EXPECT_EQ(absent.size(), 20u);
  EXPECT_EQ(std::count(absent.begin(), absent.end(), "CF1:AB7-X"), 0);
}

TEST(Truth, LineWithoutCodesIsRefusedByItsNumber) {
  const TempFolder folder;
  const std::string path = folder / "truth.jsonl";
  ASSERT_TRUE(write_file(path, R"({"path":"a.jpg","set":"oil","level":2,"codes":[{"text":"CF1:A"}]})"
                               "\n"
                               R"({"path":"b.jpg"})"
                               "\n"));
  const auto truth = read_truth(path);
  ASSERT_FALSE(truth);
  EXPECT_NE(truth.error().message.find(":2: "), std::string::npos) << truth.error().message;
}

}  // namespace
}  // namespace counterfoil
