#include "catalogue/settle.hpp"

#include <tuple>

#include "catalogue/colours.hpp"
#include "catalogue/mating.hpp"

namespace towloom {
namespace {

template <class Map>
std::string names_of(const Map& map) {
  std::string out;
  for (const auto& [name, value] : map) out += (out.empty() ? "" : ", ") + name;
  return out.empty() ? "it has none" : "one of: " + out;
}

// The row that a job names, or nothing and an error.
template <class Map>
const typename Map::mapped_type* named(const Map& map, const PlacedText& name, const char* what, const Connector& c,
                                       Diagnostics& diagnostics) {
  const auto found = map.find(name.value);
  if (found != map.end()) return &found->second;
  diagnostics.error(what, name.place, "the " + c.title + " has no " + what + " '" + name.value + "'", names_of(map));
  return nullptr;
}

void settle_outlet(Outlet& outlet, Catalogue& catalogue, Diagnostics& diagnostics) {
  const auto found = catalogue.connectors.find(outlet.form.value);
  if (found == catalogue.connectors.end()) return;  // said when the circuit is built
  if (!outlet.layout && !outlet.use && !outlet.colours) return;
  Connector c = found->second;
  if (outlet.layout) {
    if (const auto* layout = named(c.layouts, *outlet.layout, "layout", c, diagnostics)) {
      for (ConnectorContact& k : c.contacts) {
        std::tie(k.x, k.y) = layout->at.at(k.number);
        k.position = layout->provenance;
      }
      c.title += ", " + layout->title;
    }
    c.name += ", " + outlet.layout->value;
  }
  if (outlet.use) {
    if (const auto* use = named(c.allocations, *outlet.use, "use", c, diagnostics)) {
      for (ConnectorContact& k : c.contacts) {
        const auto other = use->contacts.find(k.number);
        if (other == use->contacts.end()) continue;
        k.function = other->second.function;
        k.title = other->second.title;
        k.provenance = use->provenance;
      }
      c.title += ", " + use->title;
    }
    c.name += ", " + outlet.use->value;
  }
  if (outlet.colours) {
    if (named(c.colour_sets, *outlet.colours, "colours", c, diagnostics) != nullptr) c.default_colours = outlet.colours->value;
    c.name += ", " + outlet.colours->value;
  }
  outlet.form.value = c.name;
  catalogue.connectors.emplace(c.name, std::move(c));
}

void settle_colours(Car& car, const Catalogue& catalogue, Diagnostics& diagnostics) {
  const auto& conventions = catalogue.colour_conventions;
  if (car.colours && conventions.count(car.colours->value) == 0)
    diagnostics.error("convention", car.colours->place, "no colour convention '" + car.colours->value + "' in the catalogue",
                      names_of(conventions));
  const auto settle = [&](SizedColour& wire) {
    if (wire.colour.value.empty()) return;
    if (const auto code = settle_code(wire.colour, car.colours, catalogue, diagnostics)) wire.colour.value = code->text();
  };
  for (LampRow& lamp : car.lamps) {
    settle(lamp.feed);
    if (lamp.return_wire) settle(*lamp.return_wire);
  }
}

const Connector* find(const Catalogue& catalogue, const std::string& form) {
  const auto found = catalogue.connectors.find(form);
  return found == catalogue.connectors.end() ? nullptr : &found->second;
}

// "round-4-heavy plug" against the outlet's or inlet's own half.
void check_cord_end(const PlacedText& written, const Outlet& outlet, bool coach, const Catalogue& catalogue, Diagnostics& diagnostics) {
  const size_t space = written.value.rfind(' ');
  const std::string form = written.value.substr(0, space), half = space == std::string::npos ? "" : written.value.substr(space + 1);
  const Connector *end = find(catalogue, form), *vehicle = find(catalogue, outlet.form.value);
  if (end == nullptr || end->half(half) == nullptr) {
    diagnostics.error("cord-end", written.place, "'" + written.value + "' is no half of a connector in the catalogue",
                      "write form and half, like blade-7 plug");
    return;
  }
  if (vehicle == nullptr) return;
  const std::string own = outlet.half ? outlet.half->value : coach ? vehicle->outlet_half : vehicle->inlet_half;
  const Mating m = mating({end, half}, {vehicle, own});
  const std::string where = coach ? "the coach's outlet" : "the car's inlet";
  if (!m.mates)
    diagnostics.error("cord-end", written.place, "this end of the cord does not mate " + where + ": " + m.why,
                      "take a cord whose end is the mate of a " + vehicle->title + ", " + own + " half");
  else if (!m.why.empty())
    diagnostics.warning("cord-end", written.place, "this end mates " + where + ", but: " + m.why, "meter every contact before use");
}

void check_cord(const Spec& spec, const Catalogue& catalogue, Diagnostics& diagnostics) {
  const Cord& cord = spec.cord;
  if (cord.ends.size() == 2) {
    check_cord_end(cord.ends[0], spec.coach.outlet, true, catalogue, diagnostics);
    check_cord_end(cord.ends[1], spec.car.inlet, false, catalogue, diagnostics);
  }
  const Connector *outlet = find(catalogue, spec.coach.outlet.form.value), *inlet = find(catalogue, spec.car.inlet.form.value);
  if (cord.continuity.empty() || outlet == nullptr || inlet == nullptr) return;
  for (const auto& [from, to] : cord.continuity) {
    const Connector* ends[] = {outlet, inlet};
    const PlacedText* contacts[] = {&from, &to};
    for (int i = 0; i < 2; ++i)
      if (ends[i]->contact(contacts[i]->value) == nullptr)
        diagnostics.error("unknown-contact", contacts[i]->place, "the " + ends[i]->title + " has no contact '" + contacts[i]->value + "'");
    for (const CrossedCore& core : crossed_cores(*outlet, *inlet, {{from.value, to.value}}))
      diagnostics.error("crossed-core", to.place,
                        "a core joins " + core.from->title + " of the outlet to " + core.to->title + " of the inlet",
                        core.expected == nullptr ? "take it off: the inlet has no contact for it"
                                                 : "move it to contact " + core.expected->number + ", " + core.expected->title);
  }
}

}  // namespace

bool settle_job(Spec& spec, Catalogue& catalogue, Diagnostics& diagnostics) {
  Diagnostics own;
  settle_outlet(spec.coach.outlet, catalogue, own);
  settle_outlet(spec.car.inlet, catalogue, own);
  settle_colours(spec.car, catalogue, own);
  check_cord(spec, catalogue, own);
  for (const Diagnostic& d : own.all()) {
    if (d.severity == Severity::error)
      diagnostics.error(d.code, d.place, d.message, d.hint);
    else
      diagnostics.warning(d.code, d.place, d.message, d.hint);
  }
  return !own.has_errors();
}

}  // namespace towloom
