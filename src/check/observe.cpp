#include "check/check.hpp"
#include "check/observe.hpp"

#include <algorithm>

namespace towloom {
namespace {

constexpr double broken_ohm = 1e6;   // from here on as good as open
constexpr double joined_ohm = 0.001;

struct At {                    // what a row's mark names
  PartId part;
  int terminal = -1;           // -1: the part itself
  WireId wire;
};

std::optional<At> find_mark(const Circuit& c, const std::string& mark) {
  for (std::size_t w = 0; w < c.wires.size(); ++w)
    if (c.wires[w].id == mark) return At{{}, -1, {static_cast<int>(w)}};
  for (std::size_t p = 0; p < c.parts.size(); ++p) {
    const Part& part = c.parts[p];
    const PartId id{static_cast<int>(p)};
    // A contact also by its moulded letters.
    const std::string moulded = part.kind == "contact" ? part.group + "." + part.title : part.id;
    for (const std::string& name : {part.id, moulded}) {
      if (mark == name) return At{id, -1, {}};
      for (std::size_t t = 0; t < part.terminals.size(); ++t)
        if (mark == name + "." + part.terminals[t]) return At{id, static_cast<int>(t), {}};
    }
  }
  return std::nullopt;
}

std::vector<Change> in_series(const Circuit& c, const At& at, double ohm) {
  if (at.wire) return {WireInSeries{at.wire, ohm}};
  const Part& part = c.part(at.part);
  if (at.terminal < 0 && !part.elements.empty() && part.elements[0].law == Law::resistor) {
    if (ohm >= broken_ohm) return {ElementBecomes{at.part, 0, open_ohm}};
    return {ElementInSeries{at.part, 0, ohm}};
  }
  for (std::size_t w = 0; w < c.wires.size(); ++w)   // a tap or crimp: the wire that ends there
    if (const TerminalRef t{at.part, std::max(0, at.terminal)}; c.wires[w].from == t || c.wires[w].to == t)
      return {WireInSeries{{static_cast<int>(w)}, ohm}};
  return {};
}

std::vector<Change> reversed(const Circuit& c, const At& at) {
  const Part& part = c.part(at.part);
  for (std::size_t e = 0; e < part.elements.size(); ++e)
    if (part.elements[e].law == Law::diode && (at.terminal < 0 || part.elements[e].a == at.terminal)) return {ElementReversed{at.part, static_cast<int>(e)}};
  return {};
}

// A part that is not there: through parts are bridged by their wires, a coil gets nothing, a load or resistor is off.
std::vector<Change> absent(const Circuit& c, const At& at) {
  const Part& part = c.part(at.part);
  std::vector<Change> out;
  const bool across = part.kind == "resistor" || part.kind == "load" || part.kind == "lamp";
  for (std::size_t e = 0; e < part.elements.size(); ++e) {
    const Element& element = part.elements[e];
    const int index = static_cast<int>(e);
    if (at.terminal >= 0 && element.a != at.terminal) continue;
    if (across)
      out.push_back(ElementBecomes{at.part, index, open_ohm});
    else if (element.gate == Gate::rest || (part.devices.empty() && element.gate == Gate::always))
      out.push_back(ElementBecomes{at.part, index, joined_ohm});
    else
      out.push_back(ElementBecomes{at.part, index, open_ohm});
  }
  return out;
}

bool like(double a, double b) { return (a >= broken_ohm && b >= broken_ohm) || (a < 5 * b && b < 5 * a); }

struct Same {
  template <class A, class B>
  bool operator()(const A&, const B&) const { return false; }
  bool operator()(const WireInSeries& a, const WireInSeries& b) const { return a.wire == b.wire && like(a.ohm, b.ohm); }
  bool operator()(const ElementInSeries& a, const ElementInSeries& b) const { return a.part == b.part && a.element == b.element && like(a.ohm, b.ohm); }
  bool operator()(const ElementBecomes& a, const ElementBecomes& b) const { return a.part == b.part && a.element == b.element && like(a.ohm, b.ohm); }
  bool operator()(const ElementReversed& a, const ElementReversed& b) const { return a.part == b.part && a.element == b.element; }
  bool operator()(const LeadsExchanged& a, const LeadsExchanged& b) const { return (a.a == b.a && a.b == b.b) || (a.a == b.b && a.b == b.a); }
  bool operator()(const Bridge& a, const Bridge& b) const { return a.a == b.a && a.b == b.b && like(a.ohm, b.ohm); }
};

// The known single fault that makes these changes, in any order.
void name_fault(Fault& fault, const std::vector<Fault>& known) {
  for (const Fault& k : known) {
    const bool same = k.changes.size() == fault.changes.size() && std::all_of(k.changes.begin(), k.changes.end(), [&](const Change& a) {
      return std::any_of(fault.changes.begin(), fault.changes.end(), [&](const Change& b) { return std::visit(Same{}, a, b); });
    });
    if (!same) continue;
    fault.kind = k.kind;
    fault.at = k.at;
    return;
  }
}

bool observes(const AsFoundRow& row) { return row.on || row.band || row.fitted || row.ohm || row.loses_v || !row.cores.empty(); }

// A row in the words of check --faults.
bool by_words(const AsFoundRow& row, const std::vector<Fault>& known, const Catalogue& catalogue, Observed& out, Diagnostics& diagnostics) {
  std::vector<std::string> words;
  for (const Fault& fault : known) {
    words.push_back(describe(fault, catalogue));
    if (words.back() != row.what.value) continue;
    out.fault = fault;
    out.about = fault.at.substr(0, fault.at.find_first_of(". "));
    out.seen = words.back();
    return true;
  }
  const std::string near = did_you_mean(row.what.value, words);
  diagnostics.error("as-found", row.what.place, "this circuit has no fault '" + row.what.value + "'",
                    near.empty() ? "towloom check --faults lists them; or name a part and what was seen: {on: plastic}" : "did you mean '" + near + "'?");
  return false;
}

bool by_sight(const AsFoundRow& row, const std::vector<Plug>& all, const Circuit& c, const Catalogue& catalogue, Observed& out, Diagnostics& diagnostics) {
  if (!row.cores.empty()) {
    const Plug* meant = &all[0];   // "cord", or the name of a second plug
    for (const Plug& plug : all)
      if (plug.name == row.what.value) meant = &plug;
    out.about = meant->outlet_id();
    for (const auto& [from, to] : row.cores) out.seen += (out.seen.empty() ? "cores " : ", ") + from.value + " to " + to.value;
    out.fault.changes = cores_as_metered(c, *meant, row, out.loose, diagnostics);
    return !diagnostics.has_errors();
  }
  if (row.what.value == "tow bar" && row.ohm) {   // metered from frame to frame; open unless so found
    out.about = "COACH";
    out.seen = "reads " + ohm_text(row.ohm->value) + " from frame to frame";
    if (const TerminalRef coach = c.terminal("COACH.ground"), body = c.terminal("G-BAT.body"); coach.part && body.part)
      out.fault.changes = {Bridge{coach, body, row.ohm->value}};
    return !out.fault.changes.empty();
  }
  const auto at = find_mark(c, row.what.value);
  if (!at) {
    diagnostics.error("as-found", row.what.place, "this circuit has no part, contact or wire '" + row.what.value + "'", "the bench sheet shows their marks");
    return false;
  }
  out.about = at->wire ? c.wires[static_cast<std::size_t>(at->wire.v)].id : c.part(at->part).id;
  if (row.on) {
    const auto surface = catalogue.surfaces.find(row.on->value);
    if (surface == catalogue.surfaces.end() || at->wire || c.part(at->part).kind != "stud") {
      std::string list;
      for (const auto& [name, s] : catalogue.surfaces) list += (list.empty() ? "" : ", ") + name;
      diagnostics.error("as-found", row.on->place, "a ground stands on a surface of the catalogue", "known: " + list);
      return false;
    }
    out.seen = "on " + row.on->value;
    out.fault.changes = in_series(c, *at, surface->second.ohm);
  } else if (row.band) {
    out.seen = "band away from what it feeds";
    if (!at->wire) out.fault.changes = reversed(c, *at);
  } else if (row.fitted) {
    out.seen = "not fitted";
    if (!at->wire) out.fault.changes = absent(c, *at);
    if (!at->wire && at->terminal < 0) out.missing = at->part;
  } else {
    const double ohm = row.ohm ? row.ohm->value : row.loses_v->value / row.at_a->value;
    out.seen = row.ohm ? "reads " + ohm_text(ohm) : "loses " + format_plain(row.loses_v->value) + " V at " + format_plain(row.at_a->value) + " A";
    out.fault.changes = in_series(c, *at, ohm);
  }
  if (!out.fault.changes.empty()) return true;
  diagnostics.error("as-found", row.what.place, "'" + row.what.value + "' has nothing that this could be seen at", "on: a ground; band: a diode; fitted: a part; ohm, loses: a contact, ground, wire or terminal");
  return false;
}

}  // namespace

std::string flag_letter(int number) { return number <= 26 ? std::string(1, static_cast<char>('A' + number - 1)) : std::to_string(number); }

std::vector<Observed> read_observations(const Spec& spec, const Circuit& intended, const Catalogue& catalogue, Diagnostics& diagnostics) {
  std::vector<Observed> out;
  if (spec.as_found.empty()) return out;
  const std::vector<Fault> known = list_faults(intended, catalogue);
  const std::vector<Plug> all = plugs(spec);
  for (const AsFoundRow& row : spec.as_found) {
    Observed o;
    o.row = &row;
    Diagnostics own;
    const bool good = observes(row) ? by_sight(row, all, intended, catalogue, o, own) : by_words(row, known, catalogue, o, own);
    for (const Diagnostic& d : own.all()) diagnostics.error(d.code, d.place, d.message, d.hint);
    if (!good) continue;
    if (o.fault.kind.empty()) name_fault(o.fault, known);
    o.should = should_be(o, all, spec, intended, catalogue);
    out.push_back(std::move(o));
  }
  return out;
}

Circuit with_observed(Circuit circuit, const Observed& o, const Catalogue& catalogue) {
  circuit = with_fault(std::move(circuit), o.fault, catalogue);
  if (o.missing) circuit.parts[static_cast<std::size_t>(o.missing.v)].kind = "absent";
  number_nets(circuit);
  return circuit;
}

}  // namespace towloom
