#include <doctest/doctest.h>

#include "drawing/text.hpp"
#include "drawing/utf8.hpp"

using namespace towloom;

TEST_CASE("text is measured in the sheet face and reserved for the widest") {
  const TextMeasure measure;
  REQUIRE_MESSAGE(measure.ok(), measure.error());
  // At 10 mm em the width is the sum of the advances. Digits of Liberation Sans are 1139 of 2048 units
  // wide (its hmtx table): ten ones are 55.62 mm, wider than the sheet face's narrow ones.
  CHECK(measure.reserve("1111111111", mm(10), Weight::regular) ==
        doctest::Approx(5562).epsilon(0.001));
  for (const char* text : {"W4 RT GN", "stop/turn", "GY/OG 0.75", "11.6 V", "iiii", "mm² Ω ±"})
    for (Weight w : {Weight::regular, Weight::semibold}) {
      CHECK(measure.width(text, mm(3.44), w) > 0);
      CHECK(measure.reserve(text, mm(3.44), w) >= measure.width(text, mm(3.44), w));
    }
  CHECK(measure.width("", mm(3.44), Weight::regular) == 0);
  CHECK(measure.width("AB", mm(6.88), Weight::regular) ==
        doctest::Approx(2 * measure.width("AB", mm(3.44), Weight::regular)).epsilon(0.005));
}

TEST_CASE("room surrounds the anchor") {
  const TextMeasure measure;
  REQUIRE(measure.ok());
  Label label;
  label.text = "TAIL";
  label.at = {1000, 2000};
  for (Anchor a : {Anchor::start, Anchor::middle, Anchor::end}) {
    label.anchor = a;
    measure.place(label);
    CHECK(label.room.w >= measure.width("TAIL", label.size, label.weight));
    CHECK(label.room.y <= 2000 - mm(2.5));
    CHECK(label.room.bottom() > 2000);
    CHECK(label.room.contains({1000, 2000}));
  }
  CHECK(label.room.right() == 1000);
}

TEST_CASE("glyphs are known or not") {
  const TextMeasure measure;
  REQUIRE(measure.ok());
  CHECK(measure.has_glyphs("GY/VT 0.75 mm² Ω ± → °C é ∿"));
  CHECK_FALSE(measure.has_glyphs("一"));  // no CJK in either face
}

TEST_CASE("UTF-8 is read strictly, bad bytes become U+FFFD") {
  CHECK(code_points("aΩ€") == std::vector<char32_t>{U'a', U'Ω', U'€'});
  CHECK(code_points("a\xFF"
                    "b") == std::vector<char32_t>{U'a', 0xFFFD, U'b'});
  CHECK(code_points("\xE2\x82") == std::vector<char32_t>{0xFFFD, 0xFFFD});
  const auto words = words_of("W4  RT GN ");
  REQUIRE(words.size() == 3);
  CHECK(words[1].text == "RT");
  CHECK(words[1].offset == 4);
}
