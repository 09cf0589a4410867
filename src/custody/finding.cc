#include "custody/finding.h"

#include <array>

namespace counterfoil {
namespace {

// In the order of the enum.
constexpr std::array<std::string_view, 27> kKinds = {"side disagreement",
                                                     "pocket with two sides",
                                                     "side not checked",
                                                     "removed twice",
                                                     "issued twice",
                                                     "after its end",
                                                     "serial twice",
                                                     "two serials",
                                                     "other valve",
                                                     "swapped",
                                                     "crowded",
                                                     "doubled",
                                                     "alone",
                                                     "pocket twice",
                                                     "wrong pocket",
                                                     "other part",
                                                     "step out of order",
                                                     "never issued",
                                                     "issued elsewhere",
                                                     "shared prefix",
                                                     "old copy",
                                                     "untagged",
                                                     "time runs back",
                                                     "time ahead",
                                                     "not back",
                                                     "not removed",
                                                     "pocket open"};

}  // namespace

std::string_view to_text(FindingKind kind) { return kKinds.at(static_cast<std::size_t>(kind)); }

}  // namespace counterfoil
