#include "workflow/calibrate.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>

#include "base/text.h"
#include "printer/fit.h"
#include "printer/marks.h"
#include "reader/image.h"
#include "reader/photo.h"
#include "sheet/calibration.h"
#include "workflow/sheet_file.h"
#include "workflow/stocks.h"

namespace counterfoil {
namespace {

constexpr double kMmPerInch = 25.4;
constexpr double kLeastDotsPerInch = 100, kMostDotsPerInch = 2400, kUsualDotsPerInch = 300;
constexpr double kToleranceMm = 0.15;   // of marks about a straight map
constexpr double kTagTrusted = 0.015;   // how far paper may be off, by the file's dots per inch
constexpr double kTypedTrusted = 0.04;  // and by those that a person states
constexpr double kParallel = 0.004;     // opposite edges of a paper on a flatbed
constexpr std::size_t kLeastMarks = 6;
constexpr double kPerDegree = std::numbers::pi / 180;

double distance(PicturePoint a, PicturePoint b) { return std::hypot(a.x - b.x, a.y - b.y); }

std::string millimetres(double width, double height) {
  char text[64];
  std::snprintf(text, sizeof text, "%.1f x %.1f mm", width, height);
  return text;
}

// What one picture shows of the sheet.
struct Sheet {
  Picture picture;
  CalibrationCode code;
  CalibrationPlan plan;
  Projective page;                    // from the plan's mm to pixels of picture.grey
  std::vector<Correspondence> discs;  // meant mm, measured pixels of picture.grey
  int missing = 0;
};

// The corners of the sheet's symbols, where a decoder puts them: right within a pixel or two.
Result<std::vector<Anchor>> find_symbols(const std::string& path, Sheet& sheet) {
  PhotoOptions options;
  options.wanted = [](std::string_view text) { return static_cast<bool>(parse_calibration_code(text)); };
  options.effort = Effort::quick;
  auto photo = read_photo(path, options);
  if (!photo) return photo.error();
  std::vector<Anchor> anchors;
  for (const auto& seen : photo->codes) {
    if (seen.page != 1) continue;
    auto code = parse_calibration_code(seen.text);
    if (!code) continue;
    if (anchors.empty()) {
      auto plan = plan_calibration(code->width_mm, code->height_mm, code->dots_per_inch);
      if (!plan) return plan.error();
      sheet.code = *code;
      sheet.plan = std::move(*plan);
    }
    code->symbol = std::min<int>(code->symbol, static_cast<int>(sheet.plan.symbols.size()));
    CalibrationCode first = sheet.code;
    first.symbol = code->symbol;
    if (write_calibration_code(first) != write_calibration_code(*code))
      return refused(path + " shows two different calibration sheets", "scan one at a time");
    const auto& symbol = sheet.plan.symbols[static_cast<std::size_t>(code->symbol - 1)];
    const double half = symbol.modules * symbol.dots_per_module * kMmPerInch / sheet.plan.dots_per_inch / 2;
    const std::array<PicturePoint, 4> corners = {
        {{-half, -half}, {half, -half}, {half, half}, {-half, half}}};
    for (std::size_t c = 0; c < 4; ++c)
      anchors.push_back(
          {symbol.middle_x_mm + corners[c].x,
           symbol.middle_y_mm + corners[c].y,
           {seen.corners[c].x / sheet.picture.shrink, seen.corners[c].y / sheet.picture.shrink}});
  }
  if (anchors.empty())
    return refused(path + " shows no calibration sheet",
                   "draw one with `counterfoil calibrate --sheet FILE.pdf`, print it, and scan all of it");
  return anchors;
}

// Discs near where `page` has them; the nearest to what is known come first where that is little.
void find_discs(Sheet& sheet) {
  const GreyView grey(sheet.picture.grey);
  sheet.discs.clear();
  sheet.missing = 0;
  for (const auto& disc : sheet.plan.discs) {
    const PicturePoint at = sheet.page(disc.x, disc.y), beside = sheet.page(disc.x + 1, disc.y),
                       below = sheet.page(disc.x, disc.y + 1);
    const double pixels_per_mm = (distance(at, beside) + distance(at, below)) / 2;
    const auto middle =
        disc_middle(grey, at, sheet.plan.disc_mm / 2 * pixels_per_mm, sheet.plan.clear_mm * pixels_per_mm);
    if (middle)
      sheet.discs.push_back({disc, *middle});
    else
      ++sheet.missing;
  }
}

Result<Sheet> find_sheet(const std::string& path) {
  Sheet sheet;
  auto file = open_picture(path);
  if (!file) return file.error();
  auto picture = (*file)->load(1, Channel::luma);
  if (!picture) return picture.error();
  sheet.picture = *std::move(picture);
  auto anchors = find_symbols(path, sheet);
  if (!anchors) return anchors.error();
  const Error unclear = refused("the marks of the calibration sheet on " + path + " cannot be measured",
                                "scan it at 300 dots per inch or more, flat, clean, and whole");
  auto page = fit_projective(*anchors, anchors->size() > 4 ? 0 : kUsualRigour);
  // First those near the symbols, then the rest by them.
  for (int round = 0; round < 3; ++round) {
    if (!page) return unclear;
    sheet.page = *page;
    find_discs(sheet);
    std::vector<Anchor> found;
    for (const auto& disc : sheet.discs) found.push_back({disc.meant.x, disc.meant.y, disc.measured});
    page = fit_projective(found.size() < kLeastMarks ? *anchors : found, 1e-9);
  }
  if (!page || sheet.discs.size() < kLeastMarks) return unclear;
  sheet.page = *page;
  return sheet;
}

struct Dots {
  double x = 0, y = 0;  // per inch, of picture.grey
  bool stated = false;  // by the user
};

// Sides of the paper in mm, by so many dots per inch: upper, right, lower, left.
std::array<double, 4> sides_of(const PaperOutline& outline, const Dots& dots) {
  std::array<double, 4> sides{};
  for (std::size_t i = 0; i < 4; ++i) {
    const auto &a = outline.corners[i], &b = outline.corners[(i + 1) % 4];
    sides[i] = std::hypot((a.x - b.x) / dots.x, (a.y - b.y) / dots.y) * kMmPerInch;
  }
  return sides;
}

bool within(double value, double of, double share) { return std::abs(value / of - 1) <= share; }

// Where pixels lie on the paper, its upper left corner being the origin: by the scan's dots, turned so that its edges
// are as level and upright as they can all be.
Affine scanned_frame(const Dots& dots, const std::array<PicturePoint, 4>& corners) {
  const auto mm = [&](PicturePoint p) {
    return PicturePoint{p.x / dots.x * kMmPerInch, p.y / dots.y * kMmPerInch};
  };
  PicturePoint level;  // the sum of the edges, the upright ones turned by a quarter
  for (std::size_t i = 0; i < 4; ++i) {
    const PicturePoint a = mm(corners[i]), b = mm(corners[(i + 1) % 4]);
    PicturePoint edge{b.x - a.x, b.y - a.y};
    for (std::size_t turns = 0; turns < i; ++turns) edge = {edge.y, -edge.x};
    level = {level.x + edge.x, level.y + edge.y};
  }
  const double angle = std::atan2(level.y, level.x);
  const double c = std::cos(angle), s = std::sin(angle);
  const double x = kMmPerInch / dots.x, y = kMmPerInch / dots.y;
  Affine frame{c * x, s * y, 0, -s * x, c * y, 0};
  const PicturePoint origin = frame(corners[0]);
  frame.x0 = -origin.x;
  frame.y0 = -origin.y;
  return frame;
}

struct Measured {
  PrinterProfile profile;
  AffineFit fit;
  CalibrationCode code;
  CalibrationPlan plan;
  int missing = 0;
  std::optional<std::vector<int>> dead;
  std::string lengths_by, places_by;
};

std::string paper_words(const CalibrationOrder& order, double width, double height) {
  return "the paper's size, " + std::string(order.paper ? "measured as " : "taken as ") +
         millimetres(width, height) +
         (order.paper
              ? ""
              : " (paper may be 2 mm off: measure it and give --paper, or scan at known dots per inch)");
}

Result<Measured> measure(const std::string& path, const CalibrationOrder& order) {
  auto sheet = find_sheet(path);
  if (!sheet) return sheet.error();
  Measured out;
  out.code = sheet->code;
  out.missing = sheet->missing;
  const GreyView grey(sheet->picture.grey);
  const double width = order.paper ? order.paper->width_mm : sheet->plan.width_mm;
  const double height = order.paper ? order.paper->height_mm : sheet->plan.height_mm;

  std::optional<Dots> dots;
  const double shrink = sheet->picture.shrink;
  if (order.scan_dpi) dots = Dots{*order.scan_dpi / shrink, *order.scan_dpi / shrink, true};
  if (!dots && sheet->picture.dots_per_inch_x > 0 && sheet->picture.dots_per_inch_y > 0)
    dots = Dots{sheet->picture.dots_per_inch_x / shrink, sheet->picture.dots_per_inch_y / shrink, false};

  auto outline = find_paper(grey, sheet->page, width, height);
  const bool rule_places = !order.rule.left.empty() && !order.rule.top.empty();
  if (!outline && !(rule_places && dots))
    return Error{outline.error().kind, path + ": " + outline.error().message, outline.error().hint};
  if (outline && dots) {
    const auto sides = sides_of(*outline, *dots);
    const double trusted = dots->stated ? kTypedTrusted : kTagTrusted;
    const bool bears_out = within(sides[0], width, trusted) && within(sides[2], width, trusted) &&
                           within(sides[1], height, trusted) && within(sides[3], height, trusted) &&
                           within(sides[0], sides[2], kParallel) && within(sides[1], sides[3], kParallel);
    if (!bears_out && dots->stated)
      return refused(
          path + ": by so many dots per inch the paper would be " +
              millimetres((sides[0] + sides[2]) / 2, (sides[1] + sides[3]) / 2) + " and not " +
              millimetres(width, height),
          "leave out --scan-dpi for a photograph; a scan's dots per inch are in the scanner's settings");
    if (!bears_out) dots.reset();  // a camera's file says just anything
  }

  std::vector<Correspondence> places;
  char text[96];
  if (dots) {
    const auto corners = outline ? outline->corners : std::array<PicturePoint, 4>{};
    const Affine frame = outline ? scanned_frame(*dots, corners)
                                 : Affine{kMmPerInch / dots->x, 0, 0, 0, kMmPerInch / dots->y, 0};
    for (const auto& disc : sheet->discs) places.push_back({disc.meant, frame(disc.measured)});
    std::snprintf(text, sizeof text, "the scan's %.6g dots per inch%s", dots->x * shrink,
                  dots->stated ? ", as stated" : ", as the file says");
    out.lengths_by = text + std::string(" (as good as the scanner: hold a scan of a steel rule against it)");
    if (outline) out.places_by = "the paper's edges";
  } else {
    const std::array<PicturePoint, 4> meant = {{{0, 0}, {width, 0}, {width, height}, {0, height}}};
    std::vector<Anchor> anchors;
    for (std::size_t i = 0; i < 4; ++i)
      anchors.push_back({outline->corners[i].x, outline->corners[i].y, meant[i]});
    const auto frame = fit_projective(anchors, 0);
    if (!frame) return refused(path + ": the paper's edges do not make a page");
    for (const auto& disc : sheet->discs)
      places.push_back({disc.meant, (*frame)(disc.measured.x, disc.measured.y)});
    out.lengths_by = paper_words(order, width, height);
    out.places_by = "the paper's edges";
  }
  auto fit = fit_affine(places, kToleranceMm);
  if (!fit)
    return Error{
        fit.error().kind, path + ": " + fit.error().message,
        "lay the paper flat; of a camera's pictures take one from straight above, from a metre away"};
  out.fit = *std::move(fit);
  out.profile.set_map(out.fit.map);
  if (!outline) {
    // The scan's own axes mean nothing; what a rule says comes later.
    out.profile.turn_deg = 0;
  }
  const CalibrationPlan& plan = sheet->plan;
  out.dead = dead_columns(grey, sheet->page,
                          {plan.bar.x_mm, plan.bar.y_mm, plan.bar.width_mm, plan.bar.height_mm,
                           kMmPerInch / plan.dots_per_inch, 1});
  out.plan = plan;
  return out;
}

// What a person measured takes the place of what a picture says.
Result<std::string> apply_rule(const RuleMeasures& rule, const CalibrationPlan& plan,
                               PrinterProfile& profile) {
  if (rule.left.empty() != rule.top.empty())
    return malformed("a rule tells the offset by two distances", "give both --left and --top");
  std::string words;
  const auto scale = [&](const std::optional<double>& length, double meant, double& of, double& offset) {
    if (!length) return;
    // The picture's mm were wrong by this, so its offset was too.
    offset *= *length / meant / of;
    of = *length / meant;
    words = "lengths by a rule";
  };
  scale(rule.across, plan.across_mm, profile.scale_x, profile.offset_x_mm);
  scale(rule.down, plan.down_mm, profile.scale_y, profile.offset_y_mm);
  if (rule.left.empty()) return words;
  words += std::string(words.empty() ? "" : ", ") + "offset by a rule";
  const double down = plan.down_mm * profile.scale_y, across = plan.across_mm * profile.scale_x;
  const double fall = rule.top.back() - rule.top.front(), lean = rule.left.back() - rule.left.front();
  // No feed turns a page so far; a decimal comma does.
  const double most = std::sin(2 * kPerDegree);
  if (std::abs(fall) > across * most || std::abs(lean) > down * most)
    return malformed(
        "the two ends of a line cannot lie so differently from the paper's edge: that is a turn by more than "
        "2 degrees",
        "decimals have a point: 13.2; a comma stands between the lengths at the line's two ends: 13.2,13.5");
  const bool level = rule.top.size() == 2, upright = rule.left.size() == 2;
  if (level) {
    const double turn = std::asin(fall / across) / kPerDegree;
    if (upright) profile.shear_deg = -std::asin(lean / down) / kPerDegree - turn;
    profile.turn_deg = turn;
  } else if (upright) {
    profile.turn_deg = -std::asin(lean / down) / kPerDegree - profile.shear_deg;
  }
  profile.offset_x_mm = profile.offset_y_mm = 0;
  const PicturePoint corner = profile.map()({plan.edge_mm, plan.edge_mm});
  profile.offset_x_mm = rule.left.front() - corner.x;
  profile.offset_y_mm = rule.top.front() - corner.y;
  return words;
}

Result<CalibrationPlan> plan_of(const CalibrationTerms& terms) {
  auto dots = dots_of(terms.dots_per_inch, terms.printer);
  if (!dots) return dots.error();
  auto stock = stock_named(terms.templates, terms.stock);
  if (!stock) return stock.error();
  return plan_calibration(stock->page_width_mm, stock->page_height_mm, *dots);
}

// Means of several pictures, and how far apart they are.
void combine(const std::vector<Measured>& all, Calibration& out) {
  const auto n = static_cast<double>(all.size());
  PrinterProfile& mean = out.profile;
  const auto take = [&](double PrinterProfile::*member, double* spread) {
    double sum = 0, least = all[0].profile.*member, most = least;
    for (const auto& one : all) {
      sum += one.profile.*member;
      least = std::min(least, one.profile.*member);
      most = std::max(most, one.profile.*member);
    }
    mean.*member = sum / n;
    if (spread != nullptr) *spread = std::max(*spread, most - least);
  };
  take(&PrinterProfile::offset_x_mm, &out.offset_spread_mm);
  take(&PrinterProfile::offset_y_mm, &out.offset_spread_mm);
  take(&PrinterProfile::scale_x, &out.scale_spread);
  take(&PrinterProfile::scale_y, &out.scale_spread);
  take(&PrinterProfile::turn_deg, nullptr);
  take(&PrinterProfile::shear_deg, nullptr);
  double squares = 0;
  std::vector<int> dead;
  for (const auto& one : all) {
    const auto used = one.plan.discs.size() - static_cast<std::size_t>(one.missing) - one.fit.left_out.size();
    out.marks += static_cast<int>(used);
    out.marks_left_out += static_cast<int>(one.fit.left_out.size());
    out.marks_missing += one.missing;
    squares += one.fit.rms * one.fit.rms / n;
    out.offset_error_mm = std::max(out.offset_error_mm, one.fit.place_error);
    out.scale_error = std::max({out.scale_error, one.fit.x_scale_error, one.fit.y_scale_error});
    if (!one.dead) continue;
    // Dust on one scan is no dead dot.
    if (!out.dead_columns_known) {
      dead = *one.dead;
    } else {
      std::vector<int> both;
      std::set_intersection(dead.begin(), dead.end(), one.dead->begin(), one.dead->end(),
                            std::back_inserter(both));
      dead = std::move(both);
    }
    out.dead_columns_known = true;
  }
  mean.dead_columns = std::move(dead);
  out.rms_mm = std::sqrt(squares);
}

}  // namespace

Result<double> dots_of(const std::optional<double>& typed, const std::string& printer) {
  if (typed && !(*typed >= kLeastDotsPerInch && *typed <= kMostDotsPerInch))
    return malformed("a sheet is drawn for " + decimal(kLeastDotsPerInch) + " to " +
                         decimal(kMostDotsPerInch) + " dots per inch, not " + decimal(*typed),
                     "common printers have 203.2, 300, 304.8 or 600");
  if (printer.empty()) return typed.value_or(kUsualDotsPerInch);
  auto profile = load_printer_profile(printer);
  if (!profile) return profile.error();
  if (typed && *typed != profile->dots_per_inch)
    return malformed("the printer profile " + printer + " is for other dots per inch",
                     "leave out --dpi, or measure a profile for it");
  return profile->dots_per_inch;
}

Result<DocumentReport> print_calibration(const CalibrationTerms& terms, const std::string& path,
                                         const Moment& now) {
  auto format = format_of(path);
  if (!format) return format.error();
  auto dots = dots_of(terms.dots_per_inch, terms.printer);
  if (!dots) return dots.error();
  auto stock = stock_named(terms.templates, terms.stock);
  if (!stock) return stock.error();
  Affine correction;
  if (!terms.printer.empty()) {
    auto profile = load_printer_profile(terms.printer);
    if (!profile) return profile.error();
    correction = profile->map().inverse();
  }
  return draw_calibration({stock->page_width_mm, stock->page_height_mm, *dots, *format, path, to_text(now)},
                          correction);
}

Result<std::vector<double>> parse_lengths(const std::string& typed, const std::string& option,
                                          std::size_t most) {
  std::vector<double> lengths;
  for (const auto& part : split(typed, ',')) {
    const std::string digits(trimmed(part));
    double mm = 0;
    int used = 0;
    if (digits.find_first_not_of("0123456789.") != std::string::npos ||
        std::sscanf(digits.c_str(), "%lf%n", &mm, &used) != 1 ||
        static_cast<std::size_t>(used) != digits.size() || !(std::abs(mm) <= 2000))
      return malformed(
          option + " is a length in mm, not \"" + typed + "\"",
          most == 2 ? "write 12.3, or 12.3,12.6 for the line's two ends" : "write it like 186.4");
    lengths.push_back(mm);
  }
  if (lengths.size() > most)
    return malformed(option + " takes " + counted(most, "length") + ", not \"" + typed + "\"");
  return lengths;
}

Result<Calibration> calibrate(const CalibrationOrder& order, const Moment& now) {
  if (order.scan_dpi && !(*order.scan_dpi >= 50 && *order.scan_dpi <= 10'000))
    return malformed("a scan has 50 to 10000 dots per inch");
  if (order.paper && !(order.paper->width_mm >= 10 && order.paper->width_mm <= 2000 &&
                       order.paper->height_mm >= 10 && order.paper->height_mm <= 2000))
    return malformed("a paper is 10 to 2000 mm wide and high");
  Calibration out;
  CalibrationPlan plan;
  std::string rests_on;
  if (order.pictures.empty()) {
    const RuleMeasures& rule = order.rule;
    if (rule.left.empty() || rule.top.empty() || !rule.across || !rule.down)
      return malformed(
          "calibrate by what?",
          "give a picture of the printed sheet, or --left, --top, --across and --down as measured on it; "
          "--sheet draws the sheet");
    if (!order.terms.dots_per_inch)
      return malformed("how many dots per inch has the printer? Without a picture nothing tells",
                       "give --dpi, as it stands on the sheet");
    auto made = plan_of(order.terms);
    if (!made) return made.error();
    plan = *std::move(made);
  } else {
    std::vector<Measured> all;
    for (const auto& path : order.pictures) {
      auto one = measure(path, order);
      if (!one) return one.error();
      CalibrationCode a = one->code, b = all.empty() ? one->code : all[0].code;
      a.symbol = b.symbol = 1;
      if (write_calibration_code(a) != write_calibration_code(b))
        return refused(path + " shows another calibration sheet than " + order.pictures[0]);
      all.push_back(*std::move(one));
    }
    combine(all, out);
    plan = all[0].plan;
    out.corrected = all[0].code.corrected;
    rests_on = "lengths by " + all[0].lengths_by +
               (all[0].places_by.empty() ? "" : "; offset and turn by " + all[0].places_by);
  }
  PrinterProfile& profile = out.profile;
  profile.dots_per_inch = plan.dots_per_inch;
  auto words = apply_rule(order.rule, plan, profile);
  if (!words) return words.error();
  if (!words->empty())
    rests_on = *words + " (a steel rule reads to 0.2 mm or so)" +
               (rests_on.empty() ? "" : "; the rest: " + rests_on);
  profile.name = order.name.empty() ? "printer" : order.name;
  profile.measured = to_text(now);
  profile.rests_on = rests_on;
  out.page_width_mm = plan.width_mm;
  out.page_height_mm = plan.height_mm;
  if (auto done = check(profile); !done)
    return refused(
        "no printer is that far off: " + done.error().message.substr(std::string("printer profile: ").size()),
        "was the sheet scanned upside down or from its back, or a length misread?");
  return out;
}

}  // namespace counterfoil
