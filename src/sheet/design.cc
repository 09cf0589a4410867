#include "sheet/design.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <pugixml.hpp>
#include <set>
#include <sstream>

#include "base/file.h"
#include "base/text.h"
#include "sheet/slot.h"

namespace counterfoil {
namespace {

constexpr std::uint64_t kLargestFileBytes = 4 << 20;
constexpr double kLargestSideMm = 1000;
constexpr double kSlackMm = 0.001;
constexpr std::string_view kSlotPrefix = "slot-";
constexpr std::string_view kSidePrefix = "side-";
constexpr std::array<std::string_view, 18> kTextSlots = {
    "number", "half", "copy", "unit",   "pocket", "side",   "part", "turnaround", "desk",
    "date",   "time", "by",   "serial", "note",   "carton", "to",   "from",       "count"};
// Behind kSecondPrefix.
constexpr std::array<std::string_view, 7> kSecondSlots = {"side", "half",          "unit",   "pocket",
                                                          "care", "contamination", "purpose"};

std::string_view local_name(const char* name) {
  const std::string_view whole(name);
  const auto colon = whole.rfind(':');
  return colon == std::string_view::npos ? whole : whole.substr(colon + 1);
}

// A decimal number with nothing behind it but `unit`.
std::optional<double> number_of(std::string_view text, std::string_view unit = {}) {
  if (!text.ends_with(unit)) return std::nullopt;
  const std::string digits(trimmed(text.substr(0, text.size() - unit.size())));
  if (digits.empty() || digits.find_first_not_of("0123456789.-") != std::string::npos) return std::nullopt;
  std::istringstream in(digits);
  in.imbue(std::locale::classic());
  double value = 0;
  in >> value;
  if (in.fail() || !in.eof()) return std::nullopt;
  return value;
}

// Whether a style or attribute text points at something that is not in the drawing itself.
bool points_outside(std::string_view text) {
  const std::string lower = to_lower(text);
  for (const auto* way : {"@import", "image-set(", "src("})
    if (lower.find(way) != std::string::npos) return true;
  for (auto at = lower.find("url("); at != std::string::npos; at = lower.find("url(", at + 1)) {
    const auto first = lower.find_first_not_of(" \t\r\n'\"", at + 4);
    if (first == std::string::npos || lower[first] != '#') return true;
  }
  return false;
}

bool is_kept_inside(std::string_view link) {
  return link.starts_with('#') || link.starts_with("data:image/png;base64,") ||
         link.starts_with("data:image/jpeg;base64,");
}

// Walks the whole tree once and keeps the first thing that a drawing may not hold, with the element's name.
class Censor : public pugi::xml_tree_walker {
 public:
  bool for_each(pugi::xml_node& node) override {
    if (depth() > 100) return fault("is nested more than 100 deep");
    switch (node.type()) {
      case pugi::node_doctype:
        return fault("has a document type, which can define entities");
      case pugi::node_pi:
        return fault("has a processing instruction");
      case pugi::node_element:
        return element(node);
      default:
        return true;
    }
  }

  const std::string& found() const { return found_; }

 private:
  // What runs, what brings in other documents, and what changes a drawing after it was looked at.
  static constexpr std::array<std::string_view, 11> kRefused = {
      "script", "foreignobject", "include", "iframe",  "object",          "embed",
      "link",   "handler",       "set",     "animate", "animatetransform"};

  bool fault(std::string what) {
    found_ = std::move(what);
    return false;
  }

  // CSS escapes can hide a reference.
  bool style(std::string_view text, const std::string& where) {
    if (text.find('\\') != std::string_view::npos) return fault("has a backslash in the style of " + where);
    return !points_outside(text) || fault("refers to something outside of itself in the style of " + where);
  }

  bool element(const pugi::xml_node& node) {
    const std::string name = to_lower(local_name(node.name()));
    const std::string_view id = node.attribute("id").value();
    const std::string where = "<" + std::string(node.name()) + ">" +
                              (id.empty() ? "" : " with id \"" + std::string(id.substr(0, 60)) + "\"");
    if (std::find(kRefused.begin(), kRefused.end(), name) != kRefused.end())
      return fault("has an element " + where);
    if (name == "style" && !style(all_text(node), where)) return false;
    for (const auto& attribute : node.attributes()) {
      const std::string key = to_lower(local_name(attribute.name()));
      const std::string_view value = attribute.value();
      if (key.starts_with("on"))
        return fault("has a script in " + std::string(attribute.name()) + " of " + where);
      if ((key == "href" || key == "src") && !is_kept_inside(trimmed(value)))
        return fault("refers to \"" + std::string(value.substr(0, 60)) + "\" outside of itself in " + where);
      if (key == "base") return fault("has a place to resolve references on in " + where);
      // Attributes such as fill are read as CSS too.
      const bool is_css = key == "style" || value.find('(') != std::string_view::npos;
      if (is_css && std::string_view(attribute.name()).find(':') == std::string_view::npos &&
          value.find('\\') != std::string_view::npos)
        return fault("has a backslash in " + std::string(attribute.name()) + " of " + where);
      if (points_outside(value))
        return fault("refers to something outside of itself in " + std::string(attribute.name()) + " of " +
                     where);
    }
    return true;
  }

  // Of a style element: pieces that comments or elements part are read as one.
  static std::string all_text(const pugi::xml_node& node) {
    struct Gatherer : pugi::xml_tree_walker {
      bool for_each(pugi::xml_node& part) override {
        text += part.value();
        return true;
      }
      std::string text;
    };
    Gatherer gatherer;
    pugi::xml_node copy = node;
    copy.traverse(gatherer);
    return gatherer.text;
  }

  std::string found_;
};

// Reads one slot's attributes; the first fault is kept.
class SlotReader {
 public:
  explicit SlotReader(const pugi::xml_node& node) : node_(node) {
    slot_.id = std::string_view(node.attribute("id").value()).substr(kSlotPrefix.size());
    slot_.name = slot_.id;
    if (const auto n = slot_.id.size();
        n > 2 && slot_.id[n - 2] == '-' && slot_.id[n - 1] >= '2' && slot_.id[n - 1] <= '9')
      slot_.name = slot_.id.substr(0, n - 2);
  }

  Result<Slot> read() {
    if (local_name(node_.name()) != "rect") fail("is not a rect");
    if (!slot_.is_symbol() && !is_text_slot_name(slot_.name)) fail("is none that templates/README.md lists");
    for (auto above = node_; above; above = above.parent()) {
      if (above.attribute("transform")) fail("or a group around it has a transform, apply it first");
      const std::string_view around = above.attribute("id").value();
      if (around.starts_with(kSidePrefix)) fail("lies in a side's group");
      if (above != node_ && around.starts_with(kSlotPrefix)) fail("lies in another slot");
    }
    slot_.box = {number("x", 0, 0), number("y", 0, 0), number("width", 0.1, -1), number("height", 0.1, -1)};
    if (slot_.is_symbol())
      slot_.least_module_mm = number("data-least-module-mm", 0.1, 0.5);
    else
      read_text();
    for (const auto& attribute : node_.attributes())
      if (std::string_view(attribute.name()).starts_with("data-") && !known_.contains(attribute.name()))
        fail("has an unknown attribute " + std::string(attribute.name()));
    if (error_) return *error_;
    return slot_;
  }

 private:
  void read_text() {
    slot_.align = static_cast<Slot::Align>(choice("data-align", {"start", "middle", "end"}));
    slot_.mono = choice("data-font", {"sans", "mono"}) == 1;
    slot_.bold = choice("data-weight", {"regular", "bold"}) == 1;
    slot_.stacked = choice("data-stack", {"no", "words"}) == 1;
    slot_.lines = static_cast<int>(number("data-lines", 1, 1));
    read_words(text("data-words"));
    slot_.leading = number("data-leading", 1, 1.5);
    slot_.least_mm = number("data-least-mm", kLeastLetterMm, kLeastLetterMm);
    slot_.largest_mm = number("data-largest-mm", slot_.least_mm, slot_.box.height_mm);
    slot_.before = text("data-before");
    slot_.after = text("data-after");
    if (slot_.largest_mm < slot_.least_mm) fail("is lower than its least letters");
  }

  // "3" or "1-2".
  void read_words(std::string_view words) {
    if (words.empty()) return;
    const auto dash = words.find('-');
    const auto first = to_unsigned(words.substr(0, dash));
    const auto last = dash == std::string_view::npos ? first : to_unsigned(words.substr(dash + 1));
    if (!first || !last || *first < 1 || *last < *first || *last > 99)
      return fail("has a data-words that is no word's place, as in 3 or 1-2");
    slot_.first_word = static_cast<int>(*first);
    slot_.last_word = static_cast<int>(*last);
  }

  void fail(const std::string& what) {
    if (!error_) error_ = malformed("slot " + slot_.id + " " + what);
  }

  std::string text(const char* name) {
    known_.insert(name);
    const std::string value = node_.attribute(name).value();
    if (has_control_characters(value)) fail(std::string(name) + " holds control characters");
    return value;
  }

  std::size_t choice(const char* name, std::initializer_list<std::string_view> words) {
    const std::string value = text(name);
    const auto found = std::find(words.begin(), words.end(), value);
    if (found != words.end()) return static_cast<std::size_t>(found - words.begin());
    if (node_.attribute(name)) fail("has a " + std::string(name) + " that is none of its words");
    return 0;
  }

  // A negative `otherwise` says that the attribute has to be there.
  double number(const char* name, double least, double otherwise) {
    const std::string value = text(name);
    if (!node_.attribute(name)) {
      if (otherwise < 0) fail("has no " + std::string(name));
      return std::max(otherwise, 0.0);
    }
    const auto given = number_of(value);
    if (!given || *given < least || *given > kLargestSideMm) {
      fail("has a " + std::string(name) + " that is no number in its range");
      return least;
    }
    return *given;
  }

  pugi::xml_node node_;
  Slot slot_;
  std::set<std::string, std::less<>> known_;
  std::optional<Error> error_;
};

// Elements with an id that begins so, in the document's order.
std::vector<pugi::xml_node> nodes_with(const pugi::xml_document& drawing, std::string_view prefix) {
  struct Finder : pugi::xml_tree_walker {
    explicit Finder(std::string_view wanted) : prefix(wanted) {}
    bool for_each(pugi::xml_node& node) override {
      if (std::string_view(node.attribute("id").value()).starts_with(prefix)) found.push_back(node);
      return true;
    }
    std::string_view prefix;
    std::vector<pugi::xml_node> found;
  };
  Finder finder(prefix);
  drawing.document_element().traverse(finder);
  return finder.found;
}

bool overlap(const Box& a, const Box& b) {
  return a.x_mm + kSlackMm < b.x_mm + b.width_mm && b.x_mm + kSlackMm < a.x_mm + a.width_mm &&
         a.y_mm + kSlackMm < b.y_mm + b.height_mm && b.y_mm + kSlackMm < a.y_mm + a.height_mm;
}

Result<void> read_size(const pugi::xml_node& root, Design::Data& data) {
  if (local_name(root.name()) != "svg") return malformed("it is no SVG drawing");
  const auto width = number_of(root.attribute("width").value(), "mm");
  const auto height = number_of(root.attribute("height").value(), "mm");
  if (!width || !height || *width <= 0 || *height <= 0 || *width > kLargestSideMm || *height > kLargestSideMm)
    return malformed("its width and height have to be given in mm, up to 1000");
  std::vector<double> view;
  for (const auto& part : split(root.attribute("viewBox").value(), ' '))
    if (const auto value = number_of(part)) view.push_back(*value);
  if (view.size() != 4 || view[0] != 0 || view[1] != 0 || std::abs(view[2] - *width) > kSlackMm ||
      std::abs(view[3] - *height) > kSlackMm)
    return malformed("its viewBox has to be \"0 0 width height\", so that one unit is one mm");
  data.width_mm = *width;
  data.height_mm = *height;
  return {};
}

Result<void> read_slots(const pugi::xml_document& drawing, Design::Data& data) {
  for (const auto& node : nodes_with(drawing, kSlotPrefix)) {
    auto slot = SlotReader(node).read();
    if (!slot) return slot.error();
    const Box& box = slot->box;
    if (box.x_mm + box.width_mm > data.width_mm + kSlackMm ||
        box.y_mm + box.height_mm > data.height_mm + kSlackMm)
      return malformed("slot " + slot->id + " lies outside the drawing");
    for (const auto& other : data.slots) {
      if (other.id == slot->id) return malformed("slot " + slot->id + " is there twice");
      if (overlap(other.box, box)) return malformed("slots " + other.id + " and " + slot->id + " overlap");
    }
    data.slots.push_back(std::move(*slot));
  }
  return {};
}

Result<void> check_sides(const pugi::xml_document& drawing) {
  for (const auto& node : nodes_with(drawing, kSidePrefix)) {
    for (auto above = node.parent(); above; above = above.parent())
      if (std::string_view(above.attribute("id").value()).starts_with(kSidePrefix))
        return malformed("a side's group lies in another side's group");
    const auto side = std::string_view(node.attribute("id").value()).substr(kSidePrefix.size());
    if (std::find(kSides.begin(), kSides.end(), side) == kSides.end())
      return malformed("side-" + std::string(side) + " is no side, they are suction, discharge and none");
  }
  return {};
}

// What is drawn for one side: without slots and without the other sides' groups. Written anew from the tree
// that was checked, so that librsvg never sees what another parser might have read differently.
std::string drawing_for(const pugi::xml_document& drawing, std::string_view side) {
  pugi::xml_document copy;
  copy.reset(drawing);
  auto unwanted = nodes_with(copy, kSlotPrefix);
  for (const auto& group : nodes_with(copy, kSidePrefix))
    if (std::string_view(group.attribute("id").value()).substr(kSidePrefix.size()) != side)
      unwanted.push_back(group);
  for (const auto& node : unwanted) node.parent().remove_child(node);
  std::ostringstream out;
  copy.save(out, "", pugi::format_raw | pugi::format_no_declaration);
  return out.str();
}

}  // namespace

bool is_text_slot_name(std::string_view name) {
  if (name.starts_with(kSecondPrefix))
    return std::find(kSecondSlots.begin(), kSecondSlots.end(), name.substr(kSecondPrefix.size())) !=
           kSecondSlots.end();
  return std::find(kTextSlots.begin(), kTextSlots.end(), name) != kTextSlots.end();
}

Result<Design> Design::made(std::string_view svg, std::string_view name, bool drawn) {
  const auto in_design = [&](const Error& error) {
    return malformed("design " + std::string(name) + ": " + error.message, error.hint);
  };
  if (!is_utf8(svg)) return in_design(malformed("it is not UTF-8 text"));
  pugi::xml_document drawing;
  const auto parsed =
      drawing.load_buffer(svg.data(), svg.size(),
                          pugi::parse_default | pugi::parse_doctype | pugi::parse_pi | pugi::parse_ws_pcdata,
                          pugi::encoding_utf8);
  if (!parsed)
    return in_design(malformed("it is no XML: " + to_lower(parsed.description()) + " at byte " +
                               std::to_string(parsed.offset)));
  Censor censor;
  if (!drawing.traverse(censor)) return in_design(malformed("it " + censor.found()));

  auto data = std::make_shared<Data>();
  data->name = name;
  if (auto done = read_size(drawing.document_element(), *data); !done) return in_design(done.error());
  if (auto done = read_slots(drawing, *data); !done) return in_design(done.error());
  if (auto done = check_sides(drawing); !done) return in_design(done.error());
  if (!drawn) return Design(std::move(data));
  for (const auto side : kSides) {
    auto backdrop = Backdrop::from_svg(drawing_for(drawing, side), data->width_mm, data->height_mm);
    if (!backdrop) return in_design(backdrop.error());
    data->backdrops.push_back(std::move(*backdrop));
  }
  return Design(std::move(data));
}

Result<Design> Design::parse(std::string_view svg, std::string_view name) { return made(svg, name, true); }

Result<Design> Design::load(const std::string& path) {
  auto svg = read_file(path, kLargestFileBytes);
  if (!svg) return svg.error();
  return parse(*svg, std::filesystem::path(path).stem().string());
}

Result<Design> Design::outline(const std::string& path) {
  auto svg = read_file(path, kLargestFileBytes);
  if (!svg) return svg.error();
  return made(*svg, std::filesystem::path(path).stem().string(), false);
}

const std::string& Design::name() const { return data_->name; }
double Design::width_mm() const { return data_->width_mm; }
double Design::height_mm() const { return data_->height_mm; }

bool Design::has_second_language() const {
  return std::any_of(data_->slots.begin(), data_->slots.end(),
                     [](const Slot& slot) { return slot.name.starts_with(kSecondPrefix); });
}

}  // namespace counterfoil
