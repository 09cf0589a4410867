// Random stories: whatever is told, the record holds and its findings can be followed up.
#include <gtest/gtest.h>

#include <random>

#include "story.h"

namespace counterfoil {
namespace {

class Teller {
 public:
  explicit Teller(std::uint32_t seed) : random_(seed) {}

  int below(int n) { return std::uniform_int_distribution<int>(0, n - 1)(random_); }
  bool maybe() { return below(2) == 0; }
  template <typename T>
  T one_of(const std::vector<T>& items) {
    return items[static_cast<std::size_t>(below(static_cast<int>(items.size())))];
  }

  Event event() {
    static const std::vector<Number> numbers = {number_of(0), number_of(1), number_of(2), number_of(0, "V2")};
    Event out = event_at(static_cast<Step>(below(static_cast<int>(Step::destroying) + 1)), time());
    out.known = static_cast<TimeSource>(below(3));
    if (is_journey_step(out.step) && below(3) == 0)
      out.serial = one_of<std::string>({"KV 1", "KV 2", "Žďár 3"});
    else
      out.number = one_of(numbers);
    if (below(4) == 0) out.serial = one_of<std::string>({"KV 1", "KV 2", "Žďár 3"});
    if (maybe()) out.pocket = Pocket{"U2", one_of<std::string>({"2 HE S1", "1 CE D1"}), side()};
    if (maybe()) out.halves = {{static_cast<Half>(below(3)), 1 + below(3)}};
    if (maybe()) out.part = one_of<std::string>({"P-77", "P-78"});
    if (maybe()) out.carton = one_of<std::string>({"C1", "C2"});
    if (maybe()) out.due = "2026-11-28";
    if (maybe()) out.turnaround = one_of<std::string>({"TA26", "TA30"});
    if (maybe()) out.to = one_of<std::string>({"shelf 4", "Kettle Valve Works"});
    if (below(4) == 0) out.other = one_of(numbers);
    if (below(4) == 0) out.evidence = {{std::string(64, "0123456789abcdef"[below(16)]), "IMG_0412.jpg"}};
    if (out.step == Step::commissioning) {
      out.counter = 1;
      if (out.halves.empty()) out.halves = {{Half::bag, 1}, {Half::box, 1}};
    }
    if (out.step == Step::reprinting && out.halves.empty()) out.halves = {{Half::bag, 2}};
    if (out.step == Step::matching) out.verdict = static_cast<Verdict>(below(8));
    if (out.step == Step::voiding || out.step == Step::settling) out.reason = "looked into it";
    if (out.step == Step::stock_taking || out.step == Step::printing)
      out.paper = PaperUse{"drawer 2", "a4-2x4", 8, 1 + below(8), {2, 5}, 0, {}};
    if (out.paper && out.step == Step::printing) {
      out.paper->sheets = 1 + below(3);
      out.paper->used = {1 + below(4), 5 + below(4)};
    }
    if (out.step == Step::founding)
      out.desk = DeskCard{"Žďár", "storeroom", one_of<std::string>({"K7", "V2"}), "key", ""};
    return out;
  }

 private:
  std::string time() {
    const std::string day = std::to_string(20 + below(11));
    return "2026-11-" + day + one_of<std::string>({"", "T09:30:00", "T17:00:00Z", "T12:00:00+01:00"});
  }
  std::optional<Side> side() {
    if (maybe()) return std::nullopt;
    return maybe() ? Side::suction : Side::discharge;
  }

  std::mt19937 random_;
};

TEST(EventPropertyTest, EventsComeBackFromTheirBytes) {
  Teller teller(1);
  for (int i = 0; i < 1000; ++i) {
    const Event event = teller.event();
    const std::string bytes = event_bytes(event);
    const auto read = parse_event(bytes);
    ASSERT_TRUE(read) << read.error().message << bytes;
    ASSERT_EQ(*read, event) << bytes;
    ASSERT_EQ(event_bytes(*read), bytes);
  }
}

TEST(EventPropertyTest, NoFlippedBitReadsAsTheSameEvent) {
  Teller teller(2);
  int refused = 0;
  int flips = 0;
  for (int i = 0; i < 1; ++i) {
    const Event event = teller.event();
    const std::string bytes = event_bytes(event);
    for (std::size_t bit = 0; bit < bytes.size() * 8; ++bit) {
      std::string flipped = bytes;
      flipped[bit / 8] = static_cast<char>(flipped[bit / 8] ^ (1 << (bit % 8)));
      const auto read = parse_event(flipped);
      ++flips;
      refused += read ? 0 : 1;
      ASSERT_FALSE(read && *read == event) << flipped;
    }
  }
  EXPECT_GT(refused, flips / 2);
}

TEST(RecordPropertyTest, FindingsAlwaysNameEventsInOrder) {
  std::set<FindingKind> seen;
  for (std::uint32_t seed = 0; seed < 200; ++seed) {
    Teller teller(seed);
    Record record;
    std::map<EventRef, std::size_t> order;
    const std::vector<std::string> logs = {"zdar.example/storeroom", "kettle.example/vendor"};
    const int events = 1 + teller.below(60);
    for (int i = 0; i < events; ++i) {
      const EventRef ref{teller.one_of(logs), static_cast<std::uint64_t>(i)};
      record.apply(ref, teller.event());
      order.emplace(ref, order.size());
    }
    std::size_t told = 0;
    for (const auto& [key, trip] : record.trips()) {
      EXPECT_FALSE(trip.history.empty());
      EXPECT_LE(trip.journey.size(), trip.history.size());
      EXPECT_TRUE(trip.number ? trip.number->text() == key : key.starts_with("serial")) << key;
      told += trip.journey.size();
      for (const auto& ref : trip.history) EXPECT_NE(record.event(ref), nullptr);
      if (trip.is_open() && !trip.journey.empty()) {
        EXPECT_TRUE(is_out(trip.whereabouts)) << key;
      }
    }
    std::size_t steps = 0;
    for (const auto& [ref, sequence] : order)
      if (is_journey_step(record.event(ref)->event.step)) ++steps;
    EXPECT_EQ(told, steps) << seed;  // each step is on exactly one journey
    std::pair<FindingKind, std::size_t> last{};
    for (const auto& finding : record.findings(moment("2026-12-24T12:00:00Z"), 10)) {
      seen.insert(finding.kind);
      ASSERT_FALSE(finding.events.empty());
      EXPECT_FALSE(finding.subject.empty() || finding.what.empty() || finding.next.empty());
      for (std::size_t i = 0; i < finding.events.size(); ++i) {
        ASSERT_TRUE(order.contains(finding.events[i]));
        if (i > 0) {
          EXPECT_LT(order[finding.events[i - 1]], order[finding.events[i]]);
        }
      }
      const std::pair now{finding.kind, order[finding.events.front()]};
      EXPECT_LE(last, now);
      last = now;
    }
  }
  // The stories are rich enough to bring up every kind there is.
  EXPECT_EQ(seen.size(), static_cast<std::size_t>(FindingKind::pocket_open) + 1);
}

TEST(RecordPropertyTest, ACopyOfARecordLivesOnItsOwn) {
  Teller teller(7);
  Record record;
  for (std::uint64_t i = 0; i < 50; ++i) record.apply({"zdar.example/storeroom", i}, teller.event());
  const Record copy = record;
  const auto before = copy.findings(moment("2026-12-24T12:00:00Z"), 10);
  for (std::uint64_t i = 50; i < 100; ++i) record.apply({"zdar.example/storeroom", i}, teller.event());
  record = Record();
  const auto after = copy.findings(moment("2026-12-24T12:00:00Z"), 10);
  ASSERT_EQ(before.size(), after.size());
  for (std::size_t i = 0; i < before.size(); ++i) EXPECT_EQ(before[i].what, after[i].what);
}

}  // namespace
}  // namespace counterfoil
