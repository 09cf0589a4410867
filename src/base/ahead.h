// Values that a thread of its own makes before they are asked for: where each takes as long to make as to use, all are
// ready in half the time. In order, and never more than so many at once, so that memory stays flat.
#pragma once

#include <condition_variable>
#include <deque>
#include <exception>
#include <functional>
#include <mutex>
#include <optional>
#include <thread>
#include <utility>

namespace counterfoil {

template <typename Value>
class Ahead {
 public:
  // `make` is called on the other thread, until it gives nothing, throws, or this object goes. What it refers
  // to has to outlive this object.
  Ahead(std::size_t most, std::function<std::optional<Value>()> make)
      : most_(most), make_(std::move(make)), thread_([this] { work(); }) {}
  ~Ahead() {
    {
      const std::lock_guard guard(mutex_);
      stopped_ = true;
    }
    room_.notify_one();
    thread_.join();
  }
  Ahead(const Ahead&) = delete;
  Ahead& operator=(const Ahead&) = delete;

  // The next one; nothing behind the last. Throws what `make` threw in its place.
  std::optional<Value> next() {
    std::unique_lock lock(mutex_);
    ready_.wait(lock, [&] { return !values_.empty() || ended_; });
    if (values_.empty()) {
      if (failure_) std::rethrow_exception(std::exchange(failure_, nullptr));
      return std::nullopt;
    }
    Value value = std::move(values_.front());
    values_.pop_front();
    const bool half_empty = values_.size() == most_ / 2;
    lock.unlock();
    // Woken for many values, not for each: waking takes as long as making one.
    if (half_empty) room_.notify_one();
    return value;
  }

 private:
  void work() {
    try {
      while (auto value = make_()) {
        std::unique_lock lock(mutex_);
        if (values_.size() == most_)
          room_.wait(lock, [&] { return values_.size() <= most_ / 2 || stopped_; });
        if (stopped_) return;
        values_.push_back(std::move(*value));
        lock.unlock();
        ready_.notify_one();
      }
    } catch (...) {
      failure_ = std::current_exception();
    }
    const std::lock_guard guard(mutex_);
    ended_ = true;
    ready_.notify_one();
  }

  const std::size_t most_;
  const std::function<std::optional<Value>()> make_;
  std::mutex mutex_;
  std::condition_variable ready_, room_;
  std::deque<Value> values_;
  bool ended_ = false, stopped_ = false;
  std::exception_ptr failure_;  // written before `ended_`
  std::thread thread_;          // the last, so that all the rest is there when it begins
};

}  // namespace counterfoil
