// The shipped style: sizes, contrast and the symbol table, held against figures from outside.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "every_style.hpp"
#include "drawing/text.hpp"

using namespace towloom;
using namespace towloom::test;

namespace {

struct Extent {
  Mm100 left = 1 << 30, top = 1 << 30, right = -(1 << 30), bottom = -(1 << 30);
  void add(Point p, Mm100 r = 0) {
    left = std::min(left, p.x - r), right = std::max(right, p.x + r);
    top = std::min(top, p.y - r), bottom = std::max(bottom, p.y + r);
  }
};

// End points only: arcs of the shipped symbols are cut at their extremes.
Extent extent(const std::vector<Mark>& marks) {
  Extent out;
  for (const Mark& m : marks) {
    if (const auto* d = std::get_if<Disc>(&m)) {
      out.add(d->centre, d->radius);
      continue;
    }
    for (const PathStep& s : std::get<Shape>(m).path)
      if (s.kind != PathStep::Kind::close) out.add(s.kind == PathStep::Kind::cubic ? s.c : s.a);
  }
  return out;
}

}  // namespace

TEST_CASE("papers are the standard sizes, landscape") {
  const Style style = workshop();
  CHECK(style.papers.at("a4") == std::pair(297.0, 210.0));
  CHECK(style.papers.at("a3") == std::pair(420.0, 297.0));
  CHECK(style.papers.at("letter") == std::pair(279.4, 215.9));
}

TEST_CASE("no text is smaller than 2.5 mm capitals") {
  for (const Style& style : every_style())
    for (const auto& [name, size] : style.text_mm) {
      CAPTURE(style.name + " " + name);
      CHECK(size * cap_height_em >= 2.5);
    }
}

TEST_CASE("all letters of IEC 60757 are there") {
  for (const Style& style : every_style())
  for (const char* letters :
       {"BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "GD", "TQ", "SR"})
    CHECK(style.colours.count(letters) == 1);
}

TEST_CASE("symbol pins stand on the grid and the body is the tight box, in both directions") {
  const Style style = workshop();
  const Point at{mm(50), mm(25)};
  REQUIRE(style.symbols.size() >= 18);
  for (const auto& [name, symbol] : style.symbols)
    for (bool mirrored : {false, true}) {
      CAPTURE(name);
      CAPTURE(mirrored);
      const Rect body = symbol_body(symbol, at, mirrored, style);
      const Extent e = extent(symbol_marks(symbol, at, mirrored, style, {}));
      CHECK(body.x == doctest::Approx(e.left).epsilon(0.0003));
      CHECK(body.y == doctest::Approx(e.top).epsilon(0.0003));
      CHECK(body.right() == doctest::Approx(e.right).epsilon(0.0003));
      CHECK(body.bottom() == doctest::Approx(e.bottom).epsilon(0.0003));
      for (const auto& pin : symbol.pins) {
        const Point p = symbol_pin(symbol, pin.name, at, mirrored, style);
        CHECK((p.x - at.x) % mm(2.5) == 0);
        CHECK((p.y - at.y) % mm(2.5) == 0);
        CHECK(body.contains(p));
        CHECK(p.x - at.x == (mirrored ? -1 : 1) * mm(pin.x * 2.5));
      }
    }
}

TEST_CASE("a diode pair leads both anodes to the cathode; mirrored it conducts to the left") {
  const Style style = workshop();
  const Symbol& pair = style.symbol("diode-pair");
  const Point at{0, 0};
  CHECK(symbol_pin(pair, "A1", at, false, style) == Point{0, mm(-5)});
  CHECK(symbol_pin(pair, "A2", at, false, style) == Point{0, mm(5)});
  CHECK(symbol_pin(pair, "K", at, false, style) == Point{mm(20), 0});
  CHECK(symbol_pin(pair, "K", at, true, style) == Point{mm(-20), 0});
  CHECK(symbol_body(pair, at, false, style, true) == symbol_body(pair, at, false, style));   // as high as deep
  // Each triangle points at its bar: the apex is the corner nearest the cathode pin.
  for (const auto& s : pair.strokes) {
    if (s.kind != "polygon" || s.dashed) continue;
    REQUIRE(s.xy.size() == 6);
    CHECK(s.xy[4] > s.xy[0]);
    CHECK(s.xy[4] > s.xy[2]);
  }
  CHECK_THROWS(symbol_pin(pair, "B", at, false, style));
}

TEST_CASE("wire pens: new in colour with casing and tracer, factory thin and bare") {
  const Style style = workshop();
  WireRun run;
  run.status = "new", run.colour = "GY/VT";
  set_pens(run, style);
  CHECK(run.core.colour == style.colours.at("GY").rgb);
  CHECK(run.tracer.colour == style.colours.at("VT").rgb);
  CHECK_FALSE(run.tracer.dash.empty());
  CHECK(run.casing.width > run.core.width);
  run.colour = "GNYE";
  set_pens(run, style);
  CHECK(run.core.colour == style.colours.at("GN").rgb);
  CHECK(run.tracer.colour == style.colours.at("YE").rgb);
  run.status = "factory";
  set_pens(run, style);
  CHECK(run.casing.width == 0);
  CHECK(run.tracer.width == 0);
  CHECK(run.core.colour == ink(style, "factory"));
}

TEST_CASE("a missing style is reported, not thrown") {
  Sources sources;
  Diagnostics diagnostics;
  CHECK_FALSE(
      read_style(std::filesystem::path(TOWLOOM_ROOT) / "styles", "none", sources, diagnostics));
  CHECK(diagnostics.has_errors());
}

TEST_CASE("colours print in the letters of the style's convention, IEC 60757 where it names none") {
  Style style = workshop();
  CHECK(style.letters.empty());
  CHECK(colour_text("GY/VT", style) == "GY/VT");
  style.letters = "north-american";
  CHECK(colour_text("YE/BK", style) == "YEL/BLK");
  CHECK(colour_text("GNYE", style) == "GRN/YEL");
  CHECK(colour_text("QQ", style) == "QQ");  // unknown letters stay as they are
  style.letters = "german-vehicle";
  CHECK(colour_text("BK/WH", style) == "sw/ws");
}
