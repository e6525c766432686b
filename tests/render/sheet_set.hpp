// Sheets made for the tests: every symbol in both directions, wires of every colour, a framed page.
#pragma once

#include <doctest/doctest.h>

#include <filesystem>
#include <string>
#include <vector>

#include "drawing/style.hpp"
#include "drawing/text.hpp"
#include "render/render.hpp"
#include "sheets/sheets.hpp"

namespace towloom::test {

inline Style workshop() {
  Sources sources;
  Diagnostics diagnostics;
  auto style =
      read_style(std::filesystem::path(TOWLOOM_ROOT) / "styles", "workshop", sources, diagnostics);
  INFO(format_diagnostics(diagnostics, sources, false));
  REQUIRE(style.has_value());
  return *style;
}

inline Label text(std::string words, Point at, const Style& style, Anchor anchor = Anchor::start) {
  Label out;
  out.text = std::move(words);
  out.at = at;
  out.anchor = anchor;
  out.colour = ink(style, "ink");
  return out;
}

inline WireRun wire(const std::string& id, const std::string& colour, const std::string& status,
                    Polyline path, const Style& style) {
  WireRun out;
  out.wire = id, out.net = "N-" + id, out.from = "X1." + id, out.to = "X2." + id;
  out.colour = colour, out.size = "16 AWG", out.status = status;
  out.path = std::move(path);
  set_pens(out, style);
  return out;
}

inline PartFigure part(const std::string& id, const Symbol& symbol, Point at, bool mirrored,
                       const Style& style) {
  PartFigure out;
  out.part = id, out.kind = symbol.name;
  out.body = symbol_body(symbol, at, mirrored, style);
  for (const auto& p : symbol.pins)
    out.pins.push_back({id + "." + p.name, "N1", symbol_pin(symbol, p.name, at, mirrored, style)});
  out.marks = symbol_marks(symbol, at, mirrored, style, ink(style, "ink"));
  return out;
}

inline Drawing symbol_sheet(const Style& style) {
  Drawing out;
  out.sheet = "symbols", out.job = "7 & <8>", out.title = "Symbols",
  out.description = "all symbols";
  out.width = mm(297), out.height = mm(210);
  const int rows = (static_cast<int>(style.symbols.size()) + 3) / 4;
  int i = 0;
  for (const auto& [name, symbol] : style.symbols) {
    const Mm100 x = mm(15 + 70 * (i % 4)), y = mm(12) + (out.height - mm(24)) / rows * (i / 4);
    out.items.emplace_back(part("P" + std::to_string(i), symbol, {x, y}, false, style));
    out.items.emplace_back(part("M" + std::to_string(i), symbol, {x + mm(50), y}, true, style));
    out.items.emplace_back(text(name, {x, y + mm(13)}, style));
    ++i;
  }
  return out;
}

inline Drawing colour_sheet(const Style& style) {
  Drawing out;
  out.sheet = "colours", out.job = "7", out.title = "Colours", out.description = "all colours";
  out.width = mm(279.4), out.height = mm(215.9);
  Mm100 y = mm(12);
  for (const auto& [letters, colour] : style.colours) {
    out.items.emplace_back(wire("W" + letters, letters, "new", {{mm(20), y}, {mm(80), y}}, style));
    out.items.emplace_back(wire("T" + letters, letters + "/BK", "new",
                                {{mm(100), y}, {mm(160), y}, {mm(160), y + mm(5)}}, style));
    out.items.emplace_back(
        wire("F" + letters, letters, "factory", {{mm(180), y}, {mm(220), y}}, style));
    out.items.emplace_back(text(letters + " " + colour.word, {mm(230), y + mm(1)}, style));
    y += mm(12);
  }
  out.items.emplace_back(Junction{"N1", {mm(200), y}});
  out.items.emplace_back(text("mm² Ω ± → ≥ °C é ∿ end", {mm(20), y}, style));
  out.items.emplace_back(text("A & B < C \"q\"", {mm(150), y}, style, Anchor::middle));
  out.items.emplace_back(text("GY/VT", {mm(270), y}, style, Anchor::end));
  return out;
}

inline Facts facts(int faults) {
  Facts out;
  out.spec.job.title.value = "Small hatchback, four-way flat outlet";
  out.spec.job.number.value = "2041";
  out.spec.job.date.value = "2026-11-24";
  out.spec.job.by.value = "workshop";
  out.spec.isolation.method.value = "two-way-diodes";
  for (int i = 0; i < faults; ++i)
    out.findings.push_back({"lamp-differs", Severity::error, "x", "", "", {}, {}});
  out.findings.push_back({"note", Severity::warning, "x", "", "", {}, {}});
  return out;
}

inline Catalogue catalogue() {
  Catalogue out;
  out.methods["two-way-diodes"].title = "Two-way diodes";
  return out;
}

inline Drawing framed_sheet(const Style& style, const TextMeasure& measure, const char* paper,
                            int faults, Frame* frame = nullptr) {
  Drawing out;
  out.sheet = "bench", out.job = "2041", out.title = "Bench sheet", out.description = "frame";
  out.width = mm(style.papers.at(paper).first), out.height = mm(style.papers.at(paper).second);
  const Frame f = add_frame(out, facts(faults), catalogue(),
                            {"Bench sheet", "left + tail", "", "", 1, 2}, style, measure);
  if (frame) *frame = f;
  return out;
}

}  // namespace towloom::test
