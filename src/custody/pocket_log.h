// What went in and out of each pocket, and which side it is on. Entries are known by their sequence number in
// the record; the record knows the rest.
#pragma once

#include <cstddef>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "machine/pocket.h"

namespace counterfoil {

class PocketLog {
 public:
  struct Move {
    bool filled = false;  // else emptied
    std::size_t sequence = 0;
    bool timed = true;  // its time is known otherwise than by the logging
  };
  struct Statement {
    Side side{};
    std::size_t sequence = 0;
  };
  struct Known {
    Pocket pocket;                       // with the side, when that is known
    std::string part;                    // part number of the valve that belongs there
    std::optional<std::size_t> planned;  // the latest entry that issued a pair for it
    std::vector<Move> moves;             // in order of happening as far as that is known
    std::vector<Statement> statements;   // every entry that says its side, in order of the log
  };

  // A pair was issued for the pocket: its list is newer than what was known before and replaces it.
  void plan(const Pocket& pocket, const std::string& part, std::size_t sequence);
  // Somebody named the pocket in passing: counts where nothing better is known.
  void mention(const Pocket& pocket, std::size_t sequence);
  // `earlier`: whether the first entry surely happened before the second. A late entry goes to its place in
  // time. Where that place is known from a logging alone, the order of the log outweighs it when filling and
  // emptying take turns by the log and not by the times.
  void move(const Pocket& pocket, Move move, const std::function<bool(std::size_t, std::size_t)>& earlier);

  // The entry did not move a valve here after all.
  void withdraw(const Pocket& pocket, std::size_t sequence);

  // Null when nothing is known of it.
  const Known* find(const Pocket& pocket) const;
  const std::map<std::pair<std::string, std::string>, Known>& all() const { return known_; }

 private:
  Known& at(const Pocket& pocket);
  static void state(Known& known, const Pocket& pocket, std::size_t sequence);
  std::map<std::pair<std::string, std::string>, Known> known_;  // by unit and name
};

}  // namespace counterfoil
