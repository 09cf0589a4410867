#include "workflow/desk.h"

#include <algorithm>
#include <array>
#include <filesystem>
#include <system_error>

#include "base/file.h"
#include "base/text.h"
#include "identity/number.h"
#include "identity/payload.h"

namespace counterfoil {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view kLedgerName = "counterfoil.ledger";
constexpr std::string_view kLedgerEnding = ".ledger";
constexpr std::uint64_t kLargestKeyFileBytes = 4096;
constexpr std::array<std::string_view, 3> kRoles = {"storeroom", "mechanic", "vendor"};

bool exists(const std::string& path) {
  std::error_code ignored;
  return fs::exists(path, ignored);
}

// Removes what was half made when making a desk fails.
class Scaffold {
 public:
  explicit Scaffold(std::vector<std::string> files) : files_(std::move(files)) {}
  Scaffold(const Scaffold&) = delete;
  Scaffold& operator=(const Scaffold&) = delete;
  ~Scaffold() {
    std::error_code ignored;
    for (const auto& file : files_) fs::remove(file, ignored);
  }

 private:
  std::vector<std::string> files_;
};

// Unique to the key, so that two desks that took one prefix can still be told apart.
std::string origin_of(const std::string& prefix, const PublicKey& key) {
  return "counterfoil/" + prefix + "-" + to_hex(bytes_of(sha256(bytes_of(key)))).substr(0, 16);
}

Result<DeskCard> checked(const DeskTerms& terms) {
  DeskCard card;
  auto name = check_text(terms.name, "the desk's name");
  if (!name) return name.error();
  if (name->empty())
    return malformed("a desk needs a name", "give --name, such as --name \"Storeroom Hollow Creek\"");
  card.name = *name;
  if (terms.role.empty())
    return malformed("a desk needs a role", "give --role storeroom, mechanic or vendor");
  if (terms.prefix.empty())
    return malformed(
        "a desk needs a prefix",
        "give --prefix XX: two characters, digits or letters but not U, that all its numbers begin with");
  if (std::find(kRoles.begin(), kRoles.end(), terms.role) == kRoles.end())
    return malformed("\"" + terms.role + "\" is not a role", "the roles are storeroom, mechanic and vendor");
  card.role = terms.role;
  auto prefix = parse_prefix(terms.prefix);
  if (!prefix) return prefix.error();
  card.prefix = *prefix;
  if (!terms.host.empty()) {
    auto host = parse_host(terms.host);
    if (!host) return host.error();
    card.host = *host;
  }
  return card;
}

Result<LoggedEvent> logged_event(const LedgerEntry& entry) {
  auto event = parse_event(entry.body);
  if (!event)
    return unreadable(
        "entry " + std::to_string(entry.position) + " of the ledger is no event: " + event.error().message,
        "run `counterfoil verify`");
  return LoggedEvent{{entry.origin, entry.position}, std::move(*event)};
}

Result<std::vector<LoggedEvent>> logged_events(const std::vector<LedgerEntry>& entries) {
  std::vector<LoggedEvent> out;
  out.reserve(entries.size());
  for (const auto& entry : entries) {
    auto event = logged_event(entry);
    if (!event) return event.error();
    out.push_back(std::move(*event));
  }
  return out;
}

}  // namespace

DeskPaths desk_paths(const std::string& path) {
  std::error_code ignored;
  if (!path.ends_with(kLedgerEnding) || fs::is_directory(path, ignored)) {
    const fs::path folder(path);
    return {(folder / kLedgerName).string(), (folder / "counterfoil.key").string(),
            (folder / "photos").string()};
  }
  const std::string stem = path.substr(0, path.size() - kLedgerEnding.size());
  return {path, stem + ".key", stem + ".photos"};
}

Desk::Desk(DeskPaths paths, DeskCard card, Ledger ledger, std::string passphrase, const Clock& clock)
    : paths_(std::move(paths)),
      card_(std::move(card)),
      ledger_(std::move(ledger)),
      passphrase_(std::move(passphrase)),
      clock_(&clock) {}

Result<Desk> Desk::create(const std::string& path, const DeskTerms& terms, const std::string& passphrase,
                          const Clock& clock) {
  auto card = checked(terms);
  if (!card) return card.error();
  if (path.empty()) return malformed("a desk needs a folder or file", "name one; `.` is this folder");
  const DeskPaths paths = desk_paths(path);
  if (exists(paths.ledger))
    return refused("there is a ledger already: " + paths.ledger,
                   "show it with `counterfoil desk " + path + "`");
  if (exists(paths.key))
    return refused("there is a key but no ledger: " + paths.key,
                   "if its ledger is lost, move the key away and keep it: what it signed stays checkable");
  const auto folder = fs::path(paths.ledger).parent_path();
  std::error_code failure;
  if (!folder.empty()) fs::create_directories(folder, failure);
  if (failure) return unreadable("cannot make the folder " + folder.string() + ": " + failure.message());

  const SigningKey key = SigningKey::generate();
  card->key = VerifierKey{origin_of(card->prefix, key.public_key()), key.public_key()}.text();
  const DeskPaths drafts{paths.ledger + ".new", paths.key + ".new", paths.photos};
  const Scaffold scaffold({drafts.ledger, drafts.key, drafts.ledger + "-journal"});
  std::error_code ignored;
  fs::remove(drafts.ledger, ignored);  // of an attempt that was killed
  if (auto done = write_file(drafts.key, key.to_text(passphrase), 0600); !done) return done.error();
  {
    auto own = VerifierKey::parse(card->key);
    if (!own) return own.error();
    auto ledger = Ledger::create(drafts.ledger, *own);
    if (!ledger) return ledger.error();
    Desk desk(drafts, *card, std::move(*ledger), passphrase, clock);
    auto founded = desk.append([&]() -> Result<std::vector<Event>> {
      Event event;
      event.step = Step::founding;
      event.at = clock.now();
      event.known = TimeSource::logged;
      event.desk = *card;
      return std::vector<Event>{event};
    });
    if (!founded) return founded.error();
  }
  // The key first: a ledger without its key could never grow.
  fs::rename(drafts.key, paths.key, failure);
  if (!failure) fs::rename(drafts.ledger, paths.ledger, failure);
  if (failure) return unreadable("cannot write " + paths.ledger + ": " + failure.message());
  return open(path, passphrase, clock);
}

Result<Desk> Desk::open(const std::string& path, const std::string& passphrase, const Clock& clock) {
  const DeskPaths paths = desk_paths(path);
  if (!exists(paths.ledger))
    return unreadable("no ledger here: " + paths.ledger,
                      "name one with --ledger, or make a desk with `counterfoil desk " + path +
                          " --name NAME --role storeroom --prefix K7`");
  auto ledger = Ledger::open(paths.ledger);
  if (!ledger) return ledger.error();
  auto first = ledger->entry(0);
  if (!first) return first.error();
  if (!*first)
    return unreadable("the ledger has no founding event: " + paths.ledger, "run `counterfoil verify`");
  auto founding = logged_event(**first);
  if (!founding) return founding.error();
  if (!founding->event.desk)
    return unreadable("the ledger does not begin with a founding event: " + paths.ledger,
                      "run `counterfoil verify`");
  return Desk(paths, *founding->event.desk, std::move(*ledger), passphrase, clock);
}

Result<std::uint64_t> Desk::append(const Compose& compose) {
  auto text = read_file(paths_.key, kLargestKeyFileBytes);
  if (!text) return text.error();
  auto key = SigningKey::from_text(*text, passphrase_);
  if (!key) {
    Error error = key.error();
    if (error.kind == ErrorKind::refused)
      error.hint = "give --passphrase-file FILE, or set COUNTERFOIL_PASSPHRASE";
    return error;
  }
  return ledger_.append(*key, [&]() -> Result<std::vector<EntryDraft>> {
    auto events = compose();
    if (!events) return events.error();
    std::vector<EntryDraft> drafts;
    drafts.reserve(events->size());
    const Moment now = clock_->now();
    for (auto& event : *events) {
      event.logged = now;
      drafts.push_back({event_bytes(event), event_words(event)});
    }
    return drafts;
  });
}

Result<std::vector<LoggedEvent>> Desk::all_events() const {
  auto entries = ledger_.all();
  if (!entries) return entries.error();
  return logged_events(*entries);
}

Result<std::vector<LoggedEvent>> Desk::events_with(const std::vector<std::string>& words) const {
  std::vector<LedgerEntry> found;
  for (const auto& word : words) {
    auto entries = ledger_.with_word(word);
    if (!entries) return entries.error();
    found.insert(found.end(), entries->begin(), entries->end());
  }
  const auto before = [](const LedgerEntry& a, const LedgerEntry& b) {
    return std::tie(a.origin, a.position) < std::tie(b.origin, b.position);
  };
  const auto same = [](const LedgerEntry& a, const LedgerEntry& b) {
    return a.position == b.position && a.origin == b.origin;
  };
  std::sort(found.begin(), found.end(), before);
  found.erase(std::unique(found.begin(), found.end(), same), found.end());
  return logged_events(found);
}

Record replay(const std::vector<LoggedEvent>& events) {
  Record record;
  for (const auto& logged : events) record.apply(logged.ref, logged.event);
  return record;
}

Result<Record> Desk::record() const {
  auto events = all_events();
  if (!events) return events.error();
  return replay(*events);
}

}  // namespace counterfoil
