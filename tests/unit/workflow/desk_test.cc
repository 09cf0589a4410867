#include "workflow/desk.h"

#include <sys/stat.h>

#include <filesystem>

#include "base/file.h"
#include "support/test_desk.h"

namespace counterfoil {
namespace {

TEST(Desk, IsMadeWithAFoundingEventAndAPrivateKeyFile) {
  TestDesk test;
  const auto events = test.desk->all_events();
  ASSERT_TRUE(events);
  ASSERT_EQ(events->size(), 1u);
  EXPECT_EQ(events->front().event.step, Step::founding);
  EXPECT_EQ(events->front().event.desk->name, "Sklad Žďár");
  EXPECT_EQ(events->front().event.logged, test.clock.moment);
  for (const auto& file : {test.desk->paths().key, test.desk->paths().ledger}) {
    struct stat about {};
    ASSERT_EQ(::stat(file.c_str(), &about), 0) << file;
    EXPECT_EQ(about.st_mode & 0777, 0600u) << file;
  }
}

TEST(Desk, LeavesNoDraftsBehind) {
  TestDesk test;
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(test.folder.path()))
    names.push_back(entry.path().filename().string());
  std::sort(names.begin(), names.end());
  EXPECT_EQ(names, (std::vector<std::string>{"counterfoil.key", "counterfoil.ledger"}));
}

TEST(Desk, IsNotMadeOverAnother) {
  TestDesk test;
  const auto before = sha256_of_file(test.desk->paths().key);
  const auto again = Desk::create(test.folder.path(), {"Other", "vendor", "Q2", ""}, "", test.clock);
  ASSERT_FALSE(again);
  EXPECT_EQ(again.error().kind, ErrorKind::refused);
  EXPECT_EQ(*sha256_of_file(test.desk->paths().key), *before);
}

TEST(Desk, IsNotMadeOverAKeyWhoseLedgerIsLost) {
  TestDesk test;
  std::filesystem::remove(test.desk->paths().ledger);
  const auto again = Desk::create(test.folder.path(), {"Sklad", "storeroom", "K7", ""}, "", test.clock);
  ASSERT_FALSE(again);
  EXPECT_NE(again.error().message.find("key"), std::string::npos);
}

TEST(Desk, BadTermsMakeNothing) {
  TempFolder folder;
  StoppedClock clock;
  for (const DeskTerms& terms :
       {DeskTerms{"", "storeroom", "K7", ""}, DeskTerms{"A", "clerk", "K7", ""},
        DeskTerms{"A", "vendor", "K", ""}, DeskTerms{"A", "vendor", "KU", ""},
        DeskTerms{"A", "vendor", "K7", "no host"}, DeskTerms{"A\nB", "vendor", "K7", ""}}) {
    const auto made = Desk::create(folder / "desk", terms, "", clock);
    ASSERT_FALSE(made) << terms.name << "/" << terms.role << "/" << terms.prefix << "/" << terms.host;
    EXPECT_EQ(made.error().kind, ErrorKind::malformed);
  }
  EXPECT_FALSE(std::filesystem::exists(folder / "desk"));
}

TEST(Desk, CanBeAFileOfAnyName) {
  TempFolder folder;
  StoppedClock clock;
  ASSERT_TRUE(Desk::create(folder / "žďár.ledger", {"Sklad", "storeroom", "K7", ""}, "", clock));
  EXPECT_TRUE(std::filesystem::exists(folder / "žďár.ledger"));
  EXPECT_TRUE(std::filesystem::exists(folder / "žďár.key"));
  EXPECT_TRUE(Desk::open(folder / "žďár.ledger", "", clock));
}

TEST(Desk, SealedKeyIsNeededForWritingOnly) {
  TempFolder folder;
  StoppedClock clock;
  ASSERT_TRUE(Desk::create(folder / "d", {"Sklad", "storeroom", "K7", ""}, "hřebík 7", clock));
  const auto append = [&](const std::string& passphrase) {
    auto desk = Desk::open(folder / "d", passphrase, clock);
    EXPECT_TRUE(desk);
    return issue_pairs(*desk, {"TA26", std::vector<PlannedPair>(1), ""});
  };
  const auto without = append("");
  ASSERT_FALSE(without);
  EXPECT_EQ(without.error().kind, ErrorKind::refused);
  EXPECT_FALSE(append("wrong"));
  EXPECT_TRUE(append("hřebík 7"));
  auto reading = Desk::open(folder / "d", "", clock);
  ASSERT_TRUE(reading);
  EXPECT_EQ(reading->all_events()->size(), 2u);
}

TEST(Desk, AKeyOfAnotherDeskCannotWrite) {
  TestDesk one, other;
  std::filesystem::copy_file(other.desk->paths().key, one.desk->paths().key,
                             std::filesystem::copy_options::overwrite_existing);
  EXPECT_FALSE(issue_pairs(*one.desk, {"TA26", std::vector<PlannedPair>(1), ""}));
  EXPECT_EQ(one.desk->all_events()->size(), 1u);
}

TEST(Desk, AbsentLedgerSaysHowToMakeOne) {
  TempFolder folder;
  StoppedClock clock;
  const auto desk = Desk::open(folder / "nothing", "", clock);
  ASSERT_FALSE(desk);
  EXPECT_EQ(desk.error().kind, ErrorKind::unreadable);
  EXPECT_NE(desk.error().hint.find("counterfoil desk"), std::string::npos);
}

}  // namespace
}  // namespace counterfoil
