// kill -9 while appending or creating, and two processes at once on one file.
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <optional>
#include <random>
#include <thread>

#include "unit/ledger/desk_ledger.h"

namespace counterfoil {
namespace {

// Where a child says what was acknowledged to it.
class Pipe {
 public:
  Pipe() {
    if (::pipe(ends_) != 0) std::abort();
  }
  Pipe(const Pipe&) = delete;
  Pipe& operator=(const Pipe&) = delete;
  ~Pipe() {
    close_writing();
    ::close(ends_[0]);
  }
  void close_writing() {
    if (ends_[1] >= 0) ::close(ends_[1]);
    ends_[1] = -1;
  }
  void write(std::uint64_t position) const {
    if (::write(ends_[1], &position, sizeof position) != sizeof position) ::_exit(9);
  }
  // Waits for the next position; none when nobody can write any more.
  std::optional<std::uint64_t> read() {
    close_writing();
    std::uint64_t position = 0;
    if (::read(ends_[0], &position, sizeof position) != sizeof position) return std::nullopt;
    return position;
  }

 private:
  int ends_[2] = {-1, -1};
};

pid_t child_that(const auto& work) {
  const pid_t child = ::fork();
  if (child == 0) {
    work();
    ::_exit(0);
  }
  return child;
}

int status_of(pid_t child) {
  int status = 0;
  ::waitpid(child, &status, 0);
  return status;
}

void expect_whole(const Ledger& ledger, std::uint64_t least) {
  const auto report = ledger.verify();
  ASSERT_TRUE(report) << report.error().message;
  ASSERT_TRUE(report->faults.empty()) << report->faults[0].what;
  ASSERT_GE(report->entries, least);
  ASSERT_EQ(report->head.size, report->entries);
}

// Appends one or two entries again and again; each body tells its own position.
void append_until_killed(const std::string& path, const Pipe& pipe) {
  auto ledger = Ledger::open(path);
  if (!ledger) ::_exit(1);
  for (std::uint64_t n = 0;; ++n) {
    std::uint64_t count = 0;
    const auto first = ledger->append(desk_key(), [&]() -> Result<std::vector<EntryDraft>> {
      const auto size = ledger->size();
      if (!size) return size.error();
      std::vector<EntryDraft> drafts{draft(*size)};
      if (n % 2 == 1) drafts.push_back(draft(*size + 1));
      count = drafts.size();
      return drafts;
    });
    if (!first) ::_exit(2);
    for (std::uint64_t i = 0; i < count; ++i) pipe.write(*first + i);
  }
}

// A kill loses no write, synced or not, so a folder in memory shows the same without waiting for the disk.
class Crash : public testing::Test {
 protected:
  Crash() {
    if (std::filesystem::exists("/dev/shm")) ::setenv("TMPDIR", "/dev/shm", 0);
  }
};

TEST_F(Crash, KilledAnywhereTheLedgerHoldsEveryAcknowledgedEntry) {
  const TempFolder folder;
  const auto path = make_ledger(folder, {});
  std::mt19937_64 random(20261125);
  std::uint64_t acknowledged = 0;
  std::uint64_t journals_left = 0;
  for (int round = 0; round < 200; ++round) {
    Pipe pipe;
    const pid_t child = child_that([&] { append_until_killed(path, pipe); });
    // What one append takes differs from disk to disk: wait for a few, then kill somewhere within the next
    // one.
    const auto start = std::chrono::steady_clock::now();
    for (int i = 0; i < 2; ++i)
      if (const auto position = pipe.read()) acknowledged = std::max(acknowledged, *position + 1);
    const auto one_append = (std::chrono::steady_clock::now() - start) / 2;
    std::this_thread::sleep_for(one_append * static_cast<std::int64_t>(random() % 1000) / 1000);
    ::kill(child, SIGKILL);
    ASSERT_TRUE(WIFSIGNALED(status_of(child))) << "the child failed by itself";
    while (const auto position = pipe.read()) acknowledged = std::max(acknowledged, *position + 1);
    journals_left += std::filesystem::exists(path + "-journal");
    const auto ledger = Ledger::open(path);
    ASSERT_TRUE(ledger) << ledger.error().message;
    const auto size = ledger->size();
    ASSERT_TRUE(size) << size.error().message;
    ASSERT_GE(*size, acknowledged) << "round " << round;
    if (round % 20 == 19) expect_whole(*ledger, acknowledged);
  }
  const auto ledger = Ledger::open(path);
  expect_whole(*ledger, acknowledged);
  const auto all = ledger->all();
  ASSERT_TRUE(all);
  for (const auto& entry : *all) ASSERT_EQ(entry.body, draft(entry.position).body);
  EXPECT_GT(acknowledged, 200u);
  EXPECT_GT(journals_left, 10u) << "hardly a child was killed within a transaction";
}

TEST_F(Crash, KilledCreationLeavesAWholeLedgerOrNone) {
  std::mt19937_64 random(7);
  int absent = 0;
  for (int round = 0; round < 60; ++round) {
    const TempFolder folder;
    const auto path = folder / "desk.ledger";
    const pid_t child = child_that([&] { (void)Ledger::create(path, desk_verifier()); });
    std::this_thread::sleep_for(std::chrono::microseconds(random() % 6'000));
    ::kill(child, SIGKILL);
    status_of(child);
    if (!std::filesystem::exists(path)) {
      ++absent;
      const auto again = Ledger::create(path, desk_verifier());
      ASSERT_TRUE(again) << again.error().message;
      continue;
    }
    const auto ledger = Ledger::open(path);
    ASSERT_TRUE(ledger) << ledger.error().message;
    expect_whole(*ledger, 0);
  }
  EXPECT_GT(absent, 0);
}

TEST_F(Crash, OfTwoCreationsAtOnceOneIsRefused) {
  for (int round = 0; round < 30; ++round) {
    const TempFolder folder;
    const auto path = folder / "desk.ledger";
    const auto work = [&] {
      const auto made = Ledger::create(path, desk_verifier());
      ::_exit(made ? 0 : made.error().kind == ErrorKind::refused ? 1 : 2);
    };
    const pid_t one = child_that(work);
    const pid_t two = child_that(work);
    const int first = WEXITSTATUS(status_of(one));
    const int second = WEXITSTATUS(status_of(two));
    EXPECT_EQ(std::min(first, second), 0);
    EXPECT_EQ(std::max(first, second), 1);
  }
}

TEST_F(Crash, TwoProcessesAtOnceBothFinishAndNothingIsLost) {
  constexpr std::uint64_t kEach = 40;
  const TempFolder folder;
  const auto path = make_ledger(folder, {});
  Pipe pipe;
  const auto work = [&] {
    auto ledger = Ledger::open(path);
    if (!ledger) ::_exit(1);
    for (std::uint64_t n = 0; n < kEach; ++n) {
      const auto position = ledger->append(desk_key(), [&]() -> Result<std::vector<EntryDraft>> {
        const auto size = ledger->size();
        if (!size) return size.error();
        return std::vector<EntryDraft>{draft(*size)};
      });
      if (!position) ::_exit(2);
      pipe.write(*position);
    }
  };
  const pid_t one = child_that(work);
  const pid_t two = child_that(work);
  EXPECT_EQ(status_of(one), 0);
  EXPECT_EQ(status_of(two), 0);
  std::vector<std::uint64_t> positions;
  while (const auto position = pipe.read()) positions.push_back(*position);
  std::sort(positions.begin(), positions.end());
  ASSERT_EQ(positions.size(), 2 * kEach);
  for (std::uint64_t i = 0; i < 2 * kEach; ++i) ASSERT_EQ(positions[i], i) << "given twice or lost";
  const auto ledger = Ledger::open(path);
  ASSERT_TRUE(ledger);
  expect_whole(*ledger, 2 * kEach);
  const auto all = ledger->all();
  ASSERT_TRUE(all);
  for (const auto& entry : *all) EXPECT_EQ(entry.body, draft(entry.position).body);
}

}  // namespace
}  // namespace counterfoil
