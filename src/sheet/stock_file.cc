#include "sheet/stock_file.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <optional>
#include <set>
#include <utility>

#include "base/file.h"
#include "base/json.h"
#include "base/nearest.h"
#include "base/text.h"

namespace counterfoil {
namespace {

constexpr std::uint64_t kLargestFileBytes = 64 << 10;
constexpr double kLargestPageMm = 2000;
constexpr double kLeastLengthMm = 1;
constexpr std::int64_t kMostLabelsAcross = 200;
// Grids are given in rounded inches: a last label may end this much beyond the edge.
constexpr double kEdgeSlackMm = 0.01;

constexpr std::array<std::pair<std::string_view, Stock::Pairing>, 4> kPairings = {
    {{"columns", Stock::Pairing::columns},
     {"rows", Stock::Pairing::rows},
     {"split", Stock::Pairing::split},
     {"successive", Stock::Pairing::successive}}};

// Reads members and keeps the first fault, so that a stock reads as a list of its fields.
class Fields {
 public:
  Fields(const Json::Object& object, std::string_view name) : object_(object), name_(name) {}

  std::string text(const std::string& field) {
    const Json* value = take(field, true);
    if (value == nullptr) return {};
    const std::string* text = value->string();
    if (text == nullptr || trimmed(*text).empty() || has_control_characters(*text))
      fail(field, "has to be a text of one line");
    return text == nullptr ? std::string() : *text;
  }

  double length(const std::string& field, bool required, double least) {
    const Json* value = take(field, required);
    if (value == nullptr) return 0;
    double mm = std::nan("");
    if (const double* real = value->real()) mm = *real;
    if (const std::int64_t* integer = value->integer()) mm = static_cast<double>(*integer);
    if (!(mm >= least && mm <= kLargestPageMm)) {
      fail(field, "is " + canonical_json(*value) + ", and has to be a length in mm from " + decimal(least) +
                      " to " + decimal(kLargestPageMm));
      return 0;
    }
    return mm;
  }

  int count(const std::string& field) {
    const Json* value = take(field, true);
    if (value == nullptr) return 1;
    const std::int64_t* integer = value->integer();
    if (integer == nullptr || *integer < 1 || *integer > kMostLabelsAcross) {
      fail(field, "is " + canonical_json(*value) + ", and has to be a whole number from 1 to " +
                      std::to_string(kMostLabelsAcross));
      return 1;
    }
    return static_cast<int>(*integer);
  }

  bool has(const std::string& field) {
    taken_.insert(field);
    return object_.contains(field);
  }

  void fail(const std::string& field, const std::string& what) {
    if (!error_) error_ = malformed("stock " + name_ + ": " + field + " " + what);
  }

  // A member that nobody asked for, which may be why another is missing; else the first fault.
  std::optional<Error> error() {
    const std::vector<std::string> known(taken_.begin(), taken_.end());
    for (const auto& [field, value] : object_)
      if (!taken_.contains(field))
        return malformed("stock " + name_ + ": " + field + " is not a field of a stock",
                         did_you_mean(field, known) + "the fields are " + listed(known));
    return error_;
  }

 private:
  const Json* take(const std::string& field, bool required) {
    taken_.insert(field);
    const auto found = object_.find(field);
    if (found != object_.end()) return &found->second;
    if (required) fail(field, "is missing");
    return nullptr;
  }

  const Json::Object& object_;
  std::string name_;
  std::set<std::string> taken_;
  std::optional<Error> error_;
};

std::string mm(double length) { return decimal(length) + " mm"; }

void read_pairing(Fields& fields, Stock& stock) {
  const std::string word = fields.text("pairing");
  const auto known =
      std::find_if(kPairings.begin(), kPairings.end(), [&](const auto& p) { return p.first == word; });
  if (known == kPairings.end())
    fields.fail("pairing", "is \"" + word + "\", and has to be columns, rows, split or successive");
  else
    stock.pairing = known->second;
}

void read_hole(Fields& fields, Stock& stock) {
  constexpr std::array<const char*, 4> kHoleFields = {"hole_x_mm", "hole_y_mm", "hole_diameter_mm",
                                                      "hole_clear_mm"};
  if (std::none_of(kHoleFields.begin(), kHoleFields.end(), [&](auto field) { return fields.has(field); }))
    return;
  Hole hole;
  hole.x_mm = fields.length("hole_x_mm", true, 0);
  hole.y_mm = fields.length("hole_y_mm", true, 0);
  hole.diameter_mm = fields.length("hole_diameter_mm", true, kLeastLengthMm);
  hole.clear_mm = fields.length("hole_clear_mm", false, 0);
  stock.hole = hole;
}

Stock read(Fields& fields, std::string_view name) {
  Stock stock;
  stock.name = name;
  stock.title = fields.text("title");
  stock.page_width_mm = fields.length("page_width_mm", true, kLeastLengthMm);
  stock.page_height_mm = fields.length("page_height_mm", true, kLeastLengthMm);
  stock.columns = fields.count("columns");
  stock.rows = fields.count("rows");
  stock.left_mm = fields.length("left_mm", false, 0);
  stock.top_mm = fields.length("top_mm", false, 0);
  stock.label_width_mm = fields.length("label_width_mm", true, kLeastLengthMm);
  stock.label_height_mm = fields.length("label_height_mm", true, kLeastLengthMm);
  stock.gap_x_mm = fields.length("gap_x_mm", false, 0);
  stock.gap_y_mm = fields.length("gap_y_mm", false, 0);
  stock.corner_radius_mm = fields.length("corner_radius_mm", false, 0);
  stock.margin_mm = fields.length("margin_mm", false, 0);
  stock.blank_left_mm = fields.length("blank_left_mm", false, 0);
  stock.blank_top_mm = fields.length("blank_top_mm", false, 0);
  stock.blank_right_mm = fields.length("blank_right_mm", false, 0);
  stock.blank_bottom_mm = fields.length("blank_bottom_mm", false, 0);
  read_hole(fields, stock);
  read_pairing(fields, stock);
  return stock;
}

void check_pairing(Fields& fields, const Stock& stock) {
  const bool one_label = stock.labels_per_page() == 1;
  if (stock.pairing == Stock::Pairing::columns && stock.columns < 2)
    fields.fail("columns", "is 1, and pairs in columns need 2 or more");
  if (stock.pairing == Stock::Pairing::rows && stock.rows < 2)
    fields.fail("rows", "is 1, and pairs in rows need 2 or more");
  if (stock.pairing == Stock::Pairing::successive && !one_label)
    fields.fail("pairing", "is successive, which is for a roll of one label a page, and there are " +
                               std::to_string(stock.labels_per_page()) + " labels");
}

void check_page(Fields& fields, const Stock& stock) {
  const Box last = stock.label(stock.labels_per_page() - 1);
  if (last.right_mm() > stock.page_width_mm + kEdgeSlackMm)
    fields.fail("page_width_mm",
                "is " + mm(stock.page_width_mm) + ", less than the columns need, " + mm(last.right_mm()));
  if (last.bottom_mm() > stock.page_height_mm + kEdgeSlackMm)
    fields.fail("page_height_mm",
                "is " + mm(stock.page_height_mm) + ", less than the rows need, " + mm(last.bottom_mm()));
}

void check_label(Fields& fields, const Stock& stock) {
  const Box half = stock.bag_half(0);
  const double least_side = std::min(half.width_mm, half.height_mm);
  if (2 * stock.corner_radius_mm > least_side)
    fields.fail("corner_radius_mm",
                "is " + mm(stock.corner_radius_mm) + ", more than half a side of " + mm(least_side));
  if (2 * stock.margin_mm >= least_side)
    fields.fail("margin_mm",
                "is " + mm(stock.margin_mm) + " on both sides, and leaves nothing of " + mm(least_side));
  if (stock.hole) {
    const double radius = stock.hole->diameter_mm / 2;
    if (stock.hole->x_mm < radius || stock.hole->x_mm > stock.label_width_mm - radius)
      fields.fail("hole_x_mm", "is " + mm(stock.hole->x_mm) +
                                   ", which puts the hole over the edge of a label " +
                                   mm(stock.label_width_mm) + " wide");
    if (stock.hole->y_mm < radius || stock.hole->y_mm > stock.label_height_mm - radius)
      fields.fail("hole_y_mm", "is " + mm(stock.hole->y_mm) +
                                   ", which puts the hole over the edge of a label " +
                                   mm(stock.label_height_mm) + " high");
  }
  if (stock.blank_left_mm + stock.blank_right_mm >= stock.label_width_mm)
    fields.fail("blank_left_mm", "and blank_right_mm are " + mm(stock.blank_left_mm + stock.blank_right_mm) +
                                     ", and leave nothing of " + mm(stock.label_width_mm));
  if (stock.blank_top_mm + stock.blank_bottom_mm >= stock.label_height_mm)
    fields.fail("blank_top_mm", "and blank_bottom_mm are " + mm(stock.blank_top_mm + stock.blank_bottom_mm) +
                                    ", and leave nothing of " + mm(stock.label_height_mm));
  for (const bool box_half : {false, true}) {
    const Box area = box_half ? stock.printable(stock.box_label(0), stock.box_half(0), true)
                              : stock.printable(stock.bag_label(0), stock.bag_half(0), false);
    if (area.width_mm >= kLeastLengthMm && area.height_mm >= kLeastLengthMm) continue;
    const bool by_hole = stock.hole && stock.hole->clear_mm > 0;
    fields.fail(by_hole ? "hole_clear_mm" : "label_height_mm",
                "is " + mm(by_hole ? stock.hole->clear_mm : stock.label_height_mm) +
                    ", and what is left to print on is " + decimal(std::max(0.0, area.width_mm), 4) + " x " +
                    mm(std::max(0.0, area.height_mm)));
  }
}

}  // namespace

Result<Stock> parse_stock(std::string_view json, std::string_view name) {
  auto value = parse_json(json);
  if (!value)
    return malformed("stock " + std::string(name) + ": " + value.error().message, value.error().hint);
  const Json::Object* object = value->object();
  if (object == nullptr) return malformed("stock " + std::string(name) + ": is not a JSON object");

  Fields fields(*object, name);
  Stock stock = read(fields, name);
  if (auto error = fields.error()) return *error;
  check_pairing(fields, stock);
  if (auto error = fields.error()) return *error;
  check_page(fields, stock);
  check_label(fields, stock);
  if (auto error = fields.error()) return *error;
  return stock;
}

Result<Stock> load_stock(const std::string& path) {
  auto json = read_file(path, kLargestFileBytes);
  if (!json) return json.error();
  return parse_stock(*json, std::filesystem::path(path).stem().string());
}

Result<std::vector<Stock>> load_stocks(const std::string& folder) {
  std::error_code failed;
  std::vector<std::filesystem::path> files;
  std::filesystem::directory_iterator entry(folder, failed);
  for (; !failed && entry != std::filesystem::directory_iterator(); entry.increment(failed))
    if (entry->path().extension() == ".json") files.push_back(entry->path());
  if (failed) return unreadable("cannot read the stocks in " + folder + ": " + failed.message());
  std::sort(files.begin(), files.end());
  std::vector<Stock> stocks;
  for (const auto& file : files) {
    auto stock = load_stock(file.string());
    if (!stock) return stock.error();
    stocks.push_back(std::move(*stock));
  }
  return stocks;
}

}  // namespace counterfoil
