// A payload that is taken is the same when written in either form and read again; a host that is taken bears
// a link.
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "identity/payload.h"

using namespace counterfoil;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  if (const auto payload = parse_payload(text)) {
    for (const char* host : {"", "TAGS.EXAMPLE.ORG"}) {
      const auto again = parse_payload(write_payload(*payload, host));
      if (!again || *again != *payload) std::abort();
    }
  }
  if (const auto host = parse_host(text)) {
    const Payload payload{*number_at("K7", 1), Half::box, kLastCopy};
    const auto again = parse_payload(write_payload(payload, *host));
    if (!again || *again != payload) std::abort();
  }
  return 0;
}
