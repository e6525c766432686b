// What each kind of part that a fragment names is electrically.
#include <algorithm>

#include "catalogue/part_kinds.hpp"
#include "circuit/builder.hpp"

namespace towloom {
namespace {

const DiodeModel* body_diode(const Builder& b, const PlacedText& name) {
  const auto found = b.catalogue.diodes.find(name.value);
  return found == b.catalogue.diodes.end() ? nullptr : &found->second;
}

// Idle: stop joins both sides. Turned: that side is the flasher's, stop is off it.
void make_turn_switch(Part& part, double ohm) {
  for (const auto& [terminal, signal] : {std::pair{2, "car.turn.left"}, {3, "car.turn.right"}}) {
    part.elements.push_back(gated(resistor(0, terminal, ohm), Gate::lit, signal));
    part.elements.push_back(gated(resistor(1, terminal, ohm), Gate::idle, signal));
  }
}

// Figures that nobody read in a standard are named once.
void assume_weak(Builder& b, const std::string& title, const Provenance& provenance) {
  const auto& said = b.circuit.assumed;
  if (!provenance.weak() || std::any_of(said.begin(), said.end(), [&](const Assumed& a) { return a.what == title; })) return;
  b.circuit.assumed.push_back({title, "figures of its kind, not of the part at hand: compare with its sheet", provenance});
}

// A choice of the job is complained of where the job says it, a method's own value in the method.
template <class Map>
const typename Map::mapped_type* find_model(const Map& map, const char* what, const PlacedText& named, Builder& b) {
  const std::string& name = named.value;
  const auto found = map.find(name);
  if (found != map.end()) {
    assume_weak(b, found->second.title, found->second.provenance);
    return &found->second;
  }
  std::vector<std::string> known;
  for (const auto& [key, model] : map) known.push_back(key);
  const std::string near = did_you_mean(name, known);
  b.diagnostics.error(std::string("unknown-") + what, named.place,
                      std::string("no ") + what + " '" + name + "' in the catalogue", near.empty() ? "" : "did you mean '" + near + "'?");
  return nullptr;
}

}  // namespace

std::optional<Part> make_kind(const FragmentPart& from, const std::map<std::string, PlacedText>& values, Builder& b) {
  const auto value = [&](const char* key) {
    const auto it = values.find(key);
    return it == values.end() ? std::string() : it->second.value;
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
  const auto named = values.find("model");
  const PlacedText model = named == values.end() ? PlacedText{"", from.place} : named->second;
  Part part;
  part.terminals = kind->terminals;
  const std::string models = kind->model_of;
  if (models == "diodes") {
    const DiodeModel* m = find_model(b.catalogue.diodes, "diode", model, b);
    if (m == nullptr) return std::nullopt;
    part.model = m->name;
    part.value = m->title;
    const int cathode = static_cast<int>(part.terminals.size()) - 1;
    for (int anode = 0; anode < cathode; ++anode) part.elements.push_back(diode(anode, cathode, *m));
  } else if (models == "modules") {
    const ModuleModel* m = find_model(b.catalogue.modules, "module", model, b);
    if (m == nullptr) return std::nullopt;
    part = module_part(*m, body_diode(b, m->body_diode));
  } else if (models == "parts") {
    const PartModel* m = find_model(b.catalogue.parts, "part", model, b);
    if (m == nullptr) return std::nullopt;
    if (m->kind != from.kind) {
      b.diagnostics.error("part-kind", from.place, "'" + m->name + "' is a " + m->kind + ", not a " + from.kind);
      return std::nullopt;
    }
    part = model_part(*m, value("signal"), body_diode(b, m->body_diode), value("full"));
    // A car that looks for its lamps while they are off pulls the output up for that; solved as if it always did.
    if (const auto check = m->figures.find("check"); check != m->figures.end() && b.spec.car.monitoring.value == "off-pulse")
      part.elements.push_back(gated(resistor(0, 1, check->second), Gate::idle, value("signal")));
  } else if (from.kind == "switch") {
    const Gate gate = value("closed") == "idle" ? Gate::idle : Gate::lit;   // rests closed, opens with its signal
    part.elements = {gated(resistor(0, 1, b.rule("switch_ohm")), gate, value("signal"))};
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
