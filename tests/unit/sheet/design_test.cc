#include "sheet/design.h"

#include <gtest/gtest.h>

#include "sheet/slot.h"

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

TEST(Design, WhatRunsOrReachesOutOfTheDrawingIsRefused) {
  expect_fault(drawing("<script>1</script>"), "<script>");
  expect_fault(drawing("<svg:SCRIPT xmlns:svg='http://www.w3.org/2000/svg'/>"), "SCRIPT");
  expect_fault(drawing("<rect onclick='x()' width='1' height='1'/>"), "script in onclick");
  expect_fault(drawing("<image href='logo.png' width='9' height='9'/>"), "outside of itself");
  expect_fault(drawing("<image xlink:href='https://example.org/a.png'/>"), "outside of itself");
  expect_fault(drawing("<image href='file:///etc/hostname'/>"), "outside of itself");
  expect_fault(drawing("<use href='data:image/svg+xml;base64,AAAA'/>"), "outside of itself");
  expect_fault(drawing("<rect fill='url(other.svg#a)' width='1' height='1'/>"), "in fill");
  expect_fault(drawing("<style>@import 'a.css';</style>"), "in its style");
  expect_fault(drawing("<style><![CDATA[rect{fill:url( 'http://a/')}]]></style>"), "in its style");
  expect_fault(drawing("<rect style='fill:u\\72l(http://a)' width='1' height='1'/>"), "backslash");
  expect_fault(drawing("<foreignObject/>"), "<foreignObject>");
  expect_fault("<?xml-stylesheet href='a.css'?>" + drawing(""), "processing instruction");
  expect_fault("<!DOCTYPE svg [<!ENTITY a 'b'>]>" + drawing(""), "document type");
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

TEST(Design, ShippedDesignsFitTheSmallestPlaceOfTheShippedStocks) {
  for (const std::string name : {"bag", "box", "label"}) {
    const auto design = Design::load(COUNTERFOIL_SOURCE "/templates/designs/" + name + ".svg");
    ASSERT_TRUE(design) << design.error().message;
    // A4 two by four: 99.1 x 67.7 mm, 2 mm of margin.
    EXPECT_LE(design->width_mm(), 95.1) << name;
    EXPECT_LE(design->height_mm(), 63.7) << name;
    for (const auto& slot : design->data().slots) {
      if (!slot.is_symbol()) continue;
      EXPECT_GE(slot.least_module_mm, name == "box" ? 0.75 : 0.5);
    }
  }
}

}  // namespace
}  // namespace counterfoil
