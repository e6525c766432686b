#include "solve/meter.hpp"

#include "solve/network.hpp"

namespace towloom {

Attached attach(const Instrument& instrument, const Catalogue& catalogue, TerminalRef from, TerminalRef to) {
  Attached out{from, to, instrument.ohm, {}};
  if (instrument.lamp.value.empty()) return out;
  const Filament& f = catalogue.bulbs.at(instrument.lamp.value).filaments.front();
  out.load.emplace();
  out.load->law = Law::filament;
  out.load->volts = f.volts;
  out.load->amps = f.amps;
  return out;
}

std::vector<Reading> read_between(const Circuit& circuit, const Catalogue& catalogue, const Scene& scene, const Attached& attached,
                                  const Known& known) {
  return read_between(Solver(circuit, catalogue), scene, attached, known);
}

std::vector<Reading> read_between(const Solver& solver, const Scene& scene, const Attached& attached, const Known& known) {
  const Solved solved = solver.solve(scene, {attached}, known);
  if (!solved.converged() || !solved.chatter.empty()) return {};
  const Points& points = solver.points();
  std::vector<Reading> out;
  for (int p = 0; p < solved.phases; ++p) {
    const auto at = [&](TerminalRef t) {
      return t.part ? solved.phase[static_cast<std::size_t>(p)].volts[static_cast<std::size_t>(points.at(t))] : 0.0;
    };
    const double volts = at(attached.from) - at(attached.to);
    out.push_back({volts, respond(curve_of(attached), volts).amps});
  }
  return out;
}

}  // namespace towloom
