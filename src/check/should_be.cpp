// What stands in the intended circuit where something else was seen.
#include <algorithm>
#include <cstdio>

#include "check/observe.hpp"

namespace towloom {
namespace {

std::string short_number(double value, int digits = 2) {   // digits that count
  char text[32];
  std::snprintf(text, sizeof text, "%.*g", digits, value);
  return text;
}

// "cores GND to GD, TAIL to TM": where the cores of the row's contacts should end.
std::string cores_should(const AsFoundRow& row, const Plug& plug, const Circuit& c) {
  std::string out;
  for (const auto& [from, to] : row.cores)
    for (const Wire& w : c.wires) {
      if (!is_core(w)) continue;
      const Part *a = &c.part(w.from.part), *b = &c.part(w.to.part);
      if (a->group != plug.outlet_id()) std::swap(a, b);   // grounds run towards the coach
      if (a->group == plug.outlet_id() && (a->contact == from.value || a->title == from.value))
        out += (out.empty() ? "cores " : ", ") + from.value + " to " + (b->title.empty() ? b->id : b->title);
    }
  return out;
}

// Of the wire, contact or stud by itself; a tap or a crimp has next to none.
double sound_ohm(const AsFoundRow& row, const std::string& about, const Circuit& c, const Catalogue& catalogue) {
  for (const Wire& w : c.wires)
    if (w.id == about) return wire_ohm(w, c, catalogue);
  const PartId id = c.find(about);
  const bool whole = id && (row.what.value == about || c.part(id).kind == "contact");
  return whole && !c.part(id).elements.empty() && c.part(id).elements[0].law == Law::resistor ? c.part(id).elements[0].ohm : 0;
}

}  // namespace

std::string ohm_text(double ohm) {
  if (ohm >= 1e6) return format_plain(ohm / 1e6) + " Mohm";
  if (ohm >= 1e3) return format_plain(ohm / 1e3) + " kohm";
  if (ohm < 0.1) return short_number(ohm * 1e3) + " mohm";
  return short_number(ohm, 3) + " ohm";
}

std::string should_be(const Observed& o, const std::vector<Plug>& all, const Spec& spec, const Circuit& c, const Catalogue& catalogue) {
  const AsFoundRow& row = *o.row;
  if (!row.cores.empty()) {
    for (const Plug& plug : all)
      if (plug.outlet_id() == o.about) return cores_should(row, plug, c);
  }
  if (row.on) {
    const auto ground = std::find_if(spec.grounds.begin(), spec.grounds.end(), [&](const GroundRow& g) { return g.name.value == o.about; });
    return "on " + (ground != spec.grounds.end() && ground->on ? ground->on->value : std::string("bare steel"));
  }
  if (row.band) return "band towards what it feeds";
  if (row.fitted) {
    const PartId id = c.find(o.about);
    return !id || c.part(id).value.empty() ? "fitted" : "fitted, " + c.part(id).value;
  }
  if (o.about == "COACH" && row.ohm) return "open";
  if (!row.ohm && !row.loses_v) return "as drawn";
  const double ohm = sound_ohm(row, o.about, c, catalogue);
  if (row.ohm) return ohm > 0 ? ohm_text(ohm) : "next to nothing";
  return format_fixed(ohm * row.at_a->value, 2) + " V at " + format_plain(row.at_a->value) + " A";
}

}  // namespace towloom
