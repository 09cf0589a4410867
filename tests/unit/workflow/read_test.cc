#include "workflow/read.h"

#include <atomic>
#include <filesystem>

#include "base/file.h"
#include "support/test_desk.h"
#include "workflow/issued_texts.h"
#include "workflow/print.h"

namespace counterfoil {
namespace {

// Two pictures of pairs, and one file between them that is none.
class ReadAll : public testing::Test {
 protected:
  ReadAll() : numbers(test.issue(2)) {
    PrintOrder order;
    order.terms = {std::string(COUNTERFOIL_SOURCE) + "/templates", "roll-4x6in", 203.2, ""};
    for (const auto& number : numbers) {
      order.terms.path = (std::filesystem::path(test.folder.path()) / (number.text() + ".png")).string();
      order.numbers = {number.text()};
      auto printed = print_pairs(*test.desk, order);
      if (!printed) throw std::runtime_error(printed.error().message);
      files.push_back(order.terms.path);
    }
    files.insert(files.begin() + 1, (std::filesystem::path(test.folder.path()) / "broken.jpg").string());
    if (!write_file(files[1], "no picture", 0600)) throw std::runtime_error("cannot write");
  }

  std::vector<std::string> told(const ReadingTerms& terms) const {
    std::vector<std::string> lines;
    read_all(files, Sought::ours, terms, nullptr, [&](const PhotoRead& photo) {
      EXPECT_EQ(photo.index, lines.size()) << "in the order given";
      std::string line = photo.reading ? "" : photo.reading.error().message;
      if (photo.reading)
        for (const auto& tag : photo.reading->tags) line += tag.code.text + " " + tag.code.pass + " ";
      lines.push_back(line);
    });
    return lines;
  }

  TestDesk test;
  std::vector<Number> numbers;
  std::vector<std::string> files;
};

TEST_F(ReadAll, AnyNumberOfThreadsGivesTheSameInTheSameOrder) {
  ReadingTerms terms;
  const auto one = told(terms);
  ASSERT_EQ(one.size(), files.size());
  EXPECT_NE(one[0].find(numbers[0].text() + ".BAG1"), std::string::npos) << one[0];
  EXPECT_NE(one[1].find("broken.jpg"), std::string::npos) << one[1];
  for (const int threads : {2, 5}) {
    terms.threads = threads;
    EXPECT_EQ(told(terms), one) << threads << " threads";
  }
}

TEST_F(ReadAll, ProgressGrowsToAll) {
  ReadingTerms terms;
  terms.threads = 2;
  std::vector<std::size_t> done;
  terms.progress = [&](std::size_t now, std::size_t all) {
    EXPECT_EQ(all, files.size());
    done.push_back(now);
  };
  told(terms);
  ASSERT_FALSE(done.empty());
  EXPECT_TRUE(std::is_sorted(done.begin(), done.end()));
  EXPECT_EQ(done.back(), files.size());
}

TEST_F(ReadAll, NothingToReadIsNoWork) { EXPECT_TRUE(read_all({}, Sought::ours, {}, nullptr).empty()); }

// A clock that goes on by a second each time that it is looked at.
TEST_F(ReadAll, APictureWhoseTimeRanOutSaysSo) {
  std::atomic<int> ticks = 0;
  ReadingTerms terms;
  terms.clock = [&] { return static_cast<double>(ticks++); };
  terms.seconds_a_picture = 0.5;
  const auto hurried = read_tags(files[0], Sought::ours, terms);
  ASSERT_TRUE(hurried);
  EXPECT_TRUE(hurried->time_ran_out);
  EXPECT_TRUE(hurried->tags.empty());
  EXPECT_TRUE(advice_after(*hurried, "look").starts_with("time ran out"));
  terms.seconds_a_picture = 1e9;
  const auto patient = read_tags(files[0], Sought::ours, terms);
  ASSERT_TRUE(patient);
  EXPECT_FALSE(patient->time_ran_out);
  EXPECT_EQ(patient->tags.size(), 2u);
  EXPECT_EQ(advice_after(*patient, "look"), "look");
}

TEST_F(ReadAll, ADecodedTagIsNotCalledIdentified) {
  const auto in_use = tags_in_use(*test.desk);
  ASSERT_TRUE(in_use);
  EXPECT_EQ(in_use->texts.size(), 4u);
  const auto reading = read_tags(files[0], Sought::ours, {}, &in_use->texts);
  ASSERT_TRUE(reading);
  ASSERT_EQ(reading->tags.size(), 2u);
  for (const auto& tag : reading->tags) EXPECT_FALSE(tag.code.identified);
  EXPECT_TRUE(reading->unread.empty());
}

}  // namespace
}  // namespace counterfoil
