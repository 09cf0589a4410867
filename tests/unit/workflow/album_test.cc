#include "workflow/album.h"

#include <gtest/gtest.h>
#include <sys/stat.h>

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "base/file.h"
#include "support/temp_folder.h"

namespace counterfoil {
namespace {

namespace fs = std::filesystem;

class AlbumTest : public ::testing::Test {
 protected:
  void put(const std::string& name, const std::string& bytes) {
    fs::create_directories(fs::path(folder_ / name).parent_path());
    ASSERT_TRUE(write_file(folder_ / name, bytes));
  }
  void put_picture(const std::string& name) { put(name, "\xFF\xD8\xFF\xE0 and so on"); }
  std::string within(const std::string& path) const { return path.substr(folder_.path().size() + 1); }
  std::vector<std::string> pictures() const {
    const auto album = open_album(folder_.path());
    if (!album) return {album.error().message};
    std::vector<std::string> out;
    for (const auto& path : album->pictures) out.push_back(within(path));
    return out;
  }
  std::map<std::string, std::string> left_out() const {
    std::map<std::string, std::string> out;
    const auto album = open_album(folder_.path());
    if (album)
      for (const auto& file : album->left_out) out[within(file.path)] = file.what;
    return out;
  }

  TempFolder folder_;
};

using Names = std::vector<std::string>;

TEST_F(AlbumTest, PicturesComeInTheOrderOfTheirNamesFromAllFoldersBelow) {
  for (const char* name : {"c.jpg", "a.jpg", "b/2.jpg", "b/1.jpg", "b/a/9.JPG", "d.jpg"}) put_picture(name);
  EXPECT_EQ(pictures(), (Names{"a.jpg", "b/1.jpg", "b/2.jpg", "b/a/9.JPG", "c.jpg", "d.jpg"}));
  EXPECT_TRUE(left_out().empty());
}

TEST_F(AlbumTest, WhatLiesBesidePhotographsIsLeftOutWithAWord) {
  put_picture("IMG_1.HEIC");
  put_picture("IMG_1.MOV");  // by its name, whatever its content
  put("IMG_1.AAE", "<plist/>");
  put("IMG_1.xmp", "<x/>");
  put("IMG_2.mp4", "film");
  put("IMG_2.THM", "small");
  put("list.json", "{}");
  put("Thumbs.db", "small");
  put("notes.jpg", "not a picture");
  put("empty.png", "");
  EXPECT_EQ(pictures(), Names{"IMG_1.HEIC"});
  EXPECT_EQ(left_out(), (std::map<std::string, std::string>{{"IMG_1.AAE", "lists of edits"},
                                                            {"IMG_1.MOV", "films"},
                                                            {"IMG_1.xmp", "lists of edits"},
                                                            {"IMG_2.THM", "thumbnails"},
                                                            {"IMG_2.mp4", "films"},
                                                            {"Thumbs.db", "thumbnails"},
                                                            {"empty.png", "files that are no pictures"},
                                                            {"list.json", "lists beside pictures"},
                                                            {"notes.jpg", "files that are no pictures"}}));
}

TEST_F(AlbumTest, HiddenFilesAndFoldersArePassedOver) {
  put_picture("a.jpg");
  put_picture(".b.jpg");
  put_picture(".trash/c.jpg");
  put(".DS_Store", "x");
  EXPECT_EQ(pictures(), Names{"a.jpg"});
  EXPECT_TRUE(left_out().empty());
}

TEST_F(AlbumTest, LinksToFoldersAreNotFollowedAndLinksToPicturesAre) {
  put_picture("a/1.jpg");
  fs::create_directory_symlink(folder_.path(), folder_ / "a/loop");
  fs::create_symlink(folder_ / "a/1.jpg", folder_ / "a/2.jpg");
  fs::create_symlink(folder_ / "gone.jpg", folder_ / "a/3.jpg");
  EXPECT_EQ(pictures(), (Names{"a/1.jpg", "a/2.jpg"}));
  EXPECT_EQ(left_out(), (std::map<std::string, std::string>{{"a/3.jpg", "files that are no pictures"},
                                                            {"a/loop", "links to folders"}}));
}

TEST_F(AlbumTest, PipeIsNotWaitedFor) {
  put_picture("a.jpg");
  ASSERT_EQ(::mkfifo((folder_ / "b.jpg").c_str(), 0600), 0);
  EXPECT_EQ(pictures(), Names{"a.jpg"});
  EXPECT_EQ(left_out().size(), 1U);
}

TEST_F(AlbumTest, FolderWithoutPictureIsRefusedAndAbsentOneUnreadable) {
  put("notes.txt", "x");
  const auto none = open_album(folder_.path());
  ASSERT_FALSE(none);
  EXPECT_EQ(none.error().kind, ErrorKind::refused);
  EXPECT_NE(none.error().message.find("no picture"), std::string::npos);
  const auto absent = open_album(folder_ / "absent");
  ASSERT_FALSE(absent);
  EXPECT_EQ(absent.error().kind, ErrorKind::unreadable);
}

}  // namespace
}  // namespace counterfoil
