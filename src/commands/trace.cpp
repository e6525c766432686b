// One scene: volts and amps along every lit lamp's path, from its source to the lamp and back to ground.
#include <algorithm>
#include <cmath>
#include <iostream>

#include "base/file.hpp"
#include "commands/reading.hpp"
#include "solve/lamps.hpp"
#include "solve/network.hpp"
#include "solve/way.hpp"

namespace towloom {
namespace {

constexpr double least_a = 0.001;   // below this a branch only leaks

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

// From the source to the lamp and back to the source: volts of every point, amps of all between them. Points that
// are one, like those of car body, follow each other without a current.
void print_path(const Circuit& c, const Points& points, const std::vector<int>& node, const Phase& phase, PartId lamp) {
  const std::vector<Current> currents = find_currents(c, points, phase, least_a);
  const auto through = std::find_if(currents.begin(), currents.end(), [&](const Current& a) {
    return a.part == lamp && a.element == &c.part(lamp).elements[0];
  });
  if (through == currents.end()) return;
  const std::vector<std::string> names = point_names(c, points);
  const auto print_point = [&](int at) {
    std::cout << "      " << names[static_cast<std::size_t>(at)] << "  " << format_fixed(phase.volts[static_cast<std::size_t>(at)], 2) << " V\n";
  };
  const Way way = find_way(node, currents, *through);
  int last = -1;
  for (const Current& a : way.steps) {
    if (a.from != last) print_point(a.from);
    std::cout << "        | " << name_of(c, a) << "  " << format_fixed(a.amps, 2) << " A\n";
    print_point(a.to);
    last = a.to;
  }
  if (!way.closed) std::cout << "      no single way back to its source: see the other lamps\n";
}

// "left+tail" of --coach or --car as signals. False after an error: the word and what there is.
bool read_signals(const std::string& text, const char* option, const std::map<std::string, SceneSignals>& known,
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
      if (out[signal] != Wave::flash) out[signal] = to_wave(wave);
  }
  return true;
}

}  // namespace

int trace_command(const Arguments& arguments) {
  if (arguments.coach.empty() && arguments.car.empty() && arguments.at.empty()) {
    std::cerr << "towloom: error: trace needs a signal\n  like --coach left+tail, or --car pedal\n";
    return bad_input;
  }
  auto loaded = load(arguments);
  if (!loaded) return bad_input;
  Scene scene;
  const SceneTable& words = loaded->catalogue.scenes;
  if (!arguments.coach.empty())
    for (const auto& [signal, wave] : words.in_tow) scene.signals[signal] = to_wave(wave);
  if (!read_signals(arguments.coach, "--coach", words.coach_words, scene.signals)) return bad_input;
  if (!read_signals(arguments.car, "--car", words.car_words, scene.signals)) return bad_input;
  if (!arguments.fault.empty() && !put_fault(arguments.fault, *loaded)) return bad_input;
  set_outlet(loaded->facts.circuit(), loaded->catalogue, loaded->facts.spec, scene);
  scene.name = (arguments.fault.empty() ? "" : arguments.fault + "; ") + "coach " + (arguments.coach.empty() ? "off" : arguments.coach) + ", car " + (arguments.car.empty() ? "off" : arguments.car);
  if (!arguments.at.empty()) return print_reading(arguments, *loaded, scene);
  const Circuit& c = loaded->facts.circuit();
  const Solved solved = solve(c, loaded->catalogue, scene);
  if (!solved.converged() || !solved.chatter.empty()) {
    say_no_rest(c, solved);
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
  const std::vector<int> node = flatten(c, loaded->catalogue, scene, 0).point;
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
      if (const int late = late_flashes(c, lamp, scene, lamp_state(c, loaded->catalogue, points, lamp.lamp, solved).seen); late > 0)
        std::cout << "    follows its flash " << late << " late: " << c.part(lamp.converter).id << " must see a whole flash first\n";
      print_path(c, points, node, phase, lamp.lamp);
    }
    if (!any) std::cout << "\n  no lamp carries current\n";
  }
  std::cout << "\nCheck local law; licensed practice decides.\n";
  return clean;
}

}  // namespace towloom
