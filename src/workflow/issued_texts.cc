#include "workflow/issued_texts.h"

#include <map>
#include <set>
#include <utility>

#include "identity/payload.h"
#include "workflow/candidates.h"

namespace counterfoil {

std::vector<std::string> issued_texts(const Record& record) {
  std::map<std::string, std::set<std::string>> hosts;  // by prefix
  for (const auto& [origin, desk] : record.desks()) hosts[desk.prefix].insert(desk.host);
  std::vector<std::string> texts;
  for (const auto& [key, trip] : record.trips()) {
    if (!trip.number || !trip.issued || !retirement(trip).empty()) continue;
    const auto printed = hosts.find(trip.number->prefix());
    if (printed == hosts.end()) continue;
    const auto add = [&, number = *trip.number](Half half, int copies) {
      for (int copy = 1; copy <= copies; ++copy)
        for (const auto& host : printed->second) texts.push_back(write_payload({number, half, copy}, host));
    };
    if (trip.label) {
      add(Half::label, trip.label_copy);
    } else {
      add(Half::bag, trip.bag_copy);
      add(Half::box, trip.box_copy);
    }
  }
  return texts;
}

Result<TagsInUse> tags_in_use(const Desk& desk) {
  auto record = desk.record();
  if (!record) return record.error();
  KnownTexts texts(issued_texts(*record));
  return TagsInUse{std::move(*record), std::move(texts)};
}

}  // namespace counterfoil
