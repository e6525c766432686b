// What each kind of part is electrically.
#include "circuit/builder.hpp"

namespace towloom {

Element resistor(int a, int b, double ohm) {
  Element e;
  e.law = Law::resistor;
  e.a = a;
  e.b = b;
  e.ohm = ohm;
  return e;
}

Element filament(int a, int b, double volts, double amps) {
  Element e;
  e.law = Law::filament;
  e.a = a;
  e.b = b;
  e.volts = volts;
  e.amps = amps;
  return e;
}

namespace {

Element gated(Element e, Gate gate, const std::string& signal) {
  e.gate = gate;
  e.signal = signal;
  return e;
}

Element diode(int anode, int cathode, const DiodeModel& m, double celsius) {
  Element e;
  e.law = Law::diode;
  e.a = anode;
  e.b = cathode;
  e.is = m.is;
  e.n = m.n;
  e.rs = m.rs;
  e.eg = m.eg;
  e.xti = m.xti;
  e.celsius = celsius;
  return e;
}

// Two diodes with a common cathode: A1 from the coach, A2 from the car, K to the lamp.
void make_diode_pair(Part& part, const DiodeModel& m) {
  constexpr double model_celsius = 27;  // the models' own temperature; conservative for the drop when warm
  part.terminals = {"A1", "A2", "K"};
  part.model = m.name;
  part.value = m.title;
  part.elements = {diode(0, 2, m, model_celsius), diode(1, 2, m, model_celsius)};
}

// Idle: stop joins both sides. Turned: that side is the flasher's, stop is off it.
void make_turn_switch(Part& part, double ohm) {
  part.terminals = {"supply", "stop", "left", "right"};
  for (const auto& [terminal, signal] : {std::pair{2, "car.turn.left"}, {3, "car.turn.right"}}) {
    part.elements.push_back(gated(resistor(0, terminal, ohm), Gate::lit, signal));
    part.elements.push_back(gated(resistor(1, terminal, ohm), Gate::idle, signal));
  }
}

const DiodeModel* find_diode(const FragmentPart& from, const std::map<std::string, std::string>& values, Builder& b) {
  const auto value = values.find("model");
  const std::string name = value == values.end() ? "" : value->second;
  const auto found = b.catalogue.diodes.find(name);
  if (found != b.catalogue.diodes.end()) return &found->second;
  std::vector<std::string> known;
  for (const auto& [key, model] : b.catalogue.diodes) known.push_back(key);
  const std::string near = did_you_mean(name, known);
  const auto choice = b.spec.isolation.choices.find("diode");
  b.diagnostics.error("unknown-diode", choice != b.spec.isolation.choices.end() ? choice->second.place : from.place,
                      "no diode '" + name + "' in the catalogue", near.empty() ? "" : "did you mean '" + near + "'?");
  return nullptr;
}

}  // namespace

std::optional<Part> make_kind(const FragmentPart& from, const std::map<std::string, std::string>& values, Builder& b) {
  Part part;
  part.kind = from.kind;
  part.origin.data = from.place;
  const auto value = [&](const char* key) {
    const auto it = values.find(key);
    return it == values.end() ? std::string() : it->second;
  };
  if (from.kind == "diode-pair") {
    const DiodeModel* model = find_diode(from, values, b);
    if (model == nullptr) return std::nullopt;
    make_diode_pair(part, *model);
  } else if (from.kind == "switch") {
    part.terminals = {"1", "2"};
    part.elements = {gated(resistor(0, 1, b.rule("switch_ohm")), Gate::lit, value("signal"))};
  } else if (from.kind == "turn-switch") {
    make_turn_switch(part, b.rule("switch_ohm"));
  } else {
    b.diagnostics.error("part-kind", from.place, "no kind of part is called '" + from.kind + "'",
                        "known: diode-pair, switch, turn-switch");
    return std::nullopt;
  }
  return part;
}

}  // namespace towloom
