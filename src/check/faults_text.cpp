// The symptom table as text: faults that show the same stand together.
#include <map>

#include "check/check.hpp"
#include "solve/split.hpp"

namespace towloom {
namespace {

constexpr std::size_t most_scenes = 4;   // named on one line

std::string lamp_name(const Circuit& circuit, const Catalogue& catalogue, const WatchedLamp& lamp) {
  const Part& part = circuit.part(lamp.part);
  if (part.kind != "lamp")   // a filament of the coach's own, on one of its signals
    return part.title + " " + part.terminals[static_cast<std::size_t>(part.elements[static_cast<std::size_t>(lamp.element)].a)];
  const LampFunction* function = catalogue.function(part.function);
  const std::string& title = function == nullptr ? part.function : function->title;
  return part.group.empty() || part.group == title ? title : part.group + " " + title;
}

std::string shown(const Symptom& s) {
  switch (s.light) {
    case LightChange::dimmer: return "dimmer";
    case LightChange::brighter: return "brighter";
    case LightChange::none: break;
  }
  return to_text(s.seen);
}

// One line a lamp and look: the scenes in which it shows.
std::string symptoms_text(const Circuit& circuit, const Catalogue& catalogue, const std::vector<Scene>& scenes, const std::vector<WatchedLamp>& lamps,
                          const std::vector<Symptom>& symptoms) {
  std::map<std::pair<int, std::string>, std::vector<std::string>> lines;
  for (const Symptom& s : symptoms) lines[{s.lamp, shown(s)}].push_back(scenes[static_cast<std::size_t>(s.scene)].name);
  std::string out;
  for (const auto& [what, where] : lines) {
    out += "  " + lamp_name(circuit, catalogue, lamps[static_cast<std::size_t>(what.first)]) + " " + what.second + ": ";
    for (std::size_t i = 0; i < where.size() && i < most_scenes; ++i) out += (i > 0 ? "; " : "") + where[i];
    if (where.size() > most_scenes) out += "; and " + std::to_string(where.size() - most_scenes) + " more";
    out += "\n";
  }
  return out.empty() ? "  nothing shows at any lamp\n" : out;
}

// One line a reading, deeper where another one follows.
void add_split(const Facts& facts, const Catalogue& catalogue, const FaultTable& table, const Split& split, std::string indent, std::string& out) {
  for (const Split& next : split.next) {
    out += indent + format_fixed(next.volts, 1) + " V at " + facts.circuit().name(split.at) + ": ";
    for (std::size_t i = 0; i < next.faults.size() && next.next.empty(); ++i)
      out += (i > 0 ? "; " : "") + describe(table.rows[static_cast<std::size_t>(next.faults[i])].fault, catalogue);
    out += next.next.empty() ? "\n" : "read on\n";
    add_split(facts, catalogue, table, next, indent + "  ", out);
  }
}

}  // namespace

std::string faults_text(const Facts& facts, const Catalogue& catalogue, const FaultTable& table) {
  const Circuit& circuit = facts.circuit();
  const std::vector<WatchedLamp> lamps = watched_lamps(circuit);
  std::string out = "Single faults: " + std::to_string(table.rows.size()) + " solved in " + std::to_string(facts.states.scenes.size()) +
                    " scenes; " + std::to_string(table.classes.size()) + " pictures. Lamps that are not named do as they should.\n";
  // Figures that decide what shows, with where they come from.
  const auto taken = [&](const char* rule, const std::string& says) {
    out += "  " + says + " [" + catalogue.rule(rule).provenance.source + (catalogue.rule(rule).provenance.weak() ? "; from memory" : "") + "]\n";
  };
  taken("fuse_opens", "a fuse opens from " + format_plain(catalogue.rule("fuse_opens").value) + " times its rating");
  taken("coach_fuse_a", "each of the coach's feeds has a fuse of " + format_plain(catalogue.rule("coach_fuse_a").value) + " A");
  taken("dimmer_share", "dimmer: below " + format_plain(catalogue.rule("dimmer_share").value) + " of the sound lamp's light");
  int number = 0;
  for (const FaultClass& c : table.classes) {
    out += "\n" + std::to_string(++number) + ".\n" + symptoms_text(circuit, catalogue, facts.states.scenes, lamps, c.symptoms);
    for (const int f : c.faults) {
      const FaultRow& row = table.rows[static_cast<std::size_t>(f)];
      out += "    - " + describe(row.fault, catalogue);
      for (const PartId part : row.blown) out += ", and the fuse of " + circuit.part(part).id + " opens";
      if (row.unsolved > 0) out += ", not solved in " + std::to_string(row.unsolved) + " scenes";
      out += "\n";
    }
    const Split split = split_class(circuit, catalogue, facts.states, table, c);
    if (split.next.empty()) continue;
    const Scene& scene = facts.states.scenes[static_cast<std::size_t>(c.symptoms.front().scene)];
    out += "    told apart with a meter to body, scene '" + scene.name + "', flash on:\n";
    add_split(facts, catalogue, table, split, "      ", out);
  }
  return out;
}

}  // namespace towloom
