#include "base/file.h"

#include <gtest/gtest.h>
#include <sys/stat.h>

#include <filesystem>

#include "base/text.h"
#include "support/temp_folder.h"

namespace counterfoil {
namespace {

std::size_t files_in(const TempFolder& folder) {
  const std::filesystem::directory_iterator all(folder.path());
  return static_cast<std::size_t>(std::distance(begin(all), end(all)));
}

unsigned mode_of(const std::string& path) {
  struct stat about {};
  EXPECT_EQ(::stat(path.c_str(), &about), 0);
  return about.st_mode & 07777u;
}

TEST(File, ComesBackByteForByte) {
  const TempFolder folder;
  std::string bytes;
  for (int i = 0; i < 200000; ++i) bytes += static_cast<char>(i * 7 + i / 256);
  ASSERT_TRUE(write_file(folder / "a", bytes));
  const auto back = read_file(folder / "a", bytes.size());
  ASSERT_TRUE(back);
  EXPECT_EQ(*back, bytes);
  EXPECT_EQ(*sha256_of_file(folder / "a"), sha256(bytes));
}

TEST(File, OverTheLimitIsRefused) {
  const TempFolder folder;
  ASSERT_TRUE(write_file(folder / "a", "12345"));
  EXPECT_TRUE(read_file(folder / "a", 5));
  const auto over = read_file(folder / "a", 4);
  ASSERT_FALSE(over);
  EXPECT_EQ(over.error().kind, ErrorKind::unreadable);
  EXPECT_FALSE(read_file("/dev/zero", 1 << 20));
}

TEST(File, ThatIsNotThereOrIsAFolderIsUnreadable) {
  const TempFolder folder;
  for (const auto& path : {folder / "missing", folder.path()}) {
    const auto bytes = read_file(path, 100);
    ASSERT_FALSE(bytes) << path;
    EXPECT_EQ(bytes.error().kind, ErrorKind::unreadable);
    EXPECT_NE(bytes.error().message.find(path), std::string::npos);
    EXPECT_FALSE(sha256_of_file(path)) << path;
  }
}

TEST(File, IsReplacedWholeWithTheGivenMode) {
  const TempFolder folder;
  ASSERT_TRUE(write_file(folder / "key", "old and longer", 0644));
  EXPECT_EQ(mode_of(folder / "key"), 0644u);
  ASSERT_TRUE(write_file(folder / "key", "new", 0600));
  EXPECT_EQ(*read_file(folder / "key", 100), "new");
  EXPECT_EQ(mode_of(folder / "key"), 0600u);
  EXPECT_EQ(files_in(folder), 1u);
}

TEST(File, FailedWriteLeavesNothingBehind) {
  const TempFolder folder;
  ASSERT_TRUE(std::filesystem::create_directory(folder / "taken"));
  ASSERT_TRUE(write_file(folder / "taken/inside", "x"));
  const auto onto_folder = write_file(folder / "taken", "x");
  ASSERT_FALSE(onto_folder);
  EXPECT_EQ(onto_folder.error().kind, ErrorKind::unreadable);
  EXPECT_FALSE(write_file(folder / "missing/a", "x"));
  EXPECT_EQ(files_in(folder), 1u);
}

TEST(NewFile, HasItsNameOnlyAfterCommit) {
  const TempFolder folder;
  {
    auto file = NewFile::open(folder / "a");
    ASSERT_TRUE(file);
    ASSERT_TRUE(file->add("one "));
    ASSERT_TRUE(file->add("two"));
    ASSERT_TRUE(file->finish());
    EXPECT_FALSE(std::filesystem::exists(folder / "a"));
    ASSERT_TRUE(file->commit());
    EXPECT_EQ(*read_file(folder / "a", 100), "one two");
  }
  EXPECT_EQ(files_in(folder), 1u);
}

TEST(NewFile, WithoutCommitLeavesNothingBehind) {
  const TempFolder folder;
  {
    auto file = NewFile::open(folder / "a");
    ASSERT_TRUE(file && file->add("half"));
    const NewFile moved = *std::move(file);
    EXPECT_EQ(files_in(folder), 1u);
  }
  EXPECT_EQ(files_in(folder), 0u);
}

}  // namespace
}  // namespace counterfoil
