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
  for (int flash = 0; flash < solved.flash_phases(); ++flash) {
    Reading mean;
    for (int p = flash; p < solved.phases; p += solved.flash_phases()) {
      const auto at = [&](TerminalRef t) {
        return t.part ? solved.phase[static_cast<std::size_t>(p)].volts[static_cast<std::size_t>(points.at(t))] : 0.0;
      };
      const double volts = at(attached.from) - at(attached.to), share = solved.weight(p) * solved.flash_phases();
      mean.volts += share * volts;
      mean.amps += share * respond(curve_of(attached), volts).amps;
      if (p == flash) mean.pulse_v = volts;
    }
    out.push_back(mean);
  }
  return out;
}

}  // namespace towloom
