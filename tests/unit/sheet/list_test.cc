#include "sheet/list.h"

#include <gtest/gtest.h>

#include <filesystem>

#include "base/file.h"
#include "support/paper_samples.h"
#include "support/sheet_samples.h"
#include "support/temp_folder.h"

namespace counterfoil {
namespace {

TEST(PaperListTest, SameInputAndDateGiveTheSameBytes) {
  const TempFolder folder;
  for (const char* name : {"one.pdf", "two.pdf"})
    ASSERT_TRUE(draw_list(sample_paper(SheetFormat::pdf, folder / name), paper_list(sample_carton(2))));
  EXPECT_EQ(*read_file(folder / "one.pdf", 1 << 20), *read_file(folder / "two.pdf", 1 << 20));
}

TEST(PaperListTest, RowsThatCannotBeShownWholeAreRefusedByRowColumnAndText) {
  const TempFolder folder;
  const auto fault_of = [&](auto change) {
    PaperList list = paper_list(sample_carton(3));
    change(list);
    const auto drawn = draw_list(sample_paper(SheetFormat::pdf, folder / "a.pdf"), list);
    EXPECT_TRUE(std::filesystem::is_empty(folder.path()));
    return drawn ? std::string("drawn") : drawn.error().message;
  };
  const std::string word(60, 'W');
  const std::string fault = fault_of([&](PaperList& list) { list.rows[1][4] = word; });
  EXPECT_NE(fault.find("row 2"), std::string::npos) << fault;
  EXPECT_NE(fault.find("PART"), std::string::npos) << fault;
  EXPECT_NE(fault.find(word), std::string::npos) << fault;
  EXPECT_NE(fault_of([](PaperList& list) { list.rows[2].pop_back(); }).find("row 3"), std::string::npos);
  EXPECT_NE(fault_of([](PaperList& list) { list.rows.clear(); }).find("no rows"), std::string::npos);
  EXPECT_NE(fault_of([](PaperList& list) { list.columns.clear(); }).find("columns"), std::string::npos);
  EXPECT_NE(fault_of([](PaperList& list) { list.rows[0][3] = "s"; }).find("suction, discharge"),
            std::string::npos);
  EXPECT_NE(fault_of([](PaperList& list) { list.rows[0][0] = std::string(900, 'K'); }).find("SYMBOL"),
            std::string::npos);
  EXPECT_NE(fault_of([](PaperList& list) { list.rows[0][2] = "\U0001F9FF\U000E0FFF"; }).find("no font"),
            std::string::npos);
  EXPECT_NE(fault_of([](PaperList& list) { list.facts[0].second = "a\nb"; }).find("control"),
            std::string::npos);
  EXPECT_NE(fault_of([](PaperList& list) {
              list.columns.insert(list.columns.end(), 8, {"X"});
              for (auto& row : list.rows) row.resize(14);
            }).find("no room"),
            std::string::npos);
}

TEST(PaperListTest, UnusablePaperIsRefused) {
  const TempFolder folder;
  DocumentOrder order = sample_paper(SheetFormat::pdf, folder / "a.pdf");
  const auto refuses = [&] { return !draw_list(order, paper_list(sample_carton(1))); };
  EXPECT_FALSE(refuses());
  order.page_height_mm = 60;
  EXPECT_TRUE(refuses());
  order.page_height_mm = 297;
  order.dots_per_inch = 10;
  EXPECT_TRUE(refuses());
  order.dots_per_inch = 300;
  order.created = "today";
  EXPECT_TRUE(refuses());
}

TEST(PaperListTest, ALongTextMakesItsRowHigherAndThePagesMore) {
  const TempFolder folder;
  PaperList list;
  list.title = "Notes";
  list.columns = {{"NOTE"}};
  list.rows.assign(20, {"short"});
  const auto few = value_of(draw_list(sample_paper(SheetFormat::pdf, folder / "a.pdf"), list)).pages;
  EXPECT_EQ(few, 1);
  std::string text;
  for (int i = 0; i < 60; ++i) text += "words ";
  list.rows.assign(20, {text});
  EXPECT_GT(value_of(draw_list(sample_paper(SheetFormat::pdf, folder / "b.pdf"), list)).pages, 1);
}

}  // namespace
}  // namespace counterfoil
