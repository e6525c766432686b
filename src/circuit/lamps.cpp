// The car's lamps in their housings, with their returns.
#include <algorithm>

#include "circuit/builder.hpp"

namespace towloom {
namespace {

constexpr double measured_v = 12.8;  // volts at which a measured lamp current counts, SAE lamp design volts

// An LED lamp by what the survey found of it. Without more its current counts from the usual threshold.
// The diode that guards an LED lamp against reversed leads lies in series: its 0.5 to 0.8 V (practice) are part of the
// threshold, and nothing flows the other way.
Element led_element(const Builder& b, const LampRow& row) {
  Element e;
  e.b = 1;
  e.volts = measured_v;
  e.threshold_v = row.from_v.value_or(b.rule(row.watts ? "led_lit_v" : "led_threshold_v"));
  e.law = row.watts ? Law::power : Law::led;
  const double amps = row.watts ? *row.watts / measured_v : row.ohm ? (measured_v - e.threshold_v) / *row.ohm : row.amps.value_or(0);
  e.amps = amps * row.count;
  return e;
}

Element lamp_element(const Builder& b, const LampRow& row) {
  if (row.led) return led_element(b, row);
  if (row.amps) return filament(0, 1, measured_v, *row.amps * row.count);
  const Filament* f = find_filament(row, b.catalogue);
  return f == nullptr ? filament(0, 1, measured_v, 1) : filament(0, 1, f->volts, f->amps * row.count);
}

Part lamp_part(Builder& b, const LampRow& row, int number) {
  Part p;
  p.id = "E" + std::to_string(number);
  p.kind = "lamp";
  p.title = row.function.value;
  p.value = row.source.value;
  p.group = row.unit;
  p.function = row.function.value;
  p.place = row.at ? row.at->value : row.unit;
  p.side = row.side;
  p.zone = Zone::lamp;
  p.status = row.added ? Status::fitted : Status::factory;
  p.terminals = {"feed", "return"};
  p.elements = {lamp_element(b, row)};
  p.origin.job = row.place;
  return p;
}

// The stud a housing returns to: as surveyed, or one of its own.
PartId return_stud(Builder& b, const LampRow& row, int* unnamed) {
  if (row.return_stud) {
    for (const GroundRow& g : b.spec.grounds)
      if (g.name.value == row.return_stud->value)
        return b.add_stud(g.name.value, g.at.value, row.side, Zone::lamp, Status::factory, {g.name.place, {}});
  }
  const std::string id = "G-" + std::to_string(++*unnamed);
  b.assume(id, row.unit + " lamp returns to the body nearby: the survey names no ground", nullptr);
  return b.add_stud(id, "body at " + row.unit + " lamp", row.side, Zone::lamp, Status::factory, {row.place, {}});
}

Wire inside_wire(Builder& b, TerminalRef from, TerminalRef to) {
  Wire w;
  w.from = from;
  w.to = to;
  w.fixed_ohm = b.rule("unit_wire_ohm");
  w.group = "inside";
  w.status = Status::factory;
  return w;
}

// The car switches this lamp in its return: from lamp to switch, from there to the stud.
TerminalRef ground_switch(Builder& b, int lamp, const LampRow& row, const SizedColour& colour) {
  Part p;
  p.id = "GS-" + b.circuit.part(b.circuit.lamps[static_cast<std::size_t>(lamp)].lamp).id;
  p.kind = "switch";
  p.title = "ground-side switch";
  p.place = row.unit;
  p.side = row.side;
  p.zone = Zone::lamp;
  p.status = Status::factory;
  p.terminals = {"1", "2"};
  p.elements = {gated(resistor(0, 1, b.rule("switch_ohm")), Gate::lit, b.circuit.lamps[static_cast<std::size_t>(lamp)].car_signal)};
  p.origin.job = row.place;
  const PartId id = b.add(std::move(p));
  b.factory_wire({b.circuit.lamps[static_cast<std::size_t>(lamp)].lamp, 1}, {id, 0}, colour, b.rule("factory_return_m"), {row.place, {}});
  return {id, 1};
}

// Lamps of one housing return together.
void build_return(Builder& b, const std::string& unit, const std::vector<int>& rows, int* unnamed) {
  const auto row_of = [&](int i) -> const LampRow& { return b.spec.car.lamps[static_cast<std::size_t>(i)]; };
  const LampRow* named = &row_of(rows[0]);
  for (int i : rows)
    if (row_of(i).return_stud) named = &row_of(i);
  const PartId stud = return_stud(b, *named, unnamed);
  const SizedColour colour = named->return_wire.value_or(SizedColour{});
  std::vector<TerminalRef> ends;
  for (int i : rows)
    ends.push_back(row_of(i).drive == "ground-switched" ? ground_switch(b, i, row_of(i), colour)
                                                        : TerminalRef{b.circuit.lamps[static_cast<std::size_t>(i)].lamp, 1});
  TerminalRef end = ends[0];
  if (rows.size() > 1) {
    const PartId joint = b.add_splice(unit + " return", unit, named->side, Zone::lamp, Status::factory);
    Part& part = b.circuit.parts[static_cast<std::size_t>(joint.v)];
    part.kind = "joint";
    part.group = unit;
    end = {joint, 0};
    for (const TerminalRef& from : ends) b.add_wire(inside_wire(b, from, end));
  }
  b.factory_wire(end, {stud, 0}, colour, b.rule("factory_return_m"), {named->place, {}});
  b.circuit.wires.back().circuit = "ground";
}

}  // namespace

std::string sided(const std::string& text, Side side) {
  const std::size_t at = text.find("SIDE");
  if (at == std::string::npos) return text;
  if (side == Side::centre) return "";
  return text.substr(0, at) + (side == Side::left ? "left" : "right") + text.substr(at + 4);
}

void build_lamps(Builder& b) {
  std::map<std::string, std::vector<int>> units;  // housing -> rows
  std::vector<std::string> order;
  for (std::size_t i = 0; i < b.spec.car.lamps.size(); ++i) {
    const LampRow& row = b.spec.car.lamps[i];
    const PartId id = b.add(lamp_part(b, row, static_cast<int>(i) + 1));
    const LampFunction* function = b.catalogue.function(row.function.value);
    if (function == nullptr)
      b.diagnostics.error("lamp-function", row.function.place, "no lamp function '" + row.function.value + "' in the catalogue");
    const std::string car = function == nullptr || row.added ? "" : sided(function->car, row.side);
    LampIntent intent;
    intent.lamp = id;
    intent.car_function = row.function.value;
    intent.side = row.side;
    intent.car_signal = car;
    b.circuit.lamps.push_back(std::move(intent));
    b.lamp_rows.push_back(static_cast<int>(i));
    if (row.drive == "data-bus")   // the electronics in the lamp switch it
      for (Element& e : b.circuit.parts[static_cast<std::size_t>(id.v)].elements) e = gated(e, Gate::lit, car);
    if (row.added) continue;       // the method says where it returns
    if (units[row.unit].empty()) order.push_back(row.unit);
    units[row.unit].push_back(static_cast<int>(i));
  }
  int unnamed = 0;
  for (const std::string& unit : order) build_return(b, unit, units[unit], &unnamed);
}

}  // namespace towloom
