// Ledger::verify: one pass over each log's entries with its checkpoints alongside. All is compared with what
// the signatures cover; what they do not cover (words, stored leaf hashes, head) is compared with what they
// do.
#include <algorithm>
#include <functional>
#include <iterator>
#include <map>
#include <tuple>
#include <utility>

#include "ledger/store.h"

namespace counterfoil {
namespace {

constexpr std::string_view kLogs =
    "SELECT number, origin, verifier_key FROM log ORDER BY number <> 0, origin";
constexpr std::string_view kEntries =
    "SELECT position, body, leaf, words FROM entry WHERE log = ? ORDER BY position";
constexpr std::string_view kCheckpoints = "SELECT size, note FROM checkpoint WHERE log = ? ORDER BY size";
constexpr std::string_view kHead = "SELECT size, frontier FROM log WHERE number = ?";
constexpr std::string_view kStrays =
    "SELECT log, position FROM entry WHERE log NOT IN (SELECT number FROM log)"
    " UNION ALL SELECT log, size FROM checkpoint WHERE log NOT IN (SELECT number FROM log)";
constexpr std::string_view kWordRows = "SELECT log, position, word FROM word";
constexpr std::string_view kWordLists = "SELECT log, position, words FROM entry";

std::string entry_name(std::uint64_t position) { return "entry " + std::to_string(position); }
std::string checkpoint_name(std::uint64_t size) { return "checkpoint of size " + std::to_string(size); }

// A sum over index words, whatever their order; equal sums tell that the two places hold the same. It guards
// against damage, not against a forger, who could as well change both places: words are not signed.
class WordSum {
 public:
  void add(std::uint64_t log, std::uint64_t position, std::string_view word) {
    const std::uint64_t h = std::hash<std::string_view>()(word) ^ mixed(position + mixed(log));
    sum_ += mixed(h);
  }
  friend bool operator==(const WordSum&, const WordSum&) = default;

 private:
  // The finalizer of the SplitMix64 generator (Steele, Lea, Flood 2014).
  static std::uint64_t mixed(std::uint64_t x) {
    x += 0x9e3779b97f4a7c15u;
    x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9u;
    x = (x ^ (x >> 27)) * 0x94d049bb133111ebu;
    return x ^ (x >> 31);
  }
  std::uint64_t sum_ = 0;
};

void each_word(std::string_view joined, const auto& take) {
  for (std::size_t end = 0; (end = joined.find('\n')) != std::string_view::npos;
       joined.remove_prefix(end + 1))
    take(joined.substr(0, end));
}

// One log's walk.
class LogCheck {
 public:
  LogCheck(const Database& database, std::uint64_t log, VerifierKey key, VerifyReport& report, WordSum& words)
      : database_(database),
        log_(log),
        key_(std::move(key)),
        report_(report),
        words_(words),
        checkpoints_(database.query(kCheckpoints, {log_})) {}

  // The last checkpoint that holds by itself.
  const Checkpoint& head() const { return head_; }

  Result<void> run() {
    if (auto done = advance(); !done) return done;
    Rows rows = database_.query(kEntries, {log_});
    for (;;) {
      auto row = rows.next();
      if (!row) return row.error();
      if (!*row) break;
      check_entry(rows);
      ++report_.entries;
      while (has_checkpoint_ && checkpoint_size_ <= count_) {
        check_checkpoint();
        if (auto done = advance(); !done) return done;
      }
    }
    while (has_checkpoint_) {
      check_checkpoint();
      if (auto done = advance(); !done) return done;
    }
    return check_head();
  }

 private:
  void fault(std::uint64_t position, std::string what) {
    report_.faults.push_back({key_.name, position, std::move(what)});
  }

  void check_entry(const Rows& row) {
    const std::uint64_t position = row.number(0);
    if (position != count_) {
      fault(std::min(position, count_),
            entry_name(count_) + " is missing: " + entry_name(position) + " comes next");
      complete_ = false;
    }
    count_ = position + 1;
    const Digest computed = leaf_hash(row.bytes(1));
    const auto stored = array_of<sizeof(Digest)>(row.bytes(2));
    const bool agrees = stored == computed;
    if (!agrees) {
      fault(position, entry_name(position) + " and its leaf hash disagree");
      if (!by_body_) by_body_ = tree_;
      explained_ = true;
    }
    // Which of the two was changed shows at the next checkpoint; until then both are followed.
    if (by_body_) by_body_->append(computed);
    tree_.append(stored.value_or(computed));
    each_word(row.bytes(3), [&](std::string_view word) { words_.add(log_, position, word); });
  }

  Result<void> advance() {
    auto row = checkpoints_.next();
    if (!row) return row.error();
    has_checkpoint_ = *row;
    if (has_checkpoint_) checkpoint_size_ = checkpoints_.number(0);
    return {};
  }

  void check_checkpoint() {
    ++report_.checkpoints;
    const std::uint64_t first_added = std::min(covered_, count_);
    const auto checkpoint = open_checkpoint(checkpoints_.bytes(1), key_);
    covered_ = std::max(covered_, checkpoint ? checkpoint->size : checkpoint_size_);
    if (!checkpoint || checkpoint->size != checkpoint_size_) {
      fault(first_added, checkpoint_name(checkpoint_size_) + ": " +
                             (checkpoint ? "it is signed for size " + std::to_string(checkpoint->size)
                                         : checkpoint.error().message));
      return;
    }
    head_ = *checkpoint;
    if (!complete_) return;  // no root can be computed behind a hole, which is reported
    if (checkpoint->size > count_) {
      fault(count_,
            entry_name(count_) + " is missing: the " + checkpoint_name(checkpoint->size) + " covers it");
      complete_ = false;
    } else if (tree_.root() == checkpoint->root) {
      by_body_.reset();
      explained_ = false;
    } else if (by_body_ && by_body_->root() == checkpoint->root) {
      tree_ = *std::exchange(by_body_, std::nullopt);
      explained_ = false;
    } else if (!explained_) {
      fault(first_added, checkpoint_name(checkpoint_size_) + " has another root than the entries up to it");
      explained_ = true;
    }
  }

  Result<void> check_head() {
    if (complete_ && covered_ < count_)
      fault(covered_, entry_name(covered_) + " is covered by no checkpoint");
    Rows rows = database_.query(kHead, {log_});
    auto row = rows.next();
    if (!row) return row.error();
    if (!*row) {
      fault(count_, "the log has no head");
      return {};
    }
    const std::uint64_t size = rows.number(0);
    if (complete_ && size > count_) fault(count_, entry_name(count_) + " is missing: the head covers it");
    if (complete_ && size < count_) fault(size, entry_name(size) + " is not covered by the head");
    if (complete_ && !explained_ && size == count_ && rows.bytes(1) != frontier_bytes(tree_))
      fault(size, "the head has other subtree roots than the entries");
    return {};
  }

  const Database& database_;
  const std::uint64_t log_;
  const VerifierKey key_;
  VerifyReport& report_;
  WordSum& words_;
  Rows checkpoints_;
  bool has_checkpoint_ = false;
  std::uint64_t checkpoint_size_ = 0;

  Checkpoint head_{key_.name, 0, Frontier().root()};
  Frontier tree_;                    // of the stored leaf hashes
  std::optional<Frontier> by_body_;  // of the computed ones, where they differ since the last good checkpoint
  std::uint64_t count_ = 0;          // entries up to here were read
  std::uint64_t covered_ = 0;        // up to here by a checkpoint
  bool complete_ = true;             // without a hole
  bool explained_ = false;           // a root that differs would be no news
};

using Origins = std::map<std::uint64_t, std::string>;  // by log number

std::string origin_of(const Origins& origins, std::uint64_t log) {
  const auto found = origins.find(log);
  return found == origins.end() ? "" : found->second;
}

// Both places of the index words side by side: only when their sums differ, since it takes them all into
// memory.
Result<void> find_word_faults(const Database& database, const Origins& origins,
                              std::vector<LedgerFault>& faults) {
  using Word = std::tuple<std::uint64_t, std::uint64_t, std::string>;  // log, position, word
  std::vector<Word> indexed;
  std::vector<Word> listed;
  auto done = for_each_row(database.query(kWordRows), [&](const Rows& row) {
    indexed.emplace_back(row.number(0), row.number(1), row.bytes(2));
  });
  if (!done) return done;
  done = for_each_row(database.query(kWordLists), [&](const Rows& row) {
    each_word(row.bytes(2),
              [&](std::string_view word) { listed.emplace_back(row.number(0), row.number(1), word); });
  });
  if (!done) return done;
  std::sort(indexed.begin(), indexed.end());
  std::sort(listed.begin(), listed.end());
  const auto report = [&](const std::vector<Word>& has, const std::vector<Word>& lacks,
                          const std::string& what) {
    std::vector<Word> only;
    std::set_difference(has.begin(), has.end(), lacks.begin(), lacks.end(), std::back_inserter(only));
    for (const auto& [log, position, word] : only)
      faults.push_back({origin_of(origins, log), position, "index word \"" + word + "\" " + what});
  };
  report(indexed, listed, "points at an entry that does not have it");
  report(listed, indexed, "of the entry is not in the index");
  return {};
}

// Rows of logs that the file does not know: the walk through the known logs does not meet them.
Result<void> find_strays(const Database& database, std::vector<LedgerFault>& faults) {
  return for_each_row(database.query(kStrays), [&](const Rows& row) {
    faults.push_back(
        {"", row.number(1), "it belongs to no log (number " + std::to_string(row.number(0)) + ")"});
  });
}

Result<void> find_file_faults(const Database& database, std::vector<LedgerFault>& faults) {
  return for_each_row(database.query("PRAGMA integrity_check"), [&](const Rows& row) {
    if (row.bytes(0) != "ok") faults.push_back({"", 0, "the file: " + std::string(row.bytes(0))});
  });
}

}  // namespace

Result<VerifyReport> Ledger::verify() const {
  const Database& database = store_->database;
  auto transaction = Transaction::read(database);
  if (!transaction) return transaction.error();
  VerifyReport report;
  Origins origins;
  std::vector<std::pair<std::uint64_t, std::string>> keys;
  auto done = for_each_row(database.query(kLogs), [&](const Rows& row) {
    origins.emplace(row.number(0), row.bytes(1));
    keys.emplace_back(row.number(0), row.bytes(2));
  });
  if (!done) return done.error();
  WordSum listed;
  for (const auto& [log, text] : keys) {
    const auto key = VerifierKey::parse(text);
    if (!key || key->name != origins[log]) {
      report.faults.push_back({origins[log], 0, "the log's verifier key is damaged"});
      continue;
    }
    LogCheck check(database, log, *key, report, listed);
    if (done = check.run(); !done) return done.error();
    if (log == kOwnLog) report.head = check.head();
  }
  WordSum indexed;
  done = for_each_row(database.query(kWordRows),
                      [&](const Rows& row) { indexed.add(row.number(0), row.number(1), row.bytes(2)); });
  if (done && listed != indexed) done = find_word_faults(database, origins, report.faults);
  if (done) done = find_strays(database, report.faults);
  if (done) done = find_file_faults(database, report.faults);
  if (!done) return done.error();
  return report;
}

}  // namespace counterfoil
