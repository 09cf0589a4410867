#include "workflow/read.h"

#include <algorithm>
#include <atomic>
#include <condition_variable>
#include <exception>
#include <mutex>
#include <thread>
#include <utility>

namespace counterfoil {
namespace {

std::vector<Payload> likely_tags(const std::vector<std::string>& texts) {
  std::vector<Payload> likely;
  for (const auto& text : texts) {
    auto payload = parse_payload(text);
    if (!payload) continue;
    const auto same = [&](const Payload& other) { return other.number == payload->number; };
    if (std::none_of(likely.begin(), likely.end(), same)) likely.push_back(std::move(*payload));
  }
  return likely;
}

// Threads that read photographs; the one that asked takes what they read.
class ReadingRoom {
 public:
  ReadingRoom(const std::vector<std::string>& paths, Sought sought, const ReadingTerms& terms,
              const KnownTexts* known)
      : paths_(paths), sought_(sought), terms_(terms), known_(known), read_(paths.size()) {
    const auto wanted = static_cast<std::size_t>(std::max(1, terms.threads));
    for (std::size_t i = 0; i < std::min(wanted, paths.size()); ++i)
      threads_.emplace_back([this] { work(); });
  }
  ReadingRoom(const ReadingRoom&) = delete;
  ReadingRoom& operator=(const ReadingRoom&) = delete;
  ~ReadingRoom() {
    next_ = paths_.size();  // begin no more
    for (auto& thread : threads_) thread.join();
  }

  void hand_to(const std::function<void(PhotoRead)>& take) {
    std::size_t told = 0;
    for (std::size_t index = 0; index < paths_.size();) {
      std::optional<PhotoRead> photo;
      std::size_t done = 0;
      {
        std::unique_lock lock(mutex_);
        more_.wait(lock, [&] { return failure_ || done_ > told || read_[index]; });
        if (failure_) std::rethrow_exception(failure_);
        photo = std::exchange(read_[index], std::nullopt);
        done = done_;
      }
      if (terms_.progress && done > told) terms_.progress(done, paths_.size());
      told = done;
      if (!photo) continue;
      take(std::move(*photo));
      ++index;
    }
  }

 private:
  double now() const { return terms_.clock ? terms_.clock() : 0; }

  void work() {
    for (std::size_t index = next_++; index < paths_.size(); index = next_++) {
      std::optional<PhotoRead> photo;
      std::exception_ptr failure;
      try {
        const double begun = now();
        auto reading = read_tags(paths_[index], sought_, terms_, known_);
        photo.emplace(PhotoRead{index, std::move(reading), now() - begun});
      } catch (...) {
        failure = std::current_exception();  // a bug, or no memory: told by the one who asked
      }
      const std::lock_guard lock(mutex_);
      read_[index] = std::move(photo);
      if (failure && !failure_) failure_ = failure;
      ++done_;
      more_.notify_one();
    }
  }

  const std::vector<std::string>& paths_;
  const Sought sought_;
  const ReadingTerms& terms_;
  const KnownTexts* known_;
  std::atomic<std::size_t> next_ = 0;
  std::mutex mutex_;
  std::condition_variable more_;
  std::vector<std::optional<PhotoRead>> read_;  // not yet taken
  std::size_t done_ = 0;
  std::exception_ptr failure_;
  std::vector<std::thread> threads_;
};

}  // namespace

Result<TagReading> read_tags(const std::string& path, Sought sought, const ReadingTerms& terms,
                             const KnownTexts* known) {
  PhotoOptions options;
  options.any = sought != Sought::ours;
  options.wanted = [sought](std::string_view text) {
    if (sought == Sought::any) return true;
    const auto payload = parse_payload(text);
    // One that has our form and does not check is told to the person, not searched past.
    return payload || payload.error().kind == ErrorKind::malformed;
  };
  options.known = known;
  options.effort = terms.effort;
  double begun = 0;
  if (terms.clock) {
    options.page_begins = [&] { begun = terms.clock(); };
    options.time_left = [&] { return terms.clock() - begun < terms.seconds_a_picture; };
  }
  auto photo = read_photo(path, options);
  if (!photo) return photo.error();
  TagReading reading;
  reading.words = std::move(photo->words);
  reading.damage = std::move(photo->damage);
  reading.pages = photo->pages;
  reading.time_ran_out = photo->time_ran_out;
  for (auto& code : photo->codes) {
    auto payload = parse_payload(code.text);
    TagSeen seen{std::move(code), std::nullopt};
    if (payload) seen.payload = std::move(*payload);
    reading.tags.push_back(std::move(seen));
  }
  for (const auto& unread : photo->unread)
    reading.unread.push_back({unread.corners, unread.page, likely_tags(unread.likely)});
  return reading;
}

void read_all(const std::vector<std::string>& paths, Sought sought, const ReadingTerms& terms,
              const KnownTexts* known, const std::function<void(PhotoRead)>& take) {
  ReadingRoom(paths, sought, terms, known).hand_to(take);
}

std::vector<Result<TagReading>> read_all(const std::vector<std::string>& paths, Sought sought,
                                         const ReadingTerms& terms, const KnownTexts* known) {
  std::vector<Result<TagReading>> readings;
  read_all(paths, sought, terms, known,
           [&](PhotoRead photo) { readings.push_back(std::move(photo.reading)); });
  return readings;
}

std::string advice_after(const TagReading& reading, std::string_view advice) {
  std::string all;
  if (reading.time_ran_out) {
    all += kTimeRanOut;
    all += "; else ";
  }
  all += advice;
  return all;
}

std::string half_words(const Payload& payload) {
  std::string words =
      payload.half == Half::label ? "identification label" : std::string(to_text(payload.half)) + " half";
  if (payload.copy > 1) words += ", copy " + std::to_string(payload.copy);
  return words;
}

}  // namespace counterfoil
