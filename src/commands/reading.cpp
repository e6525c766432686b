#include "commands/reading.hpp"

#include <algorithm>
#include <iostream>

#include "check/loop.hpp"
#include "solve/meter.hpp"

namespace towloom {
namespace {

int refuse(const std::string& message, const std::string& hint) {
  std::cerr << "towloom: error: " << message << "\n  " << hint << "\n";
  return bad_input;
}

// "body", or a terminal like D1.K. Nothing after an error.
std::optional<TerminalRef> find_terminal(const Circuit& circuit, const std::string& option, const std::string& text) {
  if (text == "body") return TerminalRef{};
  const TerminalRef found = circuit.terminal(text);
  if (found.part) return found;
  const PartId part = circuit.find(text.substr(0, text.rfind('.')));
  std::vector<std::string> known;
  std::string list;
  for (const Part& p : circuit.parts)
    if (!part || p.id == circuit.part(part).id)
      for (const std::string& t : p.terminals) known.push_back(p.id + "." + t);
  for (const std::string& k : known) list += (list.empty() ? "" : ", ") + k;
  const std::string near = did_you_mean(text, known);
  refuse(option + ": no terminal '" + text + "'",
         !near.empty() ? "did you mean '" + near + "'?" : part ? "there are " + list : "write it like D1.K or J2.3.car, or body");
  return std::nullopt;
}

}  // namespace

bool put_fault(const std::string& text, Loaded& loaded) {
  Circuit& circuit = loaded.facts.sized.circuit;
  std::vector<std::string> known;
  for (const Fault& fault : list_faults(circuit, loaded.catalogue)) {
    known.push_back(describe(fault, loaded.catalogue));
    if (known.back() != text) continue;
    circuit = with_fault(std::move(circuit), fault, loaded.catalogue);
    return true;
  }
  const std::string near = did_you_mean(text, known);
  refuse("--fault: no single fault '" + text + "'", near.empty() ? "towloom check --faults lists them" : "did you mean '" + near + "'?");
  return false;
}

void say_no_rest(const Circuit& circuit, const Solved& solved) {
  std::cerr << "towloom: error: "
            << (solved.chatter.empty() ? std::string("this scene has no operating point") : "in this scene " + chatter_text(circuit, solved.chatter))
            << "\n  towloom check says what to do\n";
}

int print_reading(const Arguments& arguments, const Loaded& loaded, const Scene& scene) {
  const Circuit& circuit = loaded.facts.circuit();
  const std::string to = arguments.to.empty() ? "body" : arguments.to, name = arguments.meter.empty() ? "meter" : arguments.meter;
  const auto a = find_terminal(circuit, "--at", arguments.at), b = find_terminal(circuit, "--to", to);
  if (!a || !b) return bad_input;
  const auto& instruments = loaded.catalogue.instruments;
  const auto instrument = instruments.find(name);
  if (instrument == instruments.end()) {
    std::string list;
    for (const auto& [key, i] : instruments) list += (list.empty() ? "" : ", ") + key;
    return refuse("--meter: no instrument '" + name + "'", "there are " + list);
  }
  const auto readings = read_between(circuit, loaded.catalogue, scene, attach(instrument->second, loaded.catalogue, *a, *b));
  if (readings.empty()) {
    say_no_rest(circuit, solve(circuit, loaded.catalogue, scene));
    return faults;
  }
  std::cout << scene.name << "; " << instrument->second.title << " from " << arguments.at << " to " << to << "\n";
  for (std::size_t p = 0; p < readings.size(); ++p) {
    std::cout << "  " << (readings.size() == 1 ? "" : p % 2 == 0 ? "flash on: " : "flash off: ") << format_fixed(readings[p].volts, 3) << " V, "
              << format_fixed(1000 * readings[p].amps, 3) << " mA through it"
              << (readings[p].pulse_v != readings[p].volts ? ", the mean of pulses of " + format_fixed(readings[p].pulse_v, 3) + " V" : "") << "\n";
  }
  std::cout << "Check local law; licensed practice decides.\n";
  return clean;
}

}  // namespace towloom
