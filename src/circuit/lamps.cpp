// The car's lamps in their housings, with their returns.
#include <algorithm>

#include "circuit/builder.hpp"

namespace towloom {
namespace {

constexpr double measured_v = 12.8;  // volts at which a measured lamp current counts, SAE lamp design volts

Element lamp_element(Builder& b, const LampRow& row) {
  if (row.led) {
    Element e;
    e.law = Law::led;
    e.b = 1;
    e.volts = measured_v;
    e.amps = row.amps.value_or(0) * row.count;
    e.threshold_v = b.rule("led_threshold_v");
    return e;
  }
  if (row.amps) return filament(0, 1, measured_v, *row.amps * row.count);
  const auto bulb = b.catalogue.bulbs.find(row.bulb);
  if (bulb == b.catalogue.bulbs.end()) {
    std::vector<std::string> known;
    for (const auto& [name, known_bulb] : b.catalogue.bulbs) known.push_back(name);
    const std::string near = did_you_mean(row.bulb, known);
    b.diagnostics.error("unknown-lamp", row.source.place, "no lamp '" + row.bulb + "' in the catalogue",
                        near.empty() ? "or give its measured current: 1.86 A" : "did you mean '" + near + "'?");
    return filament(0, 1, measured_v, 1);
  }
  for (const Filament& f : bulb->second.filaments)
    if (f.name == row.filament) return filament(0, 1, f.volts, f.amps * row.count);
  b.diagnostics.error("filament", row.source.place, "say which filament of the " + row.bulb + " it is",
                      row.filament.empty() ? "like " + row.bulb + " bright" : "'" + row.filament + "' is none of them");
  return filament(0, 1, measured_v, 1);
}

// "SIDE" stands for the lamp's own side; a centre lamp has none and the text then names no signal.
std::string sided(const std::string& text, Side side) {
  const std::size_t at = text.find("SIDE");
  if (at == std::string::npos) return text;
  if (side == Side::centre) return "";
  return text.substr(0, at) + (side == Side::left ? "left" : "right") + text.substr(at + 4);
}

// The first signal of its function that the tow line has; functions made for the other kind of coach stay dark.
std::string tow_signal(const Builder& b, const LampRow& row, const LampFunction* function) {
  if (row.dark_in_tow || function == nullptr) return "";
  if (!function->only.empty() && function->only != b.spec.coach.signals.value) return "";
  for (const std::string& text : function->tow) {
    const std::string signal = sided(text, row.side);
    if (b.signal_port.count(signal) != 0) return signal;
  }
  // Without it the lamp cannot be lit in tow: the isolation step says so, with the lamp's place.
  return function->optional || function->tow.empty() ? "" : sided(function->tow.back(), row.side);
}

Part lamp_part(Builder& b, const LampRow& row, int number) {
  Part p;
  p.id = "E" + std::to_string(number);
  p.kind = "lamp";
  p.title = row.function.value;
  p.value = row.source.value;
  p.group = row.unit;
  p.function = row.function.value;
  p.place = row.unit;
  p.side = row.side;
  p.zone = Zone::lamp;
  p.status = Status::factory;
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
    std::vector<std::string> known;
    for (const GroundRow& g : b.spec.grounds) known.push_back(g.name.value);
    const std::string near = did_you_mean(row.return_stud->value, known);
    b.diagnostics.error("unknown-ground", row.return_stud->place, "no ground '" + row.return_stud->value + "'",
                        near.empty() ? "add it under grounds:" : "did you mean '" + near + "'?");
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

}  // namespace

void build_lamps(Builder& b) {
  std::map<std::string, std::vector<int>> units;  // housing -> rows
  std::vector<std::string> order;
  for (std::size_t i = 0; i < b.spec.car.lamps.size(); ++i) {
    const LampRow& row = b.spec.car.lamps[i];
    const PartId id = b.add(lamp_part(b, row, static_cast<int>(i) + 1));
    const LampFunction* function = b.catalogue.function(row.function.value);
    if (function == nullptr)
      b.diagnostics.error("lamp-function", row.function.place, "no lamp function '" + row.function.value + "' in the catalogue");
    const std::string car = function == nullptr ? "" : sided(function->car, row.side);
    b.circuit.lamps.push_back({id, tow_signal(b, row, function), row.function.value, row.side, car});
    b.lamp_rows.push_back(static_cast<int>(i));
    if (units[row.unit].empty()) order.push_back(row.unit);
    units[row.unit].push_back(static_cast<int>(i));
  }
  int unnamed = 0;
  for (const std::string& unit : order) {
    const std::vector<int>& rows = units[unit];
    const LampRow* named = &b.spec.car.lamps[static_cast<std::size_t>(rows[0])];
    for (int i : rows)
      if (b.spec.car.lamps[static_cast<std::size_t>(i)].return_stud) named = &b.spec.car.lamps[static_cast<std::size_t>(i)];
    const PartId stud = return_stud(b, *named, &unnamed);
    const SizedColour colour = named->return_wire.value_or(SizedColour{});
    TerminalRef end = {b.circuit.lamps[static_cast<std::size_t>(rows[0])].lamp, 1};
    if (rows.size() > 1) {
      PartId joint = b.add_splice(unit + " return", unit, named->side, Zone::lamp, Status::factory);
      Part& part = b.circuit.parts[static_cast<std::size_t>(joint.v)];
      part.kind = "joint";
      part.group = unit;
      end = {joint, 0};
      for (int i : rows) b.add_wire(inside_wire(b, {b.circuit.lamps[static_cast<std::size_t>(i)].lamp, 1}, end));
    }
    b.factory_wire(end, {stud, 0}, colour, b.rule("factory_return_m"), {named->place, {}});
    b.circuit.wires.back().circuit = "ground";
  }
}

}  // namespace towloom
