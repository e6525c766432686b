// Every style read by everyone: contrast, colour vision, grey, by formulas from outside this project.
#include <algorithm>
#include <array>
#include <cmath>

#include "every_style.hpp"

using namespace towloom;
using namespace towloom::test;

namespace {

using Linear = std::array<double, 3>;   // red, green, blue; 0 to 1

// sRGB to linear light: IEC 61966-2-1; WCAG 2.2, definition of relative luminance.
Linear linear(Rgb c) {
  const auto one = [](unsigned char v) {
    const double s = v / 255.0;
    return s <= 0.04045 ? s / 12.92 : std::pow((s + 0.055) / 1.055, 2.4);
  };
  return {one(c.r), one(c.g), one(c.b)};
}
double luminance(Rgb c) {
  const Linear l = linear(c);
  return 0.2126 * l[0] + 0.7152 * l[1] + 0.0722 * l[2];
}
// WCAG 2.2, definition of contrast ratio.
double contrast(Rgb a, Rgb b) {
  const double x = luminance(a), y = luminance(b);
  return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}

// What eyes without red or without green cones see: F. Vienot, H. Brettel, J. D. Mollon, Digital video colourmaps for
// checking the legibility of displays by dichromats, Color Research and Application 24 (1999) 243: matrices on linear
// light (from memory).
using Matrix = std::array<std::array<double, 3>, 3>;
const Matrix full{{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};
const Matrix protanopia{{{0.11238, 0.88762, 0}, {0.11238, 0.88762, 0}, {0.00401, -0.00401, 1}}};
const Matrix deuteranopia{{{0.29275, 0.70725, 0}, {0.29275, 0.70725, 0}, {-0.02234, 0.02234, 1}}};

// CIE 1976 L*a*b*, white D65.
std::array<double, 3> lab(Rgb c, const Matrix& eye) {
  const Linear l = linear(c);
  Linear s{};
  for (size_t i = 0; i < 3; ++i) s[i] = eye[i][0] * l[0] + eye[i][1] * l[1] + eye[i][2] * l[2];
  const auto f = [](double t) { return t > 0.008856 ? std::cbrt(t) : 7.787 * t + 16.0 / 116; };
  const double x = f((0.4124 * s[0] + 0.3576 * s[1] + 0.1805 * s[2]) / 0.9505), y = f(0.2126 * s[0] + 0.7152 * s[1] + 0.0722 * s[2]),
               z = f((0.0193 * s[0] + 0.1192 * s[1] + 0.9505 * s[2]) / 1.089);
  return {116 * y - 16, 500 * (x - y), 200 * (y - z)};
}
// CIE 1976 colour difference.
double difference(Rgb a, Rgb b, const Matrix& eye) {
  const auto p = lab(a, eye), q = lab(b, eye);
  return std::sqrt((p[0] - q[0]) * (p[0] - q[0]) + (p[1] - q[1]) * (p[1] - q[1]) + (p[2] - q[2]) * (p[2] - q[2]));
}

WireRun run_of(const Style& style, const std::string& colour) {
  WireRun run;
  run.status = "new", run.colour = colour;
  set_pens(run, style);
  return run;
}

}  // namespace

TEST_CASE("the formulas give published values") {
  CHECK(contrast({0, 0, 0}, {255, 255, 255}) == doctest::Approx(21.0));                             // WCAG 2.2
  CHECK(contrast({0x77, 0x77, 0x77}, {255, 255, 255}) == doctest::Approx(4.48).epsilon(0.002));
  CHECK(lab({255, 0, 0}, full)[0] == doctest::Approx(53.24).epsilon(0.001));                        // sRGB red: L* 53.24, a* 80.09, b* 67.20
  CHECK(lab({255, 0, 0}, full)[1] == doctest::Approx(80.09).epsilon(0.002));
  CHECK(difference({255, 255, 255}, {0, 0, 0}, full) == doctest::Approx(100).epsilon(0.001));
  for (const Matrix& eye : {protanopia, deuteranopia})                                              // greys stay what they are
    CHECK(difference({128, 128, 128}, {128, 128, 128}, eye) + std::fabs(lab({128, 128, 128}, eye)[0] - lab({128, 128, 128}, full)[0]) < 0.01);
}

TEST_CASE("text reaches 4.5 : 1 on the grounds it stands on (WCAG 1.4.3), marks 3 : 1 (1.4.11)") {
  for (const Style& style : every_style()) {
    CAPTURE(style.name);
    for (const char* name : {"ink", "quiet", "cut", "test"})
      for (const char* ground : {"paper", "zone"}) {
        CAPTURE(name);
        CHECK(contrast(ink(style, name), ink(style, ground)) >= 4.5);
      }
    CHECK(contrast(ink(style, "test"), ink(style, "test-fill")) >= 4.5);
    CHECK(contrast(ink(style, "paper"), ink(style, "banner")) >= 4.5);
    CHECK(contrast(ink(style, "factory"), ink(style, "zone")) >= 3);
    CHECK(contrast(ink(style, "ink"), ink(style, "lit")) >= 3);   // the cross over a lit glass
  }
}

TEST_CASE("every wire colour shows on white paper: itself or inside its casing (WCAG 1.4.11, 3 : 1)") {
  for (const Style& style : every_style()) {
    const Rgb paper = ink(style, "paper"), casing = ink(style, "casing");
    CHECK(contrast(casing, paper) >= 7);   // WCAG 1.4.6
    CHECK(line_width(style, "casing") - line_width(style, "core") >= mm(0.4));   // 0.2 mm each side, above the 0.18 of ISO 128 (from memory)
    for (const auto& [letters, colour] : style.colours) {
      CAPTURE(style.name + " " + letters);
      CHECK((contrast(colour.rgb, paper) >= 3 || contrast(colour.rgb, casing) >= 3));
    }
    for (const char* light : {"WH", "YE", "PK"}) CHECK(contrast(style.colours.at(light).rgb, casing) >= 3);
  }
}

TEST_CASE("no two wire colours print alike: in colour or by the pattern of the core") {
  for (const Style& style : every_style())
    for (auto a = style.colours.begin(); a != style.colours.end(); ++a)
      for (auto b = std::next(a); b != style.colours.end(); ++b) {
        CAPTURE(style.name + " " + a->first + " " + b->first);
        const bool apart = difference(a->second.rgb, b->second.rgb, full) >= 15;   // many times the 2.3 that is just seen (Mahy 1994)
        CHECK((apart || a->second.dash != b->second.dash));
      }
}

// The colours of tow cords and of their circuits: SAE J2863 and J560 sets, and those that lie beside them at a battery.
TEST_CASE("the colours of a tow cord stay apart without red or green cones") {
  for (const Style& style : every_style())
    for (const Matrix& eye : {protanopia, deuteranopia}) {
      const std::vector<std::string> cord{"WH", "BN", "YE", "GN", "BU", "RD", "BK", "OG", "VT"};
      for (size_t i = 0; i < cord.size(); ++i)
        for (size_t k = i + 1; k < cord.size(); ++k) {
          CAPTURE(style.name + " " + cord[i] + " " + cord[k]);
          const WireColour &a = style.colours.at(cord[i]), &b = style.colours.at(cord[k]);
          // Four times what is just seen: the lines are thin.
          CHECK((difference(a.rgb, b.rgb, eye) >= 4 * 2.3 || a.dash != b.dash));
        }
    }
}

TEST_CASE("a tracer is a dash, wide enough to print, and in a style without colours stands out from its core") {
  for (const Style& style : every_style()) {
    CHECK(line_width(style, "tracer") >= mm(0.25));   // three dots of a 300 dpi printer: 0.254 mm
    for (const auto& [base, base_colour] : style.colours)
      for (const auto& [tracer, tracer_colour] : style.colours) {
        if (base == tracer) continue;
        const WireRun run = run_of(style, base + "/" + tracer);
        CAPTURE(style.name + " " + base + "/" + tracer);
        CHECK(run.tracer.width > 0);
        CHECK(run.tracer.width < run.core.width);
        CHECK(run.tracer.dash.size() == 2);
        if (style.tracers_contrast) CHECK(contrast(run.tracer.colour, run.core.colour) >= 3);
      }
  }
}

TEST_CASE("the style for a plain printer has no colour at all") {
  const Style style = shipped("mono");
  const auto grey = [](Rgb c) { return c.r == c.g && c.g == c.b; };
  for (const auto& [name, colour] : style.ink) {
    CAPTURE(name);
    CHECK(grey(colour));
  }
  for (const auto& [letters, colour] : style.colours) {
    CAPTURE(letters);
    CHECK(grey(colour.rgb));
    for (const double length : colour.dash) CHECK(length >= 0.6);   // seven dots at 300 dpi: toner spreads
  }
}
