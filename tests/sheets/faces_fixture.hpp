// A job with its outlet, cord and inlet in one connector form: enough circuit for the pin faces.
#pragma once

#include <doctest/doctest.h>

#include <filesystem>
#include <stdexcept>
#include <string>

#include "sheets/faces_view.hpp"

namespace towloom::testing {

inline Part contact_of(const ConnectorContact& c, const std::string& group) {
  Part p;
  p.id = group + "." + c.number;
  p.kind = "contact";
  p.group = group;
  p.contact = c.number;
  p.function = c.function;
  p.terminals = group == "J1" ? std::vector<std::string>{"coach", "cord"}
                              : std::vector<std::string>{"cord", "car"};
  return p;
}

// Ground, tail, left and right are joined contact to contact; further contacts stay unused.
inline Facts faces_facts(const Connector& form, const std::string& inlet_half) {
  Facts facts;
  facts.spec.job.title.value = "Estate car, " + form.title + " outlet";
  facts.spec.job.number.value = "F1";
  facts.spec.job.date.value = "2026-11-24";
  facts.spec.job.by.value = "workshop";
  facts.spec.isolation.method.value = "two-way-diodes";
  facts.spec.coach.outlet.form.value = form.name;
  facts.spec.car.inlet.form.value = form.name;
  if (!inlet_half.empty()) facts.spec.car.inlet.half = PlacedText{inlet_half, {}};
  Circuit& circuit = facts.sized.circuit;
  const auto add = [&](Part part) {
    circuit.parts.push_back(std::move(part));
    return PartId{static_cast<int>(circuit.parts.size()) - 1};
  };
  for (const ConnectorContact& c : form.contacts) {
    if (c.function != "ground" && c.function != "tail" && c.function != "left" &&
        c.function != "right")
      continue;
    const PartId outlet = add(contact_of(c, "J1")), inlet = add(contact_of(c, "J2"));
    Part coach, car;
    coach.id = "K" + c.number;
    car.id = "L" + c.number;
    coach.terminals = car.terminals = {"1"};
    const PartId source = add(coach), load = add(car);
    const std::string colour = c.colour.at(form.default_colours);
    const auto wire = [&](const std::string& letter, TerminalRef from, TerminalRef to) {
      Wire w;
      w.id = letter + c.number;
      w.from = from;
      w.to = to;
      w.colour = colour;
      w.size = WireSizeName{"16", WireSizeName::System::awg};
      circuit.wires.push_back(std::move(w));
    };
    wire("M", {source, 0}, {outlet, 0});
    wire("C", {outlet, 1}, {inlet, 0});
    wire("W", {inlet, 1}, {load, 0});
  }
  return facts;
}

struct Knowledge {
  Sources sources;
  Catalogue catalogue;
  Style style;
};
inline Knowledge knowledge() {
  namespace fs = std::filesystem;
  Knowledge out;
  Diagnostics diagnostics;
  auto catalogue = read_catalogue(fs::path(TOWLOOM_ROOT) / "specs", out.sources, diagnostics);
  auto style = read_style(fs::path(TOWLOOM_ROOT) / "styles", "workshop", out.sources, diagnostics);
  INFO(format_diagnostics(diagnostics, out.sources, false));
  REQUIRE(catalogue);
  REQUIRE(style);
  out.catalogue = std::move(*catalogue);
  out.style = std::move(*style);
  return out;
}

}  // namespace towloom::testing
