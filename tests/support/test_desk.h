// A storeroom's desk in a folder that goes with the test, and a clock that stands still until it is set.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "support/temp_folder.h"
#include "workflow/desk.h"
#include "workflow/issue.h"

namespace counterfoil {

class StoppedClock : public Clock {
 public:
  Moment now() const override { return moment; }
  Moment moment{2026, 11, 25, 9, 30, 0, 60};
};

class TestDesk {
 public:
  TestDesk() {
    auto made = Desk::create(folder.path(), {"Sklad Žďár", "storeroom", "K7", ""}, "", clock);
    if (!made) throw std::runtime_error(made.error().message);
    desk.emplace(std::move(*made));
  }

  // Pairs for the pockets "1 S1" (suction), "1 D1" (discharge), "2 S1", ... of unit U2.
  std::vector<Number> issue(std::size_t count, const std::string& turnaround = "TA26") {
    IssueOrder order{turnaround, {}, "Marek"};
    for (std::size_t i = 0; i < count; ++i) {
      const bool suction = i % 2 == 0;
      const std::string name = std::to_string(i / 2 + 1) + (suction ? " S1" : " D1");
      order.pairs.push_back({Pocket{"U2", name, suction ? Side::suction : Side::discharge}, "V-17"});
    }
    auto issued = issue_pairs(*desk, order);
    if (!issued) throw std::runtime_error(issued.error().message);
    std::vector<Number> numbers;
    for (const auto& logged : *issued) numbers.push_back(*logged.event.number);
    return numbers;
  }

  TempFolder folder;
  StoppedClock clock;
  std::optional<Desk> desk;
};

}  // namespace counterfoil
