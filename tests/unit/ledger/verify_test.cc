// Named mutations of a ledger's file with the exact fault that each must give, then each single bit of each
// entry. The ledger: batches of 3, 2 and 4 entries, so checkpoints of sizes 3, 5 and 9.
#include <gtest/gtest.h>

#include <fstream>
#include <random>
#include <sstream>

#include "base/text.h"
#include "ledger/tree.h"
#include "unit/ledger/desk_ledger.h"

namespace counterfoil {
namespace {

const std::vector<std::uint64_t> kBatches = {3, 2, 4};

// The faults as "position what", or the error if the file cannot be read at all.
std::vector<std::string> faults_of(const std::string& path) {
  const auto ledger = Ledger::open(path);
  if (!ledger) return {"unreadable: " + ledger.error().message};
  const auto report = ledger->verify();
  if (!report) return {"unreadable: " + report.error().message};
  std::vector<std::string> out;
  for (const auto& fault : report->faults) out.push_back(std::to_string(fault.position) + " " + fault.what);
  return out;
}

using Faults = std::vector<std::string>;

Faults faults_after(const std::vector<std::string>& statements) {
  const TempFolder folder;
  const auto path = make_ledger(folder, kBatches);
  tamper(path, statements);
  return faults_of(path);
}

std::string blob(std::string_view bytes) { return "x'" + to_hex(bytes) + "'"; }
std::string leaf_of(std::string_view body) { return blob(bytes_of(leaf_hash(body))); }

// SQL that puts another note in place of a checkpoint.
std::string with_note(std::uint64_t size, const std::string& note) {
  return "UPDATE checkpoint SET note = '" + note + "' WHERE size = " + std::to_string(size);
}

Frontier tree_of(std::uint64_t size) {
  Frontier tree;
  for (std::uint64_t i = 0; i < size; ++i) tree.append(leaf_hash(draft(i).body));
  return tree;
}

TEST(Verify, WholeLedgerHasNoFault) {
  const TempFolder folder;
  const auto ledger = Ledger::open(make_ledger(folder, kBatches));
  ASSERT_TRUE(ledger);
  const auto report = ledger->verify();
  ASSERT_TRUE(report) << report.error().message;
  EXPECT_TRUE(report->faults.empty()) << report->faults[0].what;
  EXPECT_EQ(report->entries, 9u);
  EXPECT_EQ(report->checkpoints, 3u);
  EXPECT_EQ(report->head, (Checkpoint{desk_verifier().name, 9, tree_of(9).root()}));
}

TEST(Verify, NewLedgerHasNoFaultAndTheEmptyTreesRoot) {
  const TempFolder folder;
  const auto ledger = Ledger::open(make_ledger(folder, {}));
  const auto report = ledger->verify();
  ASSERT_TRUE(report);
  EXPECT_TRUE(report->faults.empty());
  EXPECT_EQ(report->head, (Checkpoint{desk_verifier().name, 0, sha256("")}));
}

TEST(Verify, ChangedBodyIsNamedOnce) {
  EXPECT_EQ(faults_after({"UPDATE entry SET body = x'00' WHERE position = 4"}),
            Faults{"4 entry 4 and its leaf hash disagree"});
}

TEST(Verify, ChangedLeafHashIsNamedOnce) {
  EXPECT_EQ(faults_after({"UPDATE entry SET leaf = " + leaf_of("x") + " WHERE position = 4"}),
            Faults{"4 entry 4 and its leaf hash disagree"});
  EXPECT_EQ(faults_after({"UPDATE entry SET leaf = x'00' WHERE position = 4"}),
            Faults{"4 entry 4 and its leaf hash disagree"})
      << "a leaf hash of another length";
}

TEST(Verify, TwoChangedEntriesAreNamedInOrder) {
  EXPECT_EQ(faults_after({"UPDATE entry SET leaf = " + leaf_of("x") + " WHERE position = 1",
                          "UPDATE entry SET body = x'00' WHERE position = 7"}),
            (Faults{"1 entry 1 and its leaf hash disagree", "7 entry 7 and its leaf hash disagree"}));
}

TEST(Verify, ChangedBodyAndChangedLeafHashOfOneTransactionAreNamedWithoutTheirCheckpoint) {
  EXPECT_EQ(faults_after({"UPDATE entry SET leaf = " + leaf_of("x") + " WHERE position = 5",
                          "UPDATE entry SET body = x'00' WHERE position = 7"}),
            (Faults{"5 entry 5 and its leaf hash disagree", "7 entry 7 and its leaf hash disagree"}));
}

TEST(Verify, ChangedLeafHashDoesNotHideALaterReplacedEntry) {
  EXPECT_EQ(faults_after({"UPDATE entry SET leaf = " + leaf_of("x") + " WHERE position = 1",
                          "UPDATE entry SET body = x'78', leaf = " + leaf_of("x") + " WHERE position = 4"}),
            (Faults{"1 entry 1 and its leaf hash disagree",
                    "3 checkpoint of size 5 has another root than the entries up to it"}));
}

TEST(Verify, EntryReplacedWithItsLeafHashIsSeenByTheCheckpointThatAddsIt) {
  EXPECT_EQ(faults_after({"UPDATE entry SET body = x'78', leaf = " + leaf_of("x") + " WHERE position = 4"}),
            Faults{"3 checkpoint of size 5 has another root than the entries up to it"});
}

TEST(Verify, SwappedEntriesAreSeenByTheFirstCheckpointThatAddsOne) {
  const auto taken = draft(4);
  const auto given = draft(7);
  EXPECT_EQ(faults_after({"UPDATE entry SET body = " + blob(given.body) + ", leaf = " + leaf_of(given.body) +
                              " WHERE position = 4",
                          "UPDATE entry SET body = " + blob(taken.body) + ", leaf = " + leaf_of(taken.body) +
                              " WHERE position = 7"}),
            Faults{"3 checkpoint of size 5 has another root than the entries up to it"});
}

TEST(Verify, MissingEntryIsNamed) {
  EXPECT_EQ(faults_after({"DELETE FROM entry WHERE position = 4", "DELETE FROM word WHERE position = 4"}),
            Faults{"4 entry 4 is missing: entry 5 comes next"});
}

TEST(Verify, MovedEntryLeavesAHoleAndLiesBeyond) {
  EXPECT_EQ(
      faults_after({"UPDATE entry SET position = position + 1024 WHERE position = 4",
                    "UPDATE word SET position = position + 1024 WHERE position = 4"}),
      (Faults{"4 entry 4 is missing: entry 5 comes next", "9 entry 9 is missing: entry 1028 comes next"}));
}

TEST(Verify, TruncatedLogIsNamedByItsCheckpoint) {
  EXPECT_EQ(faults_after({"DELETE FROM entry WHERE position >= 7", "DELETE FROM word WHERE position >= 7"}),
            Faults{"7 entry 7 is missing: the checkpoint of size 9 covers it"});
}

TEST(Verify, TruncatedLogWithoutItsCheckpointIsNamedByTheHead) {
  EXPECT_EQ(faults_after({"DELETE FROM entry WHERE position >= 5", "DELETE FROM word WHERE position >= 5",
                          "DELETE FROM checkpoint WHERE size = 9"}),
            Faults{"5 entry 5 is missing: the head covers it"});
}

// The limit that the header states: such a file is what it was a transaction ago.
TEST(Verify, ALogTakenBackWholeCannotBeSeenFromTheFileAlone) {
  EXPECT_EQ(faults_after({"DELETE FROM entry WHERE position >= 5", "DELETE FROM word WHERE position >= 5",
                          "DELETE FROM checkpoint WHERE size = 9",
                          "UPDATE log SET size = 5, frontier = " +
                              blob(bytes_of(tree_of(5).digests()[0])).substr(0, 66) +
                              to_hex(bytes_of(tree_of(5).digests()[1])) + "'"}),
            Faults{});
}

TEST(Verify, EntryWithoutCheckpointIsNamed) {
  EXPECT_EQ(faults_after({"DELETE FROM checkpoint WHERE size = 9"}),
            Faults{"5 entry 5 is covered by no checkpoint"});
}

TEST(Verify, CheckpointByAnotherKeyIsNamed) {
  const auto note =
      sign_checkpoint({desk_verifier().name, 5, tree_of(5).root()}, SigningKey::from_seed({1, 2, 3}));
  EXPECT_EQ(faults_after({with_note(5, note)}),
            Faults{"3 checkpoint of size 5: checkpoint is not signed by " + desk_verifier().name});
}

TEST(Verify, CheckpointOfAnotherSizeIsNamed) {
  const auto note = sign_checkpoint({desk_verifier().name, 3, tree_of(3).root()}, desk_key());
  EXPECT_EQ(faults_after({with_note(5, note)}), Faults{"3 checkpoint of size 5: it is signed for size 3"});
}

TEST(Verify, CheckpointOfAnotherRootIsNamedOnceAndLaterOnesStillHold) {
  const auto note = sign_checkpoint({desk_verifier().name, 5, sha256("x")}, desk_key());
  EXPECT_EQ(faults_after({with_note(5, note)}),
            Faults{"3 checkpoint of size 5 has another root than the entries up to it"});
}

TEST(Verify, CheckpointThatIsNoNoteIsNamed) {
  EXPECT_EQ(faults_after({with_note(9, "torn")}),
            Faults{"5 checkpoint of size 9: signed note has no blank line before its signatures"});
}

TEST(Verify, HeadThatDiffersFromTheEntriesIsNamed) {
  EXPECT_EQ(faults_after({"UPDATE log SET frontier = x'00'"}),
            Faults{"9 the head has other subtree roots than the entries"});
  EXPECT_EQ(faults_after({"UPDATE log SET size = 5"}), Faults{"5 entry 5 is not covered by the head"});
  EXPECT_EQ(faults_after({"UPDATE log SET size = 12"}), Faults{"9 entry 9 is missing: the head covers it"});
}

TEST(Verify, WordThatPointsNowhereIsNamed) {
  EXPECT_EQ(faults_after({"INSERT INTO word VALUES ('number:X', 0, 40)"}),
            Faults{"40 index word \"number:X\" points at an entry that does not have it"});
}

TEST(Verify, WordTakenFromTheIndexIsNamed) {
  EXPECT_EQ(faults_after({"DELETE FROM word WHERE word = 'number:4'"}),
            Faults{"4 index word \"number:4\" of the entry is not in the index"});
}

TEST(Verify, WordThatPointsAtAnotherEntryIsNamedAtBoth) {
  EXPECT_EQ(faults_after({"UPDATE word SET position = 6 WHERE word = 'number:4'"}),
            (Faults{"6 index word \"number:4\" points at an entry that does not have it",
                    "4 index word \"number:4\" of the entry is not in the index"}));
}

TEST(Verify, EntryOfAnUnknownLogIsNamed) {
  EXPECT_EQ(faults_after({"INSERT INTO entry VALUES (3, 17, x'', x'', '')"}),
            Faults{"17 it belongs to no log (number 3)"});
}

TEST(Verify, EachFlippedBitOfABodyOrLeafHashNamesItsEntry) {
  const TempFolder folder;
  const auto path = make_ledger(folder, {2, 1});
  const auto ledger = Ledger::open(path);
  const auto database = Database::open(path);
  ASSERT_TRUE(ledger && database && database->run("PRAGMA synchronous=OFF"));
  std::size_t flips = 0;
  for (std::uint64_t position = 0; position < 3; ++position) {
    const auto name = "entry " + std::to_string(position);
    const std::string body = draft(position).body;
    const std::string leaf(bytes_of(leaf_hash(body)));
    for (const auto& [column, whole] : {std::pair{"body", body}, std::pair{"leaf", leaf}}) {
      const auto sql = std::string("UPDATE entry SET ") + column + " = ? WHERE position = ?";
      for (std::size_t bit = 0; bit < whole.size() * 8; ++bit, ++flips) {
        std::string flipped = whole;
        flipped[bit / 8] = static_cast<char>(flipped[bit / 8] ^ (1 << bit % 8));
        ASSERT_TRUE(database->run(sql, {Blob{flipped}, position}));
        const auto report = ledger->verify();
        ASSERT_TRUE(report) << report.error().message;
        ASSERT_EQ(report->faults.size(), 1u) << name << " " << column << " bit " << bit;
        ASSERT_EQ(report->faults[0].position, position);
        ASSERT_EQ(report->faults[0].what, name + " and its leaf hash disagree");
      }
      ASSERT_TRUE(database->run(sql, {Blob{whole}, position}));
    }
  }
  EXPECT_EQ(flips, 8 * (3 * 32 + draft(0).body.size() * 3));
  EXPECT_EQ(faults_of(path), Faults{}) << "put back";
}

std::string read_all(const std::string& path) {
  std::ostringstream out;
  out << std::ifstream(path, std::ios::binary).rdbuf();
  return out.str();
}

// What a ledger tells: all that a flipped bit could change without being named.
std::string told_by(const std::string& path) {
  const auto ledger = Ledger::open(path);
  if (!ledger) return "unreadable";
  std::string out = ledger->own().text() + *ledger->checkpoint();
  const auto all = ledger->all();
  if (!all) return "unreadable";
  for (const auto& entry : *all) {
    out += entry.origin + std::to_string(entry.position) + entry.body;
    const auto words = ledger->words(entry.position);
    if (!words) return "unreadable";
    for (const auto& word : *words) {
      const auto found = ledger->with_word(word);
      if (!found) return "unreadable";
      out += word + std::to_string(found->size());
      for (const auto& each : *found) out += " " + std::to_string(each.position);
    }
  }
  return out;
}

// Bytes that SQLite does not use (free space, its counters) may change without anybody's loss: then nothing
// that the ledger tells may have changed.
TEST(Verify, FlippedBitsOfTheFileAreNamedOrChangeNothing) {
  const TempFolder folder;
  const auto path = make_ledger(folder, kBatches);
  const std::string whole = read_all(path);
  const std::string told = told_by(path);
  const auto put = [&](std::size_t at, char byte) {
    std::fstream file(path, std::ios::binary | std::ios::in | std::ios::out);
    file.seekp(static_cast<std::streamoff>(at)).put(byte);
  };
  std::mt19937_64 random(20261125);
  std::size_t named = 0;
  for (int round = 0; round < 1000; ++round) {
    // Every second flip where there is content: pages are mostly empty.
    std::size_t at = random() % whole.size();
    while (round % 2 == 0 && whole[at] == 0) at = random() % whole.size();
    const auto bit = random() % 8;
    put(at, static_cast<char>(whole[at] ^ (1 << bit)));
    if (!faults_of(path).empty())
      ++named;
    else
      ASSERT_EQ(told_by(path), told) << "byte " << at << " bit " << bit;
    put(at, whole[at]);
  }
  EXPECT_EQ(read_all(path), whole) << "verifying wrote into the file";
  EXPECT_GT(named, 300u);
}

}  // namespace
}  // namespace counterfoil
