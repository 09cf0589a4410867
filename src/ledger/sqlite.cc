#include "ledger/sqlite.h"

#include <sqlite3.h>

#include <cstdlib>
#include <map>
#include <utility>

namespace counterfoil {
namespace {

constexpr int kBusyMilliseconds = 60'000;

// DELETE: a rollback journal works where a write-ahead log does not, on network shares and sticks moved
// between machines. EXTRA: the folder is synced too when the journal goes, so that a commit outlives a power
// cut. The rest: a file from outside is not trusted to be well formed nor to name functions that we would
// run.
constexpr const char* kSettings[] = {
    "PRAGMA journal_mode=DELETE",          "PRAGMA synchronous=EXTRA",  "PRAGMA foreign_keys=ON",
    "PRAGMA cell_size_check=ON",           "PRAGMA trusted_schema=OFF", "PRAGMA mmap_size=0",
    "PRAGMA ignore_check_constraints=OFF",
};

}  // namespace

struct Database::Connection {
  std::string path;
  sqlite3* handle = nullptr;
  std::map<std::string, sqlite3_stmt*, std::less<>> statements;

  ~Connection() {
    for (const auto& [sql, statement] : statements) sqlite3_finalize(statement);
    sqlite3_close(handle);
  }

  Error failed() const {
    const bool busy = handle && sqlite3_errcode(handle) == SQLITE_BUSY;
    const std::string reason = handle ? sqlite3_errmsg(handle) : "out of memory";
    return unreadable("cannot use ledger " + path + ": " + reason,
                      busy ? "another program holds it; wait until that one is done" : "");
  }

  // Null when it does not compile, which a damaged file can cause.
  sqlite3_stmt* prepared(std::string_view sql) {
    const auto found = statements.find(sql);
    if (found != statements.end()) return found->second;
    sqlite3_stmt* statement = nullptr;
    if (sqlite3_prepare_v3(handle, sql.data(), static_cast<int>(sql.size()), SQLITE_PREPARE_PERSISTENT,
                           &statement, nullptr) != SQLITE_OK)
      return nullptr;
    return statements.emplace(sql, statement).first->second;
  }
};

struct Rows::Run {
  Database::Connection* connection;
  sqlite3_stmt* statement;
  std::vector<SqlValue> values;
};

Rows::Rows(std::unique_ptr<Run> run) : run_(std::move(run)) {}
Rows::Rows(Rows&&) noexcept = default;

Rows::~Rows() {
  if (!run_ || !run_->statement) return;
  sqlite3_reset(run_->statement);
  sqlite3_clear_bindings(run_->statement);
}

Result<bool> Rows::next() {
  if (!run_->statement) return run_->connection->failed();
  const int code = sqlite3_step(run_->statement);
  if (code == SQLITE_ROW) return true;
  if (code == SQLITE_DONE) return false;
  return run_->connection->failed();
}

std::uint64_t Rows::number(int column) const {
  return static_cast<std::uint64_t>(sqlite3_column_int64(run_->statement, column));
}

std::string_view Rows::bytes(int column) const {
  const void* data = sqlite3_column_blob(run_->statement, column);
  const int size = sqlite3_column_bytes(run_->statement, column);
  return data ? std::string_view(static_cast<const char*>(data), static_cast<std::size_t>(size))
              : std::string_view();
}

Database::Database(std::unique_ptr<Connection> connection) : connection_(std::move(connection)) {}
Database::Database(Database&&) noexcept = default;
Database& Database::operator=(Database&&) noexcept = default;
Database::~Database() = default;

Result<Database> Database::open(const std::string& path) {
  auto connection = std::make_unique<Connection>();
  connection->path = path;
  if (sqlite3_open_v2(path.c_str(), &connection->handle, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX,
                      nullptr) != SQLITE_OK)
    return connection->failed();
  sqlite3_busy_timeout(connection->handle, kBusyMilliseconds);
  sqlite3_db_config(connection->handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  for (const char* setting : kSettings)
    if (sqlite3_exec(connection->handle, setting, nullptr, nullptr, nullptr) != SQLITE_OK)
      return connection->failed();
  return Database(std::move(connection));
}

Rows Database::query(std::string_view sql, std::vector<SqlValue> values) const {
  sqlite3_stmt* statement = connection_->prepared(sql);
  if (statement && sqlite3_stmt_busy(statement)) std::abort();
  auto run = std::make_unique<Rows::Run>(Rows::Run{connection_.get(), statement, std::move(values)});
  for (int i = 0; statement && i < static_cast<int>(run->values.size()); ++i) {
    const auto& value = run->values[static_cast<std::size_t>(i)];
    if (const auto* number = std::get_if<std::uint64_t>(&value))
      sqlite3_bind_int64(statement, i + 1, static_cast<sqlite3_int64>(*number));
    else if (const auto* text = std::get_if<std::string_view>(&value))
      sqlite3_bind_text64(statement, i + 1, text->data() ? text->data() : "", text->size(), SQLITE_STATIC,
                          SQLITE_UTF8);
    else if (const auto* blob = std::get_if<Blob>(&value))
      sqlite3_bind_blob64(statement, i + 1, blob->bytes.data() ? blob->bytes.data() : "", blob->bytes.size(),
                          SQLITE_STATIC);
  }
  return Rows(std::move(run));
}

Result<std::uint64_t> Database::run(std::string_view sql, std::vector<SqlValue> values) const {
  Rows rows = query(sql, std::move(values));
  if (auto more = rows.next(); !more) return more.error();
  return static_cast<std::uint64_t>(sqlite3_changes64(connection_->handle));
}

const std::string& Database::path() const { return connection_->path; }

bool Database::in_transaction() const { return sqlite3_get_autocommit(connection_->handle) == 0; }

Result<Transaction> Transaction::write(const Database& database) {
  if (auto begun = database.run("BEGIN IMMEDIATE"); !begun) return begun.error();
  return Transaction(&database);
}

Result<Transaction> Transaction::read(const Database& database) {
  if (database.in_transaction()) return Transaction(nullptr);
  if (auto begun = database.run("BEGIN"); !begun) return begun.error();
  return Transaction(&database);
}

// SQLite may have rolled back by itself (disk full, I/O error).
Transaction::~Transaction() {
  if (database_ && database_->in_transaction()) (void)database_->run("ROLLBACK");
}

Result<void> Transaction::commit() {
  if (!database_) return {};
  if (auto done = database_->run("COMMIT"); !done) return done.error();
  database_ = nullptr;
  return {};
}

}  // namespace counterfoil
