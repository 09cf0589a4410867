#include "sheet/design.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "base/file.h"
#include "sheet/slot.h"
#include "support/design_samples.h"

namespace counterfoil {
namespace {

std::string drawing(const std::string& inside) {
  return R"(<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="60mm" )"
         R"(height="40mm" viewBox="0 0 60 40">)" +
         inside + "</svg>";
}

void expect_fault(const std::string& svg, const std::string& words) {
  const auto design = Design::parse(svg, "test");
  ASSERT_FALSE(design) << svg;
  EXPECT_EQ(design.error().kind, ErrorKind::malformed);
  EXPECT_NE(design.error().message.find(words), std::string::npos) << design.error().message;
}

TEST(Design, SlotsComeFromRectanglesByTheirId) {
  const auto design = Design::parse(drawing(
                                        R"(<rect id="rect12" width="60" height="40"/>
      <g><rect id="slot-number-2" x="1" y="2" width="30" height="9" data-font="mono" data-weight="bold"
        data-align="end" data-largest-mm="8" data-words="1-2" data-stack="words" data-lines="2"
        data-leading="1.2" data-before="No "/></g>
      <rect id="slot-symbol" x="35" y="1" width="20" height="20" data-least-module-mm="0.75"/>)"),
                                    "test");
  ASSERT_TRUE(design) << design.error().message;
  EXPECT_DOUBLE_EQ(design->width_mm(), 60);
  ASSERT_EQ(design->data().slots.size(), 2u);
  const Slot& number = design->data().slots[0];
  EXPECT_EQ(number.id, "number-2");
  EXPECT_EQ(number.name, "number");
  EXPECT_EQ(number.align, Slot::Align::end);
  EXPECT_TRUE(number.mono && number.bold && number.stacked);
  EXPECT_EQ(number.last_word, 2);
  EXPECT_EQ(number.before, "No ");
  EXPECT_DOUBLE_EQ(number.largest_mm, 8);
  EXPECT_TRUE(design->data().slots[1].is_symbol());
  EXPECT_DOUBLE_EQ(design->data().slots[1].least_module_mm, 0.75);
}

// One fault a drawing, named after what it tries; the error says which element it is in.
struct Mutation {
  std::string name, inside, words;
};

class DrawingWith : public testing::TestWithParam<Mutation> {};

TEST_P(DrawingWith, IsRefusedByTheElementsName) {
  expect_fault(drawing(GetParam().inside), GetParam().words);
}

INSTANTIATE_TEST_SUITE_P(
    Faults, DrawingWith,
    testing::Values(
        Mutation{"Script", "<script>1</script>", "an element <script>"},
        Mutation{"ScriptOfAnotherPrefix", "<svg:SCRIPT xmlns:svg='http://www.w3.org/2000/svg'/>",
                 "<svg:SCRIPT>"},
        Mutation{"HandlerElement", "<handler type='text/x'/>", "<handler>"},
        Mutation{"OnClick", "<rect id='a' onclick='x()' width='1' height='1'/>",
                 "onclick of <rect> with id \"a\""},
        Mutation{"OnLoadOfTheRootsGroup", "<g ONLOAD='x()'/>", "script in ONLOAD of <g>"},
        Mutation{"ForeignObject", "<foreignObject/>", "<foreignObject>"},
        Mutation{"XInclude", "<xi:include xmlns:xi='http://www.w3.org/2001/XInclude' parse='text'/>",
                 "<xi:include>"},
        Mutation{"Iframe", "<iframe src='https://example.org/'/>", "<iframe>"},
        Mutation{"AnimatedReference", "<image><set attributeName='href' to='a.png'/></image>", "<set>"},
        Mutation{"FileBesideIt", "<image href='logo.png' width='9' height='9'/>",
                 "\"logo.png\" outside of itself in <image>"},
        Mutation{"RemotePicture", "<image xlink:href='https://example.org/a.png'/>", "in <image>"},
        Mutation{"FileByItsScheme", "<image href='file:///etc/hostname'/>", "in <image>"},
        Mutation{"DrawingInADataUri", "<use href='data:image/svg+xml;base64,AAAA'/>", "in <use>"},
        Mutation{"TextInADataUri", "<image href='data:text/html,a'/>", "in <image>"},
        Mutation{"LinkOut", "<a href='https://example.org/'/>", "in <a>"},
        Mutation{"FillOfAnotherFile", "<rect fill='url(other.svg#a)' width='1' height='1'/>",
                 "in fill of <rect>"},
        Mutation{"FilterOfAnotherFile", "<rect filter=\"url( 'http://a/b#c')\"/>", "in filter of <rect>"},
        Mutation{"SecondUrlOfAFill", "<rect fill='url(#a) url(b.svg#c)'/>", "in fill of <rect>"},
        Mutation{"EscapedUrlOfAFill", "<rect fill='u\\72l(http://a)'/>", "backslash in fill of <rect>"},
        Mutation{"StyleAttribute", "<rect style='fill:URL(http://a)'/>", "in style of <rect>"},
        Mutation{"EscapedStyleAttribute", "<rect style='fill:u\\72l(http://a)'/>",
                 "backslash in style of <rect>"},
        Mutation{"Import", "<style>@import 'a.css';</style>", "style of <style>"},
        Mutation{"ImportPartedByAComment", "<style>@imp<!-- -->ort 'a.css';</style>", "style of <style>"},
        Mutation{"ImportPartedByCdata", "<style>@imp<![CDATA[ort 'a.css';]]></style>", "style of <style>"},
        Mutation{"UrlInCdata", "<style><![CDATA[rect{fill:url( 'http://a/')}]]></style>", "style of <style>"},
        Mutation{"FontFile", "<style>@font-face{font-family:a;src:url(a.ttf)}</style>", "style of <style>"},
        Mutation{"ImageSet", "<style>rect{fill:image-set('a.png' 1x)}</style>", "style of <style>"},
        Mutation{"Base", "<g xml:base='https://example.org/'/>", "<g>"}),
    [](const auto& mutation) { return mutation.param.name; });

TEST(Design, DocumentTypesAndInstructionsAreRefused) {
  expect_fault("<?xml-stylesheet href='a.css'?>" + drawing(""), "processing instruction");
  expect_fault("<!DOCTYPE svg [<!ENTITY a 'b'>]>" + drawing("<text>&a;</text>"), "document type");
  expect_fault("<!DOCTYPE svg [<!ENTITY a SYSTEM 'file:///etc/hostname'>]>" + drawing("<text>&a;</text>"),
               "document type");
}

TEST(Design, ReferencesInsideTheDrawingAndEmbeddedPicturesArePermitted) {
  const auto design =
      Design::parse(drawing("<defs><linearGradient id='a'><stop stop-color='#000'/></linearGradient><path "
                            "id='p' d='M0 0h1v1z'/>"
                            "</defs><rect fill='url(#a)' width='9' height='9'/><use xlink:href='#p'/>"
                            "<image width='1' height='1' "
                            "href='data:image/png;base64,iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklE"
                            "QVR4nGNgAAAAAgABSK+kcQAAAABJRU5ErkJggg=='/>"),
                    "test");
  EXPECT_TRUE(design) << design.error().message;
}

TEST(Design, SlotsThatAreNotToBeTrustedAreRefusedByName) {
  expect_fault(drawing("<rect id='slot-nummer' width='9' height='9'/>"), "slot nummer is none");
  expect_fault(drawing("<circle id='slot-note' r='9'/>"), "slot note is not a rect");
  expect_fault(drawing("<rect id='slot-note' width='61' height='9'/>"), "outside the drawing");
  expect_fault(drawing("<rect id='slot-note' x='-1' width='6' height='9'/>"), "x");
  expect_fault(drawing("<rect id='slot-note' height='9'/>"), "no width");
  expect_fault(drawing("<g transform='scale(2)'><rect id='slot-note' width='6' height='9'/></g>"),
               "transform");
  expect_fault(drawing("<g id='side-none'><rect id='slot-note' width='6' height='9'/></g>"), "side's group");
  expect_fault(drawing("<rect id='slot-note' width='9' height='9' data-colour='red'/>"), "data-colour");
  expect_fault(drawing("<rect id='slot-note' width='9' height='9' data-align='left'/>"), "data-align");
  expect_fault(drawing("<rect id='slot-note' width='9' height='9' data-least-mm='2.7'/>"), "data-least-mm");
  expect_fault(drawing("<rect id='slot-note' width='9' height='2.7'/>"), "lower than its least letters");
  expect_fault(
      drawing(
          "<rect id='slot-note' width='9' height='9'/><rect id='slot-note' x='20' width='9' height='9'/>"),
      "twice");
  expect_fault(
      drawing("<rect id='slot-note' width='9' height='9'/><rect id='slot-part' x='8' width='9' height='9'/>"),
      "overlap");
  expect_fault(drawing("<g id='side-left'/>"), "side-left");
}

TEST(Design, OneUnitHasToBeOneMillimetre) {
  expect_fault("<svg xmlns='http://www.w3.org/2000/svg' width='60mm' height='40mm' viewBox='0 0 600 400'/>",
               "viewBox");
  expect_fault("<svg xmlns='http://www.w3.org/2000/svg' width='60' height='40' viewBox='0 0 60 40'/>",
               "in mm");
  expect_fault("<html/>", "no SVG");
  expect_fault("no drawing at all", "no XML");
}

TEST(Design, SecondLanguageIsSaidByItsSlots) {
  EXPECT_FALSE(
      Design::parse(drawing("<rect id='slot-side' width='9' height='9'/>"), "test")->has_second_language());
  EXPECT_TRUE(Design::parse(drawing("<rect id='slot-second-side' width='9' height='9'/>"), "test")
                  ->has_second_language());
  expect_fault(drawing("<rect id='slot-second-number' width='9' height='9'/>"), "slot second-number is none");
}

TEST(Design, ShippedDesignsKeepTheirSymbolsLargeEnough) {
  for (const auto& name : shipped_design_names()) {
    const Design design = shipped_design(name);
    const std::string kind = kind_of(name);
    // CP: 0.75 mm on a box half and 0.5 mm elsewhere where there is room, never under 0.38 mm.
    const bool is_tiny = design.width_mm() * design.height_mm() < 1200 || design.height_mm() <= 20;
    const bool is_large = design.width_mm() * design.height_mm() > 5500;
    const double least = is_tiny ? 0.38 : kind.ends_with("box") && is_large ? 0.75 : 0.5;
    int symbols = 0;
    for (const auto& slot : design.data().slots) {
      if (!slot.is_symbol()) continue;
      ++symbols;
      const double side = std::min(slot.box.width_mm, slot.box.height_mm);
      if (slot.id == "symbol") {
        EXPECT_GE(slot.least_module_mm, std::min(least, kind == "spare-box" && side < 33.5 ? 0.5 : least))
            << name;
        EXPECT_GE(side, 33 * least) << name;
        // On the coarsest common printer, of 8 dots a mm, symbols of 25 modules keep 4 dots.
        EXPECT_GE(std::floor(side / 33 * 8), 4) << name;
      }
    }
    EXPECT_EQ(symbols, name.find("-tall") != std::string::npos && !design.has_second_language() ? 2 : 1)
        << name;
  }
}

// Never a lone S or D, and no panel word of the signs of 29 CFR 1910.145.
TEST(Design, ShippedDesignsSayTheSideInAWholeWordAndWarnOfNothing) {
  for (const auto& name : shipped_design_names()) {
    const std::string svg = value_of(read_file(kTemplates + "designs/" + name + ".svg", 1 << 20));
    for (const auto* word : {">DANGER", ">WARNING", ">CAUTION", ">S<", ">D<", "fill=\"red", "#f00"})
      EXPECT_EQ(svg.find(word), std::string::npos) << name << " " << word;
    if (kind_of(name) == "carton") continue;
    for (const auto* word :
         {">SUCTION<", ">DISCHARGE<", ">SIDE<", "side-suction", "side-discharge", "side-none"})
      EXPECT_NE(svg.find(word), std::string::npos) << name << " " << word;
  }
}

}  // namespace
}  // namespace counterfoil
