// The one owner of SQLite: a file opened under the settings that a ledger lives by, statements prepared once,
// rows read by column. Internal to this room; knows nothing of logs. Every failure is `unreadable` and names
// the file. Source: sqlite.org documentation of the C interface and of the pragmas named in sqlite.cc.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "base/result.h"

namespace counterfoil {

struct Blob {
  std::string_view bytes;
};
// What is put in place of a statement's question marks. Texts and blobs are not copied: they must outlive the
// Rows.
using SqlValue = std::variant<std::uint64_t, std::string_view, Blob>;

// One run of a prepared statement. The statement is free for the next run when this goes.
class Rows {
 public:
  Rows(Rows&&) noexcept;
  Rows& operator=(Rows&&) = delete;
  ~Rows();

  // Steps to the first or next row; false behind the last.
  Result<bool> next();
  // Columns of the row at hand, from 0. Views hold until next().
  std::uint64_t number(int column) const;
  std::string_view bytes(int column) const;

 private:
  friend class Database;
  struct Run;
  explicit Rows(std::unique_ptr<Run> run);
  std::unique_ptr<Run> run_;
};

class Database {
 public:
  // An existing file, for reading and writing (or reading only where the file is).
  static Result<Database> open(const std::string& path);
  Database(Database&&) noexcept;
  Database& operator=(Database&&) noexcept;
  ~Database();

  // At most one run of one SQL text at a time: a second one meanwhile is a bug, and aborts.
  Rows query(std::string_view sql, std::vector<SqlValue> values = {}) const;
  // Runs a statement that gives no rows; the number of rows that it changed.
  Result<std::uint64_t> run(std::string_view sql, std::vector<SqlValue> values = {}) const;

  const std::string& path() const;
  bool in_transaction() const;

 private:
  friend class Rows;
  struct Connection;
  explicit Database(std::unique_ptr<Connection> connection);
  std::unique_ptr<Connection> connection_;
};

// Takes back what was not committed when it goes.
class Transaction {
 public:
  // Waits for another writer up to 60 s.
  static Result<Transaction> write(const Database& database);
  // One state of the file for several queries; inside another transaction it is that one.
  static Result<Transaction> read(const Database& database);
  Transaction(Transaction&& other) noexcept : database_(std::exchange(other.database_, nullptr)) {}
  Transaction& operator=(Transaction&&) = delete;
  ~Transaction();

  Result<void> commit();

 private:
  explicit Transaction(const Database* database) : database_(database) {}
  const Database* database_;  // null when there is nothing to take back
};

}  // namespace counterfoil
