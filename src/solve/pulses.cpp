#include "solve/pulses.hpp"

#include <algorithm>
#include <cmath>

#include "solve/laws.hpp"

namespace towloom {

namespace {

// Every filament, as changed, with its part and its number there.
template <class Work>
void each_filament(const Solver& solver, const Work& work) {
  const std::vector<Part>& parts = solver.circuit().parts;
  for (std::size_t p = 0; p < parts.size(); ++p)
    for (std::size_t e = 0; e < parts[p].elements.size(); ++e) {
      const PartId part{static_cast<int>(p)};
      const Element& element = solver.element(solver.branch(part, static_cast<int>(e)));
      if (element.law == Law::filament) work(part, static_cast<int>(e), element);
    }
}

double volts_across(const Solver& solver, PartId part, const Element& element, const std::vector<double>& volts) {
  const auto at = [&](int point) { return volts[static_cast<std::size_t>(solver.points().at({part, point}))]; };
  return at(element.a) - at(element.b);
}

}  // namespace

std::vector<HeldFilament> held_filaments(const Solver& solver, const Solved& solved) {
  std::vector<HeldFilament> out;
  each_filament(solver, [&](PartId part, int number, const Element& element) {
    for (int flash = 0; flash < solved.flash_phases(); ++flash) {
      double square = 0;
      for (int phase = flash; phase < solved.phases; phase += solved.flash_phases()) {
        const double v = volts_across(solver, part, element, solved.phase[static_cast<std::size_t>(phase)].volts);
        square += v * v * solved.weight(phase) * solved.flash_phases();
      }
      const double volts = std::sqrt(square), amps = respond(make_curve(element), volts).amps;
      if (amps > 0) out.push_back({part, number, flash, volts / amps});
    }
  });
  return out;
}

bool do_pulses_reach(const Solver& solver, const Solved& frame, const std::array<std::vector<double>, 4>& volts) {
  constexpr double least_v = 1e-4;
  bool out = false;
  each_filament(solver, [&](PartId part, int, const Element& element) {
    const auto at = [&](int phase) { return volts_across(solver, part, element, volts[static_cast<std::size_t>(phase)]); };
    for (int flash = 0; flash < frame.flash_phases(); ++flash) out = out || std::fabs(at(flash) - at(flash + frame.flash_phases())) > least_v;
  });
  return out;
}

bool agree(const std::vector<HeldFilament>& a, const std::vector<HeldFilament>& b, double share) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [share](const HeldFilament& x, const HeldFilament& y) {
    return x.part == y.part && x.element == y.element && x.flash == y.flash && std::fabs(x.ohm - y.ohm) <= share * y.ohm;
  });
}

std::vector<Change> held_changes(const std::vector<HeldFilament>& held, int flash) {
  std::vector<Change> out;
  for (const HeldFilament& h : held)
    if (h.flash == flash) out.push_back(ElementBecomes{h.part, h.element, h.ohm});
  return out;
}

}  // namespace towloom
