#include "sheet/design_choice.h"

#include <gtest/gtest.h>

#include <fstream>

#include "support/design_samples.h"
#include "support/temp_folder.h"

namespace counterfoil {
namespace {

const std::string kDesigns = kTemplates + "designs";

std::string chosen(const DesignWish& wish) {
  const auto design = choose_design(kDesigns, wish);
  return design ? design->name() : design.error().message;
}

TEST(DesignChoice, LargestThatFitsIsTaken) {
  EXPECT_EQ(chosen({"bag", 95.1, 63.7}), "bag-large");
  EXPECT_EQ(chosen({"bag", 95.1, 34.1}), "bag-wide");
  EXPECT_EQ(chosen({"box", 59.5, 29.9}), "box-broad");
  EXPECT_EQ(chosen({"box", 53, 29.9}), "box-medium");
  EXPECT_EQ(chosen({"box", 64.7, 20.2}), "box-strip");
  EXPECT_EQ(chosen({"box", 46.8, 21.4}), "box-small");
  EXPECT_EQ(chosen({"box", 95, 138.5}), "box-tall");
  EXPECT_EQ(chosen({"spare-bag", 30.9, 35.85}), "spare-bag-narrow");
  EXPECT_EQ(chosen({"label", 62.7, 99.35}), "label-long");
}

// Every place of a shipped stock holds both halves, their spare ones and the label.
TEST(DesignChoice, EveryShippedStockHasDesigns) {
  for (const auto& stock : value_of(load_stocks(kTemplates + "stocks"))) {
    const Box place = tag_place(stock);
    for (const std::string kind : {"bag", "box", "spare-bag", "spare-box", "label"}) {
      const auto design = choose_design(kDesigns, {kind, place.width_mm, place.height_mm});
      EXPECT_TRUE(design) << stock.name << ": " << design.error().message;
    }
  }
}

TEST(DesignChoice, SecondLanguageAsksForItsSlots) {
  EXPECT_EQ(chosen({"bag", 95.1, 63.7, true}), "bag-large-second");
  EXPECT_EQ(chosen({"bag", 95.1, 34.1, true}), "bag-wide-second");
  const auto none = choose_design(kDesigns, {"bag", 46.8, 21.4, true});
  ASSERT_FALSE(none);
  EXPECT_EQ(none.error().kind, ErrorKind::refused);
  EXPECT_NE(none.error().message.find("two languages fits a place of 46.8 x 21.4 mm"), std::string::npos)
      << none.error().message;
  EXPECT_NE(none.error().message.find("bag-wide-second, is 92.9 x 34 mm"), std::string::npos)
      << none.error().message;
}

TEST(DesignChoice, SizeIsTakenByItsName) {
  EXPECT_EQ(chosen({"bag", 95.1, 63.7, false, "small"}), "bag-small");
  EXPECT_EQ(chosen({"bag", 95.1, 63.7, true, "wide"}), "bag-wide-second");
  EXPECT_EQ(choose_design(kDesigns, {"bag", 95.1, 63.7, false, "tall"}).error().kind, ErrorKind::refused);
  EXPECT_EQ(choose_design(kDesigns, {"bag", 95.1, 63.7, false, "huge"}).error().kind, ErrorKind::malformed);
}

TEST(DesignChoice, OnesOwnBesideTheOthersIsTakenWhereItIsTheLargest) {
  const TempFolder folder;
  const auto write = [&](const std::string& name, const std::string& size) {
    std::ofstream(folder / (name + ".svg")) << "<svg xmlns='http://www.w3.org/2000/svg' width='" << size
                                            << "mm' height='20mm' viewBox='0 0 " << size << " 20'/>";
  };
  write("bag-a", "30"), write("bag-ours", "40"), write("bagatelle", "45"), write("bag", "35");
  EXPECT_EQ(choose_design(folder.path(), {"bag", 50, 20})->name(), "bag-ours");
  EXPECT_EQ(choose_design(folder.path(), {"bag", 39, 20})->name(), "bag");
  // One that cannot be used is said, and not passed over.
  std::ofstream(folder / "bag-torn.svg") << "<svg";
  EXPECT_NE(choose_design(folder.path(), {"bag", 50, 20}).error().message.find("bag-torn"),
            std::string::npos);
  EXPECT_EQ(choose_design(folder / "absent", {"bag", 50, 20}).error().kind, ErrorKind::unreadable);
}

}  // namespace
}  // namespace counterfoil
