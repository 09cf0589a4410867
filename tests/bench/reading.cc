// How much of what is truly on pictures is read, and in what time: one plain call of ZXing-cpp, ZBar, ours
// by decoding only ("ours"), ours with the tags that may be out there to hold symbols against ("known").
// All in one run on the same pictures.
//
//   reading TRUTH.jsonl [--sets oil,fold] [--levels 2,4] [--readers plain,zbar,ours,known] [--list]
//   reading --no-tags 100000 [--threads 2]
//
// Times are quoted with one thread only. The second form reads pictures that bear no tag, and ends with 1
// when any was read as one.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <atomic>
#include <chrono>
#include <cstdio>
#include <map>
#include <string>
#include <thread>
#include <vector>

#include "base/file.h"
#include "base/text.h"
#include "bench/no_tags.h"
#include "bench/readers.h"
#include "bench/score.h"
#include "bench/truth.h"
#include "recovery/known_texts.h"
#include "support/stand_in_texts.h"
#include "support/text_table.h"

namespace counterfoil {
namespace {

struct Options {
  std::string truth;
  std::vector<std::string> sets;
  std::vector<int> levels;
  std::vector<std::string> readers{"plain", "zbar", "ours", "known"};
  std::size_t absent = 3000;
  bool without_truth = false;
  bool list = false;
  bool passes = false;
  unsigned threads = 1;
  std::string json;
  double budget_ms = 0;
  Effort effort = Effort::normal;
  std::uint32_t seed = 1;
  std::uint64_t no_tags = 0, from = 0;
};

std::unique_ptr<TagReader> reader_named(const std::string& name, const OurWay& decoding,
                                        const OurWay& known) {
  if (name == "plain") return plain_reader();
  if (name == "zbar") return zbar_reader();
  return our_reader(name == "known" ? known : decoding);
}

template <typename Value>
bool chosen(const std::vector<Value>& choice, const Value& value) {
  return choice.empty() || std::find(choice.begin(), choice.end(), value) != choice.end();
}

OurWay our_way(const Options& options, std::string beginning, const KnownTexts* known) {
  OurWay way{std::move(beginning), known, {}, options.effort};
  if (options.budget_ms > 0) way.budget_seconds = options.budget_ms / 1000;
  return way;
}

// Picture by picture through all readers, so that what else the machine does meets all of them alike.
std::vector<ReaderResults> read_all(const std::vector<TruePicture>& pictures, const Options& options,
                                    const OurWay& decoding, const OurWay& known) {
  std::vector<ReaderResults> results;
  for (const auto& name : options.readers) results.push_back({name, std::vector<Reading>(pictures.size())});
  std::atomic<std::size_t> next = 0;
  const auto work = [&] {
    std::vector<std::unique_ptr<TagReader>> readers;
    for (const auto& name : options.readers) readers.push_back(reader_named(name, decoding, known));
    for (std::size_t i = next++; i < pictures.size(); i = next++) {
      for (std::size_t r = 0; r < readers.size(); ++r) {
        results[r].readings[i] = readers[r]->timed(pictures[i].path);
      }
    }
  };
  std::vector<std::thread> threads;
  for (unsigned i = 1; i < options.threads; ++i) threads.emplace_back(work);
  work();
  for (auto& thread : threads) thread.join();
  return results;
}

void list_missed(const std::vector<TruePicture>& pictures, const std::vector<ReaderResults>& results) {
  TextTable table;
  TextTable::Row heads{"picture", "pixels a module"};
  for (const auto& reader : results) heads.push_back(reader.name);
  table.add(heads);
  for (std::size_t i = 0; i < pictures.size(); ++i) {
    bool missed = false;
    TextTable::Row row{pictures[i].name, fixed(pictures[i].module_pixels, 1)};
    for (const auto& reader : results) {
      Score score;
      score.add(pictures[i], reader.readings[i]);
      missed = missed || score.read < score.codes || score.wrong > 0;
      row.push_back(verdict(pictures[i], reader.readings[i]));
    }
    if (missed) table.add(row);
  }
  std::printf("Pictures that a reader missed\n%s\n", table.text().c_str());
}

int judge(const Options& options) {
  auto truth = read_truth(options.truth);
  if (!truth) {
    std::fprintf(stderr, "reading: %s\n", truth.error().message.c_str());
    return 3;
  }
  const std::string beginning = common_beginning(*truth);
  const auto texts = known_texts_for(*truth, options.absent, !options.without_truth, options.seed);
  std::erase_if(*truth, [&](const TruePicture& picture) {
    return !chosen(options.sets, picture.set) || !chosen(options.levels, picture.level);
  });
  if (truth->empty()) {
    std::fprintf(stderr, "reading: no such pictures in %s\n", options.truth.c_str());
    return 2;
  }
  const auto start = std::chrono::steady_clock::now();
  const KnownTexts known(texts);
  const double preparing = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  const auto results =
      read_all(*truth, options, our_way(options, beginning, nullptr), our_way(options, beginning, &known));

  std::printf("%zu pictures; wanted is what begins with \"%s\"; %zu known texts%s, made ready in %.0f ms\n\n",
              truth->size(), beginning.c_str(), known.size(),
              options.without_truth ? ", none of which is on a picture" : "", preparing * 1000);
  if (options.list) list_missed(*truth, results);
  std::printf("Codes read, in percent\n%s\n", recall_table(*truth, results).c_str());
  const bool with_times = options.threads == 1;
  std::printf("%s", summary_table(*truth, results, with_times).c_str());
  if (options.passes) {
    for (const auto& reader : results) {
      if (reader.name != "plain" && reader.name != "zbar") {
        std::printf("\n%s, by what read them\n%s", reader.name.c_str(), pass_table(reader).c_str());
      }
    }
  }
  if (!options.json.empty()) {
    const auto written = write_file(options.json, canonical_json(results_json(*truth, results, with_times)));
    if (!written) {
      std::fprintf(stderr, "reading: %s\n", written.error().message.c_str());
      return 3;
    }
  }
  return 0;
}

int run(int argc, char** argv) {
  Options options;
  CLI::App app("Recall and time of readers on pictures whose contents are known");
  app.add_option("truth", options.truth, "truth.jsonl beside the pictures");
  app.add_option("--sets", options.sets, "only these, by commas")->delimiter(',');
  app.add_option("--levels", options.levels, "only these, by commas")->delimiter(',');
  app.add_option("--readers", options.readers, "of plain,zbar,ours,known")
      ->delimiter(',')
      ->check(CLI::IsMember({"plain", "zbar", "ours", "known"}));
  app.add_option("--absent", options.absent, "known texts that are on no picture (3000)");
  app.add_flag("--without-truth", options.without_truth,
               "no known text is on a picture, so that every one identified is wrong");
  app.add_flag("--list", options.list, "each picture that a reader missed");
  app.add_flag("--passes", options.passes, "which of our passes read how many");
  app.add_option("--threads", options.threads, "times are left out with more than 1")
      ->check(CLI::Range(1, 64));
  app.add_option("--json", options.json, "also write the figures to this file");
  app.add_option("--budget", options.budget_ms, "time for a picture in ms, for ours; 0 is no limit");
  app.add_option("--effort", options.effort, "of ours")
      ->transform(CLI::CheckedTransformer(std::map<std::string, Effort>{
          {"quick", Effort::quick}, {"normal", Effort::normal}, {"thorough", Effort::thorough}}));
  app.add_option("--seed", options.seed, "of the texts that are on no picture");
  app.add_option("--no-tags", options.no_tags, "read that many pictures without a tag instead");
  app.add_option("--from", options.from, "the first of them");
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return app.exit(error) == 0 ? 0 : 2;
  }

  if (options.no_tags > 0) {
    const KnownTexts known(stand_in_texts(options.absent, options.seed));
    return read_no_tags(options.from, options.no_tags, options.threads, our_way(options, "CF1:", &known));
  }
  if (options.truth.empty()) {
    std::fputs("reading: name a truth.jsonl, or --no-tags COUNT\n", stderr);
    return 2;
  }
  return judge(options);
}

}  // namespace
}  // namespace counterfoil

int main(int argc, char** argv) { return counterfoil::run(argc, argv); }
