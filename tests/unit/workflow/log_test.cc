#include "workflow/log.h"

#include <filesystem>

#include "base/file.h"
#include "support/test_desk.h"

namespace counterfoil {
namespace {

class LogStep : public testing::Test {
 protected:
  LogStep() : numbers(test.issue(4)) {}

  LogOrder order(Step step, std::size_t i) const {
    LogOrder out;
    out.step = step;
    out.numbers = {numbers[i].grouped()};
    out.by = "Åse";
    return out;
  }
  std::size_t entries() const { return test.desk->all_events()->size(); }
  const ValveTrip& trip(std::size_t i) {
    record = *test.desk->record();
    return *record.find(numbers[i]);
  }

  TestDesk test;
  std::vector<Number> numbers;
  Record record;
};

TEST_F(LogStep, RemovalByTypedNumberTakesThePocketFromTheTag) {
  const auto report = log_step(*test.desk, order(Step::removing, 0));
  ASSERT_TRUE(report);
  ASSERT_EQ(report->lines.size(), 1u);
  const Event& event = report->lines[0].logged.event;
  EXPECT_EQ(event.pocket, (Pocket{"U2", "1 S1", Side::suction}));
  EXPECT_EQ(event.turnaround, "TA26");
  EXPECT_EQ(event.known, TimeSource::logged);
  EXPECT_EQ(report->lines[0].logged.ref.position, 5u);
  EXPECT_EQ(trip(0).whereabouts, Whereabouts::pulled);
}

TEST_F(LogStep, StatedTimeIsMarkedAsStated) {
  auto removal = order(Step::removing, 0);
  removal.time = "2026-11-24 18:05";
  const auto report = log_step(*test.desk, removal);
  ASSERT_TRUE(report);
  EXPECT_EQ(report->lines[0].logged.event.known, TimeSource::stated);
  EXPECT_EQ(to_text(report->lines[0].logged.event.at), "2026-11-24T18:05:00+01:00")
      << "the desk's zone is meant";
}

TEST_F(LogStep, AMistypedNumberLogsNothingAndNamesTheSlip) {
  auto removal = order(Step::removing, 0);
  std::string typed = numbers[0].text();
  std::swap(typed[3], typed[4]);
  ASSERT_NE(typed, numbers[0].text());
  removal.numbers = {numbers[1].text(), typed};
  const auto report = log_step(*test.desk, removal);
  ASSERT_FALSE(report);
  EXPECT_EQ(report.error().kind, ErrorKind::malformed);
  EXPECT_NE(report.error().message.find("swapped"), std::string::npos) << report.error().message;
  EXPECT_EQ(entries(), 5u);
}

TEST_F(LogStep, SuctionValveIntoDischargePocketStops) {
  auto install = order(Step::installing, 0);
  install.unit = "U2";
  install.pocket = "1 D1";  // whose side the record knows from the other pair
  const auto stopped = log_step(*test.desk, install);
  ASSERT_FALSE(stopped);
  EXPECT_EQ(stopped.error().kind, ErrorKind::refused);
  EXPECT_TRUE(stopped.error().message.starts_with("STOP")) << stopped.error().message;
  EXPECT_NE(stopped.error().hint.find("look at the valve"), std::string::npos);
  EXPECT_EQ(entries(), 5u);

  // A second person alone, or a reason alone, is not enough; nor is the same person twice.
  install.second = "Jana";
  EXPECT_FALSE(log_step(*test.desk, install));
  install.second.clear();
  install.reason = "tag was on the wrong valve";
  EXPECT_FALSE(log_step(*test.desk, install));
  install.second = "Åse";
  EXPECT_FALSE(log_step(*test.desk, install));
  EXPECT_EQ(entries(), 5u);

  install.second = "Jana";
  const auto logged = log_step(*test.desk, install);
  ASSERT_TRUE(logged);
  EXPECT_EQ(entries(), 6u);
  const auto findings = test.desk->record()->findings(test.clock.now(), 7);
  EXPECT_TRUE(std::any_of(findings.begin(), findings.end(),
                          [](const Finding& f) { return f.kind == FindingKind::side_disagreement; }));
}

TEST_F(LogStep, DischargeValveIntoSuctionPocketStopsForRemovalToo) {
  auto removal = order(Step::removing, 1);
  removal.unit = "U2";
  removal.pocket = "7 S1";
  removal.side = "suction";  // not in the record: as stated
  const auto stopped = log_step(*test.desk, removal);
  ASSERT_FALSE(stopped);
  EXPECT_TRUE(stopped.error().message.starts_with("STOP"));
}

// A pocket spelled a little otherwise once slipped past the side check.
TEST_F(LogStep, OtherSpellingsOfAPocketStopTheSame) {
  for (const auto& [unit, pocket] : {std::pair{"u2", "1 d1"},
                                     {"U2 ", "1  D1"},
                                     {"U2", "1D1"},
                                     {"U2", "1-D1"},
                                     {"U2", "1\u2013d1"},
                                     {"Ｕ2", "1 D1"}}) {
    auto install = order(Step::installing, 0);
    install.unit = unit;
    install.pocket = pocket;
    const auto stopped = log_step(*test.desk, install);
    ASSERT_FALSE(stopped) << unit << "/" << pocket;
    EXPECT_TRUE(stopped.error().message.starts_with("STOP")) << stopped.error().message;
  }
  EXPECT_EQ(entries(), 5u);
}

TEST_F(LogStep, ComposedAndDecomposedNamesAreOnePocket) {
  ASSERT_TRUE(
      issue_pairs(*test.desk, {"TA27", {{Pocket{"Čerpadlo 1", "Výtlak Ž1", Side::discharge}, ""}}, ""}));
  auto install = order(Step::installing, 0);
  install.unit = "C\u030cerpadlo 1";
  install.pocket = "Vy\u0301tlak Z\u030c1";
  const auto stopped = log_step(*test.desk, install);
  ASSERT_FALSE(stopped);
  EXPECT_TRUE(stopped.error().message.starts_with("STOP")) << stopped.error().message;
}

TEST_F(LogStep, ASideThatCouldNotBeCheckedIsSaid) {
  const auto notes_of = [&](const LogOrder& install) {
    const auto report = log_step(*test.desk, install);
    std::string all;
    if (report)
      for (const auto& note : report->lines[0].notes) all += note + "\n";
    return all;
  };
  auto install = order(Step::installing, 0);
  install.unit = "U2";
  install.pocket = "9 D9";  // not in the record
  EXPECT_NE(notes_of(install).find("SIDE NOT CHECKED"), std::string::npos);
  install = order(Step::installing, 2);
  EXPECT_NE(notes_of(install).find("NO POCKET WAS STATED"), std::string::npos);
  LogOrder stranger;
  stranger.step = Step::installing;
  stranger.serial = "77-1";
  stranger.unit = "U2";
  stranger.pocket = "2 S1";
  EXPECT_NE(notes_of(stranger).find("SIDE NOT CHECKED"), std::string::npos);
}

// Without --unit the tag's unit was once taken even where it has no such pocket.
TEST_F(LogStep, TheTagsUnitIsTakenOnlyForAPocketThatItHas) {
  ASSERT_TRUE(issue_pairs(*test.desk, {"TA27", {{Pocket{"U3", "3 D1", Side::discharge}, ""}}, ""}));
  auto install = order(Step::installing, 0);
  install.pocket = "3 D1";
  const auto asked = log_step(*test.desk, install);
  ASSERT_FALSE(asked);
  EXPECT_EQ(asked.error().kind, ErrorKind::malformed);
  EXPECT_NE(asked.error().hint.find("U3"), std::string::npos) << asked.error().hint;
  install.pocket = "1 s1";
  const auto report = log_step(*test.desk, install);
  ASSERT_TRUE(report);
  EXPECT_EQ(report->lines[0].logged.event.pocket->text(), "U2 / 1 S1");
}

TEST_F(LogStep, ASerialSpelledOtherwiseIsTheSameValve) {
  LogOrder removal;
  removal.serial = "88-1042a";
  removal.unit = "U2";
  removal.pocket = "3 D1";
  removal.side = "discharge";
  ASSERT_TRUE(log_step(*test.desk, removal));
  removal.step = Step::installing;
  removal.serial = "88 1042A";
  removal.pocket = "1 S1";
  removal.side.clear();
  const auto stopped = log_step(*test.desk, removal);
  ASSERT_FALSE(stopped);
  EXPECT_TRUE(stopped.error().message.starts_with("STOP")) << stopped.error().message;
  removal.serial = numbers[0].grouped();
  EXPECT_FALSE(log_step(*test.desk, removal)) << "a tag's number is no serial";
}

TEST_F(LogStep, TheSecondPersonIsAnotherPersonHoweverSpelled) {
  auto install = order(Step::installing, 0);
  install.unit = "U2";
  install.pocket = "1 D1";
  install.reason = "looked";
  install.second = " åse ";
  EXPECT_FALSE(log_step(*test.desk, install));
  install.second = "Jana";
  install.by.clear();
  EXPECT_FALSE(log_step(*test.desk, install)) << "nobody is no first person";
  EXPECT_EQ(entries(), 5u);
}

TEST_F(LogStep, OtherContradictionsAreLoggedAndFound) {
  ASSERT_TRUE(log_step(*test.desk, order(Step::removing, 0)));
  ASSERT_TRUE(log_step(*test.desk, order(Step::removing, 0)));   // twice
  ASSERT_TRUE(log_step(*test.desk, order(Step::receiving, 1)));  // never removed, never shipped
  EXPECT_EQ(entries(), 8u);
  EXPECT_GE(test.desk->record()->findings(test.clock.now(), 7).size(), 2u);
}

TEST_F(LogStep, ANumberThatIsNotIssuedHereIsLoggedWithANote) {
  std::optional<Number> foreign;
  for (std::uint32_t counter = 1; !foreign; ++counter) foreign = number_at("Q2", counter);
  auto removal = order(Step::removing, 0);
  removal.numbers = {foreign->text()};
  const auto report = log_step(*test.desk, removal);
  ASSERT_TRUE(report);
  EXPECT_FALSE(report->lines[0].notes.empty());
}

TEST_F(LogStep, AValveWithASerialNeedsNoNumber) {
  LogOrder removal;
  removal.serial = "88-1042";
  removal.unit = "U2";
  removal.pocket = "3 D1";
  removal.side = "discharge";
  ASSERT_TRUE(log_step(*test.desk, removal));
  const auto now = *test.desk->record();
  const auto trips = now.with_serial("88-1042");
  ASSERT_EQ(trips.size(), 1u);
  EXPECT_EQ(trips[0]->whereabouts, Whereabouts::pulled);
  EXPECT_EQ(trips[0]->side(), Side::discharge);

  removal.step = Step::installing;
  removal.pocket = "3 S1";
  removal.side = "suction";
  EXPECT_FALSE(log_step(*test.desk, removal)) << "its side is remembered by its serial";
}

TEST_F(LogStep, ALabelTakesANumberOfItsOwnAndIsNotChased) {
  ASSERT_TRUE(write_file(test.folder / "photo.jpg", "not a picture, but evidence all the same"));
  LogOrder removal;
  removal.label = true;
  removal.unit = "U2";
  removal.pocket = "3 D1";
  removal.evidence = {test.folder / "photo.jpg"};
  removal.by = "Åse";
  const auto report = log_step(*test.desk, removal);
  ASSERT_TRUE(report);
  const Event& event = report->lines[0].logged.event;
  ASSERT_TRUE(event.number);
  EXPECT_EQ(std::count(numbers.begin(), numbers.end(), *event.number), 0);
  EXPECT_EQ(event.halves, (std::vector<HalfSeen>{{Half::label, 1}}));
  EXPECT_EQ(event.evidence.size(), 1u);
  EXPECT_EQ(entries(), 7u) << "its issue and its removal";
  EXPECT_EQ(test.desk->record()->find(*event.number)->whereabouts, Whereabouts::untracked);
  // And the next pair does not take the label's number.
  EXPECT_NE(test.issue(1, "TA27")[0], *event.number);
}

TEST_F(LogStep, EvidenceIsKeptByItsDigestUnlessToldNotTo) {
  ASSERT_TRUE(write_file(test.folder / "Fotka č. 1.JPG", "some bytes"));
  auto removal = order(Step::removing, 0);
  removal.evidence = {test.folder / "Fotka č. 1.JPG"};
  removal.copy_photos = false;
  ASSERT_TRUE(log_step(*test.desk, removal));
  EXPECT_FALSE(std::filesystem::exists(test.desk->paths().photos));
  removal = order(Step::removing, 1);
  removal.evidence = {test.folder / "Fotka č. 1.JPG"};
  const auto report = log_step(*test.desk, removal);
  ASSERT_TRUE(report);
  const Evidence& evidence = report->lines[0].logged.event.evidence[0];
  EXPECT_EQ(evidence.name, "Fotka č. 1.JPG");
  // sha256sum of "some bytes", by GNU coreutils.
  EXPECT_EQ(evidence.sha256, "0d22cdcc10e6d049dbe1af5123d50873fdfc1a4f58306e58cb6241be9472014d");
  EXPECT_TRUE(std::filesystem::exists(test.desk->paths().photos + "/" + evidence.sha256.substr(0, 2) + "/" +
                                      evidence.sha256 + ".jpg"));
}

TEST_F(LogStep, TheSamePhotographTwiceAddsNothing) {
  ASSERT_TRUE(write_file(test.folder / "a.jpg", "some bytes"));
  auto removal = order(Step::removing, 0);
  removal.evidence = {test.folder / "a.jpg"};
  ASSERT_TRUE(log_step(*test.desk, removal));
  const auto again = log_step(*test.desk, removal);
  ASSERT_TRUE(again);
  EXPECT_TRUE(again->lines[0].already);
  EXPECT_EQ(again->lines[0].logged.ref.position, 5u);
  EXPECT_EQ(entries(), 6u);
  removal.step = Step::packing;  // the same photograph can show another step
  const auto packed = log_step(*test.desk, removal);
  ASSERT_TRUE(packed);
  EXPECT_FALSE(packed->lines[0].already);
}

TEST_F(LogStep, AnUnreadablePhotographIsSaidAndTheOthersAreLogged) {
  ASSERT_TRUE(write_file(test.folder / "broken.jpg", "no picture"));
  auto packing = order(Step::packing, 0);
  packing.photos = {test.folder / "broken.jpg", test.folder / "absent.jpg"};
  const auto report = log_step(*test.desk, packing);
  ASSERT_TRUE(report);
  EXPECT_EQ(report->lines.size(), 1u);
  EXPECT_EQ(report->problems.size(), 2u);
  EXPECT_EQ(entries(), 6u);
}

TEST_F(LogStep, MalformedOrdersLogNothing) {
  const auto malformed_kind = [&](LogOrder bad) {
    const auto report = log_step(*test.desk, bad);
    return !report && report.error().kind == ErrorKind::malformed;
  };
  auto bad = order(Step::removing, 0);
  bad.time = "yesterday";
  EXPECT_TRUE(malformed_kind(bad));
  bad = order(Step::shipping, 0);
  bad.due = "2026-02-30";
  EXPECT_TRUE(malformed_kind(bad));
  bad = order(Step::shipping, 0);
  bad.pocket = "1 S1";
  EXPECT_TRUE(malformed_kind(bad));
  bad = order(Step::removing, 0);
  bad.side = "S";
  EXPECT_TRUE(malformed_kind(bad));
  bad = order(Step::removing, 0);
  bad.numbers = {numbers[0].text(), numbers[1].text()};
  bad.unit = "U2";
  bad.pocket = "1 S1";
  EXPECT_TRUE(malformed_kind(bad));
  bad = order(Step::removing, 0);
  bad.note = "two\nlines";
  EXPECT_TRUE(malformed_kind(bad));
  EXPECT_TRUE(malformed_kind({}));
  EXPECT_EQ(entries(), 5u);
}

TEST_F(LogStep, AWholeJourneyLeavesNoFindings) {
  for (const Step step : {Step::removing, Step::packing, Step::shipping, Step::receiving, Step::unpacking,
                          Step::inspecting, Step::repairing, Step::packing, Step::shipping, Step::receiving,
                          Step::unpacking, Step::storing, Step::installing}) {
    for (std::size_t i = 0; i < numbers.size(); ++i) {
      auto entry = order(step, i);
      if (step == Step::installing) entry.pocket = trip(i).removed_from->name;
      ASSERT_TRUE(log_step(*test.desk, entry)) << to_text(step);
    }
    test.clock.moment.minute += 1;
  }
  EXPECT_EQ(trip(0).whereabouts, Whereabouts::installed);
  const auto findings = test.desk->record()->findings(test.clock.now(), 7);
  EXPECT_TRUE(findings.empty()) << findings.front().what;
}

}  // namespace
}  // namespace counterfoil
