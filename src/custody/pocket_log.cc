#include "custody/pocket_log.h"

#include <algorithm>

namespace counterfoil {

PocketLog::Known& PocketLog::at(const Pocket& pocket) {
  Known& known = known_[{pocket.unit, pocket.name}];
  known.pocket.unit = pocket.unit;
  known.pocket.name = pocket.name;
  return known;
}

void PocketLog::state(Known& known, const Pocket& pocket, std::size_t sequence) {
  if (pocket.side) known.statements.push_back({*pocket.side, sequence});
}

void PocketLog::plan(const Pocket& pocket, const std::string& part, std::size_t sequence) {
  Known& known = at(pocket);
  state(known, pocket, sequence);
  known.planned = sequence;
  if (pocket.side) known.pocket.side = pocket.side;
  if (!part.empty()) known.part = part;
}

void PocketLog::mention(const Pocket& pocket, std::size_t sequence) {
  Known& known = at(pocket);
  state(known, pocket, sequence);
  if (!known.pocket.side) known.pocket.side = pocket.side;
}

void PocketLog::move(const Pocket& pocket, Move move,
                     const std::function<bool(std::size_t, std::size_t)>& earlier) {
  auto& moves = at(pocket).moves;
  auto place = moves.end();
  while (place != moves.begin() && earlier(move.sequence, std::prev(place)->sequence)) --place;
  const bool sure = move.timed && std::all_of(place, moves.end(), [](const Move& m) { return m.timed; });
  const auto takes_turn = [&](auto there) {
    return (there == moves.begin() || std::prev(there)->filled != move.filled) &&
           (there == moves.end() || there->filled != move.filled);
  };
  if (!sure && !takes_turn(place) && takes_turn(moves.end())) place = moves.end();
  moves.insert(place, move);
}

void PocketLog::withdraw(const Pocket& pocket, std::size_t sequence) {
  std::erase_if(at(pocket).moves, [&](const Move& move) { return move.sequence == sequence; });
}

const PocketLog::Known* PocketLog::find(const Pocket& pocket) const {
  const auto found = known_.find({pocket.unit, pocket.name});
  return found == known_.end() ? nullptr : &found->second;
}

}  // namespace counterfoil
