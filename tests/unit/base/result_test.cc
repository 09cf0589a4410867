#include "base/result.h"

#include <gtest/gtest.h>

#include <memory>

namespace counterfoil {
namespace {

TEST(Result, HoldsAValueOrAnError) {
  const Result<int> value = 7;
  ASSERT_TRUE(value);
  EXPECT_EQ(*value, 7);
  const Result<int> error = refused("no", "try again");
  ASSERT_FALSE(error);
  EXPECT_EQ(error.error().kind, ErrorKind::refused);
  EXPECT_EQ(error.error().message, "no");
  EXPECT_EQ(error.error().hint, "try again");
}

TEST(Result, GivesAValueThatCanOnlyBeMoved) {
  Result<std::unique_ptr<int>> held = std::make_unique<int>(7);
  const std::unique_ptr<int> taken = *std::move(held);
  EXPECT_EQ(*taken, 7);
}

TEST(Result, OfVoidIsDoneUnlessAnErrorIsGiven) {
  EXPECT_TRUE(Result<void>());
  const Result<void> error = unreadable("gone");
  ASSERT_FALSE(error);
  EXPECT_EQ(error.error().kind, ErrorKind::unreadable);
}

TEST(ResultDeathTest, ReadingTheSideThatIsNotThereAborts) {
  EXPECT_DEATH(
      {
        const Result<int> error = malformed("no");
        const int value = *error;
        (void)value;
      },
      "");
  EXPECT_DEATH(
      {
        const Result<int> value = 7;
        (void)value.error();
      },
      "");
  EXPECT_DEATH((void)Result<void>().error(), "");
}

}  // namespace
}  // namespace counterfoil
