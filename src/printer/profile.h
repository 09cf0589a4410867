// What one printer does to a page, measured: a JSON file that people keep, copy and edit. templates/README.md has its
// members. What corrects a page by it is the sheet room's (SheetOrder), how it is measured is workflow/calibrate.h's.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/affine.h"
#include "base/result.h"

namespace counterfoil {

struct PrinterProfile {
  // Along each of the paper's edges, seen from the front, what the printer cannot reach.
  struct Unreached {
    double left_mm = 0, top_mm = 0, right_mm = 0, bottom_mm = 0;

    friend bool operator==(const Unreached&, const Unreached&) = default;
  };

  std::string name;  // one line, for people
  double dots_per_inch = 300;
  double offset_x_mm = 0, offset_y_mm = 0;  // where the page's top left corner comes on the paper
  double scale_x = 1, scale_y = 1;          // printed length over meant length
  double turn_deg = 0;   // of what is printed, against the paper's edges; clockwise is positive
  double shear_deg = 0;  // how much more the printed uprights are turned than the printed level lines
  std::vector<int> dead_columns;  // of the page's dots, from 0 at its left edge, ascending
  std::optional<Unreached> unreached;
  std::string measured;  // ISO 8601; may be empty
  std::string rests_on;  // what the scale and the offset were measured by, in words; may be empty

  // From where things are meant to come, to where they come on the paper; both mm from the top left corner.
  Affine map() const;
  // The same the other way round; keeps the rest of the profile.
  void set_map(const Affine& map);

  friend bool operator==(const PrinterProfile&, const PrinterProfile&) = default;
};

// `malformed` names the member: one that is missing, unknown or no number, or a value that no printer has: offsets of
// more than 50 mm, scales outside 0.8 to 1.25, turns and shears of more than 5 degrees.
Result<PrinterProfile> parse_printer_profile(std::string_view json);
Result<PrinterProfile> load_printer_profile(const std::string& path);

// The same errors for a profile that is made here.
Result<void> check(const PrinterProfile& profile);

// Parses back to the same profile. One member a line; lengths to 1 um, scales to a millionth, angles to 0.0001 degrees.
// Precondition: the profile passes check().
std::string to_json(const PrinterProfile& profile);

}  // namespace counterfoil
