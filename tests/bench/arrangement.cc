// Which arrangement of symbols on a given area of a tag reads best: each is printed at whole dots, damaged by the
// same faults at the same places in millimetres, photographed from the same distance, and read by one plain call of
// ZXing-cpp, by ours decoding only, and by ours with 3 001 known texts of which one is true.
//
//   arrangement --area 31 2-H@31 1-M@31 4-H@31 2x1-M@15.5
//
// 2-H@31: version 2, level H, in a square of 31 mm that the quiet zone is part of; 2x: twice, in opposite corners of
// the area. The first is what the others are held against. What follows from the seed does not depend on the
// machine's speed as long as no picture takes longer than the budget of processor time.
#include <CLI/CLI.hpp>
#include <array>
#include <cstdio>
#include <ctime>
#include <string>
#include <vector>

#include "base/file.h"
#include "bench/readers.h"
#include "recovery/known_texts.h"
#include "support/fields.h"
#include "support/proportions.h"
#include "support/tag_scene.h"
#include "support/temp_folder.h"
#include "support/text_table.h"

namespace counterfoil {
namespace {

// A symbol of version 2 fills the bag half's 31 mm with 33 modules, quiet zone included; the faults were made for
// symbols of about that size.
constexpr double kUnitMm = 31.0 / 33;
constexpr std::string_view kLevels = "LMQH";
constexpr std::array<const char*, 3> kReaders{"plain", "ours", "known"};

struct Options {
  std::vector<std::string> arrangements;
  double area_mm = 31, dots_per_inch = 203.2;
  std::string host;
  int scenes = 48;
  std::vector<int> levels{3, 5};
  std::vector<std::string> faults;
  std::uint64_t seed = 1;
  double budget_seconds = 2, low_pixels = 4.5, high_pixels = 9;  // pixels per mm
  int width = 800, height = 600;
};

struct Arrangement {
  std::string name;
  int copies = 1, version = 0;
  CorrectionLevel level = CorrectionLevel::high;
  double side_mm = 0, module_mm = 0;
};

std::optional<Arrangement> parse(const std::string& text, double dots_per_inch) {
  Arrangement out;
  out.name = text;
  char level = 0;
  if (std::sscanf(text.c_str(), "2x%d-%c@%lf", &out.version, &level, &out.side_mm) == 3)
    out.copies = 2;
  else if (std::sscanf(text.c_str(), "%d-%c@%lf", &out.version, &level, &out.side_mm) != 3)
    return {};
  const auto at = kLevels.find(level);
  if (at == std::string_view::npos || out.version < 1 || out.version > 40) return {};
  out.level = static_cast<CorrectionLevel>(at);
  const auto dots = dots_per_module(17 + 4 * out.version, out.side_mm, dots_per_inch, 0.1);
  if (!dots) return {};
  out.module_mm = *dots * 25.4 / dots_per_inch;
  return out;
}

// Of the form of our payloads; nothing here looks at check characters.
std::vector<std::string> texts(const std::string& host, std::size_t count, std::uint64_t seed) {
  constexpr std::string_view kAlphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
  Chance chance(seed);
  std::vector<std::string> out;
  for (std::size_t i = 0; i < count; ++i) {
    std::string number;
    for (int k = 0; k < 10; ++k) number += kAlphabet[static_cast<std::size_t>(chance.below(32))];
    out.push_back(host.empty() ? "CF1." + number + ".BAG1" : "HTTPS://" + host + "/CF1/" + number + "/BAG1");
  }
  return out;
}

// Null when the text does not fit that version and level.
std::optional<PrintedArea> printed(const Arrangement& how, const std::string& text, double area_mm) {
  auto symbol = encode_symbol(text, how.level, how.version);
  if (!symbol || symbol->version != how.version) return {};
  PrintedArea area;
  area.side = area_mm / kUnitMm;
  const double module = how.module_mm / kUnitMm, slot = how.side_mm / kUnitMm;
  const double inset = (slot - symbol->modules * module) / 2;
  area.symbols.push_back({*symbol, inset, inset, module});
  const double far = area.side - slot + inset;
  if (how.copies == 2) area.symbols.push_back({*symbol, far, far, module});
  return area;
}

struct Outcome {
  std::array<bool, kReaders.size()> read{};
  int wrong = 0;
};

class Judge {
 public:
  Judge(const Options& options, const KnownTexts& known)
      : options_(options), known_(known), plain_(plain_reader()) {}

  Outcome judge(const std::string& jpeg, const std::string& truth) {
    Outcome out;
    const std::string path = folder_ / "a.jpg";
    if (!write_file(path, jpeg)) std::abort();
    for (const auto& text : plain_->read(path).texts) note(out, 0, text.text, truth);
    const bool identified = ours(jpeg, truth, &known_, out, 2);
    // What was decoded with known texts at hand is decoded without them: they come in last.
    if (identified)
      ours(jpeg, truth, nullptr, out, 1);
    else
      out.read[1] = out.read[2];
    return out;
  }

 private:
  static void note(Outcome& out, std::size_t reader, const std::string& text, const std::string& truth) {
    if (text == truth)
      out.read[reader] = true;
    else
      ++out.wrong;
  }

  bool ours(const std::string& jpeg, const std::string& truth, const KnownTexts* known, Outcome& out,
            std::size_t reader) const {
    PhotoOptions how = our_options({truth.substr(0, 4), known, {}, Effort::normal});
    const std::clock_t start = std::clock();
    how.time_left = [start, this] {
      return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC < options_.budget_seconds;
    };
    const auto photo = read_photo_bytes(jpeg, how);
    if (!photo) std::abort();
    bool decoded = false, identified = false;
    for (const auto& code : photo->codes) {
      note(out, reader, code.text, truth);
      (code.identified ? identified : decoded) = true;
    }
    return identified && !decoded;
  }

  const Options& options_;
  const KnownTexts& known_;
  std::unique_ptr<TagReader> plain_;
  TempFolder folder_;
};

std::string share(std::size_t part, std::size_t whole) {
  const auto [low, high] = wilson_interval(part, whole);
  return percent(part, whole) + " (" + fixed(100 * low, 1) + "-" + fixed(100 * high, 1) + ")";
}

std::string table(const std::vector<Arrangement>& arrangements,
                  const std::vector<std::vector<Outcome>>& outcomes) {
  TextTable out;
  out.add({"", "module", "plain %", "ours %", "known %", "wrong", "plain", "p", "ours", "p", "known", "p"});
  for (std::size_t a = 0; a < arrangements.size(); ++a) {
    TextTable::Row row{arrangements[a].name, fixed(arrangements[a].module_mm, 3)}, against;
    int wrong = 0;
    for (const auto& outcome : outcomes[a]) wrong += outcome.wrong;
    for (std::size_t r = 0; r < kReaders.size(); ++r) {
      std::size_t read = 0, gained = 0, lost = 0;
      for (std::size_t i = 0; i < outcomes[a].size(); ++i) {
        const bool here = outcomes[a][i].read[r], first = outcomes[0][i].read[r];
        read += here;
        gained += here && !first;
        lost += first && !here;
      }
      row.push_back(share(read, outcomes[a].size()));
      if (a == 0) continue;
      against.push_back("+" + std::to_string(gained) + " -" + std::to_string(lost));
      against.push_back(fixed(sign_test(gained, lost), 4));
    }
    row.push_back(std::to_string(wrong));
    row.insert(row.end(), against.begin(), against.end());
    out.add(row);
  }
  return out.text();
}

int measure(const Options& options) {
  std::vector<Arrangement> arrangements;
  for (const auto& text : options.arrangements) {
    const auto how = parse(text, options.dots_per_inch);
    if (!how || how->side_mm > options.area_mm) {
      std::fprintf(stderr, "arrangement: %s is none, or does not fit\n", text.c_str());
      return 2;
    }
    arrangements.push_back(*how);
  }
  std::vector<Fault> faults;
  for (const Fault fault : all_faults()) {
    const auto& some = options.faults;
    if (some.empty() ? fault != Fault::none
                     : std::find(some.begin(), some.end(), name_of(fault)) != some.end())
      faults.push_back(fault);
  }
  const auto candidates = texts(options.host, 3001, options.seed);
  const KnownTexts known(candidates);
  Judge judge(options, known);
  std::vector<std::vector<Outcome>> outcomes(arrangements.size());
  for (int i = 0; i < options.scenes; ++i) {
    const auto index = static_cast<std::size_t>(i);
    const Fault fault = faults[index % faults.size()];
    const int level = options.levels[index / faults.size() % options.levels.size()];
    Chance chance(options.seed * 1'000'003 + index);
    const std::string& truth = candidates[static_cast<std::size_t>(chance.below(3001))];
    TagView view{options.width, options.height, 0};
    view.module_pixels = chance.between(options.low_pixels, options.high_pixels) * kUnitMm;
    const std::uint64_t seed = chance.seed();
    const int quality = 85 + chance.below(10);
    for (std::size_t a = 0; a < arrangements.size(); ++a) {
      const auto area = printed(arrangements[a], truth, options.area_mm);
      if (!area) {
        std::fprintf(stderr, "arrangement: %s does not hold %s\n", arrangements[a].name.c_str(),
                     truth.c_str());
        return 2;
      }
      const auto picture = photograph_area(*area, view, fault, level, seed);
      outcomes[a].push_back(judge.judge(jpeg_of(picture, quality), truth));
    }
  }
  std::printf("%d scenes, seed %llu, area %.4g mm, %.4g dpi, text %s\n%s", options.scenes,
              static_cast<unsigned long long>(options.seed), options.area_mm, options.dots_per_inch,
              candidates[0].c_str(), table(arrangements, outcomes).c_str());
  return 0;
}

int run(int argc, char** argv) {
  Options options;
  CLI::App app("How well arrangements of symbols on the same area of a damaged tag are read");
  app.add_option("arrangements", options.arrangements, "[2x]VERSION-LEVEL@MM; the first is the reference")
      ->required();
  app.add_option("--area", options.area_mm, "side of the square that is damaged, mm (31)")
      ->check(CLI::Range(5.0, 70.0));
  app.add_option("--dpi", options.dots_per_inch, "of the printer (203.2)");
  app.add_option("--host", options.host, "payloads are links to it");
  app.add_option("--scenes", options.scenes, "damaged tags; every fault at every level in turn (48)");
  app.add_option("--levels", options.levels, "of the faults, by commas (3,5)")
      ->delimiter(',')
      ->check(CLI::Range(1, 5));
  app.add_option("--faults", options.faults, "only these, by commas")->delimiter(',');
  app.add_option("--seed", options.seed, "other seeds give other scenes (1)");
  app.add_option("--budget", options.budget_seconds, "processor time for a picture in s, for ours (2)");
  app.add_option("--pixels-from", options.low_pixels, "per mm (4.5)");
  app.add_option("--pixels-to", options.high_pixels, "per mm (9)");
  app.add_option("--width", options.width, "of the pictures (800)");
  app.add_option("--height", options.height, "of the pictures (600)");
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return app.exit(error) == 0 ? 0 : 2;
  }
  return measure(options);
}

}  // namespace
}  // namespace counterfoil

int main(int argc, char** argv) { return counterfoil::run(argc, argv); }
