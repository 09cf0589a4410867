#include "base/csv.h"

#include <gtest/gtest.h>

namespace counterfoil {
namespace {

using Row = std::vector<std::string>;

CsvTable read(std::string_view text) {
  auto table = parse_csv(text);
  EXPECT_TRUE(table) << table.error().message;
  return *std::move(table);
}

std::string complaint(std::string_view text) {
  const auto table = parse_csv(text);
  EXPECT_FALSE(table) << text;
  return table ? "" : table.error().message;
}

// RFC 4180 section 2, its examples with a header line in front where it has none.
TEST(Csv, ExamplesOfTheStandardAreRead) {
  EXPECT_EQ(read("a,b,c\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n").rows,
            (std::vector<Row>{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
  EXPECT_EQ(read("a,b,c\r\naaa,bbb,ccc\r\nzzz,yyy,xxx").rows,
            (std::vector<Row>{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
  EXPECT_EQ(read("field_name,field_name2,field_name3\r\n").header,
            (Row{"field_name", "field_name2", "field_name3"}));
  EXPECT_EQ(read("a,b,c\r\n\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx").rows[0], (Row{"aaa", "bbb", "ccc"}));
  EXPECT_EQ(read("a,b,c\r\n\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx").rows[0],
            (Row{"aaa", "b\r\nbb", "ccc"}));
  EXPECT_EQ(read("a,b,c\r\n\"aaa\",\"b\"\"bb\",\"ccc\"").rows[0], (Row{"aaa", "b\"bb", "ccc"}));
}

TEST(Csv, WhatSpreadsheetsWriteIsReadAlike) {
  const CsvTable plain = read("Unit,Pocket\nU2,2 HE S1\nU2,2 HE D1\n");
  EXPECT_EQ(plain.header, (Row{"unit", "pocket"}));
  for (const char* text :
       {"\xef\xbb\xbfUnit,Pocket\r\nU2,2 HE S1\r\nU2,2 HE D1\r\n", "Unit;Pocket\nU2;2 HE S1\nU2;2 HE D1",
        "Unit\tPocket\nU2\t2 HE S1\nU2\t2 HE D1", "Unit,Pocket\rU2,2 HE S1\rU2,2 HE D1\r",
        "\n\n UNIT , pocket\n,\nU2, 2 HE S1 \n\n , \n\"U2\" , \"2 HE D1\" \n,\n"}) {
    const CsvTable table = read(text);
    EXPECT_EQ(table.header, plain.header) << text;
    EXPECT_EQ(table.rows, plain.rows) << text;
  }
}

TEST(Csv, SeparatorIsTakenFromTheHeaderLine) {
  EXPECT_EQ(read("unit;pocket\nU2;1,5 in").rows[0], (Row{"U2", "1,5 in"}));
  EXPECT_EQ(read("\r\n\r\nunit;pocket\nU2;1,5 in").rows[0], (Row{"U2", "1,5 in"}));
}

TEST(Csv, QuotedFieldKeepsItsSpaces) { EXPECT_EQ(read("a,b\n\" x \", y \n").rows[0], (Row{" x ", "y"})); }

TEST(Csv, QuoteWithinABareFieldStays) {
  EXPECT_EQ(read("a,b\n2\" valve,x").rows[0], (Row{"2\" valve", "x"}));
}

TEST(Csv, RowsKnowTheirLine) {
  EXPECT_EQ(read("a,b\r\n\r\n1,\"x\r\ny\"\r\n2,z\r\n").lines, (std::vector<std::size_t>{3, 5}));
  EXPECT_EQ(read("a,b\r1,\"x\ny\"\r2,z").lines, (std::vector<std::size_t>{2, 4}));
}

TEST(Csv, ColumnsAreFoundByName) {
  const CsvTable table = read("Unit,Pocket\n");
  EXPECT_EQ(table.column("pocket"), 1u);
  EXPECT_EQ(table.column("side"), CsvTable::npos);
}

TEST(Csv, ErrorsNameTheLine) {
  EXPECT_EQ(complaint("a,b\n1,2\n1\n"), "line 3 has 1 field, the header has 2");
  EXPECT_EQ(complaint("a,b\n1,2,3\n"), "line 2 has 3 fields, the header has 2");
  EXPECT_EQ(complaint("a,b\n1,\"x\ny\n"), "line 2 opens a quote that nothing closes");
  EXPECT_EQ(complaint("a,b\n\"1\"x,2\n"), "line 2 has text behind a closing quote");
  EXPECT_EQ(complaint("a,b\n\"1\"\"x\" \"\",2\n"), "line 2 has text behind a closing quote");
  EXPECT_EQ(complaint(std::string_view("a,b\n\0,2\n", 8)), "line 2 holds a NUL byte");
}

TEST(Csv, WithoutAHeaderOrWithOneNameTwiceIsRefused) {
  for (const char* text : {"", "\n\n", ",,\n", "\xef\xbb\xbf"})
    EXPECT_EQ(complaint(text), "the file is empty") << text;
  EXPECT_EQ(complaint("Unit,pocket,unit \n"), "the header has two columns \"unit\"");
}

TEST(Csv, ThatIsNotUtf8IsRefused) {
  const auto table = parse_csv("station\n\x8e\xef\xe1r\n");  // Windows-1250
  ASSERT_FALSE(table);
  EXPECT_FALSE(table.error().hint.empty());
}

TEST(Csv, RecordsComeBack) {
  const std::vector<Row> rows = {{"\xc5\xbd\xc4\x8f\xc3\xa1r", "x"},
                                 {"a,b", "c\"d"},
                                 {"line\r\nbreak", "cr\ralone"},
                                 {" kept ", "x\t"},
                                 {"", "one empty"},
                                 {"2 HE S1", "-12.5"}};
  std::string text = csv_record({"a", "b"});
  for (const Row& row : rows) text += csv_record(row);
  EXPECT_EQ(read(text).rows, rows);
}

TEST(Csv, FieldThatASpreadsheetWouldRunIsGuarded) {
  EXPECT_EQ(csv_record({"=1+1", "+SUM(A1)", "-A1", "@x", "\t=1"}), "'=1+1,'+SUM(A1),'-A1,'@x,'\t=1\r\n");
  EXPECT_EQ(csv_record({"-5", "+49", "-1.5", "a=1", "5-3"}), "-5,+49,-1.5,a=1,5-3\r\n");
}

}  // namespace
}  // namespace counterfoil
