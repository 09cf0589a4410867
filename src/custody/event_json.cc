// The canonical bytes of an event, and the strict way back.
#include <cstdlib>
#include <functional>

#include "base/json.h"
#include "base/text.h"
#include "custody/event.h"

namespace counterfoil {
namespace {

constexpr int kVersion = 1;                                   // Do not change: embedded in logs.
constexpr std::int64_t kLargestSize = std::int64_t{1} << 53;  // what every JSON reader keeps exactly
constexpr std::string_view kByLikeness = "by likeness";       // Do not change: embedded in logs.

// Takes the members of one object; keeps the first complaint and gives empty values from then on.
class Members {
 public:
  Members(const Json& value, std::string where, std::string& complaint)
      : value_(value), where_(std::move(where)), complaint_(complaint) {
    if (value.object() == nullptr) complain("is not an object");
  }

  // Empty when there is none.
  std::string text(std::string_view name) {
    const Json* member = value_.find(name);
    if (member == nullptr) return {};
    if (member->string() != nullptr && !member->string()->empty()) return *member->string();
    complain("is not a text that says something", name);
    return {};
  }
  std::optional<std::int64_t> integer(std::string_view name, std::int64_t least, std::int64_t most) {
    const Json* member = value_.find(name);
    if (member == nullptr) return std::nullopt;
    const auto* integer = member->integer();
    if (integer != nullptr && least <= *integer && *integer <= most) return *integer;
    complain("is not an integer from " + std::to_string(least) + " to " + std::to_string(most), name);
    return std::nullopt;
  }
  // What `parse` makes of the text, provided that `write` gives the same text again: one spelling only.
  template <typename T>
  std::optional<T> spelled(std::string_view name, const std::function<Result<T>(std::string_view)>& parse,
                           const std::function<std::string(const T&)>& write) {
    const std::string given = text(name);
    if (given.empty()) return std::nullopt;
    Result<T> value = parse(given);
    if (value && write(*value) == given) return *std::move(value);
    complain("is not what it should be: \"" + given + "\"", name);
    return std::nullopt;
  }
  template <typename T>
  std::optional<T> word(std::string_view name, Result<T> (*parse)(std::string_view)) {
    return spelled<T>(name, parse, [](const T& value) { return std::string(to_text(value)); });
  }
  std::optional<Moment> moment(std::string_view name) { return word<Moment>(name, parse_moment); }
  std::optional<Number> number(std::string_view name) {
    return spelled<Number>(name, Number::parse, [](const Number& number) { return number.text(); });
  }
  void each(std::string_view name, const std::function<void(Members&)>& take) {
    const Json* member = value_.find(name);
    if (member == nullptr) return;
    if (member->array() == nullptr || member->array()->empty())
      return complain("is not an array that holds something", name);
    for (const auto& item : *member->array()) {
      Members inner(item, std::string(name), complaint_);
      take(inner);
    }
  }
  std::vector<int> integers(std::string_view name, std::int64_t least, std::int64_t most) {
    std::vector<int> out;
    const Json* member = value_.find(name);
    if (member == nullptr) return out;
    if (member->array() == nullptr || member->array()->empty()) {
      complain("is not an array that holds something", name);
      return out;
    }
    for (const auto& item : *member->array()) {
      if (item.integer() == nullptr || *item.integer() < least || *item.integer() > most) {
        complain("does not hold integers from " + std::to_string(least) + " to " + std::to_string(most),
                 name);
        return out;
      }
      out.push_back(static_cast<int>(*item.integer()));
    }
    return out;
  }
  void one(std::string_view name, const std::function<void(Members&)>& take) {
    const Json* member = value_.find(name);
    if (member == nullptr) return;
    Members inner(*member, std::string(name), complaint_);
    take(inner);
  }
  void need(bool there, std::string_view name) {
    if (!there) complain("is missing", name);
  }
  void complain(const std::string& what, std::string_view name = {}) {
    if (!complaint_.empty()) return;
    complaint_ =
        "event: \"" + where_ + (where_.empty() || name.empty() ? "" : ".") + std::string(name) + "\" " + what;
  }

 private:
  const Json& value_;
  std::string where_;
  std::string& complaint_;
};

HalfSeen read_half(Members& members) {
  const auto half = members.word<Half>("half", parse_half);
  const auto copy = members.integer("copy", 1, kLastCopy);
  members.need(half.has_value(), "half");
  members.need(copy.has_value(), "copy");
  const std::string read = members.text("read");
  if (!read.empty() && read != kByLikeness) members.complain("is not \"by likeness\"", "read");
  return {half.value_or(Half::bag), static_cast<int>(copy.value_or(1)), !read.empty()};
}

SeenLog read_seen(Members& members) {
  const auto size = members.integer("size", 0, kLargestSize);
  members.need(size.has_value(), "size");
  return {members.text("origin"), static_cast<std::uint64_t>(size.value_or(0)), members.text("root")};
}

Pocket read_pocket(Members& members) {
  return {members.text("unit"), members.text("name"), members.word<Side>("side", parse_side)};
}

PaperUse read_paper(Members& members) {
  PaperUse paper;
  paper.stack = members.text("stack");
  paper.stock = members.text("stock");
  const auto labels = members.integer("labels", 1, kMostLabels);
  members.need(labels.has_value(), "labels");
  paper.labels = static_cast<int>(labels.value_or(1));
  if (const auto first = members.integer("first", 1, kMostLabels)) paper.first = static_cast<int>(*first);
  paper.spoiled = members.integers("spoiled", 1, kMostLabels);
  paper.sheets = static_cast<int>(members.integer("sheets", 1, kMostSheets).value_or(0));
  paper.used = members.integers("used", 1, kMostLabels);
  return paper;
}

DeskCard read_desk(Members& members) {
  return {members.text("name"), members.text("role"), members.text("prefix"), members.text("key"),
          members.text("host")};
}

Event read_event(Members& members) {
  Event event;
  const auto step = members.word<Step>("step", parse_step);
  members.need(step.has_value(), "step");
  event.step = step.value_or(Step::founding);
  const auto logged = members.moment("logged");
  members.need(logged.has_value(), "logged");
  event.logged = logged.value_or(Moment{});
  const auto at = members.moment("at");
  members.need(at.has_value(), "at");
  event.at = at.value_or(Moment{});
  const auto known = members.word<TimeSource>("known", parse_time_source);
  members.need(known.has_value(), "known");
  event.known = known.value_or(TimeSource::logged);
  event.number = members.number("number");
  members.each("halves", [&](Members& half) { event.halves.push_back(read_half(half)); });
  event.serial = members.text("serial");
  event.turnaround = members.text("turnaround");
  members.one("pocket", [&](Members& pocket) { event.pocket = read_pocket(pocket); });
  event.part = members.text("part");
  event.by = members.text("by");
  event.second = members.text("second");
  event.reason = members.text("reason");
  event.from = members.text("from");
  event.to = members.text("to");
  event.carton = members.text("carton");
  event.due = members.text("due");
  event.condition = members.text("condition");
  event.outcome = members.text("outcome");
  event.note = members.text("note");
  members.each("evidence", [&](Members& item) {
    event.evidence.push_back({item.text("sha256"), item.text("name")});
  });
  if (const auto counter = members.integer("counter", 1, kCounterEnd - 1))
    event.counter = static_cast<std::uint32_t>(*counter);
  event.verdict = members.word<Verdict>("verdict", parse_verdict);
  event.other = members.number("other");
  members.one("desk", [&](Members& desk) { event.desk = read_desk(desk); });
  members.one("paper", [&](Members& paper) { event.paper = read_paper(paper); });
  members.each("sees", [&](Members& log) { event.sees.push_back(read_seen(log)); });
  return event;
}

bool is_plain(const Json& value) {
  if (const auto* members = value.object()) {
    for (const auto& [name, member] : *members)
      if (!is_plain(member)) return false;
    return true;
  }
  if (const auto* items = value.array()) {
    for (const auto& item : *items)
      if (!is_plain(item)) return false;
    return true;
  }
  return value.string() != nullptr || value.integer() != nullptr;
}

void put(Json::Object& object, const char* name, std::string_view text) {
  if (!text.empty()) object.emplace(name, text);
}
void put(Json::Object& object, const char* name, Json::Array items) {
  if (!items.empty()) object.emplace(name, std::move(items));
}

Json write_pocket(const Pocket& pocket) {
  Json::Object out;
  put(out, "unit", pocket.unit);
  put(out, "name", pocket.name);
  if (pocket.side) put(out, "side", to_text(*pocket.side));
  return out;
}

Json::Array write_integers(const std::vector<int>& integers) {
  Json::Array out;
  for (const int integer : integers) out.emplace_back(std::int64_t{integer});
  return out;
}

Json write_paper(const PaperUse& paper) {
  Json::Object out{{"labels", paper.labels}};
  put(out, "stack", paper.stack);
  put(out, "stock", paper.stock);
  if (paper.first) out.emplace("first", std::int64_t{*paper.first});
  put(out, "spoiled", write_integers(paper.spoiled));
  if (paper.sheets > 0) out.emplace("sheets", std::int64_t{paper.sheets});
  put(out, "used", write_integers(paper.used));
  return out;
}

Json write_desk(const DeskCard& desk) {
  Json::Object out;
  put(out, "name", desk.name);
  put(out, "role", desk.role);
  put(out, "prefix", desk.prefix);
  put(out, "key", desk.key);
  put(out, "host", desk.host);
  return out;
}

Json::Array write_halves(const std::vector<HalfSeen>& halves) {
  Json::Array out;
  for (const auto& half : halves) {
    Json::Object item{{"half", to_text(half.half)}, {"copy", half.copy}};
    if (half.by_likeness) put(item, "read", kByLikeness);
    out.push_back(std::move(item));
  }
  return out;
}

Json::Array write_evidence(const std::vector<Evidence>& evidence) {
  Json::Array out;
  for (const auto& photo : evidence) {
    Json::Object item;
    put(item, "sha256", photo.sha256);
    put(item, "name", photo.name);
    out.push_back(std::move(item));
  }
  return out;
}

Json::Array write_sees(const std::vector<SeenLog>& logs) {
  Json::Array out;
  for (const auto& log : logs)
    out.push_back(Json::Object{{"origin", log.origin}, {"size", log.size}, {"root", log.root}});
  return out;
}

}  // namespace

std::string event_bytes(const Event& event) {
  if (!check_event(event)) std::abort();
  Json::Object out;
  out.emplace("counterfoil", kVersion);
  put(out, "step", to_text(event.step));
  put(out, "logged", to_text(event.logged));
  put(out, "at", to_text(event.at));
  put(out, "known", to_text(event.known));
  if (event.number) put(out, "number", event.number->text());
  put(out, "halves", write_halves(event.halves));
  put(out, "serial", event.serial);
  put(out, "turnaround", event.turnaround);
  if (event.pocket) out.emplace("pocket", write_pocket(*event.pocket));
  put(out, "part", event.part);
  put(out, "by", event.by);
  put(out, "second", event.second);
  put(out, "reason", event.reason);
  put(out, "from", event.from);
  put(out, "to", event.to);
  put(out, "carton", event.carton);
  put(out, "due", event.due);
  put(out, "condition", event.condition);
  put(out, "outcome", event.outcome);
  put(out, "note", event.note);
  put(out, "evidence", write_evidence(event.evidence));
  if (event.counter) out.emplace("counter", std::int64_t{*event.counter});
  if (event.verdict) put(out, "verdict", to_text(*event.verdict));
  if (event.other) put(out, "other", event.other->text());
  if (event.desk) out.emplace("desk", write_desk(*event.desk));
  if (event.paper) out.emplace("paper", write_paper(*event.paper));
  put(out, "sees", write_sees(event.sees));
  return canonical_json(out);
}

Result<Event> parse_event(std::string_view bytes) {
  auto json = parse_json(bytes);
  if (!json) return json.error();
  if (json->object() == nullptr) return malformed("event is not a JSON object");
  const Json* version = json->find("counterfoil");
  if (version == nullptr || version->integer() == nullptr)
    return malformed("event says no counterfoil version");
  if (*version->integer() != kVersion)
    return malformed(
        "event is of version " + std::to_string(*version->integer()) + ", which this program cannot read",
        "read it with a newer program");
  if (!is_plain(*json))
    return malformed("event holds something else than strings, integers, arrays and objects");
  if (canonical_json(*json) != bytes) return malformed("event is not in canonical form (RFC 8785)");
  std::string complaint;
  Members members(*json, "", complaint);
  Event event = read_event(members);
  if (!complaint.empty()) return malformed(complaint);
  if (const auto checked = check_event(event); !checked) return checked.error();
  return event;
}

}  // namespace counterfoil
