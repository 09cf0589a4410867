// Sheets into a print queue, and out of it: the test printer of CUPS (ippeveprinter) takes them by IPP and keeps
// the files and what was asked for with each.
#include "queue/queue.h"

#include <gtest/gtest.h>

#include <array>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <thread>

#include "support/sheet_samples.h"
#include "support/temp_folder.h"

namespace counterfoil {
namespace {

std::string bytes_of_file(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

class FilePrinter : public testing::Test {
 protected:
  void SetUp() override {
    if (std::system("PATH=$PATH:/usr/sbin; command -v ippeveprinter >/dev/null && command -v dbus-daemon "
                    ">/dev/null") != 0)
      GTEST_SKIP() << "no ippeveprinter here (Debian's cups-ipp-utils and dbus-daemon)";
    FILE* const start = popen((kScript + " '" + folder_.path() + "'").c_str(), "r");
    ASSERT_NE(start, nullptr);
    std::array<char, 256> line{};
    if (std::fgets(line.data(), line.size(), start) != nullptr) address_ = line.data();
    ASSERT_EQ(pclose(start), 0);
    while (!address_.empty() && address_.back() == '\n') address_.pop_back();
  }
  void TearDown() override {
    if (address_.empty()) return;
    EXPECT_EQ(std::system((kScript + " '" + folder_.path() + "' --stop").c_str()), 0);
  }

  // What was asked for with a job; the printer writes it while it prints.
  std::string attributes_of(int job) const {
    const std::string path = folder_ / (std::to_string(job) + ".attributes");
    for (int i = 0; i < 1000 && !std::filesystem::exists(path); ++i)
      std::this_thread::sleep_for(std::chrono::milliseconds(10));
    return bytes_of_file(path);
  }
  // The file that came with a job.
  std::string file_of(int job, const std::string& ending) const {
    for (const auto& entry : std::filesystem::directory_iterator(folder_ / "jobs"))
      if (entry.path().filename().string().starts_with(std::to_string(job) + "-") &&
          entry.path().extension() == ending)
        return bytes_of_file(entry.path().string());
    return "";
  }

  const std::string kScript = COUNTERFOIL_SOURCE "/tests/support/file_printer.py";
  TempFolder folder_;
  std::string address_;
};

std::string sheet_in(const TempFolder& folder, const char* stock, SheetFormat format, const char* name) {
  return value_of(draw_sheet(sample_order(stock, format, folder / name), {sample_pair(0)})).files[0];
}

TEST_F(FilePrinter, GetsTheFilesBytesTheMediumsSizeAndNoScaling) {
  const std::string pdf = sheet_in(folder_, "a4-2x4", SheetFormat::pdf, "a.pdf");
  const auto sent = send(address_, {"Tag pairs TA26", pdf, 210, 297});
  ASSERT_TRUE(sent) << sent.error().message;
  EXPECT_TRUE(sent->unscaled);
  const std::string asked = attributes_of(sent->number);
  EXPECT_TRUE(file_of(sent->number, ".pdf") == bytes_of_file(pdf));
  for (const char* line :
       {"IPP_JOB_NAME=Tag pairs TA26\n", "IPP_PRINT_SCALING=none\n", "IPP_COPIES=1\n",
        "IPP_SIDES=one-sided\n", "IPP_MEDIA_COL={media-size={x-dimension=21000 y-dimension=29700}}\n"})
    EXPECT_NE(asked.find(line), std::string::npos) << line << asked;
}

TEST_F(FilePrinter, GetsDotsOfARollOfASizeBetweenItsLimits) {
  const std::string png = sheet_in(folder_, "roll-4x6in", SheetFormat::png, "a.png");
  const auto sent = send(address_, {"roll", png, 101.6, 152.4});
  ASSERT_TRUE(sent) << sent.error().message;
  const std::string asked = attributes_of(sent->number);
  EXPECT_TRUE(file_of(sent->number, ".png") == bytes_of_file(png));
  EXPECT_NE(asked.find("IPP_MEDIA_COL={media-size={x-dimension=10160 y-dimension=15240}}\n"),
            std::string::npos)
      << asked;
}

TEST_F(FilePrinter, MediumThatItDoesNotHaveIsRefusedAndNothingIsSent) {
  const std::string pdf = sheet_in(folder_, "letter-2x3", SheetFormat::pdf, "a.pdf");
  const auto sent = send(address_, {"letter", pdf, 215.9, 279.4});
  ASSERT_FALSE(sent);
  EXPECT_EQ(sent.error().kind, ErrorKind::refused);
  EXPECT_NE(sent.error().message.find("has no medium of 215.9 x 279.4 mm"), std::string::npos)
      << sent.error().message;
  EXPECT_EQ(sent.error().hint, "it has, in mm: 210 x 297, 20 to 110 x 20 to 300");
  EXPECT_TRUE(std::filesystem::is_empty(folder_ / "jobs"));
  // Half a millimetre is how far a printer's idea of a size may be off.
  EXPECT_TRUE(send(address_, {"rounded", pdf, 210.4, 296.6}));
  EXPECT_FALSE(send(address_, {"too far", pdf, 210.6, 297}));
}

TEST_F(FilePrinter, FileThatNoPrinterTakesIsRefused) {
  const std::string svg = sheet_in(folder_, "a4-2x4", SheetFormat::svg, "a.svg");
  EXPECT_FALSE(send(address_, {"drawing", svg, 210, 297}));
  const auto absent = send(address_, {"absent", folder_ / "absent.pdf", 210, 297});
  ASSERT_FALSE(absent);
  EXPECT_EQ(absent.error().kind, ErrorKind::unreadable);
  EXPECT_TRUE(std::filesystem::is_empty(folder_ / "jobs"));
}

TEST_F(FilePrinter, WrongPathOfAPrinterIsRefusedAsAQueueThatIsNotThere) {
  const std::string pdf = sheet_in(folder_, "a4-2x4", SheetFormat::pdf, "a.pdf");
  const auto sent = send(address_ + "/absent", {"lost", pdf, 210, 297});
  ASSERT_FALSE(sent);
  EXPECT_EQ(sent.error().kind, ErrorKind::refused);
  EXPECT_NE(sent.error().message.find("there is no printer behind " + address_ + "/absent"),
            std::string::npos)
      << sent.error().message;
}

TEST(Queue, PrinterThatIsNotThereIsUnreadable) {
  const TempFolder folder;
  const std::string pdf = sheet_in(folder, "a4-2x4", SheetFormat::pdf, "a.pdf");
  // Port 9 takes nothing (RFC 863), and nobody offers it any more.
  const auto sent = send("ipp://localhost:9/ipp/print", {"lost", pdf, 210, 297});
  ASSERT_FALSE(sent);
  EXPECT_EQ(sent.error().kind, ErrorKind::unreadable);
  EXPECT_NE(sent.error().message.find("does not answer"), std::string::npos) << sent.error().message;
}

TEST(Queue, WhatIsNeitherAQueuesNameNorAPrintersAddressIsMalformed) {
  const TempFolder folder;
  const std::string pdf = sheet_in(folder, "a4-2x4", SheetFormat::pdf, "a.pdf");
  for (const char* to : {"", "a b", "a/b", "http://localhost/ipp/print", "ipp://",
                         "ipp://user@localhost/ipp/print", "file:///dev/usb/lp0"}) {
    const auto sent = send(to, {"lost", pdf, 210, 297});
    ASSERT_FALSE(sent) << to;
    EXPECT_EQ(sent.error().kind, ErrorKind::malformed) << to << " " << sent.error().message;
  }
}

}  // namespace
}  // namespace counterfoil
