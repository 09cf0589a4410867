#include "cli/event_table.h"

#include "workflow/trace.h"

namespace counterfoil {

Table event_table(const std::vector<LoggedEvent>& events) {
  Table table{{{"entry", "ENTRY"},
               {"at", "WHEN"},
               {"known", "KNOWN BY"},
               {"step", "STEP"},
               {"number", "NUMBER"},
               {"serial", ""},
               {"what", "WHAT"},
               {"by", ""},
               {"turnaround", ""},
               {"logged", ""},
               {"photographs", "PHOTOGRAPHS"},
               {"log", ""}},
              {}};
  for (const auto& [ref, event] : events) {
    std::string photographs;
    for (const auto& evidence : event.evidence)
      photographs += (photographs.empty() ? "" : " ") + evidence.name;
    table.rows.push_back({ref.position, to_text(event.at), to_text(event.known), to_text(event.step),
                          event.number ? event.number->text() : std::string(), event.serial, describe(event),
                          event.by, event.turnaround, to_text(event.logged), photographs, ref.origin});
  }
  return table;
}

}  // namespace counterfoil
