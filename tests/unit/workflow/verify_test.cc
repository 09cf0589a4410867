#include "workflow/verify.h"

#include "base/file.h"
#include "support/test_desk.h"
#include "workflow/evidence.h"
#include "workflow/log.h"

namespace counterfoil {
namespace {

TEST(VerifyLedger, AnUntouchedLedgerHolds) {
  TestDesk test;
  test.issue(5);
  const auto report = verify_ledger(test.folder.path());
  ASSERT_TRUE(report);
  EXPECT_TRUE(report->faults.empty());
  EXPECT_EQ(report->entries, 6u);
}

TEST(VerifyLedger, AnEntryThatIsNoEventIsNamed) {
  TestDesk test;
  test.issue(2);
  const auto key = SigningKey::from_text(*read_file(test.desk->paths().key, 4096), "");
  ASSERT_TRUE(key);
  auto ledger = Ledger::open(test.desk->paths().ledger);
  ASSERT_TRUE(ledger);
  ASSERT_TRUE(ledger->append(*key, [] { return std::vector<EntryDraft>{{"{}", {}}}; }));
  const auto report = verify_ledger(test.folder.path());
  ASSERT_TRUE(report);
  ASSERT_EQ(report->faults.size(), 1u);
  EXPECT_EQ(report->faults[0].position, 3u);
}

TEST(VerifyLedger, AnEntryFiledUnderOtherWordsIsNamed) {
  TestDesk test;
  const auto numbers = test.issue(1);
  Event event;
  event.step = Step::removing;
  event.at = event.logged = test.clock.now();
  event.number = numbers[0];
  const auto key = SigningKey::from_text(*read_file(test.desk->paths().key, 4096), "");
  auto ledger = Ledger::open(test.desk->paths().ledger);
  ASSERT_TRUE(ledger->append(*key, [&] {
    return std::vector<EntryDraft>{{event_bytes(event), {"step:removing"}}};
  }));
  const auto report = verify_ledger(test.folder.path());
  ASSERT_TRUE(report);
  ASSERT_EQ(report->faults.size(), 1u);
  EXPECT_EQ(report->faults[0].position, 2u);
  EXPECT_NE(report->faults[0].what.find("index words"), std::string::npos);
}

TEST(VerifyLedger, ANumberIssuedTwiceIsNamed) {
  TestDesk test;
  test.issue(2);
  const auto events = test.desk->all_events();
  const auto key = SigningKey::from_text(*read_file(test.desk->paths().key, 4096), "");
  auto ledger = Ledger::open(test.desk->paths().ledger);
  const Event& event = (*events)[1].event;
  ASSERT_TRUE(ledger->append(*key, [&] {
    return std::vector<EntryDraft>{{event_bytes(event), event_words(event)}};
  }));
  const auto report = verify_ledger(test.folder.path());
  ASSERT_TRUE(report);
  ASSERT_EQ(report->faults.size(), 1u);
  EXPECT_EQ(report->faults[0].position, 3u);
  EXPECT_NE(report->faults[0].what.find("entry 1 has issued"), std::string::npos) << report->faults[0].what;
}

TEST(VerifyLedger, AnAlteredPhotographIsNamed) {
  TestDesk test;
  const auto numbers = test.issue(1);
  ASSERT_TRUE(write_file(test.folder / "a.jpg", "some bytes"));
  LogOrder removal;
  removal.numbers = {numbers[0].text()};
  removal.evidence = {test.folder / "a.jpg"};
  const auto report = log_step(*test.desk, removal);
  ASSERT_TRUE(report);
  EXPECT_TRUE(verify_ledger(test.folder.path())->faults.empty());
  const auto kept = kept_photo(test.desk->paths().photos, report->lines[0].logged.event.evidence[0]);
  ASSERT_TRUE(kept);
  ASSERT_TRUE(write_file(*kept, "same bytes"));
  const auto altered = verify_ledger(test.folder.path());
  ASSERT_TRUE(altered);
  ASSERT_EQ(altered->faults.size(), 1u);
  EXPECT_EQ(altered->faults[0].position, 2u);
  EXPECT_NE(altered->faults[0].what.find("a.jpg was altered"), std::string::npos) << altered->faults[0].what;
}

TEST(Proof, HoldsWithNothingButThePublicKey) {
  TestDesk test;
  const auto numbers = test.issue(9);
  const std::string file = test.folder / "entry.tlog-proof";
  for (std::uint64_t position = 0; position < 10; ++position) {
    ASSERT_TRUE(prove_entry(*test.desk, position, file));
    const auto checked = check_proof_file(file, test.desk->card().key);
    ASSERT_TRUE(checked) << position << ": " << checked.error().message;
    EXPECT_EQ(checked->position, position);
    EXPECT_EQ(checked->checkpoint.size, 10u);
    if (position > 0) {
      EXPECT_EQ(checked->event.number, numbers[position - 1]);
    }
  }
}

TEST(Proof, StillHoldsAfterTheLedgerHasGrown) {
  TestDesk test;
  test.issue(3);
  const std::string file = test.folder / "entry.tlog-proof";
  ASSERT_TRUE(prove_entry(*test.desk, 2, file));
  test.issue(3, "TA27");
  EXPECT_TRUE(check_proof_file(file, test.desk->card().key));
}

TEST(Proof, AnyChangedCharacterIsRefused) {
  TestDesk test;
  test.issue(3);
  const std::string file = test.folder / "entry.tlog-proof";
  ASSERT_TRUE(prove_entry(*test.desk, 2, file));
  const std::string good = *read_file(file, 1 << 20);
  for (std::size_t i = 0; i < good.size(); ++i) {
    std::string bad = good;
    bad[i] = bad[i] == 'A' ? 'B' : 'A';
    ASSERT_TRUE(write_file(file, bad));
    ASSERT_FALSE(check_proof_file(file, test.desk->card().key)) << "character " << i << " of\n" << good;
  }
}

TEST(Proof, AnotherDesksKeyIsRefused) {
  TestDesk test, other;
  test.issue(1);
  const std::string file = test.folder / "entry.tlog-proof";
  ASSERT_TRUE(prove_entry(*test.desk, 1, file));
  EXPECT_FALSE(check_proof_file(file, other.desk->card().key));
  EXPECT_FALSE(check_proof_file(file, "no key"));
}

TEST(Proof, OfAnEntryThatIsNotThereIsRefused) {
  TestDesk test;
  const auto refused = prove_entry(*test.desk, 1, test.folder / "p");
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().kind, ErrorKind::refused);
}

}  // namespace
}  // namespace counterfoil
