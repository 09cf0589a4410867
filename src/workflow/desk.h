// A desk as files: its ledger, its signing key, and the photographs that it keeps as evidence. What every
// thing that a person does goes through: it turns events into ledger entries and entries into the record.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "base/moment.h"
#include "base/result.h"
#include "custody/event.h"
#include "custody/record.h"
#include "ledger/ledger.h"

namespace counterfoil {

// Where a desk's files lie. A folder holds counterfoil.ledger, counterfoil.key and photos/; a file "x.ledger"
// has x.key and x.photos/ beside it.
struct DeskPaths {
  std::string ledger, key, photos;
};
DeskPaths desk_paths(const std::string& path);

// What the person says who makes a desk.
struct DeskTerms {
  std::string name, role, prefix, host;
};

class Desk {
 public:
  // Makes the files, or none of them, and logs the founding event. Refuses an existing desk. The key is
  // sealed with the passphrase unless that is empty.
  static Result<Desk> create(const std::string& path, const DeskTerms& terms, const std::string& passphrase,
                             const Clock& clock);
  // The clock must outlive the desk. The key is read at the first append only, so that reading needs no
  // passphrase.
  static Result<Desk> open(const std::string& path, const std::string& passphrase, const Clock& clock);

  const DeskCard& card() const { return card_; }
  const DeskPaths& paths() const { return paths_; }
  const Ledger& ledger() const { return ledger_; }
  Moment now() const { return clock_->now(); }

  // Runs `compose` in one transaction of the ledger (see Ledger::append), fills in `logged` and `sees` of the
  // events that it gives, and appends them. Returns the position of the first.
  using Compose = std::function<Result<std::vector<Event>>()>;
  Result<std::uint64_t> append(const Compose& compose);

  // All events, replayed.
  Result<Record> record() const;
  // The events found by any of these index words, each once, in order.
  Result<std::vector<LoggedEvent>> events_with(const std::vector<std::string>& words) const;
  Result<std::vector<LoggedEvent>> all_events() const;

 private:
  Desk(DeskPaths paths, DeskCard card, Ledger ledger, std::string passphrase, const Clock& clock);

  DeskPaths paths_;
  DeskCard card_;
  Ledger ledger_;
  std::string passphrase_;
  const Clock* clock_;
};

Record replay(const std::vector<LoggedEvent>& events);

}  // namespace counterfoil
