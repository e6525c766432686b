// The symptom table: faults that show the same stand together.
#include "check/fault_pictures.hpp"

#include <algorithm>
#include <map>

#include "check/fault_scenes.hpp"
#include "check/flash.hpp"
#include "solve/split.hpp"

namespace towloom {
namespace {

std::string lamp_name(const Circuit& circuit, const Catalogue& catalogue, const WatchedLamp& lamp) {
  const Part& part = circuit.part(lamp.part);
  if (part.kind != "lamp")   // a filament of the coach's own, on one of its signals
    return part.title + " " + part.terminals[static_cast<std::size_t>(part.elements[static_cast<std::size_t>(lamp.element)].a)];
  const LampFunction* function = catalogue.function(part.function);
  const std::string& title = function == nullptr ? part.function : function->title;
  if (part.group.empty() || part.group == title) return title;
  const std::string word = part.group.substr(part.group.rfind(' ') + 1) + " ";   // "left front" and "front lamps" share one
  return part.group + " " + (title.rfind(word, 0) == 0 ? title.substr(word.size()) : title);
}

std::string shown(const Symptom& s) {
  switch (s.light) {
    case LightChange::dimmer: return "dimmer";
    case LightChange::brighter: return "brighter";
    case LightChange::none: break;
  }
  return to_text(s.seen);
}

bool flashes(Seen seen) { return seen == Seen::flash || seen == Seen::counterflash; }

// A lamp that should flash and does not is missed by the flasher that feeds it, the coach's or the car's.
std::vector<std::string> flasher_lines(const Facts& facts, const Catalogue& catalogue, const std::vector<Symptom>& symptoms) {
  const States& states = facts.states;
  bool coach = false, car = false;
  for (const Symptom& s : symptoms) {
    const auto scene = static_cast<std::size_t>(s.scene), lamp = static_cast<std::size_t>(s.lamp);
    if (lamp >= states.lamps[scene].size() || !flashes(states.lamps[scene][lamp].seen) || flashes(s.seen)) continue;
    (states.scenes[scene].signal("coupled") == Wave::off ? car : coach) = true;
  }
  std::vector<std::string> out;
  const auto& flasher = facts.spec.coach.flasher;
  if (const std::string does = flash_with_lamp_out(flasher ? flasher->kind.value : "", catalogue); coach && !does.empty())
    out.push_back("the coach's turn signals " + does);
  if (const std::string does = flash_with_lamp_out("fixed load", catalogue); car && facts.spec.car.monitoring.value == "flasher")
    out.push_back("the car's turn signals " + does);
  return out;
}

// Lamps that look alike in scenes of the same name stand on one line: "left rear tail, plate dark: in tow, always".
std::vector<std::string> symptom_lines(const Circuit& circuit, const Catalogue& catalogue, const States& states, const std::vector<WatchedLamp>& lamps,
                                       const std::vector<Symptom>& symptoms) {
  struct Look {
    bool should_be_lit = true;
    std::vector<int> where;
  };
  std::map<std::pair<int, std::string>, Look> looks;
  for (const Symptom& s : symptoms) {
    Look& look = looks[{s.lamp, shown(s)}];
    look.should_be_lit = look.should_be_lit && (s.light != LightChange::none || s.seen == Seen::dark);
    look.where.push_back(s.scene);
  }
  std::vector<std::pair<std::string, std::string>> lines;   // lamps, and how they look where
  for (const auto& [what, look] : looks) {
    const std::string shows = what.second + ": " + where_it_shows(states, what.first, look.should_be_lit, look.where);
    const std::string name = lamp_name(circuit, catalogue, lamps[static_cast<std::size_t>(what.first)]);
    const auto same = std::find_if(lines.begin(), lines.end(), [&](const auto& line) { return line.second == shows; });
    if (same == lines.end()) lines.emplace_back(name, shows);
    else same->first += ", " + name;
  }
  std::vector<std::string> out;
  for (const auto& [names, shows] : lines) out.push_back(names + " " + shows);
  return out;
}

std::string what_opens(const Part& part) {
  if (part.kind == "coach-feed") return "the coach's fuse opens";
  return part.id + (part.kind.find("output") != std::string::npos ? " shuts off" : " opens");
}

// One line a reading, deeper where another one follows.
void add_split(const Facts& facts, const Catalogue& catalogue, const FaultTable& table, const Split& split, int depth, std::vector<FaultReading>& out) {
  for (const Split& next : split.next) {
    FaultReading reading{depth, next.volts, facts.circuit().name(split.at), {}};
    for (std::size_t i = 0; i < next.faults.size() && next.next.empty(); ++i) reading.faults.push_back(describe(table.rows[static_cast<std::size_t>(next.faults[i])].fault, catalogue));
    out.push_back(std::move(reading));
    add_split(facts, catalogue, table, next, depth + 1, out);
  }
}

}  // namespace

std::string text_of(const FaultReading& r) {
  std::string out = format_fixed(r.volts, 1) + " V at " + r.at + ": ";
  for (std::size_t i = 0; i < r.faults.size(); ++i) out += (i > 0 ? "; " : "") + r.faults[i];
  return r.faults.empty() ? out + "read on" : out;
}

std::string text_of(const FaultCause& c) { return c.fault + (c.opens.empty() ? "" : ", and " + c.opens); }

std::vector<FaultPicture> fault_pictures(const Facts& facts, const Catalogue& catalogue, const FaultTable& table) {
  const Circuit& circuit = facts.circuit();
  const std::vector<WatchedLamp> lamps = watched_lamps(circuit);
  std::vector<FaultPicture> out;
  for (const FaultClass& c : table.classes) {
    FaultPicture picture;
    picture.shows = symptom_lines(circuit, catalogue, facts.states, lamps, c.symptoms);
    for (std::string& line : flasher_lines(facts, catalogue, c.symptoms)) picture.shows.push_back(std::move(line));
    for (const int f : c.faults) {
      const FaultRow& row = table.rows[static_cast<std::size_t>(f)];
      FaultCause cause{describe(row.fault, catalogue), ""};
      for (const PartId part : row.blown) cause.opens += (cause.opens.empty() ? "" : ", and ") + what_opens(circuit.part(part));
      if (row.unsolved > 0) cause.fault += ", not solved in " + std::to_string(row.unsolved) + " scenes";
      picture.faults.push_back(std::move(cause));
    }
    const Split split = split_class(circuit, catalogue, facts.states, table, c);
    if (!split.next.empty()) picture.scene = facts.states.scenes[static_cast<std::size_t>(c.symptoms.front().scene)].name;
    add_split(facts, catalogue, table, split, 0, picture.readings);
    out.push_back(std::move(picture));
  }
  return out;
}

std::string faults_text(const Facts& facts, const Catalogue& catalogue, const FaultTable& table) {
  std::string out = "Single faults: " + std::to_string(table.rows.size()) + " solved in " + std::to_string(facts.states.scenes.size()) +
                    " scenes; " + std::to_string(table.classes.size()) + " pictures. Lamps that are not named do as they should.\n";
  // Figures that decide what shows, with where they come from.
  const auto taken = [&](const char* rule, const std::string& says) {
    out += "  " + says + " [" + catalogue.rule(rule).provenance.source + (catalogue.rule(rule).provenance.weak() ? "; from memory" : "") + "]\n";
  };
  taken("fuse_opens", "a fuse opens from " + format_plain(catalogue.rule("fuse_opens").value) + " times its rating");
  taken("coach_fuse_a", "each of the coach's feeds has a fuse of " + format_plain(catalogue.rule("coach_fuse_a").value) + " A");
  taken("dimmer_share", "dimmer: below " + format_plain(catalogue.rule("dimmer_share").value) + " of the sound lamp's light");
  const auto& flasher = facts.spec.coach.flasher;
  taken("flash_lamp_out", flasher && flasher->kind.value == "variable load" ? "the coach's flasher is of variable load: it gives no sign of a lamp that is out"
                          : flasher                                         ? "a flasher of fixed load shows a lamp that is out by its rate"
                                    : "may flash fast: a flasher of fixed load shows a lamp that is out by its rate; the kind of the coach's is not surveyed");
  int number = 0;
  for (const FaultPicture& p : fault_pictures(facts, catalogue, table)) {
    out += "\n" + std::to_string(++number) + ".\n";
    for (const std::string& line : p.shows) out += "  " + line + "\n";
    if (p.shows.empty()) out += "  nothing shows at any lamp\n";
    for (const FaultCause& cause : p.faults) out += "    - " + text_of(cause) + "\n";
    if (!p.readings.empty()) out += "    told apart with a meter to body, scene '" + p.scene + "', flash on:\n";
    for (const FaultReading& r : p.readings) out += "      " + std::string(static_cast<std::size_t>(2 * r.depth), ' ') + text_of(r) + "\n";
  }
  return out;
}

}  // namespace towloom
