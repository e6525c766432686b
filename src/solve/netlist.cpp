// One scene and phase as a deck that ngspice runs as it is.
#include <algorithm>
#include <charconv>
#include <set>

#include "solve/network.hpp"
#include "solve/pulses.hpp"

namespace towloom {
namespace {

// Shortest text that reads back as the same number; never through the locale.
std::string exact(double v) {
  char buffer[64];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, v);
  return {buffer, end.ptr};
}

std::string element_line(const Element& e, const std::string& id, const std::string& a, const std::string& b) {
  switch (e.law) {
    case Law::resistor: return "R" + id + " " + a + " " + b + " " + exact(std::max(e.ohm, least_ohm)) + "\n";
    case Law::source:  // the inner point lies between the ideal source and its resistance
      return "V" + id + " i" + id + " " + b + " DC " + exact(e.volts) + "\nR" + id + " i" + id + " " + a + " " +
             exact(std::max(e.ohm, least_ohm)) + "\n";
    case Law::filament: {
      const std::string x = "(V(" + a + "," + b + ")/" + exact(e.volts) + ")";
      return "B" + id + " " + a + " " + b + " I = " + exact(e.amps) + "*" + x + "*pow(" + x + "*" + x + "+" +
             exact(filament_cold * filament_cold) + "," + exact(filament_exponent) + ")\n";
    }
    case Law::led: {
      const double siemens = e.amps / (e.volts - e.threshold_v);
      const std::string v = "V(" + a + "," + b + ")";
      return "B" + id + " " + a + " " + b + " I = (" + v + " > " + exact(e.threshold_v) + ") ? (" + v + "-" +
             exact(e.threshold_v) + ")*" + exact(siemens) + " + " + exact(junction_leak) + "*" + v + " : " + exact(junction_leak) + "*" + v + "\n";
    }
    case Law::limited: {
      const std::string v = "V(" + a + "," + b + ")";
      return "B" + id + " " + a + " " + b + " I = max(-" + exact(e.least_a) + ", min(" + exact(e.amps) + ", (" + v + "-" + exact(e.volts) +
             ")*" + exact(1 / std::max(e.ohm, least_ohm)) + ")) + " + exact(junction_leak) + "*" + v + "\n";
    }
    case Law::power: {
      const std::string v = "V(" + a + "," + b + ")";
      const Curve c = make_curve(e);
      return "B" + id + " " + a + " " + b + " I = max(0, min(" + exact(e.volts * e.amps) + "/max(" + v + "," + exact(e.threshold_v) + "), (" + v +
             "-" + exact(c.volts) + ")*" + exact(c.siemens) + ")) + " + exact(junction_leak) + "*" + v + "\n";
    }
    case Law::diode: return "D" + id + " " + a + " " + b + " M" + id + " temp=" + exact(e.celsius) + "\n.model M" + id + " D(IS=" + exact(e.is) + " N=" + exact(e.n) +
                            " RS=" + exact(e.rs) + " EG=" + exact(e.eg) + " XTI=" + exact(e.xti) + ")\n";
  }
  return {};
}

// Names come from the job: nothing in them may end the comment line.
std::string plain_ascii(std::string text) {
  for (char& c : text)
    if (c < ' ' || c > '~') c = '?';
  return text;
}

}  // namespace

std::string netlist(const Circuit& cold, const Catalogue& catalogue, const Scene& scene, int phase) {
  const Solved solved = solve(cold, catalogue, scene);
  const Circuit circuit = with_fault(cold, {{}, {}, held_changes(solved.held, phase % solved.flash_phases())}, catalogue);
  const Phase& modes = solved.phase[static_cast<std::size_t>(phase)];
  const int flash = phase % solved.flash_phases();
  const bool pulse = phase < solved.flash_phases();
  const Flat flat = flatten(circuit, catalogue, scene, flash, {}, modes.pulled, pulse);
  const Points points = number_points(circuit);
  const auto node = [&](int point) {
    const int n = flat.point[static_cast<std::size_t>(point)];
    return n < 0 ? std::string("0") : "p" + std::to_string(n);
  };
  std::string out = "* " + plain_ascii(scene.name) + ", flash phase " + std::to_string(phase) + "\n" +
                    ".options reltol=1e-7 abstol=1e-13 vntol=1e-9 gmin=1e-12 temp=27 tnom=27 itl1=1000\n";
  for (std::size_t p = 0; p < circuit.parts.size(); ++p)   // which node is which terminal
    for (std::size_t t = 0; t < circuit.parts[p].terminals.size(); ++t)
      out += "* " + node(points.first[p] + static_cast<int>(t)) + " = " + plain_ascii(circuit.parts[p].id + "." + circuit.parts[p].terminals[t]) + "\n";
  for (std::size_t p = 0; p < circuit.parts.size(); ++p)
    for (std::size_t e = 0; e < circuit.parts[p].elements.size(); ++e) {
      const Element& element = circuit.parts[p].elements[e];
      if (!conducts(element, scene, flash, modes.pulled[p], pulse)) continue;
      out += element_line(element, std::to_string(p) + "x" + std::to_string(e), node(points.first[p] + element.a),
                          node(points.first[p] + element.b));
    }
  for (std::size_t w = 0; w < circuit.wires.size(); ++w)
    out += "Rw" + std::to_string(w) + " " + node(points.at(circuit.wires[w].from)) + " " +
           node(points.at(circuit.wires[w].to)) + " " + exact(ohm_of(circuit.wires[w], circuit, catalogue)) + "\n";
  std::set<std::string> nodes;
  for (int point = 0; point < points.count; ++point) nodes.insert(node(point));
  nodes.erase("0");
  // Our answer is ngspice's first guess; it then iterates by its own laws and tolerances.
  const Operating guess = find_operating_point(flat.network);
  for (std::size_t n = 0; n < guess.volts.size(); ++n)
    out += ".nodeset v(p" + std::to_string(n) + ")=" + exact(guess.volts[n]) + "\n";
  std::string printed;
  for (const std::string& n : nodes) {
    out += "Rleak" + n + " " + n + " 0 1e9\n";
    printed += "print v(" + n + ")\n";
  }
  return out + ".control\nset numdgt=12\nop\n" + printed + "quit\n.endc\n.end\n";
}

}  // namespace towloom
