#include "workflow/printed_ink.h"

#include <algorithm>
#include <cmath>

#include "grade/ink_difference.h"
#include "grade/registration.h"

namespace counterfoil {
namespace {

constexpr double kMostShifted = 3;             // pixels; a part from its place on the tag
constexpr double kLeastScanPixelsPerMm = 5.5;  // 140 dots per inch
constexpr double kMostBlur = 2.2;              // pixels of the tag, standard deviation

// Limits of ours, from simulated prints (tests/bench/print_check.md); ink in pixels of 0.1 x 0.1 mm.
constexpr double kSpot = 9, kSpotOfCoarseScan = 12;  // in a spot of 0.7 x 0.7 mm
constexpr double kFineScan = 0.95;                   // pixels of the scan to one of the tag
constexpr double kLeniency = 1.5;   // with standing words and lines, which tell no tags apart
constexpr double kLargeSpot = 2.5;  // times that
constexpr double kSolid = 0.5;      // the rim of what stands beside a part has less ink
constexpr double kLeastInk = 25;    // less is nothing that is meant
constexpr double kAbsent = 0.2, kVeryPale = 0.4, kPale = 0.6;  // strength
constexpr double kUnlike = 0.75;                               // likeness of words with other words
constexpr double kLike = 0.85;                                 // the same words
constexpr double kLikerSide = 0.1;

PixelBox box_of(const DrawnTag& tag, std::size_t part) {
  const Plane& plane = tag.drawings[0];
  PixelBox box{plane.width, plane.height, 0, 0};
  for (int y = 0; y < plane.height; ++y)
    for (int x = 0; x < plane.width; ++x)
      if (tag.owner[plane.index(x, y)] == static_cast<std::int16_t>(part))
        box = {std::min(box.left, x), std::min(box.top, y), std::max(box.right, x + 1),
               std::max(box.bottom, y + 1)};
  return box;
}

template <typename Each>
void for_each_pixel(const DrawnTag& tag, std::size_t part, const PixelBox& box, Each each) {
  for (int y = box.top; y < box.bottom; ++y)
    for (int x = box.left; x < box.right; ++x)
      if (const auto i = tag.drawings[0].index(x, y); tag.owner[i] == static_cast<std::int16_t>(part))
        each(x, y, i);
}

double likeness_of(const DrawnTag& tag, std::size_t part, const PixelBox& box, const Plane& meant,
                   const Plane& seen) {
  double n = 0, sm = 0, ss = 0, smm = 0, sss = 0, sms = 0;
  for_each_pixel(tag, part, box, [&](int, int, std::size_t i) {
    const double m = double{meant.values[i]}, s = double{seen.values[i]};
    n += 1, sm += m, ss += s, smm += m * m, sss += s * s, sms += m * s;
  });
  const double vm = n * smm - sm * sm, vs = n * sss - ss * ss;
  return vm > 1e-3 && vs > 1e-3 ? (n * sms - sm * ss) / std::sqrt(vm * vs) : 0;
}

// Ink from 0 to 1 as grey.
Plane grey_of(const Plane& ink) {
  Plane grey = ink;
  for (auto& value : grey.values) value = 255 * (1 - value);
  return grey;
}

}  // namespace

TagPrint tag_print(GreyView scan, const DrawnTag& tag, const Affine& map) {
  TagPrint print;
  const Plane& drawing = tag.drawings[tag.side];
  const Affine about = chained({1 / kPixelsPerMm, 0, tag.box.x_mm, 0, 1 / kPixelsPerMm, tag.box.y_mm}, map);
  print.map = chained(registered(drawing, flattened(scan, about, drawing.width, drawing.height)), about);
  print.planes = ink_planes(drawing, flattened(scan, print.map, drawing.width, drawing.height));
  print.scan_pixels = std::sqrt(std::abs(print.map.determinant()));
  print.coarse = print.scan_pixels * kPixelsPerMm < kLeastScanPixelsPerMm || print.planes.blur > kMostBlur;
  return print;
}

TagInk measured_ink(const DrawnTag& tag, const TagPrint& print) {
  TagInk ink;
  const InkPlanes& planes = print.planes;
  Plane seen = planes.seen;
  const Plane meant_grey = grey_of(planes.meant), seen_grey = grey_of(planes.seen);
  for (std::size_t part = 0; part < tag.parts.size(); ++part) {
    PartInk measured;
    measured.box = box_of(tag, part);
    const PicturePoint off = shift_of(meant_grey, seen_grey, measured.box, kMostShifted);
    if (off.x != 0 || off.y != 0)
      for_each_pixel(tag, part, measured.box, [&](int x, int y, std::size_t i) {
        seen.values[i] = planes.seen.between({x + 0.5 + off.x, y + 0.5 + off.y});
      });
    ink.parts.push_back(measured);
  }
  // What is nobody's is not looked at, also not from beside it.
  for (std::size_t i = 0; i < tag.owner.size(); ++i)
    if (tag.owner[i] == kNobody) seen.values[i] = planes.meant.values[i];
  const InkDifference difference = ink_difference(planes.meant, seen, static_cast<float>(kSpot));
  for (std::size_t part = 0; part < tag.parts.size(); ++part) {
    PartInk& measured = ink.parts[part];
    double product = 0, square = 0;
    for_each_pixel(tag, part, measured.box, [&](int x, int y, std::size_t i) {
      const double m = double{planes.meant.values[i]}, s = double{seen.values[i]};
      if (m >= kSolid) {
        measured.meant += m;
        product += m * s;
        square += m * m;
      }
      if (double{difference.missing.values[i]} > measured.missing) {
        measured.missing = double{difference.missing.values[i]};
        measured.missing_at = {x + 0.5, y + 0.5};
      }
      if (double{difference.extra.values[i]} > measured.extra) {
        measured.extra = double{difference.extra.values[i]};
        measured.extra_at = {x + 0.5, y + 0.5};
      }
    });
    measured.strength = square > 0 ? product / square : 0;
    measured.likeness = likeness_of(tag, part, measured.box, planes.meant, seen);
    if (tag.parts[part].kind == TagPart::Kind::side_mark)
      for (std::size_t side = 0; side < tag.drawings.size(); ++side) {
        Plane other = tag.drawings[side];
        for (auto& value : other.values) value = 1 - value / 255;
        ink.side_likeness[side] = likeness_of(tag, part, measured.box, blurred(other, planes.blur), seen);
      }
  }
  return ink;
}

namespace {

// What a wrong letter in it could mean: another valve, another pocket.
bool tells_tags_apart(const TagPart& part) {
  constexpr std::array kNames{"number", "unit", "pocket", "copy", "carton"};
  return part.kind == TagPart::Kind::side_mark || part.kind == TagPart::Kind::match_bars ||
         (part.kind == TagPart::Kind::words &&
          std::find(kNames.begin(), kNames.end(), part.name) != kNames.end());
}

struct Judged {
  PrintVerdict verdict = PrintVerdict::good;
  std::string what, advice;
  bool whole = false;     // the part, or a spot of it
  const char* mark = "";  // the same in a word or two, for the marked picture
};

std::string side_words(std::size_t side) {
  return side == kNoSide ? "an empty band" : std::string("the ") + kSideNames[side] + " band";
}

Judged judged_side(const DrawnTag& tag, const TagInk& ink) {
  const auto& like = ink.side_likeness;
  const auto most = static_cast<std::size_t>(std::max_element(like.begin(), like.end()) - like.begin());
  if (most == tag.side || like[most] < like[tag.side] + kLikerSide) return {};
  return {PrintVerdict::reprint, side_words(most) + " is printed where " + side_words(tag.side) + " is due",
          "destroy the tag: with it a valve goes into the wrong pocket", true, "wrong"};
}

Judged judged(const DrawnTag& tag, const TagPrint& print, const TagInk& ink, std::size_t index) {
  constexpr const char* kClean = "clean head, roller or drum, and print it again";
  constexpr const char* kOther =
      "see that the sheet is of this order, as it is on record now; print it again";
  const TagPart& part = tag.parts[index];
  const PartInk& p = ink.parts[index];
  const double spot = (print.scan_pixels < kFineScan ? kSpotOfCoarseScan : kSpot) *
                      (part.kind == TagPart::Kind::standing ? kLeniency : 1);
  const bool words = part.kind == TagPart::Kind::words;
  const bool lacks = p.missing > spot, has_more = p.extra > spot;
  const bool large = std::max(p.missing, p.extra) > kLargeSpot * spot;
  const PrintVerdict verdict = tells_tags_apart(part) || large ? PrintVerdict::reprint : PrintVerdict::usable;
  const bool unlike = p.likeness < kUnlike;
  if (p.meant < kLeastInk) {
    if (!has_more) return {};
    if (words) return {verdict, "words are printed where none should be", kOther, false, "too much"};
    return {verdict, "there is ink that should not be there", kClean, false, "too much ink"};
  }
  if (p.strength < kAbsent && unlike)
    return {PrintVerdict::reprint, "missing", "print it again", true, "missing"};
  if (part.kind == TagPart::Kind::side_mark)
    if (auto side = judged_side(tag, ink); side.verdict != PrintVerdict::good) return side;
  if (p.strength < kPale && p.likeness > kLike)
    return {p.strength < kVeryPale ? PrintVerdict::reprint : PrintVerdict::usable,
            "paler than the rest of the tag", "raise the darkness (burn), or change ribbon or toner", true,
            "pale"};
  if (words && ((lacks && has_more) || unlike))
    return {verdict, "the printed words are not those of the order", kOther, unlike, "other words"};
  if (lacks && has_more) return {verdict, "not as it should be", kOther, unlike, "differs"};
  if (lacks) return {verdict, "ink is missing", kClean, false, "ink missing"};
  if (has_more && words)
    return {verdict, "there is ink that should not be there, or another letter", kClean, false,
            "too much ink"};
  if (has_more)
    return {part.kind == TagPart::Kind::standing ? PrintVerdict::usable : verdict,
            "there is ink that should not be there", kClean, false, "too much ink"};
  return {};
}

std::array<PicturePoint, 4> outline_of(const Affine& map, const PartInk& part, bool whole) {
  constexpr double kAround = 8;  // pixels round a spot
  double left = part.box.left, top = part.box.top, right = part.box.right, bottom = part.box.bottom;
  if (!whole) {
    const PicturePoint at = part.missing > part.extra ? part.missing_at : part.extra_at;
    left = at.x - kAround, top = at.y - kAround, right = at.x + kAround, bottom = at.y + kAround;
  }
  return {map({left, top}), map({right, top}), map({right, bottom}), map({left, bottom})};
}

}  // namespace

std::vector<InkFinding> ink_findings(const DrawnTag& tag, const TagPrint& print, const TagInk& ink) {
  std::vector<InkFinding> findings;
  if (print.coarse) return findings;
  std::vector<std::pair<std::string, std::string>> said;  // what, and the parts' names
  for (std::size_t turn = 1; turn <= tag.parts.size(); ++turn) {
    const std::size_t i = turn % tag.parts.size();  // the standing words, which are the first part, come last
    const Judged result = judged(tag, print, ink, i);
    if (result.verdict == PrintVerdict::good) continue;
    const auto same =
        std::find_if(said.begin(), said.end(), [&](const auto& s) { return s.first == result.what; });
    const auto index = static_cast<std::size_t>(same - said.begin());
    if (same == said.end()) {
      said.emplace_back(result.what, tag.parts[i].name);
      findings.push_back({{result.verdict, {}, result.advice}});
    } else {
      same->second += ", " + tag.parts[i].name;
      findings[index].finding.verdict = std::max(findings[index].finding.verdict, result.verdict);
    }
    findings[index].places.push_back(
        {outline_of(print.map, ink.parts[i], result.whole), tag.parts[i].name + ": " + result.mark});
  }
  for (std::size_t i = 0; i < said.size(); ++i)
    findings[i].finding.what = said[i].second + ": " + said[i].first;
  std::stable_sort(findings.begin(), findings.end(),
                   [](const auto& a, const auto& b) { return a.finding.verdict > b.finding.verdict; });
  return findings;
}

}  // namespace counterfoil
