// One scene: volts and amps along every lit lamp's path, from its source to the lamp and back to ground.
#include <algorithm>
#include <cmath>
#include <iostream>
#include <set>

#include "base/file.hpp"
#include "commands/reading.hpp"
#include "solve/currents.hpp"

namespace towloom {
namespace {

constexpr double least_a = 0.001;   // below this a branch only leaks

// The strongest current into (back) or out of a point.
const Current* strongest(const std::vector<Current>& currents, int point, bool back) {
  const Current* best = nullptr;
  for (const Current& c : currents)
    if ((back ? c.to : c.from) == point && (best == nullptr || c.amps > best->amps)) best = &c;
  return best;
}

bool of_source(const Current& c) { return c.element != nullptr && c.element->law == Law::source; }

std::string name_of(const Circuit& circuit, const Current& c) {
  if (!c.wire) return circuit.part(c.part).id;
  const Wire& wire = circuit.wires[static_cast<std::size_t>(c.wire.v)];
  return wire.id + (wire.colour.empty() ? "" : " " + wire.colour) + (wire.size ? " " + wire.size->text() : "");
}

std::vector<std::string> point_names(const Circuit& c, const Points& points) {
  std::vector<std::string> out(static_cast<std::size_t>(points.count));
  for (std::size_t p = 0; p < c.parts.size(); ++p)
    for (std::size_t t = 0; t < c.parts[p].terminals.size(); ++t)
      out[static_cast<std::size_t>(points.first[p]) + t] = c.parts[p].id + "." + c.parts[p].terminals[t];
  return out;
}

void print_path(const Circuit& c, const Points& points, const Phase& phase, PartId lamp) {
  const std::vector<Current> currents = find_currents(c, points, phase, least_a);
  const std::vector<std::string> names = point_names(c, points);
  const auto print_point = [&](int at) {
    std::cout << "      " << names[static_cast<std::size_t>(at)] << "  " << format_fixed(phase.volts[static_cast<std::size_t>(at)], 2) << " V\n";
  };
  const auto print_current = [&](const Current& a) { std::cout << "        | " << name_of(c, a) << "  " << format_fixed(a.amps, 2) << " A\n"; };
  std::vector<const Current*> feed;
  std::set<int> seen;
  const bool reversed = phase.element_a[static_cast<std::size_t>(lamp.v)][0] < 0;
  const int in = points.first[static_cast<std::size_t>(lamp.v)] + (reversed ? 1 : 0), back = points.first[static_cast<std::size_t>(lamp.v)] + (reversed ? 0 : 1);
  for (int at = in; seen.insert(at).second;) {
    const Current* current = strongest(currents, at, true);
    if (current == nullptr || of_source(*current)) break;
    feed.push_back(current);
    at = current->from;
  }
  std::reverse(feed.begin(), feed.end());
  for (const Current* a : feed) {
    print_point(a->from);
    print_current(*a);
  }
  print_point(in);
  if (const Current* through = strongest(currents, in, false)) print_current(*through);
  print_point(back);
  std::set<int> passed;
  for (int at = back; passed.insert(at).second;) {
    const Current* current = strongest(currents, at, false);
    if (current == nullptr || of_source(*current)) break;
    print_current(*current);
    print_point(current->to);
    at = current->to;
  }
}

// "left+tail" of --coach or --car as signals. False after an error: the word and what there is.
bool read_signals(const std::string& text, const char* option, const std::map<std::string, std::map<std::string, Wave>>& known,
                  std::map<std::string, Wave>& out) {
  for (std::size_t at = 0; !text.empty() && at <= text.size();) {
    const std::size_t plus = std::min(text.find('+', at), text.size());
    const std::string word = text.substr(at, plus - at);
    at = plus + 1;
    const auto found = known.find(word);
    if (found == known.end()) {
      std::string list;
      std::vector<std::string> words;
      for (const auto& [name, waves] : known) list += (list.empty() ? "" : ", ") + name, words.push_back(name);
      const std::string near = did_you_mean(word, words);
      std::cerr << "towloom: error: " << option << ": no signal '" << word << "'\n  "
                << (near.empty() ? "" : "did you mean '" + near + "'? ") << "known: " << list << "\n";
      return false;
    }
    // A flashing side stays flashing beside a steady stop.
    for (const auto& [signal, wave] : found->second)
      if (out[signal] != Wave::flash) out[signal] = wave;
  }
  return true;
}

}  // namespace

int trace_command(const Arguments& arguments) {
  const std::map<std::string, std::map<std::string, Wave>> coach_words = {
      {"left", {{"coach.left", Wave::flash}}},  {"right", {{"coach.right", Wave::flash}}},
      {"stop", {{"coach.left", Wave::on}, {"coach.right", Wave::on}}},
      {"tail", {{"coach.tail", Wave::on}}},
      {"hazard", {{"coach.left", Wave::flash}, {"coach.right", Wave::flash}}}};
  const std::map<std::string, std::map<std::string, Wave>> car_words = {
      {"pedal", {{"car.pedal", Wave::on}}},  {"lamps", {{"car.lamps", Wave::on}}},
      {"left", {{"car.turn.left", Wave::flash}}}, {"right", {{"car.turn.right", Wave::flash}}},
      {"reverse", {{"car.reverse", Wave::on}}}};
  Scene scene;
  if (!read_signals(arguments.coach, "--coach", coach_words, scene.signals)) return bad_input;
  if (!read_signals(arguments.car, "--car", car_words, scene.signals)) return bad_input;
  if (scene.signals.empty() && arguments.at.empty()) {
    std::cerr << "towloom: error: trace needs a signal\n  like --coach left+tail, or --car pedal\n";
    return bad_input;
  }
  auto loaded = load(arguments);
  if (!loaded) return bad_input;
  if (!arguments.fault.empty() && !put_fault(arguments.fault, *loaded)) return bad_input;
  if (!arguments.coach.empty()) scene.signals["coupled"] = Wave::on;
  scene.name = (arguments.fault.empty() ? "" : arguments.fault + "; ") + "coach " + (arguments.coach.empty() ? "off" : arguments.coach) + ", car " + (arguments.car.empty() ? "off" : arguments.car);
  if (!arguments.at.empty()) return print_reading(arguments, *loaded, scene);
  const Circuit& c = loaded->facts.circuit();
  const Solved solved = solve(c, loaded->catalogue, scene);
  if (!solved.converged() || !solved.chatter.empty()) {
    std::cerr << "towloom: error: this scene finds no rest: see towloom check\n";
    return faults;
  }
  if (!arguments.netlist.empty()) {   // the lit half of the flash, the pulse on
    const std::string problem = write_files({{arguments.netlist, netlist(c, loaded->catalogue, scene, 0)}});
    if (!problem.empty()) {
      std::cerr << "towloom: error: cannot write: " << problem << "\n";
      return cannot_write;
    }
    std::cout << arguments.netlist << "\n";
  }
  const Points points = number_points(c);
  if (!arguments.fault.empty()) std::cout << "With a fault: " << arguments.fault << ".\n";
  std::cout << "Cord " << (arguments.coach.empty() ? "out" : "in") << "; coach: " << (arguments.coach.empty() ? "all off" : arguments.coach)
            << "; car: " << (arguments.car.empty() ? "all off" : arguments.car) << ". Volts against car body; a splice's other branches are not shown.\n";
  for (int p = 0; p < solved.phases; ++p) {
    const Phase& phase = solved.phase[static_cast<std::size_t>(p)];
    if (solved.phases > 1) std::cout << "\n" << (p % solved.flash_phases() == 0 ? "Flash on" : "Flash off") << (solved.pulsed && p >= solved.flash_phases() ? ", between pulses" : "") << "\n";
    bool any = false;
    for (const LampIntent& lamp : c.lamps) {
      const double amps = phase.element_a[static_cast<std::size_t>(lamp.lamp.v)][0];
      if (std::fabs(amps) < least_a) continue;
      any = true;
      const Part& part = c.part(lamp.lamp);
      const std::size_t first = static_cast<std::size_t>(points.first[static_cast<std::size_t>(lamp.lamp.v)]);
      std::cout << "\n  " << part.id << " " << part.group << " " << part.title << ": "
                << format_fixed(phase.volts[first] - phase.volts[first + 1], 2) << " V, " << format_fixed(amps, 2) << " A\n";
      print_path(c, points, phase, lamp.lamp);
    }
    if (!any) std::cout << "\n  no lamp carries current\n";
  }
  std::cout << "\nCheck local law; licensed practice decides.\n";
  return clean;
}

}  // namespace towloom
