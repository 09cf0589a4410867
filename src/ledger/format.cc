#include "ledger/format.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <vector>

#include "base/text.h"

namespace counterfoil {
namespace {

// Do not change: embedded on disk. Another format gets another kFormat, and open_file learns to tell them
// apart.
constexpr std::uint64_t kApplicationId = 0x43466f6c;  // "CFol"
constexpr std::uint64_t kFormat = 1;
constexpr std::string_view kMarks[] = {"PRAGMA application_id=1128689516", "PRAGMA user_version=1"};
static_assert(kApplicationId == 1128689516 && kFormat == 1);

// Do not change: embedded on disk, and compared byte for byte on opening.
// An entry's words stand with it, sorted, a line feed behind each; the table `word` is the same turned round
// for looking up, and can be rebuilt from them. `entry` has SQLite's hidden row numbers because its rows are
// long.
constexpr std::string_view kTables[] = {
    "CREATE TABLE log (number INTEGER NOT NULL PRIMARY KEY CHECK (number >= 0), origin TEXT NOT NULL UNIQUE,"
    " verifier_key TEXT NOT NULL, size INTEGER NOT NULL CHECK (size >= 0), frontier BLOB NOT NULL) STRICT",
    "CREATE TABLE entry (log INTEGER NOT NULL REFERENCES log (number),"
    " position INTEGER NOT NULL CHECK (position >= 0), body BLOB NOT NULL, leaf BLOB NOT NULL,"
    " words TEXT NOT NULL, PRIMARY KEY (log, position)) STRICT",
    "CREATE TABLE word (word TEXT NOT NULL, log INTEGER NOT NULL, position INTEGER NOT NULL,"
    " PRIMARY KEY (word, log, position), FOREIGN KEY (log, position) REFERENCES entry (log, position))"
    " STRICT, WITHOUT ROWID",
    "CREATE TABLE checkpoint (log INTEGER NOT NULL REFERENCES log (number),"
    " size INTEGER NOT NULL CHECK (size > 0), note TEXT NOT NULL, PRIMARY KEY (log, size))"
    " STRICT, WITHOUT ROWID",
};

Error failed(const std::string& path) {
  return unreadable("cannot make " + path + ": " + std::strerror(errno));
}
Error exists(const std::string& path) { return refused("there is a file already: " + path); }

// Moves a file to a name that nothing has; where the file system cannot promise that in one step, by a second
// name.
bool move_to_free_name(const std::string& from, const std::string& to) {
  if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) return true;
  return errno != EEXIST && ::link(from.c_str(), to.c_str()) == 0 && ::unlink(from.c_str()) == 0;
}

void sync_folder_of(const std::string& path) {
  const auto slash = path.rfind('/');
  const std::string folder = slash == std::string::npos ? "." : path.substr(0, slash + 1);
  const int fd = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (fd < 0) return;
  ::fsync(fd);
  ::close(fd);
}

Result<void> fill(const std::string& path, const VerifierKey& own) {
  auto database = Database::open(path);
  if (!database) return database.error();
  auto transaction = Transaction::write(*database);
  if (!transaction) return transaction.error();
  const auto run = [&](std::string_view sql, std::vector<SqlValue> values = {}) -> Result<void> {
    auto done = database->run(sql, std::move(values));
    if (!done) return done.error();
    return {};
  };
  for (const auto mark : kMarks)
    if (auto done = run(mark); !done) return done;
  for (const auto table : kTables)
    if (auto done = run(table); !done) return done;
  const std::string key = own.text();
  auto done = run("INSERT INTO log (number, origin, verifier_key, size, frontier) VALUES (?, ?, ?, 0, ?)",
                  {kOwnLog, own.name, key, Blob{""}});
  if (!done) return done;
  return transaction->commit();
}

Result<std::uint64_t> pragma(const Database& database, std::string_view sql) {
  Rows rows = database.query(sql);
  auto row = rows.next();
  if (!row) return row.error();
  return *row ? rows.number(0) : 0;
}

}  // namespace

Result<void> create_file(const std::string& path, const VerifierKey& own) {
  if (::access(path.c_str(), F_OK) == 0) return exists(path);
  std::string draft = path + ".XXXXXX";
  const int fd = ::mkostemp(draft.data(), O_CLOEXEC);
  if (fd < 0) return failed(path);
  ::close(fd);
  if (auto filled = fill(draft, own); !filled) {
    ::unlink(draft.c_str());
    return filled;
  }
  if (!move_to_free_name(draft, path)) {
    const Error error = errno == EEXIST ? exists(path) : failed(path);
    ::unlink(draft.c_str());
    return error;
  }
  sync_folder_of(path);
  return {};
}

Result<Database> open_file(const std::string& path) {
  struct stat about {};
  if (::stat(path.c_str(), &about) != 0)
    return unreadable("cannot open ledger " + path + ": " + std::strerror(errno));
  if (!S_ISREG(about.st_mode)) return unreadable("cannot open ledger " + path + ": it is not a file");
  auto database = Database::open(path);
  if (!database) return database.error();
  const auto id = pragma(*database, "PRAGMA application_id");
  if (!id) return id.error();
  if (*id != kApplicationId) return unreadable(path + " is not a ledger of this program");
  const auto format = pragma(*database, "PRAGMA user_version");
  if (!format) return format.error();
  if (*format != kFormat)
    return unreadable("ledger " + path + " has format " + std::to_string(*format) + ", this program knows " +
                          std::to_string(kFormat),
                      "use a later version of this program");
  // Whoever could add a trigger or a view to the file could otherwise change what our statements do.
  std::vector<std::string> tables;
  Rows rows = database->query("SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL");
  for (;;) {
    auto row = rows.next();
    if (!row) return row.error();
    if (!*row) break;
    tables.emplace_back(rows.bytes(0));
  }
  if (!std::is_permutation(tables.begin(), tables.end(), std::begin(kTables), std::end(kTables)))
    return unreadable("ledger " + path + " has other tables than this program made");
  return std::move(*database);
}

}  // namespace counterfoil
