#include "ledger/ledger.h"

#include <gtest/gtest.h>
#include <sys/stat.h>

#include <fstream>
#include <optional>

#include "ledger/tree.h"
#include "unit/ledger/desk_ledger.h"

namespace counterfoil {
namespace {

std::vector<std::uint64_t> positions(const std::vector<LedgerEntry>& entries) {
  std::vector<std::uint64_t> out;
  for (const auto& entry : entries) out.push_back(entry.position);
  return out;
}

std::vector<std::string> names_in(const TempFolder& folder) {
  std::vector<std::string> out;
  for (const auto& item : std::filesystem::directory_iterator(folder.path()))
    out.push_back(item.path().filename());
  return out;
}

TEST(Ledger, NewLedgerIsEmptyAndSaysWhoseItIs) {
  const TempFolder folder;
  auto ledger = Ledger::create(folder / "desk.ledger", desk_verifier());
  ASSERT_TRUE(ledger) << ledger.error().message;
  EXPECT_EQ(ledger->own().text(), desk_verifier().text());
  EXPECT_EQ(*ledger->size(), 0u);
  EXPECT_TRUE(ledger->all()->empty());
  EXPECT_EQ(*ledger->checkpoint(), "");
  EXPECT_FALSE(ledger->entry(0)->has_value());
  EXPECT_FALSE(ledger->last_with_word("step:removing")->has_value());
  EXPECT_EQ(ledger->prove(0).error().kind, ErrorKind::refused);
}

TEST(Ledger, CreationLeavesOneFileThatOnlyItsOwnerMayRead) {
  const TempFolder folder;
  const auto path = make_ledger(folder, {1});
  EXPECT_EQ(names_in(folder), std::vector<std::string>{"desk.ledger"});
  struct stat about {};
  ASSERT_EQ(::stat(path.c_str(), &about), 0);
  EXPECT_EQ(about.st_mode & 07777, 0600u);
}

TEST(Ledger, CreationRefusesAFileThatIsThere) {
  const TempFolder folder;
  const auto path = make_ledger(folder, {2});
  const auto again = Ledger::create(path, desk_verifier());
  ASSERT_FALSE(again);
  EXPECT_EQ(again.error().kind, ErrorKind::refused);
  EXPECT_EQ(*Ledger::open(path)->size(), 2u);
  EXPECT_EQ(names_in(folder).size(), 1u);
}

TEST(Ledger, CreationSaysWhyAFolderIsNoPlace) {
  const TempFolder folder;
  const auto made = Ledger::create(folder / "absent/desk.ledger", desk_verifier());
  ASSERT_FALSE(made);
  EXPECT_EQ(made.error().kind, ErrorKind::unreadable);
  EXPECT_NE(made.error().message.find("No such file"), std::string::npos) << made.error().message;
}

TEST(Ledger, NameWithSpaceIsRefused) {
  const TempFolder folder;
  const auto made = Ledger::create(folder / "desk.ledger", {"Kettle Valve Works", desk_key().public_key()});
  ASSERT_FALSE(made);
  EXPECT_EQ(made.error().kind, ErrorKind::malformed);
  EXPECT_TRUE(names_in(folder).empty());
}

TEST(Ledger, WhatIsNoLedgerIsUnreadable) {
  const TempFolder folder;
  const auto path = folder / "x";
  const auto kind = [&] {
    const auto opened = Ledger::open(path);
    return opened ? std::optional<ErrorKind>() : opened.error().kind;
  };
  EXPECT_EQ(kind(), ErrorKind::unreadable) << "absent";
  EXPECT_TRUE(names_in(folder).empty()) << "opening must not make a file";
  std::ofstream(path).close();
  EXPECT_EQ(kind(), ErrorKind::unreadable) << "empty";
  std::ofstream(path)
      << "an ordinary text, long enough to be taken for a database header, but it is none at all\n";
  EXPECT_EQ(kind(), ErrorKind::unreadable) << "text";
  std::filesystem::remove(path);
  std::filesystem::create_directory(path);
  EXPECT_EQ(kind(), ErrorKind::unreadable) << "folder";
}

TEST(Ledger, LaterFormatOrForeignTablesAreUnreadable) {
  for (const std::string change :
       {"PRAGMA user_version=2", "PRAGMA application_id=7", "DROP TABLE checkpoint",
        "CREATE TRIGGER t AFTER INSERT ON entry BEGIN DELETE FROM word; END",
        "CREATE TABLE more (x INTEGER)"}) {
    const TempFolder folder;
    const auto path = make_ledger(folder, {1});
    ASSERT_TRUE(Ledger::open(path));
    tamper(path, {change});
    const auto opened = Ledger::open(path);
    ASSERT_FALSE(opened) << change;
    EXPECT_EQ(opened.error().kind, ErrorKind::unreadable) << change;
  }
}

TEST(Ledger, EntriesComeBackInOrderAndByWord) {
  const TempFolder folder;
  const auto path = make_ledger(folder, {3, 1, 2});
  const auto ledger = Ledger::open(path);
  ASSERT_TRUE(ledger) << ledger.error().message;
  EXPECT_EQ(*ledger->size(), 6u);
  const auto all = ledger->all();
  ASSERT_TRUE(all);
  EXPECT_EQ(positions(*all), (std::vector<std::uint64_t>{0, 1, 2, 3, 4, 5}));
  for (const auto& entry : *all) {
    EXPECT_EQ(entry.body, draft(entry.position).body);
    EXPECT_EQ(entry.origin, desk_verifier().name);
    EXPECT_EQ((*ledger->entry(entry.position))->body, entry.body);
  }
  EXPECT_FALSE(ledger->entry(6)->has_value());
  EXPECT_EQ(positions(*ledger->with_word("step:removing")), (std::vector<std::uint64_t>{0, 1, 2, 3, 4, 5}));
  EXPECT_EQ(positions(*ledger->with_word("number:4")), std::vector<std::uint64_t>{4});
  EXPECT_TRUE(ledger->with_word("number:")->empty()) << "a word is matched whole";
  EXPECT_EQ((*ledger->last_with_word("turnaround:TA26"))->position, 5u);
  EXPECT_EQ(*ledger->words(2), (std::vector<std::string>{"number:2", "step:removing", "turnaround:TA26"}));
  EXPECT_EQ(ledger->words(6).error().kind, ErrorKind::refused);
}

TEST(Ledger, BodiesMayHoldAnyBytesAndWordsRepeat) {
  const TempFolder folder;
  auto ledger = Ledger::create(folder / "desk.ledger", desk_verifier());
  ASSERT_TRUE(ledger);
  const std::string body("\0\xff\n'; DROP TABLE entry", 23);
  ASSERT_TRUE(ledger->append(desk_key(), [&]() -> Result<std::vector<EntryDraft>> {
    return std::vector<EntryDraft>{{body, {"Žďár", "a", "Žďár"}}, {"", {}}};
  }));
  EXPECT_EQ((*ledger->entry(0))->body, body);
  EXPECT_EQ((*ledger->entry(1))->body, "");
  EXPECT_EQ(*ledger->words(0), (std::vector<std::string>{"a", "Žďár"}));
  EXPECT_TRUE(ledger->words(1)->empty());
  EXPECT_EQ(ledger->with_word("Žďár")->size(), 1u);
}

TEST(Ledger, CheckpointCoversAllAfterEachTransaction) {
  const TempFolder folder;
  const auto path = make_ledger(folder, {});
  auto ledger = Ledger::open(path);
  ASSERT_TRUE(ledger);
  Frontier frontier;
  for (const std::uint64_t count : {1u, 4u, 2u}) {
    for (std::uint64_t i = 0; i < count; ++i) frontier.append(leaf_hash(draft(frontier.size()).body));
    append_batch(*ledger, count);
    const auto head = open_checkpoint(*ledger->checkpoint(), desk_verifier());
    ASSERT_TRUE(head) << head.error().message;
    EXPECT_EQ(*head, (Checkpoint{desk_verifier().name, frontier.size(), frontier.root()}));
  }
}

TEST(Ledger, ComposeReadsInsideTheTransaction) {
  const TempFolder folder;
  const auto path = make_ledger(folder, {2});
  auto ledger = Ledger::open(path);
  ASSERT_TRUE(ledger);
  const auto first = ledger->append(desk_key(), [&]() -> Result<std::vector<EntryDraft>> {
    EXPECT_EQ(*ledger->size(), 2u);
    EXPECT_EQ((*ledger->last_with_word("step:removing"))->position, 1u);
    EXPECT_EQ(ledger->all()->size(), 2u);
    EXPECT_TRUE(ledger->prove(1));
    EXPECT_TRUE(ledger->verify());
    return std::vector<EntryDraft>{{"x", {}}};
  });
  ASSERT_TRUE(first) << first.error().message;
  EXPECT_EQ(*first, 2u);
}

TEST(Ledger, ErrorFromComposeLeavesNothing) {
  const TempFolder folder;
  const auto path = make_ledger(folder, {2});
  auto ledger = Ledger::open(path);
  ASSERT_TRUE(ledger);
  const auto note = *ledger->checkpoint();
  const auto no =
      ledger->append(desk_key(), []() -> Result<std::vector<EntryDraft>> { return refused("no pocket"); });
  ASSERT_FALSE(no);
  EXPECT_EQ(no.error().message, "no pocket");
  const auto nothing = ledger->append(
      desk_key(), []() -> Result<std::vector<EntryDraft>> { return std::vector<EntryDraft>(); });
  ASSERT_TRUE(nothing);
  EXPECT_EQ(*nothing, 2u);
  const auto bad = ledger->append(desk_key(), []() -> Result<std::vector<EntryDraft>> {
    return std::vector<EntryDraft>{{"good", {"good"}}, {"bad", {"two\nlines"}}};
  });
  ASSERT_FALSE(bad);
  EXPECT_EQ(bad.error().kind, ErrorKind::malformed);
  EXPECT_EQ(*ledger->size(), 2u);
  EXPECT_EQ(*ledger->checkpoint(), note);
  EXPECT_TRUE(ledger->with_word("good")->empty());
  append_batch(*ledger, 1);
  EXPECT_EQ(*ledger->size(), 3u);
}

TEST(Ledger, AnotherDesksKeyIsRefused) {
  const TempFolder folder;
  const auto path = make_ledger(folder, {1});
  auto ledger = Ledger::open(path);
  ASSERT_TRUE(ledger);
  const auto done = ledger->append(SigningKey::from_seed({9}), []() -> Result<std::vector<EntryDraft>> {
    ADD_FAILURE() << "compose must not run";
    return std::vector<EntryDraft>{{"x", {}}};
  });
  ASSERT_FALSE(done);
  EXPECT_EQ(done.error().kind, ErrorKind::refused);
}

TEST(Ledger, DamagedHeadIsNotSignedOver) {
  for (const std::string change :
       {"UPDATE log SET frontier = zeroblob(64)", "UPDATE log SET size = 6",
        "UPDATE log SET size = 0, frontier = x''", "DELETE FROM checkpoint WHERE size = 3",
        "UPDATE checkpoint SET note = 'x' WHERE size = 3"}) {
    const TempFolder folder;
    const auto path = make_ledger(folder, {1, 2});
    tamper(path, {change});
    auto ledger = Ledger::open(path);
    ASSERT_TRUE(ledger) << ledger.error().message;
    const auto done = ledger->append(desk_key(), []() -> Result<std::vector<EntryDraft>> {
      return std::vector<EntryDraft>{{"x", {}}};
    });
    ASSERT_FALSE(done) << change;
    EXPECT_EQ(done.error().kind, ErrorKind::unreadable) << change;
  }
}

TEST(Ledger, EachEntryIsProvenByThePublicKeyAlone) {
  const TempFolder folder;
  const auto path = make_ledger(folder, {3, 4});
  const auto ledger = Ledger::open(path);
  ASSERT_TRUE(ledger);
  for (std::uint64_t i = 0; i < 7; ++i) {
    const auto proof = ledger->prove(i);
    ASSERT_TRUE(proof) << proof.error().message;
    const auto read = parse_proof(write_proof(*proof));
    ASSERT_TRUE(read) << read.error().message;
    EXPECT_EQ(read->body, draft(i).body);
    const auto head = check_proof(*read, desk_verifier());
    ASSERT_TRUE(head) << head.error().message;
    EXPECT_EQ(head->size, 7u);
    const auto other = check_proof(*read, {desk_verifier().name, SigningKey::from_seed({9}).public_key()});
    ASSERT_FALSE(other);
    EXPECT_EQ(other.error().kind, ErrorKind::refused);
  }
  EXPECT_EQ(ledger->prove(7).error().kind, ErrorKind::refused);
}

}  // namespace
}  // namespace counterfoil
