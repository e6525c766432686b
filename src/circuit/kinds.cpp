// What each kind of part is electrically.
#include "catalogue/part_kinds.hpp"
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

Element device_gated(Element e, Gate gate, int device) {
  e.gate = gate;
  e.device = device;
  return e;
}

// Conducts from a to b only, with a resistance and no threshold.
Element one_way(int a, int b, double ohm) {
  Element e;
  e.law = Law::led;
  e.a = a;
  e.b = b;
  e.volts = 1;
  e.amps = 1 / ohm;
  return e;
}

Element limited(int a, int b, double volts, double ohm, double most_a, double least_a) {
  Element e;
  e.law = Law::limited;
  e.a = a;
  e.b = b;
  e.volts = volts;
  e.ohm = ohm;
  e.amps = most_a;
  e.least_a = least_a;
  return e;
}

constexpr double model_celsius = 27;   // the models' own temperature; conservative for the drop when warm
constexpr double leak_test_v = 12;     // leakage figures are stated at about this voltage
constexpr double charger_ohm = 0.05;   // slope of a charger's output below its limit; common practice, no source

const DiodeModel* body_diode(const Builder& b) {
  const auto found = b.catalogue.diodes.find("silicon");
  return found == b.catalogue.diodes.end() ? nullptr : &found->second;
}

void add_body_diode(Part& part, int anode, int cathode, const DiodeModel* model) {
  if (model != nullptr) part.elements.push_back(diode(anode, cathode, *model, model_celsius));
}

// Idle: stop joins both sides. Turned: that side is the flasher's, stop is off it.
void make_turn_switch(Part& part, double ohm) {
  for (const auto& [terminal, signal] : {std::pair{2, "car.turn.left"}, {3, "car.turn.right"}}) {
    part.elements.push_back(gated(resistor(0, terminal, ohm), Gate::lit, signal));
    part.elements.push_back(gated(resistor(1, terminal, ohm), Gate::idle, signal));
  }
}

// A transistor pair in each way: supplied (by its own output) a small resistance one way, else a body diode.
void make_ideal(Part& part, const PartModel& m, const DiodeModel* body) {
  const int out = static_cast<int>(part.terminals.size()) - 2, ground = out + 1;
  part.devices.push_back({"supply", out, ground, m.figures.at("works from"), m.figures.at("works from"), true, -1});
  part.elements.push_back(resistor(out, ground, leak_test_v / m.figures.at("draw")));   // without it no supply
  for (int in = 0; in < out; ++in) {
    add_body_diode(part, in, out, body);
    part.elements.push_back(device_gated(one_way(in, out, m.figures.at("on")), Gate::pulled, 0));
    if (m.figures.at("leak") > 0) part.elements.push_back(resistor(in, out, leak_test_v / m.figures.at("leak")));
  }
}

void make_from_model(Part& part, const PartModel& m, const std::string& signal, const DiodeModel* body) {
  const auto figure = [&](const char* key) { return m.figures.at(key); };
  if (m.kind == "relay") {
    part.devices.push_back({"coil", 0, 1, figure("pull in"), figure("drop out"), false, -1});
    part.elements = {resistor(0, 1, figure("coil")), device_gated(resistor(2, 3, figure("contact")), Gate::rest, 0),
                     device_gated(resistor(2, 4, figure("contact")), Gate::pulled, 0)};
  } else if (m.kind == "sensing-relay") {
    part.devices.push_back({"coil", 0, 2, figure("pull in"), figure("drop out"), true, -1});
    part.elements = {resistor(0, 2, figure("draw")), device_gated(resistor(0, 1, figure("contact")), Gate::pulled, 0)};
  } else if (m.kind == "charger") {
    part.devices.push_back({"supply", 0, 2, figure("works from"), figure("stops at"), true, -1});
    part.elements = {device_gated(limited(0, 2, 0, figure("stops at") / figure("draw"), figure("draw"), 0), Gate::pulled, 0),
                     device_gated(limited(1, 2, figure("volts"), charger_ohm, 0, figure("limit")), Gate::pulled, 0)};
  } else if (m.kind == "controller-output" || m.kind == "pulsed-output") {
    part.elements = {gated(resistor(0, 1, figure("on")), Gate::lit, signal)};
    if (m.kind == "pulsed-output") part.elements[0].duty = figure("duty");
    add_body_diode(part, 1, 0, body);
  } else if (m.kind == "load") {
    part.elements = {limited(0, 1, 0, 1, figure("draw"), 0)};
  } else {
    make_ideal(part, m, body);
  }
}

template <class Map>
const typename Map::mapped_type* find_model(const Map& map, const char* what, const FragmentPart& from, const std::string& name, Builder& b) {
  const auto found = map.find(name);
  if (found != map.end()) return &found->second;
  std::vector<std::string> known;
  for (const auto& [key, model] : map) known.push_back(key);
  const std::string near = did_you_mean(name, known);
  const auto choice = b.spec.isolation.choices.find(what);
  b.diagnostics.error(std::string("unknown-") + what, choice != b.spec.isolation.choices.end() ? choice->second.place : from.place,
                      std::string("no ") + what + " '" + name + "' in the catalogue", near.empty() ? "" : "did you mean '" + near + "'?");
  return nullptr;
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
  for (const ModuleModel::Row& row : m.rows) part.logic->rows.push_back({row.in, row.out, row.otherwise, row.uncertain});
  if (m.draw_a > 0) part.elements.push_back(limited(0, 1, 0, m.works_from_v / m.draw_a, m.draw_a, 0));
  for (const std::string& in : m.inputs) {
    part.elements.push_back(resistor(static_cast<int>(part.terminals.size()), 1, m.input_ohm));
    part.terminals.push_back("in_" + in);
  }
  for (std::size_t o = 0; o < m.outputs.size(); ++o) {
    const int out = static_cast<int>(part.terminals.size());
    part.devices.push_back({"out_" + m.outputs[o], 0, 0, 0, 0, false, static_cast<int>(o)});
    part.elements.push_back(device_gated(resistor(0, out, m.on_ohm), Gate::pulled, static_cast<int>(o) + 1));
    if (m.leak_a > 0) part.elements.push_back(resistor(0, out, leak_test_v / m.leak_a));
    add_body_diode(part, out, 0, body);
    part.terminals.push_back("out_" + m.outputs[o]);
  }
  return part;
}

Part model_part(const PartModel& m, const std::string& signal, const DiodeModel* body) {
  Part part;
  part.kind = m.kind;
  part.model = m.name;
  part.value = m.title;
  part.terminals = find_kind(m.kind)->terminals;
  make_from_model(part, m, signal, body);
  return part;
}

std::optional<Part> make_kind(const FragmentPart& from, const std::map<std::string, std::string>& values, Builder& b) {
  const auto value = [&](const char* key) {
    const auto it = values.find(key);
    return it == values.end() ? std::string() : it->second;
  };
  const PartKind* kind = find_kind(from.kind);
  if (kind == nullptr) {
    std::vector<std::string> known;
    std::string list;
    for (const PartKind& k : part_kinds()) {
      known.emplace_back(k.kind);
      list += (list.empty() ? "" : ", ") + known.back();
    }
    const std::string near = did_you_mean(from.kind, known);
    b.diagnostics.error("part-kind", from.place, "no kind of part is called '" + from.kind + "'",
                        near.empty() ? "known: " + list : "did you mean '" + near + "'?");
    return std::nullopt;
  }
  Part part;
  part.terminals = kind->terminals;
  const std::string models = kind->model_of;
  if (models == "diodes") {
    const DiodeModel* m = find_model(b.catalogue.diodes, "diode", from, value("model"), b);
    if (m == nullptr) return std::nullopt;
    part.model = m->name;
    part.value = m->title;
    const int cathode = static_cast<int>(part.terminals.size()) - 1;
    for (int anode = 0; anode < cathode; ++anode) part.elements.push_back(diode(anode, cathode, *m, model_celsius));
  } else if (models == "modules") {
    const ModuleModel* m = find_model(b.catalogue.modules, "module", from, value("model"), b);
    if (m == nullptr) return std::nullopt;
    part = module_part(*m, body_diode(b));
  } else if (models == "parts") {
    const PartModel* m = find_model(b.catalogue.parts, "part", from, value("model"), b);
    if (m == nullptr) return std::nullopt;
    if (m->kind != from.kind) {
      b.diagnostics.error("part-kind", from.place, "'" + m->name + "' is a " + m->kind + ", not a " + from.kind);
      return std::nullopt;
    }
    part = model_part(*m, value("signal"), body_diode(b));
  } else if (from.kind == "switch") {
    part.elements = {gated(resistor(0, 1, b.rule("switch_ohm")), Gate::lit, value("signal"))};
  } else if (from.kind == "turn-switch") {
    make_turn_switch(part, b.rule("switch_ohm"));
  } else if (from.kind == "turn-lever") {
    part.elements = {gated(resistor(0, 1, b.rule("switch_ohm")), Gate::lit, "car.turn.left"),
                     gated(resistor(0, 2, b.rule("switch_ohm")), Gate::lit, "car.turn.right")};
  } else if (from.kind == "fuse") {
    part.elements = {resistor(0, 1, b.rule("fuse_ohm"))};
    part.value = value("rating");
  } else {  // resistor
    const auto ohm = parse_quantity(value("ohm"), Unit::ohm);
    if (!ohm || !(*ohm > 0)) {
      b.diagnostics.error("resistor", from.place, "a resistor needs its resistance", "like ohm: 1 kohm");
      return std::nullopt;
    }
    part.elements = {resistor(0, 1, *ohm)};
    part.value = value("ohm");
  }
  part.kind = from.kind;
  part.origin.data = from.place;
  return part;
}

}  // namespace towloom
