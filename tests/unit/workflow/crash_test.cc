// kill -9 at random points while a desk issues and logs: afterwards the ledger opens, verifies, holds every
// event that was acknowledged, and no number was issued twice. And two processes at once on one ledger.

#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <random>
#include <set>

#include "support/test_desk.h"
#include "workflow/log.h"
#include "workflow/verify.h"

namespace counterfoil {
namespace {

constexpr int kKills = 300;

// One byte for the kind and ten for the number, written in one go: below PIPE_BUF, so whole or not at all.
void acknowledge(int pipe, char kind, const Number& number) {
  const std::string line = kind + number.text();
  if (::write(pipe, line.data(), line.size()) != static_cast<ssize_t>(line.size())) ::_exit(3);
}

// Issues and logs until it is killed or `rounds` are done, and says so after each transaction.
[[noreturn]] void work(const std::string& folder, int pipe, int rounds) {
  StoppedClock clock;
  auto desk = Desk::open(folder, "", clock);
  if (!desk) ::_exit(4);
  for (int round = 0; round != rounds; ++round) {
    auto issued = issue_pairs(*desk, {"TA26", std::vector<PlannedPair>(3), ""});
    if (!issued) ::_exit(5);
    for (const auto& logged : *issued) acknowledge(pipe, 'i', *logged.event.number);
    LogOrder removal;
    removal.numbers = {issued->front().event.number->text()};
    if (!log_step(*desk, removal)) ::_exit(6);
    acknowledge(pipe, 'r', *issued->front().event.number);
  }
  ::_exit(0);
}

struct Worker {
  pid_t pid = 0;
  int pipe = 0;
};

Worker start(const std::string& folder, int rounds) {
  int ends[2];
  if (::pipe(ends) != 0) throw std::runtime_error("no pipe");
  const pid_t pid = ::fork();
  if (pid == 0) {
    ::close(ends[0]);
    work(folder, ends[1], rounds);
  }
  ::close(ends[1]);
  return {pid, ends[0]};
}

// What the worker acknowledged before its end, by kind.
void collect(const Worker& worker, std::multiset<std::string>& issued, std::multiset<std::string>& removed) {
  std::string all;
  char buffer[4096];
  for (ssize_t n = 0; (n = ::read(worker.pipe, buffer, sizeof buffer)) > 0;)
    all.append(buffer, static_cast<std::size_t>(n));
  ::close(worker.pipe);
  for (std::size_t i = 0; i + kNumberLength < all.size(); i += kNumberLength + 1)
    (all[i] == 'i' ? issued : removed).insert(all.substr(i + 1, kNumberLength));
}

void check_all(const TestDesk& test, const std::multiset<std::string>& issued,
               const std::multiset<std::string>& removed) {
  const auto report = verify_ledger(test.folder.path());
  ASSERT_TRUE(report) << report.error().message;
  ASSERT_TRUE(report->faults.empty()) << report->faults.front().what;
  auto events = test.desk->all_events();
  ASSERT_TRUE(events);
  std::multiset<std::string> in_ledger_issued, in_ledger_removed;
  for (const auto& logged : *events) {
    if (logged.event.step == Step::commissioning) in_ledger_issued.insert(logged.event.number->text());
    if (logged.event.step == Step::removing) in_ledger_removed.insert(logged.event.number->text());
  }
  const std::set<std::string> once(in_ledger_issued.begin(), in_ledger_issued.end());
  EXPECT_EQ(once.size(), in_ledger_issued.size()) << "a number was issued twice";
  EXPECT_TRUE(std::includes(in_ledger_issued.begin(), in_ledger_issued.end(), issued.begin(), issued.end()));
  EXPECT_TRUE(
      std::includes(in_ledger_removed.begin(), in_ledger_removed.end(), removed.begin(), removed.end()));
  EXPECT_EQ(in_ledger_issued.size() % 3, 0u) << "a batch is whole or not there";
}

TEST(Crash, KilledAtAnyMomentLosesNothingAcknowledged) {
  TestDesk test;
  std::mt19937 random(26);
  std::multiset<std::string> issued, removed;
  int killed = 0;
  for (int i = 0; i < kKills; ++i) {
    const Worker worker = start(test.folder.path(), -1);
    // Longer as it goes on, so that a slow machine gets some work done too before it is killed.
    ::usleep(std::uniform_int_distribution<useconds_t>(0, 2'000 + static_cast<useconds_t>(i) * 200)(random));
    ::kill(worker.pid, SIGKILL);
    int status = 0;
    ASSERT_EQ(::waitpid(worker.pid, &status, 0), worker.pid);
    killed += WIFSIGNALED(status) ? 1 : 0;
    collect(worker, issued, removed);
    if (i % 25 == 24) check_all(test, issued, removed);
  }
  EXPECT_EQ(killed, kKills) << "no worker may end of itself";
  EXPECT_GT(issued.size(), 0u) << "the delays must let some work through";
  check_all(test, issued, removed);
}

TEST(Crash, TwoProcessesAtOnceBothFinish) {
  TestDesk test;
  const Worker one = start(test.folder.path(), 40);
  const Worker other = start(test.folder.path(), 40);
  std::multiset<std::string> issued, removed;
  collect(one, issued, removed);
  collect(other, issued, removed);
  for (const auto& worker : {one, other}) {
    int status = 0;
    ASSERT_EQ(::waitpid(worker.pid, &status, 0), worker.pid);
    EXPECT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 0);
  }
  EXPECT_EQ(issued.size(), 2u * 40 * 3);
  EXPECT_EQ(removed.size(), 2u * 40);
  check_all(test, issued, removed);
}

}  // namespace
}  // namespace counterfoil
