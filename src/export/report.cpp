// The report: parts, wires, nets, scenes, readings, findings, assumptions, figures of each sheet.
#include <cmath>
#include <nlohmann/json.hpp>

#include "export/rows.hpp"
#include "prove/prove.hpp"

namespace towloom {
namespace {

using Json = nlohmann::ordered_json;   // keys in the order they are written

constexpr double micro = 1e-6, tenth_mm = 1e-4;

Json text_or_null(const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); }
std::string net_name(NetId net) { return "N" + std::to_string(net.v + 1); }

Json place_of(const Place& place, const Sources& sources) {
  if (!place.known() || place.file >= static_cast<int>(sources.files.size())) return nullptr;
  // The folder of the job is no fact of it.
  const std::string& name = sources.files[static_cast<std::size_t>(place.file)].name;
  return {{"file", name.substr(name.find_last_of('/') + 1)}, {"line", place.line}, {"column", place.column}};
}

Json job_of(const Facts& facts) {
  const TitleRows& t = facts.spec.job;
  int errors = 0;
  for (const Finding& f : facts.findings) errors += f.severity == Severity::error;
  return {{"number", t.number.value}, {"title", t.title.value}, {"date", t.date.value}, {"revision", t.revision}, {"by", t.by.value},
          {"faults", errors}, {"build", errors == 0}, {"note", "Check local law; licensed practice decides."}};
}

Json parts_of(const Circuit& c) {
  Json out = Json::array();
  for (std::size_t p = 0; p < c.parts.size(); ++p) {
    const Part& part = c.parts[p];
    Json terminals = Json::array();
    for (std::size_t t = 0; t < part.terminals.size(); ++t)
      terminals.push_back({{"name", part.terminals[t]}, {"net", net_name(c.net({{static_cast<int>(p)}, static_cast<int>(t)}))}});
    out.push_back({{"id", part.id}, {"kind", part.kind}, {"title", text_or_null(part.title)}, {"value", text_or_null(part.value)},
                   {"function", text_or_null(part.function)}, {"place", text_or_null(part.place)}, {"status", to_text(part.status)}, {"terminals", terminals}});
  }
  return out;
}

Json wires_of(const Facts& facts, const Catalogue& catalogue) {
  const Circuit& c = facts.circuit();
  Json out = Json::array();
  for (const WireRow& row : wire_rows(facts, catalogue)) {
    const Wire& w = *row.wire;
    Json fuse = nullptr;
    if (row.fuse.amps > 0) fuse = {{"amps", row.fuse.amps}, {"which", row.fuse.fuse}};
    out.push_back({{"id", w.id}, {"from", c.name(w.from)}, {"to", c.name(w.to)}, {"net", net_name(c.net(w.from))}, {"circuit", text_or_null(w.circuit)},
                   {"colour", text_or_null(w.colour)}, {"size", w.size ? Json(w.size->text()) : Json(nullptr)},
                   {"mm2", row.mm2 > 0 ? Json(rounded(row.mm2, tenth_mm)) : Json(nullptr)}, {"length_m", rounded(w.length_m, tenth_mm)}, {"runs", w.runs},
                   {"amps_max", rounded(row.amps_max, micro)}, {"drop_v", rounded(row.drop_v, micro)}, {"fuse", fuse}, {"status", to_text(w.status)}});
  }
  return out;
}

Json nets_of(const Circuit& c) {
  std::vector<Json> terminals(static_cast<std::size_t>(c.nets), Json::array());
  for (std::size_t p = 0; p < c.parts.size(); ++p)
    for (std::size_t t = 0; t < c.parts[p].terminals.size(); ++t) {
      const TerminalRef at{{static_cast<int>(p)}, static_cast<int>(t)};
      terminals[static_cast<std::size_t>(c.net(at).v)].push_back(c.name(at));
    }
  Json out = Json::array();
  for (int n = 0; n < c.nets; ++n) out.push_back({{"id", net_name({n})}, {"terminals", terminals[static_cast<std::size_t>(n)]}});
  return out;
}

const char* to_word(Wave w) {
  return w == Wave::off ? "off" : w == Wave::on ? "on" : w == Wave::flash ? "flashing" : "flashing in the other phase";
}

Json lamps_of(const Facts& facts, std::size_t scene) {
  const Circuit& c = facts.circuit();
  Json out = Json::array();
  for (std::size_t l = 0; l < c.lamps.size(); ++l) {
    const LampState& state = facts.states.lamps[scene][l];
    const Part& part = c.part(c.lamps[l].lamp);
    out.push_back({{"lamp", part.id}, {"unit", text_or_null(part.group)}, {"function", part.function}, {"required", to_text(facts.states.required[scene][l])},
                   {"lit", to_text(state.seen)}, {"volts", rounded(state.volts, micro)}, {"amps", rounded(state.amps, micro)}, {"light", rounded(state.light, micro)}});
  }
  return out;
}

Json scenes_of(const Facts& facts) {
  Json out = Json::array();
  for (std::size_t s = 0; s < facts.states.scenes.size(); ++s) {
    const Scene& scene = facts.states.scenes[s];
    Json signals = Json::object();
    for (const auto& [name, wave] : scene.signals)
      if (wave != Wave::off) signals[name] = to_word(wave);
    out.push_back({{"name", scene.name}, {"kind", scene.kind}, {"reason", text_or_null(scene.reason)}, {"solved", facts.states.solved[s].converged()},
                   {"signals", signals}, {"lamps", lamps_of(facts, s)}});
  }
  return out;
}

// Where a fitter can put the probe: contacts of the inlet, lamps' feeds, both sides of a cut; against car body.
std::vector<TerminalRef> meter_terminals(const Circuit& c) {
  std::vector<TerminalRef> out;
  for (const Part& part : c.parts)
    if (part.kind == "contact" && part.zone == Zone::inlet) out.push_back(c.terminal(part.id + ".car"));
  for (const LampIntent& lamp : c.lamps) out.push_back({lamp.lamp, 0});
  for (const CutPoint& cut : c.cuts) {
    if (cut.car_side) out.push_back(c.wires[static_cast<std::size_t>(cut.car_side.v)].to);
    if (cut.lamp_side) out.push_back(c.wires[static_cast<std::size_t>(cut.lamp_side.v)].from);
  }
  return out;
}

Json meter_points_of(const Facts& facts) {
  const Points points = number_points(facts.circuit());
  Json out = Json::array();
  for (const TerminalRef at : meter_terminals(facts.circuit())) {
    Json readings = Json::array();
    for (std::size_t s = 0; s < facts.states.scenes.size(); ++s) {
      if (facts.states.scenes[s].kind != "towing") continue;
      Json volts = Json::array();
      const Solved& solved = facts.states.solved[s];
      for (int p = 0; p < solved.phases; ++p) volts.push_back(rounded(solved.phase[static_cast<std::size_t>(p)].volts[static_cast<std::size_t>(points.at(at))], micro));
      readings.push_back({{"scene", facts.states.scenes[s].name}, {"volts", volts}});
    }
    const Part& part = facts.circuit().part(at.part);
    out.push_back({{"point", facts.circuit().name(at)}, {"place", text_or_null(part.place)}, {"against", "car body"}, {"readings", readings}});
  }
  return out;
}

Json findings_of(const Facts& facts, const Sources& sources) {
  Json out = Json::array();
  for (const Finding& f : facts.findings)
    out.push_back({{"rule", f.rule}, {"severity", f.severity == Severity::error ? "error" : f.severity == Severity::warning ? "warning" : "note"},
                   {"message", f.message}, {"action", text_or_null(f.action)}, {"reason", text_or_null(f.reason)}, {"place", place_of(f.place, sources)}, {"about", f.about}});
  return out;
}

Json sizes_of(const Facts& facts) {
  Json out = Json::array();
  for (const SizeChoice& s : facts.sized.why) {
    Json wires = Json::array();
    for (const WireId w : s.wires) wires.push_back(facts.circuit().wires[static_cast<std::size_t>(w.v)].id);
    out.push_back({{"group", s.group}, {"wires", wires}, {"size", s.size.text()}, {"next", s.runner_up.number.empty() ? Json(nullptr) : Json(s.runner_up.text())},
                   {"decided_by", s.decided_by}, {"drop_v", rounded(s.drop_v, micro)}, {"drop_limit_v", rounded(s.drop_limit_v, micro)},
                   {"amps", rounded(s.amps, micro)}, {"ampacity_a", rounded(s.ampacity_a, micro)}, {"worst", text_or_null(s.worst)}, {"proved_minimal", s.proved_minimal}});
  }
  return out;
}

Json assumed_of(const Circuit& c) {
  Json out = Json::array();
  for (const Assumed& a : c.assumed)
    out.push_back({{"what", a.what}, {"why", a.why}, {"source", text_or_null(a.provenance.source)}, {"from_memory", !a.provenance.source.empty() && a.provenance.weak()}});
  return out;
}

Json stats_of(const std::vector<Drawing>& pages) {
  Json out = Json::array();
  for (const Drawing& page : pages) {
    const SheetStats s = measure(page);
    out.push_back({{"sheet", page.sheet}, {"wires", s.wires}, {"crossings", s.crossings}, {"bends", s.bends}, {"straight", s.straight}, {"overlaps", s.overlaps},
                   {"symbol_hits", s.symbol_hits}, {"pin_misses", s.pin_misses}, {"label_overlaps", s.label_overlaps}, {"false_junctions", s.false_junctions},
                   {"length_ratio", rounded(s.length_ratio, micro)}, {"worst_detour", rounded(s.worst_detour, micro)}, {"min_gap_mm", rounded(s.min_gap_mm, 0.01)},
                   {"twin_symmetry", rounded(s.twin_symmetry, micro)}, {"fill", rounded(s.fill, micro)}});
  }
  return out;
}

}  // namespace

std::string to_report(const Facts& facts, const Catalogue& catalogue, const Sources& sources, const std::vector<Drawing>& pages) {
  const Circuit& c = facts.circuit();
  const Json out = {{"job", job_of(facts)}, {"parts", parts_of(c)}, {"wires", wires_of(facts, catalogue)}, {"nets", nets_of(c)}, {"sizes", sizes_of(facts)},
                    {"scenes", scenes_of(facts)}, {"meter_points", meter_points_of(facts)}, {"findings", findings_of(facts, sources)},
                    {"assumed", assumed_of(c)}, {"stats", stats_of(pages)}};
  return out.dump(1, ' ') + "\n";
}

const Scene& fullest_scene(const Facts& facts) {
  std::size_t best = 0;
  int most = -1;
  for (std::size_t s = 0; s < facts.states.scenes.size(); ++s) {
    if (facts.states.scenes[s].kind != "towing") continue;
    int lit = 0;
    for (const LampState& lamp : facts.states.lamps[s]) lit += lamp.seen != Seen::dark;
    if (lit > most) most = lit, best = s;
  }
  return facts.states.scenes[best];
}

}  // namespace towloom
