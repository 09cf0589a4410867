// Writes pictures of tags with faults, and what is truly on them, for `reading`.
//
//   make_faults --out FOLDER [--per-level 6] [--seed 1] [--faults water,fold] [--levels 1,5] [--hardest 2.5]
//
// With --hardest level 5 is only as hard as that level is otherwise, and the others are in proportion: so pictures can
// be made as hard for a plain reader as someone else's are.
// FOLDER/<fault>/L<level>/<index>.jpg and FOLDER/truth.jsonl. The same options give the same bytes.
#include <CLI/CLI.hpp>
#include <array>
#include <cstdio>
#include <filesystem>
#include <string>
#include <vector>

#include "base/file.h"
#include "base/json.h"
#include "support/fields.h"
#include "support/stand_in_texts.h"
#include "support/tag_scene.h"

namespace counterfoil {
namespace {

struct Options {
  std::string out;
  int per_level = 6;
  std::uint64_t seed = 1;
  std::vector<std::string> faults;
  std::vector<int> levels{1, 2, 3, 4, 5};
  double hardest = 5;
  int width = 1280, height = 960;
};

Json truth_of(const TagPicture& made, const TagScene& scene, Fault fault, int level, int index,
              const std::string& path) {
  constexpr std::string_view kLevels = "LMQH";
  Json::Array quad;
  for (const auto& corner : made.corners) quad.push_back(Json::Array{corner.x, corner.y});
  // Member by member: g++ 12 sees an overrun where a map is made of a list as long as this.
  Json::Object code, out;
  code["text"] = scene.text;
  code["ecc"] = std::string(1, kLevels[static_cast<std::size_t>(made.symbol.level)]);
  code["version"] = made.symbol.version;
  code["modules"] = made.symbol.modules;
  code["quad"] = std::move(quad);
  out["path"] = path;
  out["set"] = name_of(fault);
  out["level"] = level;
  out["idx"] = index;
  out["w"] = made.picture.width;
  out["h"] = made.picture.height;
  out["px_per_module"] = made.module_pixels;
  out["codes"] = Json::Array{std::move(code)};
  return out;
}

int make(const Options& options) {
  std::string truth;
  for (const Fault fault : all_faults()) {
    const std::string name(name_of(fault));
    if (!options.faults.empty() &&
        std::find(options.faults.begin(), options.faults.end(), name) == options.faults.end()) {
      continue;
    }
    for (const int level : options.levels) {
      const double hardness = 1 + (level - 1) * (options.hardest - 1) / 4;
      const std::string folder = name + "/L" + std::to_string(level);
      std::filesystem::create_directories(std::filesystem::path(options.out) / folder);
      for (int index = 0; index < options.per_level; ++index) {
        const auto place = static_cast<std::uint64_t>(fault) * 1000 + static_cast<std::uint64_t>(level);
        Chance chance(options.seed * 1'000'003 + place * 10'007 + static_cast<std::uint64_t>(index));
        TagScene scene;
        scene.text = stand_in_texts(1, static_cast<std::uint32_t>(chance.seed())).front();
        scene.correction = chance.one_in(4) ? CorrectionLevel::medium : CorrectionLevel::high;
        scene.least_version = 2 + chance.below(3);
        scene.module_pixels = chance.between(5, 9.5);
        scene.width = options.width;
        scene.height = options.height;
        const TagPicture made = photograph(scene, fault, hardness, chance.seed());
        char file[32];
        std::snprintf(file, sizeof file, "/%03d.jpg", index);
        const std::string path = folder + file;
        const auto written =
            write_file(options.out + "/" + path, jpeg_of(made.picture, 85 + chance.below(10)));
        if (!written) {
          std::fprintf(stderr, "make_faults: %s\n", written.error().message.c_str());
          return 3;
        }
        truth += canonical_json(truth_of(made, scene, fault, level, index, path)) + "\n";
      }
    }
  }
  const auto written = write_file(options.out + "/truth.jsonl", truth);
  if (!written) {
    std::fprintf(stderr, "make_faults: %s\n", written.error().message.c_str());
    return 3;
  }
  return 0;
}

int run(int argc, char** argv) {
  Options options;
  CLI::App app("Makes pictures of tags with faults");
  app.add_option("--out", options.out, "folder for the pictures and truth.jsonl")->required();
  app.add_option("--per-level", options.per_level, "pictures of each fault at each level (6)");
  app.add_option("--seed", options.seed, "other seeds give other pictures (1)");
  app.add_option("--faults", options.faults, "only these, by commas")->delimiter(',');
  app.add_option("--levels", options.levels, "only these, by commas")
      ->delimiter(',')
      ->check(CLI::Range(1, 5));
  app.add_option("--hardest", options.hardest, "the level that level 5 is as hard as (5)")
      ->check(CLI::Range(1.0, 5.0));
  app.add_option("--width", options.width, "of the pictures (1280)");
  app.add_option("--height", options.height, "of the pictures (960)");
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return app.exit(error) == 0 ? 0 : 2;
  }
  return make(options);
}

}  // namespace
}  // namespace counterfoil

int main(int argc, char** argv) { return counterfoil::run(argc, argv); }
