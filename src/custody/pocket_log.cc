#include "custody/pocket_log.h"

namespace counterfoil {

PocketLog::Known& PocketLog::at(const Pocket& pocket) {
  Known& known = known_[{pocket.unit, pocket.name}];
  known.pocket.unit = pocket.unit;
  known.pocket.name = pocket.name;
  return known;
}

void PocketLog::plan(const Pocket& pocket, const std::string& part, std::size_t sequence) {
  Known& known = at(pocket);
  known.planned = sequence;
  if (pocket.side) known.pocket.side = pocket.side;
  if (!part.empty()) known.part = part;
}

void PocketLog::mention(const Pocket& pocket) {
  Known& known = at(pocket);
  if (!known.pocket.side) known.pocket.side = pocket.side;
}

void PocketLog::move(const Pocket& pocket, Move move,
                     const std::function<bool(std::size_t, std::size_t)>& earlier) {
  auto& moves = at(pocket).moves;
  auto place = moves.end();
  while (place != moves.begin() && earlier(move.sequence, std::prev(place)->sequence)) --place;
  moves.insert(place, move);
}

const PocketLog::Known* PocketLog::find(const Pocket& pocket) const {
  const auto found = known_.find({pocket.unit, pocket.name});
  return found == known_.end() ? nullptr : &found->second;
}

}  // namespace counterfoil
