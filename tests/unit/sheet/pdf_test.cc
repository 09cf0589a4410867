#include "sheet/pdf.h"

#include <gtest/gtest.h>

#include <fstream>

#include "support/temp_folder.h"

namespace counterfoil {
namespace {

// As Cairo 1.16 ends its files; the first table of drawings names one twice.
constexpr std::string_view kFromCairo =
    "%PDF-1.4\n"
    "3 0 obj\n<<\n   /XObject << /x6 6 0 R /x7 7 0 R /x6 6 0 R /x13 13 0 R /x7 7 0 R >>\n>>\nendobj\n"
    "8 0 obj\n<< /Producer (cairo)\n>>\nendobj\n"
    "9 0 obj\n<< /Type /Catalog\n   /Pages 1 0 R\n>>\nendobj\n"
    "xref\n0 1\n0000000000 65535 f \n"
    "trailer\n<< /Size 10\n   /Root 9 0 R\n   /Info 8 0 R\n>>\nstartxref\n199\n%%EOF\n";

struct Passed {
  std::string bytes;
  Result<void> done;
};

Passed passed(std::string_view cairo, std::size_t piece, std::string_view title = "TA26",
              std::string_view created = "2026-11-25T09:30:15+01:00") {
  const TempFolder folder;
  const std::string path = folder / "a.pdf";
  auto file = NewFile::open(path);
  if (!file) return {"", file.error()};
  PdfStream stream;
  for (std::size_t at = 0; at < cairo.size(); at += piece)
    if (auto done = stream.add(cairo.substr(at, piece), *file); !done) return {"", done};
  auto done = stream.finish(title, created, *file);
  if (done) done = file->commit();
  std::ifstream in(path, std::ios::binary);
  return {{std::istreambuf_iterator<char>(in), {}}, done};
}

TEST(PdfStream, BytesAreTheSameInWhateverPiecesTheyCome) {
  const Passed whole = passed(kFromCairo, kFromCairo.size());
  ASSERT_TRUE(whole.done) << whole.done.error().message;
  for (const std::size_t piece : {1u, 3u, 17u, 64u})
    EXPECT_TRUE(passed(kFromCairo, piece).bytes == whole.bytes) << piece;
}

TEST(PdfStream, NameThatStandsTwiceInADictionaryIsBlankedAndNothingMoves) {
  const Passed whole = passed(kFromCairo, 64);
  ASSERT_TRUE(whole.done);
  EXPECT_NE(whole.bytes.find("/XObject << /x6 6 0 R /x7 7 0 R           /x13 13 0 R           >>\n"),
            std::string::npos)
      << whole.bytes;
  EXPECT_EQ(whole.bytes.find("%%EOF\n"), kFromCairo.find("%%EOF\n"));
}

TEST(PdfStream, TableSaysWhereTheNewObjectsLie) {
  const Passed whole = passed(kFromCairo, 64);
  ASSERT_TRUE(whole.done);
  const std::string& pdf = whole.bytes;
  const auto table = std::stoul(pdf.substr(pdf.rfind("startxref\n") + 10));
  EXPECT_EQ(pdf.substr(table, 5), "xref\n");
  // The replaced ones keep their numbers; the new ones come after Cairo's last.
  for (const int number : {8, 9, 10, 11}) {
    const auto entry = pdf.find("\n" + std::to_string(number) + " 1\n", table);
    ASSERT_NE(entry, std::string::npos) << number;
    const auto at = std::stoul(pdf.substr(pdf.find('\n', entry + 1) + 1, 10));
    EXPECT_TRUE(pdf.substr(at).starts_with(std::to_string(number) + " 0 obj\n")) << number;
  }
  EXPECT_NE(pdf.find("/Size 12 /Root 9 0 R /Info 8 0 R /Prev 199\n", table), std::string::npos);
}

TEST(PdfStream, TitleAndDatesAreWrittenAsIso32000HasThem) {
  // 7.9.2.2 and 7.9.4; the surrogates of U+1F527 are D83D DD27 (The Unicode Standard, 3.9, D91).
  const Passed one = passed(kFromCairo, 64, "Žď <&> \U0001F527");
  ASSERT_TRUE(one.done);
  EXPECT_NE(one.bytes.find("/Title <feff017d010f0020003c0026003e0020d83ddd27>"), std::string::npos);
  EXPECT_NE(one.bytes.find("Žď &lt;&amp;&gt; \U0001F527</rdf:li>"), std::string::npos);
  EXPECT_NE(one.bytes.find("/CreationDate (D:20261125093015+01'00')"), std::string::npos);
  EXPECT_NE(one.bytes.find("<xmp:CreateDate>2026-11-25T09:30:15+01:00<"), std::string::npos);
  const auto date_of = [](std::string_view created) {
    const std::string pdf = passed(kFromCairo, 64, "", created).bytes;
    const auto at = pdf.find("/ModDate (") + 10;
    return pdf.substr(at, pdf.find(')', at) - at);
  };
  EXPECT_EQ(date_of("2026-11-25"), "D:20261125");
  EXPECT_EQ(date_of("2026-11-25T09:30:15Z"), "D:20261125093015Z");
  EXPECT_EQ(date_of("2026-11-25T09:30:15"), "D:20261125093015");
  EXPECT_EQ(date_of("2026-11-25T09:30:15-03:30"), "D:20261125093015-03'30'");
}

TEST(PdfStream, AnotherDocumentHasAnotherIdentifier) {
  const auto id_of = [](std::string_view cairo) {
    const std::string pdf = passed(cairo, 64).bytes;
    return pdf.substr(pdf.rfind("/ID ["), 76);
  };
  std::string other(kFromCairo);
  other.replace(other.find("(cairo)"), 7, "(CAIRO)");
  EXPECT_EQ(id_of(kFromCairo), id_of(kFromCairo));
  EXPECT_NE(id_of(kFromCairo), id_of(other));
}

TEST(PdfStream, BytesThatAreNoPdfOfCairosAreRefused) {
  EXPECT_FALSE(passed("", 64).done);
  std::string without_root(kFromCairo);
  without_root.replace(without_root.find("/Root"), 5, "/Boot");
  EXPECT_FALSE(passed(without_root, 64).done);
  const auto cut = kFromCairo.substr(0, kFromCairo.find("199"));
  EXPECT_FALSE(passed(cut, 64).done);
}

}  // namespace
}  // namespace counterfoil
