// Ngspice's answer carried on to 30 digits. It adds up conductances in doubles: at a terminal of 100 kS and 12 V the last
// digit is 1e-10 A, and a piece that hangs on leaks of 1 nS may then lie 10 mV off.
#pragma once

#include <tuple>

#include "ngspice/deck_elements.hpp"
#include "ngspice/wide.hpp"

namespace towloom::ngspice {

struct CarriedOn {
  std::map<std::string, double> volts;
  double moved = 0;            // V, the farthest that a point moved from ngspice's answer
};

// Newton on the deck's own equations from ngspice's answer, all sums of 32 digits.
inline CarriedOn carry_on(const std::string& text, const std::map<std::string, double>& from) {
  const Deck deck = read_deck(text);
  const std::size_t n = deck.points.size();
  std::vector<Wide> volts(n);
  for (const auto& [name, p] : deck.points) volts[static_cast<std::size_t>(p)] = from.at(name);
  CarriedOn out;
  for (int round = 0; round < 60; ++round) {
    std::vector<std::vector<Wide>> g(n, std::vector<Wide>(n));
    std::vector<Wide> into(n);
    for (const DeckElement& e : deck.elements) {
      const auto at = [&](int p) { return p < 0 ? Wide() : volts[static_cast<std::size_t>(p)]; };
      const Wide v = at(e.a) - at(e.b);
      const Flow flow = e.law ? e.law(v.high) : Flow{};
      const Wide siemens = e.law ? Wide(flow.siemens) : Wide(1) / Wide(e.ohm);
      const Wide amps = e.law ? Wide(flow.amps) + siemens * Wide(v.low) : (v - Wide(e.emf)) * siemens;
      for (const auto& [p, other, sign] : {std::tuple{e.a, e.b, 1.0}, std::tuple{e.b, e.a, -1.0}}) {
        if (p < 0) continue;
        const auto row = static_cast<std::size_t>(p);
        into[row] = into[row] - Wide(sign) * amps;
        g[row][row] = g[row][row] + siemens;
        if (other >= 0) g[row][static_cast<std::size_t>(other)] = g[row][static_cast<std::size_t>(other)] - siemens;
      }
    }
    for (std::size_t k = 0; k < n; ++k) {              // symmetric and positive: no pivots need be sought
      for (std::size_t i = k + 1; i < n; ++i) {
        if (g[i][k].high == 0) continue;
        const Wide share = g[i][k] / g[k][k];
        for (std::size_t j = k; j < n; ++j)
          if (g[k][j].high != 0) g[i][j] = g[i][j] - share * g[k][j];
        into[i] = into[i] - share * into[k];
      }
    }
    double largest = 0;
    for (std::size_t k = n; k-- > 0;) {
      for (std::size_t j = k + 1; j < n; ++j)
        if (g[k][j].high != 0) into[k] = into[k] - g[k][j] * into[j];
      into[k] = into[k] / g[k][k];
      largest = std::max(largest, std::fabs(into[k].high));
      volts[k] = volts[k] + into[k];
    }
    if (largest < 1e-12) break;
    REQUIRE(round < 59);
  }
  for (const auto& [name, p] : deck.points) {
    out.volts[name] = volts[static_cast<std::size_t>(p)].high;
    out.moved = std::max(out.moved, std::fabs(out.volts[name] - from.at(name)));
  }
  return out;
}

}  // namespace towloom::ngspice
