#include "bench/no_tags.h"

#include <atomic>
#include <chrono>
#include <cstdio>
#include <map>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include "support/no_tag_picture.h"
#include "support/text_table.h"

namespace counterfoil {
namespace {

constexpr std::size_t kToldEach = 500;  // pictures

}  // namespace

int read_no_tags(std::uint64_t from, std::uint64_t count, unsigned threads, const OurWay& way) {
  using Watch = std::chrono::steady_clock;
  struct Kind {
    std::size_t pictures = 0, reported = 0, identified = 0, seen = 0;
    std::vector<double> milliseconds;
  };
  std::map<std::string, Kind> kinds;
  std::mutex lock;
  std::atomic<std::uint64_t> next = from;
  const auto start = Watch::now();
  std::size_t done = 0;
  // So that a run of hours that is cut off still tells how far it came.
  const auto tell = [&] {
    std::size_t reported = 0;
    for (const auto& [name, kind] : kinds) reported += kind.reported;
    std::fprintf(stderr, "%zu of %llu pictures read, %zu codes reported\n", done,
                 static_cast<unsigned long long>(count), reported);
    std::fflush(stdout);
  };
  const auto work = [&] {
    for (std::uint64_t index = next++; index < from + count; index = next++) {
      const NoTagPicture made = picture_without_tag(index);
      const std::string file = jpeg_of(made.picture, 90);
      const auto begin = Watch::now();
      const auto photo = read_photo_bytes(file, our_options(way));
      const double ms = std::chrono::duration<double, std::milli>(Watch::now() - begin).count();
      const std::lock_guard guard(lock);
      if (done > 0 && done % kToldEach == 0) tell();
      ++done;
      Kind& kind = kinds[made.kind];
      ++kind.pictures;
      kind.milliseconds.push_back(ms);
      if (!photo) {
        std::printf("picture %llu (%s): %s\n", static_cast<unsigned long long>(index), made.kind.c_str(),
                    photo.error().message.c_str());
        ++kind.reported;
        continue;
      }
      kind.seen += photo->unread.size();
      for (const auto& code : photo->codes) {
        ++kind.reported;
        if (code.identified) ++kind.identified;
        std::printf("picture %llu (%s): %s %s by %s\n", static_cast<unsigned long long>(index),
                    made.kind.c_str(), code.identified ? "identified" : "decoded", code.text.c_str(),
                    code.pass.c_str());
      }
    }
  };
  std::vector<std::thread> others;
  for (unsigned i = 1; i < threads; ++i) others.emplace_back(work);
  work();
  for (auto& thread : others) thread.join();

  TextTable table;
  table.add({"kind", "pictures", "reported", "of them identified", "seen only", "median ms", "95 % ms"});
  Kind all;
  const auto row = [&](const std::string& name, const Kind& kind) {
    table.add({name, std::to_string(kind.pictures), std::to_string(kind.reported),
               std::to_string(kind.identified), std::to_string(kind.seen),
               threads == 1 ? fixed(percentile(kind.milliseconds, 0.5), 0) : "-",
               threads == 1 ? fixed(percentile(kind.milliseconds, 0.95), 0) : "-"});
  };
  for (const auto& [name, kind] : kinds) {
    row(name, kind);
    all.pictures += kind.pictures;
    all.reported += kind.reported;
    all.identified += kind.identified;
    all.seen += kind.seen;
    all.milliseconds.insert(all.milliseconds.end(), kind.milliseconds.begin(), kind.milliseconds.end());
  }
  row("all", all);
  std::printf("%s%.0f s\n", table.text().c_str(),
              std::chrono::duration<double>(Watch::now() - start).count());
  return all.reported == 0 ? 0 : 1;
}

}  // namespace counterfoil
