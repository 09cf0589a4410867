#include "ledger/ledger.h"

#include <algorithm>
#include <cstdlib>

#include "base/text.h"
#include "ledger/store.h"

namespace counterfoil {
namespace {

constexpr std::string_view kHead = "SELECT size, frontier FROM log WHERE number = ?";
constexpr std::string_view kMoveHead = "UPDATE log SET size = ?, frontier = ? WHERE number = ? AND size = ?";
constexpr std::string_view kAddEntry =
    "INSERT INTO entry (log, position, body, leaf, words) VALUES (?, ?, ?, ?, ?)";
constexpr std::string_view kAddWord = "INSERT INTO word (word, log, position) VALUES (?, ?, ?)";
constexpr std::string_view kAddCheckpoint = "INSERT INTO checkpoint (log, size, note) VALUES (?, ?, ?)";
constexpr std::string_view kLastCheckpoint =
    "SELECT note FROM checkpoint WHERE log = ? ORDER BY size DESC LIMIT 1";
constexpr std::string_view kAll =
    "SELECT log.origin, entry.position, entry.body FROM log JOIN entry ON entry.log = log.number"
    " ORDER BY log.number <> 0, log.origin, entry.position";
constexpr std::string_view kWithWord =
    "SELECT log.origin, entry.position, entry.body FROM word JOIN log ON log.number = word.log"
    " JOIN entry ON entry.log = word.log AND entry.position = word.position WHERE word.word = ?"
    " ORDER BY log.number <> 0, log.origin, entry.position";
constexpr std::string_view kLastWithWord =
    "SELECT entry.position, entry.body FROM word JOIN entry ON entry.log = word.log AND"
    " entry.position = word.position WHERE word.word = ? AND word.log = ? ORDER BY word.position DESC LIMIT "
    "1";
constexpr std::string_view kEntry = "SELECT body FROM entry WHERE log = ? AND position = ?";
constexpr std::string_view kWords = "SELECT words FROM entry WHERE log = ? AND position = ?";
constexpr std::string_view kLeaves =
    "SELECT leaf FROM entry WHERE log = ? AND position < ? ORDER BY position";

Result<std::vector<LedgerEntry>> entries_from(Rows rows) {
  std::vector<LedgerEntry> out;
  auto done = for_each_row(std::move(rows), [&](const Rows& row) {
    out.push_back({std::string(row.bytes(0)), row.number(1), std::string(row.bytes(2))});
  });
  if (!done) return done.error();
  return out;
}

// The first column of the only row, if there is one.
Result<std::optional<std::string>> value_from(Rows rows) {
  auto row = rows.next();
  if (!row) return row.error();
  if (!*row) return std::optional<std::string>();
  return std::optional(std::string(rows.bytes(0)));
}

Result<Frontier> head_of(const Database& database, std::uint64_t log) {
  Rows rows = database.query(kHead, {log});
  auto row = rows.next();
  if (!row) return row.error();
  if (!*row) return unreadable("ledger " + database.path() + " has no head", "run `counterfoil verify`");
  return frontier_from(rows.number(0), rows.bytes(1));
}

// A head that is damaged and then signed over would be a fork of our own making: what is extended must be
// what was signed last. The note stands in our own file, so its text tells that; its signature is verify()'s
// matter.
Result<void> check_signed(const Frontier& head, std::string_view last_note, const VerifierKey& own) {
  if (head.size() == 0 && last_note.empty()) return {};
  if (last_note.starts_with(checkpoint_text({own.name, head.size(), head.root()}) + "\n")) return {};
  return unreadable("the ledger's head is not what its last checkpoint signed", "run `counterfoil verify`");
}

Result<void> check_words(const std::vector<std::string>& words) {
  for (const auto& word : words)
    if (word.empty() || !is_utf8(word) || has_control_characters(word))
      return malformed("an index word is empty or no plain text");
  return {};
}

Result<void> insert(const Database& database, std::uint64_t log, std::uint64_t position, const Digest& leaf,
                    const EntryDraft& draft) {
  if (auto checked = check_words(draft.words); !checked) return checked;
  const std::string words = joined_words(draft.words);
  auto added = database.run(kAddEntry, {log, position, Blob{draft.body}, Blob{bytes_of(leaf)}, words});
  if (!added) return added.error();
  for (const auto& word : words_from(words))
    if (auto done = database.run(kAddWord, {word, log, position}); !done) return done.error();
  return {};
}

}  // namespace

std::string joined_words(std::vector<std::string> words) {
  std::sort(words.begin(), words.end());
  words.erase(std::unique(words.begin(), words.end()), words.end());
  std::string out;
  for (const auto& word : words) out += word + "\n";
  return out;
}

std::vector<std::string> words_from(std::string_view joined) {
  auto words = split(joined, '\n');
  words.pop_back();  // behind the last line feed
  return words;
}

std::string frontier_bytes(const Frontier& frontier) {
  std::string out;
  for (const Digest& digest : frontier.digests()) out += bytes_of(digest);
  return out;
}

Result<Frontier> frontier_from(std::uint64_t size, std::string_view bytes) {
  std::vector<Digest> digests;
  for (; bytes.size() >= sizeof(Digest); bytes.remove_prefix(sizeof(Digest)))
    digests.push_back(*array_of<sizeof(Digest)>(bytes.substr(0, sizeof(Digest))));
  auto frontier = Frontier::from(size, std::move(digests));
  if (!frontier || !bytes.empty())
    return unreadable("the ledger's head is damaged", "run `counterfoil verify`");
  return frontier;
}

Ledger::Ledger(std::unique_ptr<Store> store) : store_(std::move(store)) {}
Ledger::Ledger(Ledger&&) noexcept = default;
Ledger& Ledger::operator=(Ledger&&) noexcept = default;
Ledger::~Ledger() = default;

Result<Ledger> Ledger::create(const std::string& path, const VerifierKey& own) {
  if (!is_key_name(own.name))
    return malformed("a log's name may hold neither spaces nor plus signs: \"" + own.name + "\"");
  if (auto made = create_file(path, own); !made) return made.error();
  return open(path);
}

Result<Ledger> Ledger::open(const std::string& path) {
  auto database = open_file(path);
  if (!database) return database.error();
  auto key = value_from(database->query("SELECT verifier_key FROM log WHERE number = ?", {kOwnLog}));
  if (!key) return key.error();
  auto own = *key ? VerifierKey::parse(**key) : unreadable("");
  if (!own) return unreadable("ledger " + path + " does not say whose it is: its verifier key is damaged");
  return Ledger(std::make_unique<Store>(Store{std::move(*database), std::move(*own)}));
}

const VerifierKey& Ledger::own() const { return store_->own; }

Result<std::uint64_t> Ledger::size() const {
  auto head = head_of(store_->database, kOwnLog);
  if (!head) return head.error();
  return head->size();
}

Result<std::vector<LedgerEntry>> Ledger::all() const { return entries_from(store_->database.query(kAll)); }

Result<std::vector<LedgerEntry>> Ledger::with_word(std::string_view word) const {
  return entries_from(store_->database.query(kWithWord, {word}));
}

Result<std::optional<LedgerEntry>> Ledger::last_with_word(std::string_view word) const {
  Rows rows = store_->database.query(kLastWithWord, {word, kOwnLog});
  auto row = rows.next();
  if (!row) return row.error();
  if (!*row) return std::optional<LedgerEntry>();
  return std::optional(LedgerEntry{own().name, rows.number(0), std::string(rows.bytes(1))});
}

Result<std::optional<LedgerEntry>> Ledger::entry(std::uint64_t position) const {
  auto body = value_from(store_->database.query(kEntry, {kOwnLog, position}));
  if (!body) return body.error();
  if (!*body) return std::optional<LedgerEntry>();
  return std::optional(LedgerEntry{own().name, position, std::move(**body)});
}

Result<std::vector<std::string>> Ledger::words(std::uint64_t position) const {
  auto joined = value_from(store_->database.query(kWords, {kOwnLog, position}));
  if (!joined) return joined.error();
  if (!*joined) return refused("there is no entry " + std::to_string(position));
  return words_from(**joined);
}

Result<std::uint64_t> Ledger::append(const SigningKey& key, const Compose& compose) {
  const Database& database = store_->database;
  if (database.in_transaction()) std::abort();  // compose must not append
  if (key.public_key() != own().key) return refused("the key is not that of the log " + own().name);
  auto transaction = Transaction::write(database);
  if (!transaction) return transaction.error();
  auto frontier = head_of(database, kOwnLog);
  if (!frontier) return frontier.error();
  const auto last_note = checkpoint();
  if (!last_note) return last_note.error();
  if (auto checked = check_signed(*frontier, *last_note, own()); !checked) return checked.error();
  const std::uint64_t first = frontier->size();
  const auto drafts = compose();
  if (!drafts) return drafts.error();
  if (drafts->empty()) return first;
  for (const auto& draft : *drafts) {
    const Digest leaf = leaf_hash(draft.body);
    if (auto done = insert(database, kOwnLog, frontier->size(), leaf, draft); !done) return done.error();
    frontier->append(leaf);
  }
  const std::string note = sign_checkpoint({own().name, frontier->size(), frontier->root()}, key);
  if (auto done = database.run(kAddCheckpoint, {kOwnLog, frontier->size(), note}); !done) return done.error();
  const std::string digests = frontier_bytes(*frontier);
  const auto moved = database.run(kMoveHead, {frontier->size(), Blob{digests}, kOwnLog, first});
  if (!moved) return moved.error();
  if (*moved != 1) return unreadable("the ledger's head moved during a transaction");
  if (auto done = transaction->commit(); !done) return done.error();
  return first;
}

Result<std::string> Ledger::checkpoint() const {
  auto note = value_from(store_->database.query(kLastCheckpoint, {kOwnLog}));
  if (!note) return note.error();
  return note->value_or("");
}

Result<EntryProof> Ledger::prove(std::uint64_t position) const {
  const Database& database = store_->database;
  auto transaction = Transaction::read(database);
  if (!transaction) return transaction.error();
  auto note = checkpoint();
  if (!note) return note.error();
  auto found = entry(position);
  if (!found) return found.error();
  if (note->empty() || !*found) return refused("there is no entry " + std::to_string(position));
  const auto signed_head = open_checkpoint(*note, own());
  if (!signed_head) return signed_head.error();
  std::vector<Digest> leaves;
  auto read = for_each_row(database.query(kLeaves, {kOwnLog, signed_head->size}), [&](const Rows& row) {
    leaves.push_back(array_of<sizeof(Digest)>(row.bytes(0)).value_or(Digest{}));
  });
  if (!read) return read.error();
  if (position >= leaves.size())
    return refused("entry " + std::to_string(position) + " is in no signed checkpoint");
  EntryProof proof{std::move((*found)->body), position, inclusion_proof(leaves, position), std::move(*note)};
  if (auto checked = check_proof(proof, own()); !checked)
    return unreadable("entry " + std::to_string(position) + " cannot be proven: " + checked.error().message,
                      "run `counterfoil verify`");
  return proof;
}

}  // namespace counterfoil
