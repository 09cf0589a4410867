#include "sheet/words.h"

#include <gtest/gtest.h>

#include "support/design_samples.h"

namespace counterfoil {
namespace {

const std::string kWhole =
    R"({"title":"Test","suction":"su","discharge":"di","bag":"ba","box":"bo","label":"la","unit":"un","pocket":"po",)"
    R"("care":"ca","contamination":"co","purpose":"pu")";

std::string fault(const std::string& json) {
  const auto words = parse_words(json, "test");
  return words ? "" : words.error().message;
}

TEST(Words, FillTheSlotsOfTheSecondLanguage) {
  const Words words = value_of(parse_words(kWhole + "}", "test"));
  TagContent tag;
  tag.side = "discharge";
  words.put_on(tag, "box");
  EXPECT_EQ(tag.texts, (std::map<std::string, std::string>{{"second-side", "di"},
                                                           {"second-half", "bo"},
                                                           {"second-unit", "un"},
                                                           {"second-pocket", "po"},
                                                           {"second-care", "ca"},
                                                           {"second-contamination", "co"},
                                                           {"second-purpose", "pu"}}));
  TagContent sideless;
  words.put_on(sideless, "label");
  EXPECT_FALSE(sideless.texts.contains("second-side"));
  EXPECT_EQ(sideless.texts.at("second-half"), "la");
}

TEST(Words, LackingUnknownOrEmptyOnesAreRefusedByName) {
  EXPECT_EQ(fault(kWhole + "}"), "");
  EXPECT_EQ(fault(kWhole + R"(,"colour":"x"})"), "words test: colour is not a word of a tag");
  EXPECT_EQ(fault(R"({"title":"Test","suction":"su"})"), "words test: discharge is missing");
  EXPECT_EQ(fault(R"({"suction":" "})"), "words test: suction has to be a text");
  EXPECT_EQ(fault(R"({"suction":7})"), "words test: suction has to be a text");
  EXPECT_EQ(fault("[]"), "words test: it is not a JSON object");
  EXPECT_NE(fault("{"), "");
}

TEST(Words, UnknownLanguageIsRefusedWithThoseThatAreThere) {
  for (const std::string name : {"xx", "", "../words/es"}) {
    const auto words = load_words(kTemplates + "words", name);
    ASSERT_FALSE(words);
    EXPECT_NE(words.error().hint.find("ar, cs, es"), std::string::npos) << words.error().hint;
  }
}

TEST(Words, ShippedOnesFitEveryShippedDesign) {
  for (const std::string language : {"ar", "cs", "es"}) {
    const Words words = shipped_words(language);
    for (const auto& name : shipped_design_names()) {
      const Design design = shipped_design(name);
      if (!design.has_second_language()) continue;
      for (const std::string side : {"suction", "discharge"}) {
        TagContent tag;
        tag.side = side;
        words.put_on(tag, name.starts_with("label")               ? "label"
                          : name.find("bag") != std::string::npos ? "bag"
                                                                  : "box");
        Lettering lettering;
        for (const auto& slot : design.data().slots) {
          const auto text = tag.texts.find(slot.name);
          if (text == tag.texts.end()) continue;
          EXPECT_TRUE(lettering.place(slot, text->second, 0, 0)) << language << " " << name << " " << slot.id;
        }
      }
    }
  }
}

}  // namespace
}  // namespace counterfoil
