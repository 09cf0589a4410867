#include "ledger/store.h"

namespace counterfoil {

Result<VerifyReport> Ledger::verify() const { return refused("not yet"); }

}  // namespace counterfoil
