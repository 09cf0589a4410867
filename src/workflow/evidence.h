// Photographs as evidence: known by their SHA-256, and kept beside the ledger.
#pragma once

#include <optional>
#include <string>

#include "base/result.h"
#include "custody/event.h"
#include "workflow/desk.h"

namespace counterfoil {

// The photograph's digest and name; copies it beside the ledger unless told not to or it is there already.
Result<Evidence> take_evidence(const Desk& desk, const std::string& path, bool copy);

// Where a kept photograph lies: photos/<first two hex digits>/<sha256><ending>; nothing if no copy is kept.
std::optional<std::string> kept_photo(const std::string& photos_folder, const Evidence& evidence);

}  // namespace counterfoil
