#include "sheet/stock.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <optional>
#include <set>

#include "base/file.h"
#include "base/json.h"
#include "base/text.h"

namespace counterfoil {
namespace {

constexpr std::uint64_t kLargestFileBytes = 64 << 10;
constexpr double kLargestPageMm = 2000;
constexpr std::int64_t kMostLabelsAcross = 200;
// Grids are given in rounded inches: a last label may end this much beyond the edge.
constexpr double kEdgeSlackMm = 0.01;

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
      fail(field, least > 0 ? "has to be a length in mm over 0 and up to 2000"
                            : "has to be a length in mm from 0 to 2000");
      return 0;
    }
    return mm;
  }

  int count(const std::string& field) {
    const Json* value = take(field, true);
    if (value == nullptr) return 1;
    const std::int64_t* integer = value->integer();
    if (integer == nullptr || *integer < 1 || *integer > kMostLabelsAcross) {
      fail(field, "has to be a whole number from 1 to 200");
      return 1;
    }
    return static_cast<int>(*integer);
  }

  void fail(const std::string& field, const std::string& what) {
    if (!error_) error_ = malformed("stock " + name_ + ": " + field + " " + what);
  }

  // The first fault; a member that nobody asked for is one.
  std::optional<Error> error() {
    for (const auto& [field, value] : object_)
      if (!taken_.contains(field)) fail(field, "is not a field of a stock");
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

Box half_of(const Stock& stock, int index, bool second) {
  if (stock.pairing == Stock::Pairing::columns) return stock.label(2 * index + (second ? 1 : 0));
  Box half = stock.label(index);
  half.height_mm /= 2;
  if (second) half.y_mm += half.height_mm;
  return half;
}

}  // namespace

Box Stock::label(int index) const {
  if (index < 0 || index >= labels_per_page()) std::abort();
  return {left_mm + (index % columns) * (label_width_mm + gap_x_mm),
          top_mm + (index / columns) * (label_height_mm + gap_y_mm), label_width_mm, label_height_mm};
}

Box Stock::bag_half(int index) const { return half_of(*this, index, false); }
Box Stock::box_half(int index) const { return half_of(*this, index, true); }

Result<Stock> parse_stock(std::string_view json, std::string_view name) {
  auto value = parse_json(json);
  if (!value)
    return malformed("stock " + std::string(name) + ": " + value.error().message, value.error().hint);
  const Json::Object* object = value->object();
  if (object == nullptr) return malformed("stock " + std::string(name) + ": is not a JSON object");

  Fields fields(*object, name);
  Stock stock;
  stock.name = name;
  stock.title = fields.text("title");
  constexpr double kLeastLength = 1;
  stock.page_width_mm = fields.length("page_width_mm", true, kLeastLength);
  stock.page_height_mm = fields.length("page_height_mm", true, kLeastLength);
  stock.columns = fields.count("columns");
  stock.rows = fields.count("rows");
  stock.left_mm = fields.length("left_mm", false, 0);
  stock.top_mm = fields.length("top_mm", false, 0);
  stock.label_width_mm = fields.length("label_width_mm", true, kLeastLength);
  stock.label_height_mm = fields.length("label_height_mm", true, kLeastLength);
  stock.gap_x_mm = fields.length("gap_x_mm", false, 0);
  stock.gap_y_mm = fields.length("gap_y_mm", false, 0);
  stock.corner_radius_mm = fields.length("corner_radius_mm", false, 0);
  stock.margin_mm = fields.length("margin_mm", false, 0);
  const std::string pairing = fields.text("pairing");
  if (pairing == "split") stock.pairing = Stock::Pairing::split;
  if (pairing != "split" && pairing != "columns") fields.fail("pairing", "has to be columns or split");
  if (auto error = fields.error()) return *error;

  const bool split = stock.pairing == Stock::Pairing::split;
  const Box last = stock.label(stock.labels_per_page() - 1);
  const double least_side =
      std::min(stock.label_width_mm, split ? stock.label_height_mm / 2 : stock.label_height_mm);
  if (!split && stock.columns % 2 != 0)
    fields.fail("columns", "has to be even, so that pairs lie in one row");
  if (last.x_mm + last.width_mm > stock.page_width_mm + kEdgeSlackMm)
    fields.fail("page_width_mm", "is less than the columns need");
  if (last.y_mm + last.height_mm > stock.page_height_mm + kEdgeSlackMm)
    fields.fail("page_height_mm", "is less than the rows need");
  if (2 * stock.margin_mm >= least_side) fields.fail("margin_mm", "leaves nothing of the label");
  if (2 * stock.corner_radius_mm > least_side) fields.fail("corner_radius_mm", "is more than half a side");
  if (auto error = fields.error()) return *error;
  return stock;
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
    auto json = read_file(file.string(), kLargestFileBytes);
    if (!json) return json.error();
    auto stock = parse_stock(*json, file.stem().string());
    if (!stock) return stock.error();
    stocks.push_back(std::move(*stock));
  }
  return stocks;
}

}  // namespace counterfoil
