#include "base/ahead.h"

#include <gtest/gtest.h>

#include <atomic>
#include <memory>
#include <stdexcept>

namespace counterfoil {
namespace {

// Counts up from 0, so many.
auto counting(int count, std::atomic<int>* made = nullptr) {
  return [count, made, next = 0]() mutable -> std::optional<int> {
    if (next == count) return std::nullopt;
    if (made != nullptr) ++*made;
    return next++;
  };
}

TEST(Ahead, GivesAllInOrderThenNothing) {
  for (const std::size_t most : {1U, 2U, 3U, 64U}) {
    Ahead<int> ahead(most, counting(1000));
    for (int i = 0; i < 1000; ++i) ASSERT_EQ(ahead.next(), i) << most;
    EXPECT_EQ(ahead.next(), std::nullopt);
    EXPECT_EQ(ahead.next(), std::nullopt);
  }
}

TEST(Ahead, NothingAtAllIsNothing) {
  Ahead<int> ahead(4, counting(0));
  EXPECT_EQ(ahead.next(), std::nullopt);
}

// Whoever makes the last of `most` + 1 waits with it in hand, whatever the threads' luck.
TEST(Ahead, MakesNoMoreThanItMayHold) {
  std::atomic<int> made = 0;
  {
    Ahead<int> ahead(8, counting(1'000'000, &made));
    ASSERT_EQ(ahead.next(), 0);
  }
  EXPECT_LE(made, 1 + 8 + 1);
}

TEST(Ahead, GoesWhileTheRestIsNotAskedFor) {
  for (int taken = 0; taken < 20; ++taken) {
    Ahead<int> ahead(4, counting(1000));
    for (int i = 0; i < taken; ++i) ASSERT_EQ(ahead.next(), i);
  }
}

TEST(Ahead, ThrowsInItsPlaceWhatMakingThrew) {
  Ahead<int> ahead(4, [next = 0]() mutable -> std::optional<int> {
    if (next == 3) throw std::runtime_error("the third");
    return next++;
  });
  for (int i = 0; i < 3; ++i) EXPECT_EQ(ahead.next(), i);
  EXPECT_THROW(ahead.next(), std::runtime_error);
  EXPECT_EQ(ahead.next(), std::nullopt);
}

TEST(Ahead, HoldsWhatCanOnlyBeMoved) {
  Ahead<std::unique_ptr<int>> ahead(2, [left = 5]() mutable -> std::optional<std::unique_ptr<int>> {
    if (left == 0) return std::nullopt;
    return std::make_unique<int>(left--);
  });
  for (int i = 5; i > 0; --i) EXPECT_EQ(**ahead.next(), i);
}

}  // namespace
}  // namespace counterfoil
