// Parts whose figures a model of the catalogue gives: relays, outputs, isolators, chargers, modules.
#include "catalogue/part_kinds.hpp"
#include "circuit/builder.hpp"

namespace towloom {
namespace {

constexpr double leak_test_v = 12;     // leakage figures are stated at about this voltage
constexpr double charger_ohm = 0.05;   // slope of a charger's output below its limit; common practice, no source

void add_body_diode(Part& part, int anode, int cathode, const DiodeModel* model) {
  if (model != nullptr) part.elements.push_back(diode(anode, cathode, *model));
}

// A transistor pair in each way: supplied (by its own output) a small resistance one way, else a body diode.
void make_ideal(Part& part, const PartModel& m, const DiodeModel* body) {
  const int out = static_cast<int>(part.terminals.size()) - 2, ground = out + 1;
  part.devices.push_back({"supply", out, ground, m.figures.at("works from"), m.figures.at("works from"), true, -1});
  part.elements.push_back(resistor(out, ground, leak_test_v / m.figures.at("draw")));   // without it no supply
  for (int in = 0; in < out; ++in) {
    add_body_diode(part, in, out, body);
    part.elements.push_back(gated(one_way(in, out, m.figures.at("on")), Gate::pulled, 0));
    if (m.figures.at("leak") > 0) part.elements.push_back(resistor(in, out, leak_test_v / m.figures.at("leak")));
  }
}

void make_from_model(Part& part, const PartModel& m, const std::string& signal, const DiodeModel* body, const std::string& full) {
  const auto figure = [&](const char* key) { return m.figures.at(key); };
  if (m.kind == "relay") {
    part.devices.push_back({"coil", 0, 1, figure("pull in"), figure("drop out"), false, -1});
    part.elements = {resistor(0, 1, figure("coil")), gated(resistor(2, 3, figure("contact")), Gate::rest, 0),
                     gated(resistor(2, 4, figure("contact")), Gate::pulled, 0)};
  } else if (m.kind == "sensing-relay") {
    part.devices.push_back({"coil", 0, 2, figure("pull in"), figure("drop out"), true, -1});
    part.elements = {resistor(0, 2, figure("draw")), gated(resistor(0, 1, figure("contact")), Gate::pulled, 0)};
  } else if (m.kind == "charger") {   // it takes less as its input falls towards the volts where it stops
    part.devices.push_back({"supply", 0, 2, figure("works from"), figure("stops at"), true, -1});
    part.elements = {gated(limited(0, 2, figure("stops at"), (figure("works from") - figure("stops at")) / figure("draw"), figure("draw"), 0), Gate::pulled, 0),
                     gated(limited(1, 2, figure("volts"), charger_ohm, 0, figure("limit")), Gate::pulled, 0)};
  } else if (m.kind == "controller-output" || m.kind == "pulsed-output") {
    part.elements = {gated(resistor(0, 1, figure("on")), Gate::lit, signal)};
    if (m.kind == "pulsed-output") part.elements[0].duty = figure("duty");
    if (!full.empty()) part.elements.push_back(gated(resistor(0, 1, figure("on")), Gate::lit, full));
    add_body_diode(part, 1, 0, body);
  } else if (m.kind == "breaker") {
    part.elements = {resistor(0, 1, figure("on"))};
  } else if (m.kind == "load") {
    part.elements = {limited(0, 1, 0, 1, figure("draw"), 0)};
  } else {
    make_ideal(part, m, body);
  }
}

}  // namespace

Part module_part(const ModuleModel& m, const DiodeModel* body) {
  Part part;
  part.kind = "module";
  part.model = m.name;
  part.value = m.title;
  part.terminals = {"supply", "ground"};
  part.devices.push_back({"supply", 0, 1, m.works_from_v, m.stops_at_v, true, -1});
  part.logic.emplace();
  part.logic->inputs = m.inputs;
  part.logic->outputs = m.outputs;
  part.logic->high_v = m.high_v;
  part.logic->low_v = m.low_v;
  part.logic->rows = m.rows;
  part.logic->late_flashes = m.late_flashes;
  if (m.draw_a > 0) part.elements.push_back(limited(0, 1, 0, m.works_from_v / m.draw_a, m.draw_a, 0));
  for (const std::string& in : m.inputs) {
    part.elements.push_back(resistor(static_cast<int>(part.terminals.size()), 1, m.input_ohm));
    part.terminals.push_back("in_" + in);
  }
  for (std::size_t o = 0; o < m.outputs.size(); ++o) {
    const int out = static_cast<int>(part.terminals.size());
    part.devices.push_back({"out_" + m.outputs[o], 0, 0, 0, 0, false, static_cast<int>(o)});
    part.elements.push_back(gated(resistor(0, out, m.on_ohm), Gate::pulled, static_cast<int>(o) + 1));
    if (m.leak_a > 0) part.elements.push_back(resistor(0, out, leak_test_v / m.leak_a));
    add_body_diode(part, out, 0, body);
    part.terminals.push_back("out_" + m.outputs[o]);
  }
  return part;
}

Part model_part(const PartModel& m, const std::string& signal, const DiodeModel* body, const std::string& full) {
  Part part;
  part.kind = m.kind;
  part.model = m.name;
  part.value = m.title;
  part.terminals = find_kind(m.kind)->terminals;
  make_from_model(part, m, signal, body, full);
  return part;
}

}  // namespace towloom
