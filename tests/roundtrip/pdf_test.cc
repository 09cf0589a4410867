// The PDF as a whole, judged by tools that have nothing of ours: qpdf for its form, Poppler for boxes and fonts.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <sstream>

#include "roundtrip/raster.h"
#include "support/sheet_samples.h"
#include "support/temp_folder.h"

namespace counterfoil {
namespace {

struct Answer {
  std::string text;
  int status = 0;
};

Answer answer_of(const std::string& command) {
  Answer answer;
  FILE* const pipe = popen((command + " 2>&1").c_str(), "r");
  if (pipe == nullptr) return {"", -1};
  char piece[4096];
  for (std::size_t got = 0; (got = std::fread(piece, 1, sizeof piece, pipe)) != 0;)
    answer.text.append(piece, got);
  answer.status = pclose(pipe);
  return answer;
}

// So many pairs that each backdrop has a recording of its own for its place; all tags alike.
std::string long_sheet(const TempFolder& folder, int pairs) {
  const auto order = sample_order("roll-100x150", SheetFormat::pdf, folder / "long.pdf");
  const std::vector<SheetItem> items(static_cast<std::size_t>(pairs), sample_pair(0));
  return value_of(draw_sheet(order, items)).files[0];
}

TEST(Pdf, QpdfFindsNothingWrong) {
  const TempFolder folder;
  if (answer_of("qpdf --version").status != 0) GTEST_SKIP() << "no qpdf here";
  for (const int pairs : {1, 8, 110}) {
    const Answer answer = answer_of("qpdf --check '" + long_sheet(folder, pairs) + "'");
    EXPECT_EQ(answer.status, 0) << answer.text;  // 3 for a warning, such as a name twice in a dictionary
    EXPECT_NE(answer.text.find("No syntax or stream encoding errors"), std::string::npos) << answer.text;
  }
  const Answer catalog = answer_of("qpdf --show-object=trailer '" + (folder / "long.pdf") + "'");
  EXPECT_NE(catalog.text.find("/ID ["), std::string::npos) << catalog.text;
}

TEST(Pdf, PrintersAreToldNotToScaleAndBoxesAreThePage) {
  const TempFolder folder;
  const std::string pdf = long_sheet(folder, 2);
  const Answer boxes = answer_of("pdfinfo -box '" + pdf + "'");
  for (const char* box : {"MediaBox", "CropBox", "BleedBox", "TrimBox", "ArtBox"}) {
    const auto at = boxes.text.find(box);
    ASSERT_NE(at, std::string::npos) << boxes.text;
    std::istringstream line(boxes.text.substr(at));
    std::string name;
    double left = 1, bottom = 1, right = 0, top = 0;
    line >> name >> left >> bottom >> right >> top;
    EXPECT_EQ(left, 0) << box;
    EXPECT_EQ(bottom, 0) << box;
    EXPECT_NEAR(right, 100 / 25.4 * 72, 0.01) << box;
    EXPECT_NEAR(top, 150 / 25.4 * 72, 0.01) << box;
  }
  EXPECT_NE(boxes.text.find("Title:           TA26"), std::string::npos) << boxes.text;
  if (answer_of("qpdf --version").status != 0) GTEST_SKIP() << "no qpdf here";
  const Answer whole = answer_of("qpdf --qdf '" + pdf + "' - | grep -a -A 8 /ViewerPreferences");
  for (const char* entry : {"/PrintScaling /None", "/PickTrayByPDFSize true", "/Duplex /Simplex"})
    EXPECT_NE(whole.text.find(entry), std::string::npos) << entry << whole.text;
}

TEST(Pdf, AllFontsAreEmbedded) {
  const TempFolder folder;
  const Answer fonts = answer_of("pdffonts '" + long_sheet(folder, 2) + "'");
  std::istringstream lines(fonts.text);
  std::string line;
  std::getline(lines, line);
  const auto column = line.find("emb");
  ASSERT_NE(column, std::string::npos) << fonts.text;
  std::getline(lines, line);
  int count = 0;
  for (; std::getline(lines, line); ++count) EXPECT_EQ(line.substr(column, 3), "yes") << fonts.text;
  EXPECT_GE(count, 2);
}

TEST(Pdf, BackdropOfALongDocumentLiesWhereItLayInAShortOne) {
  const TempFolder folder;
  const auto pages = rasterised(long_sheet(folder, 105), 75);
  ASSERT_EQ(pages.size(), 105u);
  // The same pair on each page; only the words on the sheet's number could differ, and a roll has none.
  // A recording counts in 1/256 of a point, and a rasteriser may round a thin edge to the next pixel: a few
  // pixels may differ, where a shift by one pixel makes thousands.
  const auto unlike = [&](int shift) {
    int count = 0;
    for (std::size_t i = 0; i + static_cast<std::size_t>(shift) < pages.front().grey.size(); ++i)
      count += std::abs(pages.front().grey[i] - pages.back().grey[i + static_cast<std::size_t>(shift)]) > 64;
    return count;
  };
  EXPECT_GT(unlike(1), 2000);
  EXPECT_LE(unlike(0), 50);
  EXPECT_GT(pages.front().ink_in({0, 0, 100, 150}).width_mm, 50);
}

}  // namespace
}  // namespace counterfoil
