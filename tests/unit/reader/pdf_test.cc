#include "reader/pdf.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "made_pdf.h"
#include "made_picture.h"
#include "reader/photo.h"

namespace counterfoil {
namespace {

constexpr Rgb kBlack{0, 0, 0}, kPaper{235, 235, 230};

MadePicture page_with(const std::string& text) {
  MadePicture picture(400, 300, kPaper);
  picture.draw(text, 80, 60, 6, kBlack, kPaper);
  return picture;
}

// A PDF by hand: one page of that box, with these words in its page and its catalog, and a drawing.
std::string written_pdf(const std::string& media_box, const std::string& in_page,
                        const std::string& in_catalog, const std::string& drawing) {
  std::vector<std::string> objects = {
      "<< /Type /Catalog /Pages 2 0 R " + in_catalog + " >>", "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
      "<< /Type /Page /Parent 2 0 R /MediaBox [" + media_box + "] /Contents 4 0 R " + in_page + " >>",
      "<< /Length " + std::to_string(drawing.size()) + " >>\nstream\n" + drawing + "\nendstream"};
  std::string out = "%PDF-1.7\n", table = "xref\n0 5\n0000000000 65535 f \n";
  for (std::size_t i = 0; i < objects.size(); ++i) {
    std::string at = std::to_string(out.size());
    at.insert(0, 10 - at.size(), '0');
    table += at + " 00000 n \n";
    out += std::to_string(i + 1) + " 0 obj\n" + objects[i] + "\nendobj\n";
  }
  const std::string start = std::to_string(out.size());
  return out + table + "trailer\n<< /Size 5 /Root 1 0 R >>\nstartxref\n" + start + "\n%%EOF\n";
}

TEST(Pdf, TagsOfEveryPageAreReadAndTellTheirPage) {
  const auto photo = read_photo_bytes(
      pdf_of({page_with("CF1:FIRST"), MadePicture(400, 300, kPaper), page_with("CF1:THIRD")}), {});
  ASSERT_TRUE(photo) << photo.error().message;
  EXPECT_EQ(photo->pages, 3);
  EXPECT_EQ(photo->damage, "");
  // 400 pixels at 150 to the inch, drawn at 300.
  EXPECT_EQ(photo->width, 800);
  EXPECT_EQ(photo->height, 600);
  ASSERT_EQ(photo->codes.size(), 2U);
  EXPECT_EQ(photo->codes[0].text, "CF1:FIRST");
  EXPECT_EQ(photo->codes[0].page, 1);
  EXPECT_EQ(photo->codes[1].text, "CF1:THIRD");
  EXPECT_EQ(photo->codes[1].page, 3);
}

TEST(Pdf, ColourIsSeenAndTheLightestChannelTaken) {
  const std::string oil = pdf_of({MadePicture(60, 60, {200, 120, 40})});
  const auto luma = load_picture_bytes(oil, Channel::luma);
  const auto lightest = load_picture_bytes(oil, Channel::lightest);
  ASSERT_TRUE(luma && lightest);
  EXPECT_TRUE(luma->colour);
  EXPECT_NEAR(luma->grey.pixels[60 * 60], 0.299 * 200 + 0.587 * 120 + 0.114 * 40, 2);
  EXPECT_NEAR(lightest->grey.pixels[60 * 60], 200, 2);
  EXPECT_FALSE(load_picture_bytes(pdf_of({MadePicture(60, 60, kPaper)}), Channel::luma)->colour);
}

TEST(Pdf, HugePageIsDrawnWithinTheWorkingPixels) {
  // 200 inches square, the most that the format allows: 3600 megapixels at 300 dots an inch.
  const auto page =
      load_picture_bytes(written_pdf("0 0 14400 14400", "", "", "0 0 7200 14400 re f"), Channel::luma);
  ASSERT_TRUE(page) << page.error().message;
  EXPECT_LE(double{1} * page->width * page->height, kWorkingPixels);
  EXPECT_GT(double{1} * page->width * page->height, kWorkingPixels * 0.9);
  EXPECT_EQ(page->grey.pixels.front(), 0);
  EXPECT_EQ(page->grey.pixels.back(), 255);
}

TEST(Pdf, PageOfNoSensibleShapeIsRefused) {
  for (const char* box : {"0 0 1e30 1e30", "0 0 100000000 1", "0 0 0.001 0.001"}) {
    const auto page = load_picture_bytes(written_pdf(box, "", "", ""), Channel::luma);
    if (page) {
      EXPECT_LE(double{1} * page->width * page->height, kWorkingPixels) << box;
    }
    if (!page) {
      EXPECT_EQ(page.error().kind, ErrorKind::unreadable) << box;
    }
  }
  EXPECT_FALSE(load_picture_bytes(written_pdf("0 0 100000000 1", "", "", ""), Channel::luma));
}

TEST(Pdf, ScriptsAreNotRunAndThePageIsRead) {
  const std::string script =
      "<< /S /JavaScript /JS (while \\(true\\) app.alert\\('x'\\); this.exportDataObject\\(\\);) >>";
  const auto page = load_picture_bytes(
      written_pdf("0 0 72 72", "/AA << /O " + script + " >>", "/OpenAction " + script, "0 0 36 72 re f"),
      Channel::luma);
  ASSERT_TRUE(page) << page.error().message;
  EXPECT_EQ(page->grey.pixels.front(), 0);
  EXPECT_EQ(page->grey.pixels.back(), 255);
}

TEST(Pdf, TurnedPageComesUpright) {
  const auto page =
      load_picture_bytes(written_pdf("0 0 144 72", "/Rotate 90", "", "0 0 36 72 re f"), Channel::luma);
  ASSERT_TRUE(page) << page.error().message;
  EXPECT_EQ(page->width, 300);
  EXPECT_EQ(page->height, 600);
  // The left quarter has become the upper one.
  EXPECT_EQ(page->grey.pixels.front(), 0);
  EXPECT_EQ(page->grey.pixels.back(), 255);
}

TEST(Pdf, LockedFileSaysSo) {
  // Standard security handler, revision 2 (ISO 32000-1 clause 7.6.3), with a password that is not empty: no value of
  // U that is typed in here answers to the empty one.
  const std::string zeros(64, '0');
  std::string pdf = written_pdf("0 0 72 72", "", "", "");
  const auto at = pdf.find("/Root 1 0 R");
  pdf.insert(at, "/ID [<00> <00>] /Encrypt << /Filter /Standard /V 1 /R 2 /P -4 /O <" + zeros + "> /U <" +
                     zeros + "> >> ");
  const auto page = load_picture_bytes(pdf, Channel::luma);
  ASSERT_FALSE(page);
  EXPECT_EQ(page.error().kind, ErrorKind::unreadable);
  EXPECT_NE(page.error().message.find("password"), std::string::npos) << page.error().message;
}

TEST(Pdf, BrokenFileIsUnreadableOrReadInPart) {
  const std::string whole = pdf_of({page_with("CF1:FIRST")});
  EXPECT_FALSE(load_picture_bytes("%PDF-1.7\n", Channel::luma));
  EXPECT_FALSE(load_picture_bytes("%PDF-1.7\n" + std::string(3000, '\xA5'), Channel::luma));
  for (std::size_t n = 0; n < whole.size(); n += 97) {
    const auto page = load_picture_bytes(whole.substr(0, n), Channel::luma);
    if (!page) {
      EXPECT_EQ(page.error().kind, ErrorKind::unreadable) << n;
    }
  }
}

}  // namespace
}  // namespace counterfoil
