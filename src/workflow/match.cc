#include "workflow/match.h"

#include <algorithm>
#include <set>

#include "base/text.h"
#include "workflow/evidence.h"
#include "workflow/issue.h"
#include "workflow/issued_texts.h"

namespace counterfoil {
namespace {

// All that was seen of one number.
struct Sighting {
  std::vector<HalfSeen> halves;  // every physical tag, in order
  std::vector<Evidence> evidence;
  std::vector<std::string> where;
  std::set<Number> box_companions;  // boxes that this bag was found with
  std::set<Number> bag_companions;  // bags that were found with this box
  bool twice_in_one_place = false;  // one half of it two times in one group
};

template <typename T>
void add_once(std::vector<T>& list, const T& item) {
  if (std::find(list.begin(), list.end(), item) == list.end()) list.push_back(item);
}

std::map<Number, Sighting> sightings_of(const std::vector<MatchGroup>& groups) {
  std::map<Number, Sighting> seen;
  for (const auto& group : groups) {
    for (std::size_t i = 0; i < group.halves.size(); ++i) {
      const Payload& half = group.halves[i];
      Sighting& sighting = seen[half.number];
      for (std::size_t j = 0; j < i; ++j)
        if (group.halves[j].number == half.number && group.halves[j].half == half.half)
          sighting.twice_in_one_place = true;
      const bool likeness =
          std::find(group.by_likeness.begin(), group.by_likeness.end(), half) != group.by_likeness.end();
      add_half(sighting.halves, {half.half, half.copy, likeness});
      for (const auto& evidence : group.evidence) add_once(sighting.evidence, evidence);
      add_once(sighting.where, group.where);
      for (const Payload& companion : group.halves) {
        if (half.half == Half::bag && companion.half == Half::box)
          sighting.box_companions.insert(companion.number);
        if (half.half == Half::box && companion.half == Half::bag)
          sighting.bag_companions.insert(companion.number);
      }
    }
  }
  return seen;
}

bool has(const Sighting& sighting, Half half) {
  return std::any_of(sighting.halves.begin(), sighting.halves.end(),
                     [&](const HalfSeen& seen) { return seen.half == half; });
}

// Two copies of one half, both at hand.
bool has_two_copies(const Sighting& sighting) {
  for (const auto& a : sighting.halves)
    for (const auto& b : sighting.halves)
      if (a.half == b.half && a.copy < b.copy) return true;
  return false;
}

std::optional<Number> first_other(const std::set<Number>& companions, const Number& number) {
  for (const auto& companion : companions)
    if (companion != number) return companion;
  return std::nullopt;
}

class Judge {
 public:
  Judge(const std::map<Number, Sighting>& seen, const Record& record) : seen_(seen), record_(record) {}

  MatchLine judge(const Number& number, const Sighting& sighting) const {
    MatchLine line{Verdict::matched,  number, std::nullopt, sighting.halves,
                   sighting.evidence, {},     {},           sighting.where};
    const std::string name = number.grouped();
    const ValveTrip* known = record_.find(number);
    const bool foreign = known == nullptr || !known->issued;
    // Of another desk's number nothing is known but what is seen: a vendor's daily work.
    const ValveTrip unknown;
    const ValveTrip* trip = foreign ? &unknown : known;
    if (foreign && is_prefix_on_record(number.prefix())) {
      say(line, Verdict::not_issued, name + " was never issued, though its prefix is this record's own",
          "set it aside and look at the tag again; if it was typed, look for a slip");
    } else if (trip->voided) {
      say(line, Verdict::voided, name + " is voided: " + trip->void_reason,
          "take the tag off; if a valve carries it, issue a new pair for that valve");
    } else if (sighting.twice_in_one_place || has_two_copies(sighting)) {
      say(line, Verdict::doubled, name + " is there twice as the same half",
          "find both tags: keep the newest copy, destroy the other, and look at what each was on");
    } else if (sighting.bag_companions.size() > 1) {
      crowded(line, sighting);
    } else if (sighting.box_companions.size() > 1) {
      say(line, Verdict::doubled,
          "bag " + name + " was found with " + counted(sighting.box_companions.size(), "box") + ": " +
              names(sighting.box_companions),
          "a bag can be in one box only: look which photograph is of an earlier day, or whether two tags "
          "bear this number");
    } else if (const auto box = first_other(sighting.box_companions, number)) {
      swapped(line, Half::bag, *box);
    } else if (const auto bag = first_other(sighting.bag_companions, number)) {
      swapped(line, Half::box, *bag);
    } else if (const auto old = old_copy(*trip, sighting)) {
      say(line, Verdict::old_copy,
          std::string(to_text(old->half)) + " half of " + name + " is copy " + std::to_string(old->copy) +
              ", copy " + std::to_string(newest(*trip, old->half)) + " was printed since",
          "put the newest copy on and destroy the old one");
    } else if (has(sighting, Half::label)) {
      say(line, Verdict::not_issued,
          name + " is an identification label: that valve is not tracked and has no twin",
          "nothing to match; set it aside");
    } else if (!has(sighting, Half::bag) || !has(sighting, Half::box)) {
      alone(line, has(sighting, Half::bag) ? Half::box : Half::bag, *trip);
    } else {
      line.what = sighting.box_companions.empty() ? "bag and box were both seen, each by itself"
                                                  : "bag and box belong together";
    }
    if (foreign && line.verdict != Verdict::not_issued)
      line.what += " (issued by desk " + number.prefix() + ")";
    if (const auto likeness = likeness_words(sighting.halves); !likeness.empty()) {
      line.what += "; " + likeness + ", not decoded";
      line.next = "compare the number printed on the tag" + (line.next.empty() ? "" : "; " + line.next);
    }
    return line;
  }

 private:
  bool is_prefix_on_record(const std::string& prefix) const {
    return std::any_of(record_.desks().begin(), record_.desks().end(),
                       [&](const auto& desk) { return desk.second.prefix == prefix; });
  }

  static void say(MatchLine& line, Verdict verdict, std::string what, std::string next) {
    line.verdict = verdict;
    line.what = std::move(what);
    line.next = std::move(next);
  }

  static std::string names(const std::set<Number>& numbers) {
    std::string out;
    for (const auto& number : numbers) out += (out.empty() ? "" : ", ") + number.grouped();
    return out;
  }

  static int newest(const ValveTrip& trip, Half half) {
    return half == Half::bag ? trip.bag_copy : trip.box_copy;
  }

  static std::optional<HalfSeen> old_copy(const ValveTrip& trip, const Sighting& sighting) {
    for (const auto& seen : sighting.halves)
      if (seen.half != Half::label && seen.copy < newest(trip, seen.half)) return seen;
    return std::nullopt;
  }

  void crowded(MatchLine& line, const Sighting& sighting) const {
    line.other = first_other(sighting.bag_companions, line.number);
    say(line, Verdict::crowded,
        "box " + line.number.grouped() + " was found with " + counted(sighting.bag_companions.size(), "bag") +
            ": " + names(sighting.bag_companions),
        "if they really share the box, write both numbers on it; else put each bag into its own box");
  }

  // `half` of the line's number was found with the other half of `other`. Whoever lies in the wrong place has pushed
  // somebody else out: say where the twin of this half is, or where it is likely to be.
  void swapped(MatchLine& line, Half half, const Number& other) const {
    line.other = other;
    const bool is_bag = half == Half::bag;
    const std::string mine(is_bag ? "bag " : "box ");
    const std::string twin(is_bag ? "box " : "bag ");
    line.what = mine + line.number.grouped() + " was found with " + twin + other.grouped();
    const auto& companions =
        is_bag ? seen_.at(line.number).bag_companions : seen_.at(line.number).box_companions;
    const auto with_twin = first_other(companions, line.number);
    line.verdict = Verdict::swapped;
    if (with_twin) {
      line.what += ", and " + twin + line.number.grouped() + " with " + mine + with_twin->grouped();
      line.next = "put each bag into its own box, look at the valves, and match again";
      return;
    }
    // In a plain swap of two, the twin lies where the other's half is missing.
    const std::string missing = is_bag
                                    ? "bag " + other.grouped() + ", likely with box " + line.number.grouped()
                                    : "bag " + line.number.grouped() + ", likely with box " + other.grouped();
    const auto elsewhere = seen_.find(is_bag ? other : line.number);
    const auto place = elsewhere == seen_.end()
                           ? std::nullopt
                           : first_other(elsewhere->second.box_companions, is_bag ? other : line.number);
    line.next = place ? "bag " + (is_bag ? other : line.number).grouped() + " was found with box " +
                            place->grouped() +
                            ": more than two are mixed up; put each bag into its own box, and match again"
                      : "swaps come in twos: look for " + missing;
  }

  void alone(MatchLine& line, Half missing, const ValveTrip& trip) const {
    const std::string half(to_text(missing));
    std::string next = "look for its " + half + " half";
    if (trip.meant_for) next += " (pocket " + trip.meant_for->text() + ")";
    say(line, Verdict::alone, line.number.grouped() + " has no " + half + " half among what was seen",
        next + (trip.issued
                    ? "; if it is lost, `counterfoil reprint " + line.number.text() + " --half " + half + "`"
                    : "; if it is lost, ask the desk that issued it for the next copy"));
  }

  const std::map<Number, Sighting>& seen_;
  const Record& record_;
};

// Matched ones last; of the others those first that can send a valve to the wrong place.
int rank(Verdict verdict) {
  constexpr Verdict kOrder[] = {Verdict::swapped,  Verdict::crowded, Verdict::doubled,    Verdict::voided,
                                Verdict::old_copy, Verdict::alone,   Verdict::not_issued, Verdict::matched};
  return static_cast<int>(std::find(std::begin(kOrder), std::end(kOrder), verdict) - std::begin(kOrder));
}

Result<MatchGroup> typed_group(const Desk& desk, const std::vector<std::pair<Half, std::string>>& typed) {
  MatchGroup group;
  group.where = "typed";
  for (const auto& [half, text] : typed) {
    auto number = parse_number(desk, text);
    if (!number) return number.error();
    group.halves.push_back({std::move(*number), half, 1});
  }
  return group;
}

// A typed number says nothing of its copy: take it for the newest.
void assume_newest(MatchGroup& group, const Record& record) {
  for (auto& half : group.halves) {
    const ValveTrip* trip = record.find(half.number);
    if (trip != nullptr) half.copy = half.half == Half::bag ? trip->bag_copy : trip->box_copy;
  }
}

Result<std::vector<MatchGroup>> typed_groups(const Desk& desk, const MatchOrder& order) {
  std::vector<MatchGroup> groups;
  std::vector<std::vector<std::pair<Half, std::string>>> typed;
  for (const auto& [bag, box] : order.pairs) typed.push_back({{Half::bag, bag}, {Half::box, box}});
  for (const auto& bag : order.bags) typed.push_back({{Half::bag, bag}});
  for (const auto& box : order.boxes) typed.push_back({{Half::box, box}});
  for (const auto& one : typed) {
    auto group = typed_group(desk, one);
    if (!group) return group.error();
    groups.push_back(std::move(*group));
  }
  return groups;
}

// What was seen on a photograph and not read; empty when there is no such symbol.
std::string unread_words(const TagReading& reading, const Record& record) {
  std::string words;
  for (const auto& unread : reading.unread) {
    words += (words.empty() ? "" : "; ") + std::string("a symbol was seen and not read");
    for (std::size_t i = 0; i < unread.likely.size(); ++i) {
      const Payload& likely = unread.likely[i];
      const ValveTrip* trip = record.find(likely.number);
      words += (i == 0                         ? ", likeliest "
                : i + 1 < unread.likely.size() ? ", "
                                               : " or ") +
               likely.number.grouped() + " (" + half_words(likely) + ")";
      if (trip != nullptr && trip->meant_for) words += " of " + trip->meant_for->text();
    }
  }
  return words;
}

Result<std::vector<MatchGroup>> photo_groups(const Desk& desk, const MatchOrder& order, MatchReport& report) {
  std::vector<MatchGroup> groups;
  std::set<std::string> taken;
  if (order.photos.empty()) return groups;
  auto in_use = tags_in_use(desk);
  if (!in_use) return in_use.error();
  const auto readings = read_all(order.photos, Sought::ours_noting_others, order.reading, &in_use->texts);
  for (std::size_t i = 0; i < order.photos.size(); ++i) {
    const std::string& file = order.photos[i];
    const auto& reading = readings[i];
    if (!reading) {
      report.unreadable.push_back(reading.error());
      continue;
    }
    if (!reading->damage.empty()) report.damaged.push_back(reading->damage);
    MatchGroup group;
    group.where = file;
    std::string others;
    for (const auto& tag : reading->tags) {
      if (tag.payload && tag.code.identified) group.by_likeness.push_back(*tag.payload);
      if (tag.payload)
        group.halves.push_back(*tag.payload);
      else
        others += (others.empty() ? "" : ", ") + tag.code.symbology + " \"" + tag.code.text + "\"";
    }
    const std::string unread = unread_words(*reading, in_use->record);
    if (group.halves.empty() && !unread.empty()) {
      report.unreadable.push_back(refused(
          file + ": " + unread, advice_after(*reading, "look at the tag, and type the numbers: BAG=BOX")));
      continue;
    }
    if (group.halves.empty() && !others.empty()) {
      report.unreadable.push_back(refused(file + " shows only symbols that are not ours: " + others,
                                          "look whether a tag of ours is there too"));
      continue;
    }
    if (group.halves.empty()) {
      report.unreadable.push_back(
          refused("no tag was read on " + file,
                  advice_after(*reading, "take it again from nearer, or type the numbers: BAG=BOX")));
      continue;
    }
    if (!others.empty()) report.foreign.push_back(file + ": " + others);
    if (!unread.empty()) report.unread.push_back(file + ": " + unread);
    if (reading->time_ran_out) report.unread.push_back(file + ": " + std::string(kTimeRanOut));
    auto evidence = take_evidence(desk, file, order.copy_photos && !order.dry_run);
    if (!evidence) return evidence.error();
    if (!taken.insert(evidence->sha256).second) continue;  // the same picture twice shows nothing more
    group.evidence.push_back(*evidence);
    groups.push_back(std::move(group));
  }
  return groups;
}

Event matching_event(const MatchLine& line, const std::string& by, const Record& record, const Moment& now) {
  Event event;
  event.step = Step::matching;
  event.at = now;
  event.number = line.number;
  event.verdict = line.verdict;
  event.other = line.other;
  event.halves = line.halves;
  event.evidence = line.evidence;
  event.by = by;
  if (const ValveTrip* trip = record.find(line.number)) event.turnaround = trip->turnaround;
  return event;
}

}  // namespace

bool MatchReport::all_matched() const {
  return unreadable.empty() && std::all_of(lines.begin(), lines.end(),
                                           [](const MatchLine& l) { return l.verdict == Verdict::matched; });
}

std::vector<MatchLine> match_halves(const std::vector<MatchGroup>& groups, const Record& record,
                                    const std::vector<Number>& expected) {
  const auto seen = sightings_of(groups);
  const Judge judge(seen, record);
  std::vector<MatchLine> lines;
  for (const auto& [number, sighting] : seen) lines.push_back(judge.judge(number, sighting));
  for (const auto& number : expected) {
    if (seen.contains(number)) continue;
    MatchLine line{
        Verdict::alone,         number, std::nullopt, {}, {}, number.grouped() + " was not seen at all",
        "look for both halves", {}};
    lines.push_back(std::move(line));
  }
  std::stable_sort(lines.begin(), lines.end(),
                   [](const MatchLine& a, const MatchLine& b) { return rank(a.verdict) < rank(b.verdict); });
  return lines;
}

Result<MatchReport> match_photos(Desk& desk, const MatchOrder& order) {
  MatchReport report;
  auto by = check_text(order.by, "the name");
  if (!by) return by.error();
  auto turnaround = check_text(order.turnaround, "the turnaround");
  if (!turnaround) return turnaround.error();
  auto typed = typed_groups(desk, order);
  if (!typed) return typed.error();
  auto photographed = photo_groups(desk, order, report);
  if (!photographed) return photographed.error();
  if (typed->empty() && photographed->empty() && report.unreadable.empty())
    return malformed("nothing to match: no photograph and no number was given",
                     "name photographs that show a bag with its box, or type pairs as BAG=BOX");

  // Judges into the report; gives the record that it judged by.
  const auto judge = [&]() -> Result<Record> {
    auto record = desk.record();
    if (!record) return record.error();
    std::vector<MatchGroup> groups = *photographed;
    for (auto group : *typed) {
      assume_newest(group, *record);
      groups.push_back(std::move(group));
    }
    if (const auto wanted = known_turnaround(*record, *turnaround); !wanted) return wanted.error();
    std::vector<Number> expected;
    if (!turnaround->empty())
      for (const auto& [key, trip] : record->trips())
        if (trip.number && trip.turnaround == *turnaround && trip.issued && !trip.voided && !trip.label &&
            trip.whereabouts != Whereabouts::tag_only && trip.whereabouts != Whereabouts::installed &&
            trip.whereabouts != Whereabouts::destroyed)
          expected.push_back(*trip.number);
    report.lines = match_halves(groups, *record, expected);
    return std::move(*record);
  };
  if (order.dry_run) {
    if (auto judged = judge(); !judged) return judged.error();
    return report;
  }
  auto written = desk.append([&]() -> Result<std::vector<Event>> {
    auto record = judge();
    if (!record) return record.error();
    std::vector<Event> events;
    for (const auto& line : report.lines) events.push_back(matching_event(line, *by, *record, desk.now()));
    return events;
  });
  if (!written) return written.error();
  return report;
}

}  // namespace counterfoil
