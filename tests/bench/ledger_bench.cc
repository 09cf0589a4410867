// The ledger against what its work costs at the very least, in one run:
//   OneDurableEvent against a bare commit: one row of the same size in a table, same journal and sync
//   settings; Verify           against BareHashing: SHA-256 of the same bytes, entries of 400 bytes, 10 000 a
//   checkpoint; TenThousandAtOnce: 10 000 entries in one transaction, against one bare transaction of as many
//   rows.
#include <benchmark/benchmark.h>
#include <sqlite3.h>
#include <stdlib.h>

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <memory>
#include <string>

#include "ledger/ledger.h"
#include "ledger/tree.h"

namespace counterfoil {
namespace {

constexpr std::uint64_t kBatch = 10'000;

class Folder {
 public:
  Folder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "ledger-bench.XXXXXX").string();
    path_ = ::mkdtemp(pattern.data());
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  std::string file(const char* name) const { return (path_ / name).string(); }

 private:
  std::filesystem::path path_;
};

SigningKey desk_key() { return SigningKey::from_seed({0x2a}); }

// An entry as an event makes it: 400 bytes, four index words.
EntryDraft draft(std::uint64_t i) {
  const auto n = std::to_string(i);
  std::string body =
      "{\"by\":\"Åse\",\"number\":\"" + n + "\",\"step\":\"removing\",\"unit\":\"U2\",\"note\":\"";
  body.resize(400, 'x');
  return {std::move(body), {"number:K" + n, "step:removing", "turnaround:TA26", "unit:U2"}};
}

void append(Ledger& ledger, std::uint64_t first, std::uint64_t count) {
  const auto done = ledger.append(desk_key(), [&]() -> Result<std::vector<EntryDraft>> {
    std::vector<EntryDraft> drafts;
    for (std::uint64_t i = 0; i < count; ++i) drafts.push_back(draft(first + i));
    return drafts;
  });
  if (!done) std::abort();
}

Ledger make(const std::string& path) {
  auto ledger = Ledger::create(path, {"bench", desk_key().public_key()});
  if (!ledger) std::abort();
  return std::move(*ledger);
}

class Bare {
 public:
  explicit Bare(const std::string& path) {
    if (sqlite3_open(path.c_str(), &handle_) != SQLITE_OK) std::abort();
    run("PRAGMA journal_mode=DELETE");
    run("PRAGMA synchronous=EXTRA");
    run("CREATE TABLE t (position INTEGER PRIMARY KEY, body BLOB NOT NULL)");
    sqlite3_prepare_v2(handle_, "INSERT INTO t VALUES (?, ?)", -1, &insert_, nullptr);
  }
  Bare(const Bare&) = delete;
  Bare& operator=(const Bare&) = delete;
  ~Bare() {
    sqlite3_finalize(insert_);
    sqlite3_close(handle_);
  }
  void run(const char* sql) {
    if (sqlite3_exec(handle_, sql, nullptr, nullptr, nullptr) != SQLITE_OK) std::abort();
  }
  void insert(std::uint64_t position, const std::string& body) {
    sqlite3_bind_int64(insert_, 1, static_cast<sqlite3_int64>(position));
    sqlite3_bind_blob(insert_, 2, body.data(), static_cast<int>(body.size()), SQLITE_STATIC);
    if (sqlite3_step(insert_) != SQLITE_DONE) std::abort();
    sqlite3_reset(insert_);
  }

 private:
  sqlite3* handle_ = nullptr;
  sqlite3_stmt* insert_ = nullptr;
};

double seconds_of(const auto& work) {
  const auto start = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

// Turn by turn, since what a sync costs changes with whatever else the disk does; the time is the ledger's.
// Both start from 10 000 entries, so that neither writes into an almost empty file.
void OneDurableEvent(benchmark::State& state) {
  const Folder folder;
  Bare bare(folder.file("bare"));
  Ledger ledger = make(folder.file("desk.ledger"));
  append(ledger, 0, kBatch);
  bare.run("BEGIN IMMEDIATE");
  for (std::uint64_t n = 0; n < kBatch; ++n) bare.insert(n, draft(n).body);
  bare.run("COMMIT");
  std::uint64_t n = kBatch;
  double bare_seconds = 0;
  double ledger_seconds = 0;
  for (auto _ : state) {
    bare_seconds += seconds_of([&] {
      bare.run("BEGIN IMMEDIATE");
      bare.insert(n, draft(n).body);
      bare.run("COMMIT");
    });
    const double seconds = seconds_of([&] { append(ledger, n, 1); });
    state.SetIterationTime(seconds);
    ledger_seconds += seconds;
    ++n;
  }
  state.counters["bare_us"] = bare_seconds * 1e6 / static_cast<double>(state.iterations());
  state.counters["times_bare"] = ledger_seconds / bare_seconds;
}
BENCHMARK(OneDurableEvent)->UseManualTime()->Unit(benchmark::kMicrosecond);

void BareTenThousandAtOnce(benchmark::State& state) {
  for (auto _ : state) {
    state.PauseTiming();
    auto folder = std::make_unique<Folder>();
    auto bare = std::make_unique<Bare>(folder->file("bare"));
    state.ResumeTiming();
    bare->run("BEGIN IMMEDIATE");
    for (std::uint64_t n = 0; n < kBatch; ++n) bare->insert(n, draft(n).body);
    bare->run("COMMIT");
    state.PauseTiming();
    bare.reset();
    folder.reset();
    state.ResumeTiming();
  }
}
BENCHMARK(BareTenThousandAtOnce)->UseRealTime()->Unit(benchmark::kMillisecond);

void TenThousandAtOnce(benchmark::State& state) {
  for (auto _ : state) {
    state.PauseTiming();
    auto folder = std::make_unique<Folder>();
    auto ledger = std::make_unique<Ledger>(make(folder->file("desk.ledger")));
    state.ResumeTiming();
    append(*ledger, 0, kBatch);
    state.PauseTiming();
    ledger.reset();
    folder.reset();
    state.ResumeTiming();
  }
}
BENCHMARK(TenThousandAtOnce)->UseRealTime()->Unit(benchmark::kMillisecond);

// Leaves and inner nodes: what a tree of these entries cannot be computed without.
void BareHashing(benchmark::State& state) {
  std::vector<std::string> bodies;
  for (std::uint64_t n = 0; n < static_cast<std::uint64_t>(state.range(0)); ++n)
    bodies.push_back(draft(n).body);
  for (auto _ : state) {
    Frontier tree;
    for (const auto& body : bodies) tree.append(leaf_hash(body));
    benchmark::DoNotOptimize(tree.root());
  }
}
BENCHMARK(BareHashing)->Arg(10'000)->Arg(100'000)->UseRealTime()->Unit(benchmark::kMillisecond);

void Verify(benchmark::State& state) {
  const Folder folder;
  Ledger ledger = make(folder.file("desk.ledger"));
  for (std::uint64_t n = 0; n < static_cast<std::uint64_t>(state.range(0)); n += kBatch)
    append(ledger, n, kBatch);
  for (auto _ : state) {
    const auto report = ledger.verify();
    if (!report || !report->faults.empty()) std::abort();
  }
  state.counters["bytes/entry"] =
      static_cast<double>(std::filesystem::file_size(folder.file("desk.ledger"))) /
      static_cast<double>(state.range(0));
}
BENCHMARK(Verify)->Arg(10'000)->Arg(100'000)->UseRealTime()->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace counterfoil
