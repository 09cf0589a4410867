#include "custody/event.h"

#include <gtest/gtest.h>

#include "base/json.h"
#include "story.h"

namespace counterfoil {
namespace {

const std::string kDigest(64, 'a');

Event full_event() {
  Event event = event_at(Step::removing, "2026-11-25T09:30:00+01:00");
  event.logged = moment("2026-11-25T10:02:11Z");
  event.known = TimeSource::photo;
  event.number = number_of(0);
  event.halves = {{Half::bag, 1, true}, {Half::box, 2}};
  event.serial = "KV 0412";
  event.turnaround = "TA26";
  event.pocket = suction();
  event.part = "P-77";
  event.by = "Åse";
  event.second = "Žofie";
  event.reason = "one \"mark\"";
  event.from = "U2";
  event.to = "shelf 4";
  event.carton = "C3";
  event.due = "2026-12-20";
  event.condition = "broken plate";
  event.outcome = "repair";
  event.note = "bolt side up";
  event.evidence = {{kDigest, "IMG_0412.jpg"}};
  event.counter = 17;
  event.verdict = Verdict::old_copy;
  event.other = number_of(1);
  event.desk = DeskCard{"Žďár", "storeroom", "K7", "key", "TAGS.EXAMPLE"};
  event.paper = PaperUse{"drawer 2", "a4-2x4", 8, 5, {7}, 2, {1, 2}};
  event.sees = {{"kettle.example/vendor", 12, kDigest}};
  return event;
}

// Do not change: embedded in logs. Member order by RFC 8785 section 3.2.3.
constexpr std::string_view kGolden =
    R"({"at":"2026-11-25T09:30:00+01:00","by":"Åse","counterfoil":1,"evidence":[{"name":"IMG_0412.jpg",)"
    R"("sha256":"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa"}],)"
    R"("halves":[{"copy":1,"half":"bag"}],"known":"photo","logged":"2026-11-25T10:02:11Z","number":"@",)"
    R"("pocket":{"name":"2 HE S1","side":"suction","unit":"U2"},"step":"removing","turnaround":"TA26"})";

std::string golden() {
  std::string out(kGolden);
  return out.replace(out.find('@'), 1, number_of(0).text());
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

TEST(EventTest, BytesAreAsPinned) {
  Event event = event_at(Step::removing, "2026-11-25T09:30:00+01:00");
  event.logged = moment("2026-11-25T10:02:11Z");
  event.known = TimeSource::photo;
  event.number = number_of(0);
  event.halves = {{Half::bag, 1}};
  event.turnaround = "TA26";
  event.pocket = suction();
  event.by = "Åse";
  event.evidence = {{kDigest, "IMG_0412.jpg"}};
  EXPECT_EQ(event_bytes(event), golden());
  const auto read = parse_event(golden());
  ASSERT_TRUE(read) << read.error().message;
  EXPECT_EQ(*read, event);
}

// Do not change: embedded in logs. A decoded half has no such member, so that older entries keep their bytes.
TEST(EventTest, AHalfReadByLikenessSaysSo) {
  const std::string with_member =
      replaced(golden(), R"({"copy":1,"half":"bag"})", R"({"copy":1,"half":"bag","read":"by likeness"})");
  const auto read = parse_event(with_member);
  ASSERT_TRUE(read) << read.error().message;
  ASSERT_EQ(read->halves.size(), 1u);
  EXPECT_TRUE(read->halves[0].by_likeness);
  EXPECT_EQ(event_bytes(*read), with_member);
  EXPECT_EQ(likeness_words(read->halves), "bag half read by likeness");
  EXPECT_EQ(likeness_words(parse_event(golden())->halves), "");
  EXPECT_FALSE(parse_event(replaced(with_member, "by likeness", "by guess")));
}

TEST(EventTest, AHalfThatWasDecodedAnywhereCountsAsDecoded) {
  std::vector<HalfSeen> halves;
  add_half(halves, {Half::bag, 1, true});
  add_half(halves, {Half::bag, 2, true});
  add_half(halves, {Half::bag, 1, false});
  EXPECT_EQ(halves, (std::vector<HalfSeen>{{Half::bag, 1, false}, {Half::bag, 2, true}}));
}

// Do not change: embedded in logs. Entries that took no paper have no such member and keep their bytes.
TEST(EventTest, PaperIsAsPinned) {
  Event event = event_at(Step::printing, "2026-11-25T09:30:00Z");
  event.logged = moment("2026-11-25T10:02:11Z");
  event.paper = PaperUse{"drawer 2", "a4-2x4", 8, 5, {7}, 2, {1, 2}};
  constexpr std::string_view kPaper =
      R"("paper":{"first":5,"labels":8,"sheets":2,"spoiled":[7],"stack":"drawer 2","stock":"a4-2x4","used":[1,2]})";
  const std::string bytes = event_bytes(event);
  EXPECT_NE(bytes.find(kPaper), std::string::npos) << bytes;
  EXPECT_EQ(*parse_event(bytes), event);
  event.step = Step::stock_taking;
  event.paper = PaperUse{"drawer 2", "a4-2x4", 8, std::nullopt, {}, 0, {}};
  const std::string least = event_bytes(event);
  EXPECT_NE(least.find(R"("paper":{"labels":8,"stack":"drawer 2","stock":"a4-2x4"})"), std::string::npos)
      << least;
  EXPECT_EQ(*parse_event(least), event);

  const auto error = [&](const std::string& from, const std::string& to) {
    const auto read = parse_event(replaced(bytes, from, to));
    return read ? std::string("read") : read.error().message;
  };
  EXPECT_NE(error(R"("first":5)", R"("first":9)").find("first"), std::string::npos);
  EXPECT_NE(error(R"("first":5)", R"("first":0)").find("paper.first"), std::string::npos);
  EXPECT_NE(error(R"("first":5)", R"("first":"5")").find("paper.first"), std::string::npos);
  EXPECT_NE(error(R"("labels":8,)", "").find("paper.labels"), std::string::npos);
  EXPECT_NE(error(R"("labels":8)", R"("labels":40001)").find("paper.labels"), std::string::npos);
  EXPECT_NE(error(R"("sheets":2)", R"("sheets":0)").find("paper.sheets"), std::string::npos);
  EXPECT_NE(error(R"("sheets":2,)", "").find("used"), std::string::npos);
  EXPECT_NE(error(R"(,"used":[1,2])", "").find("used"), std::string::npos);
  EXPECT_NE(error(R"("used":[1,2])", R"("used":[])").find("paper.used"), std::string::npos);
  EXPECT_NE(error(R"("used":[1,2])", R"("used":[2,1])").find("ascending"), std::string::npos);
  EXPECT_NE(error(R"("used":[1,2])", R"("used":[1,1])").find("ascending"), std::string::npos);
  EXPECT_NE(error(R"("used":[1,2])", R"("used":[1,9])").find("used"), std::string::npos);
  EXPECT_NE(error(R"("used":[1,2])", R"("used":[1,"2"])").find("paper.used"), std::string::npos);
  EXPECT_NE(error(R"("spoiled":[7])", R"("spoiled":7)").find("paper.spoiled"), std::string::npos);
  EXPECT_NE(error(R"("stack":"drawer 2",)", "").find("stack"), std::string::npos);
  EXPECT_NE(error(R"(,"stock":"a4-2x4")", "").find("stock"), std::string::npos);
  EXPECT_NE(error(R"("drawer 2")", R"("drawer\n2")").find("plain text"), std::string::npos);
}

TEST(EventTest, StepWordsAreAsPinned) {
  std::string words;
  for (int i = 0; i <= static_cast<int>(Step::destroying); ++i)
    words += std::string(to_text(static_cast<Step>(i))) + " ";
  EXPECT_EQ(
      words,
      "founding commissioning printing reprinting voiding matching settling stock_taking removing packing "
      "shipping receiving unpacking inspecting repairing storing installing destroying ");
}

TEST(EventTest, EveryMemberComesBack) {
  const Event event = full_event();
  const auto read = parse_event(event_bytes(event));
  ASSERT_TRUE(read) << read.error().message;
  EXPECT_EQ(*read, event);
}

TEST(EventTest, UnknownMembersOfALaterVersionAreLetPass) {
  const auto with =
      replaced(golden(), R"("turnaround":"TA26"})", R"("turnaround":"TA26","weather":["rain",{"mm":3}]})");
  const auto read = parse_event(with);
  ASSERT_TRUE(read) << read.error().message;
  EXPECT_EQ(*read, *parse_event(golden()));
}

struct Mutation {
  const char* name;
  const char* from;
  const char* to;
  const char* error;
};

class RefusedEvent : public testing::TestWithParam<Mutation> {};

TEST_P(RefusedEvent, IsNamed) {
  const auto& [name, from, to, error] = GetParam();
  const auto read = parse_event(replaced(golden(), from, to));
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().kind, ErrorKind::malformed);
  EXPECT_NE(read.error().message.find(error), std::string::npos) << read.error().message;
}

INSTANTIATE_TEST_SUITE_P(
    EventTest, RefusedEvent,
    testing::Values(Mutation{"Truncated", "\"TA26\"}", "\"TA26\"", "not JSON"},
                    Mutation{"TrailingByte", "\"TA26\"}", "\"TA26\"} ", "canonical"},
                    Mutation{"WhiteSpace", "{\"at\":", "{\"at\": ", "canonical"},
                    Mutation{"MembersOutOfOrder", "\"step\":\"removing\",\"turnaround\":\"TA26\"",
                             "\"turnaround\":\"TA26\",\"step\":\"removing\"", "canonical"},
                    Mutation{"MemberTwice", "\"turnaround\":\"TA26\"",
                             "\"turnaround\":\"TA26\",\"turnaround\":\"TA26\"", "twice"},
                    Mutation{"EscapeThatNeedsNone", "TA26", "TA\\u0032\\u0036", "canonical"},
                    Mutation{"LaterVersion", "\"counterfoil\":1", "\"counterfoil\":2", "version 2"},
                    Mutation{"NoVersion", "\"counterfoil\":1,", "", "no counterfoil version"},
                    Mutation{"Null", "\"TA26\"", "null", "something else"},
                    Mutation{"Boolean", "\"TA26\"", "true", "something else"},
                    Mutation{"Real", "\"copy\":1", "\"copy\":1.5", "something else"},
                    Mutation{"EmptyText", "\"TA26\"", "\"\"", "turnaround"},
                    Mutation{"WrongType", "\"TA26\"", "26", "turnaround"},
                    Mutation{"ControlCharacter", "TA26", "TA\\n26", "turnaround"},
                    Mutation{"UnknownStep", "\"removing\"", "\"pulling\"", "step"},
                    Mutation{"StepInCapitals", "\"removing\"", "\"Removing\"", "step"},
                    Mutation{"StepMissing", "\"step\":\"removing\",", "", "\"step\" is missing"},
                    Mutation{"LoggedWithoutOffset", "10:02:11Z", "10:02:11", "offset"},
                    Mutation{"LoggedMissing", "\"logged\":\"2026-11-25T10:02:11Z\",", "",
                             "\"logged\" is missing"},
                    Mutation{"AtMissing", "\"at\":\"2026-11-25T09:30:00+01:00\",", "", "\"at\" is missing"},
                    Mutation{"DayThatDoesNotExist", "\"at\":\"2026-11-25", "\"at\":\"2026-11-31", "at"},
                    Mutation{"TimeInAnotherSpelling", "09:30:00+01:00", "09:30+01:00", "at"},
                    Mutation{"KnownMissing", "\"known\":\"photo\",", "", "\"known\" is missing"},
                    Mutation{"CopyZero", "\"copy\":1", "\"copy\":0", "copy"},
                    Mutation{"CopyHundred", "\"copy\":1", "\"copy\":100", "copy"},
                    Mutation{"HalfUnknown", "\"bag\"", "\"sack\"", "half"},
                    Mutation{"HalvesEmpty", "[{\"copy\":1,\"half\":\"bag\"}]", "[]", "halves"},
                    Mutation{"SideLetter", "\"suction\"", "\"s\"", "side"},
                    Mutation{"PocketWithoutUnit", ",\"unit\":\"U2\"", "", "pocket"},
                    Mutation{"DigestTooShort", "aaaaaaaaaaaaaaaaaaaa", "aaaaaaaaaaaaaaaaaaa", "evidence"},
                    Mutation{"DigestInCapitals", "aaaaaaaaaaaaaaaaaaaa", "AAAAAAAAAAAAAAAAAAAA", "evidence"},
                    Mutation{"PocketIsText", "{\"name\":\"2 HE S1\",\"side\":\"suction\",\"unit\":\"U2\"}",
                             "\"U2\"", "pocket"}),
    [](const auto& test) { return test.param.name; });

TEST(EventTest, NumberInAnotherSpellingIsRefused) {
  const std::string number = number_of(0).text();
  for (const std::string& other : {number_of(0).grouped(), number.substr(1), number.substr(0, 9) + "_"})
    EXPECT_FALSE(parse_event(replaced(golden(), number, other))) << other;
}

TEST(EventTest, NotAnObjectIsRefused) {
  for (const char* bytes : {"", "[]", "1", "\"event\"", "{}", "nonsense"})
    EXPECT_FALSE(parse_event(bytes)) << bytes;
}

TEST(EventTest, EachStepNeedsItsMembers) {
  const auto number = [](Event& event) { event.number = number_of(0); };
  const auto reason = [](Event& event) { event.reason = "lost"; };
  const auto halves = [](Event& event) { event.halves = {{Half::bag, 1}}; };
  std::vector<std::pair<Step, std::vector<std::pair<std::string, void (*)(Event&)>>>> needs = {
      {Step::founding,
       {{"desk",
         [](Event& event) {
           event.desk = DeskCard{"Žďár", "storeroom", "K7", "key", ""};
         }}}},
      {Step::commissioning,
       {{"number", number}, {"counter", [](Event& event) { event.counter = 1; }}, {"halves", halves}}},
      {Step::printing, {}},
      {Step::stock_taking,
       {{"paper", [](Event& event) { event.paper = PaperUse{"drawer 2", "a4-2x4", 8, 1, {}, 0, {}}; }}}},
      {Step::reprinting, {{"number", number}, {"halves", halves}}},
      {Step::voiding, {{"number", number}, {"reason", reason}}},
      {Step::matching,
       {{"number", number}, {"verdict", [](Event& event) { event.verdict = Verdict::alone; }}}},
      {Step::settling,
       {{"number, serial or pocket", [](Event& event) { event.pocket = suction(); }}, {"reason", reason}}}};
  for (const Step step : journey_steps())
    needs.push_back({step, {{"number or serial", [](Event& event) { event.serial = "KV 0412"; }}}});
  for (const auto& [step, members] : needs) {
    Event event = event_at(step, "2026-11-25T09:30:00Z");
    for (const auto& [name, give] : members) {
      const auto checked = check_event(event);
      ASSERT_FALSE(checked) << to_text(step);
      EXPECT_EQ(checked.error().message, "an event of step " + std::string(to_text(step)) + " lacks " + name);
      give(event);
    }
    EXPECT_TRUE(check_event(event)) << to_text(step);
    EXPECT_EQ(*parse_event(event_bytes(event)), event) << to_text(step);
  }
}

TEST(EventTest, WhatNobodyCouldReadAborts) {
  Event event = event_at(Step::removing, "2026-11-25T09:30:00Z");
  event.serial = "two\nlines";
  EXPECT_DEATH(event_bytes(event), "");
}

TEST(EventTest, DeskPrefixMustBeOneOfNumbers) {
  Event event = full_event();
  event.desk->prefix = "OU";
  EXPECT_FALSE(check_event(event));
}

TEST(EventTest, DueMustBeADate) {
  Event event = full_event();
  for (const char* due : {"soon", "2026-12-20T10:00", "2026-02-30"}) {
    event.due = due;
    EXPECT_FALSE(check_event(event)) << due;
  }
}

TEST(EventTest, IndexWordsNameAllThatItIsFoundBy) {
  const Event event = full_event();
  const std::vector<std::string> expected = {"carton:C3",
                                             "number:" + std::min(number_of(0).text(), number_of(1).text()),
                                             "number:" + std::max(number_of(0).text(), number_of(1).text()),
                                             "photo:" + kDigest,
                                             "pocket:U2 / 2 HE S1",
                                             "serial:KV 0412",
                                             "stack:drawer 2",
                                             "step:removing",
                                             "turnaround:TA26"};
  EXPECT_EQ(event_words(event), expected);
}

TEST(EventTest, OnlyACommissioningIsIssued) {
  Event event = event_at(Step::commissioning, "2026-11-25T09:30:00Z");
  event.number = number_of(0);
  EXPECT_EQ(event_words(event),
            (std::vector<std::string>{"issued", "number:" + number_of(0).text(), "step:commissioning"}));
}

TEST(EventTest, TheSamePhotoTwiceIsOneWord) {
  Event event = event_at(Step::removing, "2026-11-25T09:30:00Z");
  event.evidence = {{kDigest, "a.jpg"}, {kDigest, "b.jpg"}};
  EXPECT_EQ(event_words(event), (std::vector<std::string>{"photo:" + kDigest, "step:removing"}));
}

TEST(EventTest, WordsReadBack) {
  for (int i = 0; i <= static_cast<int>(Step::destroying); ++i)
    EXPECT_EQ(*parse_step(to_text(static_cast<Step>(i))), static_cast<Step>(i));
  for (int i = 0; i <= static_cast<int>(Verdict::not_issued); ++i)
    EXPECT_EQ(*parse_verdict(to_text(static_cast<Verdict>(i))), static_cast<Verdict>(i));
  for (int i = 0; i <= static_cast<int>(TimeSource::logged); ++i)
    EXPECT_EQ(*parse_time_source(to_text(static_cast<TimeSource>(i))), static_cast<TimeSource>(i));
  EXPECT_EQ(*parse_step(" Removing "), Step::removing);
  const auto unknown = parse_step("pulling");
  ASSERT_FALSE(unknown);
  EXPECT_NE(unknown.error().hint.find("removing, packing,"), std::string::npos);
}

TEST(EventTest, JourneyStepsAreTheLastTen) {
  EXPECT_EQ(journey_steps().size(), 10u);
  for (const Step step : journey_steps()) EXPECT_TRUE(is_journey_step(step));
  for (const Step step : {Step::founding, Step::commissioning, Step::printing, Step::reprinting,
                          Step::voiding, Step::matching, Step::settling, Step::stock_taking})
    EXPECT_FALSE(is_journey_step(step));
}

TEST(CheckTextTest, TrimsAndRefuses) {
  EXPECT_EQ(*check_text("  Žďár \n", "the name"), "Žďár");
  EXPECT_EQ(*check_text(std::string(200, 'x'), "the name"), std::string(200, 'x'));
  EXPECT_EQ(check_text(std::string(201, 'x'), "the name").error().message,
            "the name is longer than 200 bytes");
  EXPECT_EQ(check_text("\xff", "the name").error().message, "the name is not UTF-8 text");
  EXPECT_EQ(check_text("a\tb", "the name").error().message,
            "the name holds a control character, such as a line break or a tab");
}

}  // namespace
}  // namespace counterfoil
