// Currents of every wire and element of some of the jobs that are shown, in all scenes, against those that ngspice
// states for its own devices.
#include <algorithm>
#include <cmath>

#include "check/check.hpp"
#include "ngspice/run_deck.hpp"
#include "oracles/matrix.hpp"

using namespace towloom;

namespace {

struct DeviceAmps {
  std::string name;            // "@rw0[i]"
  double ours = 0;
};

// ngspice's name for the current of an element of the deck; a source's is that of its resistance, the other way round.
std::string device_of(const Element& e, const std::string& id) {
  switch (e.law) {
    case Law::resistor: case Law::source: return "@r" + id + "[i]";
    case Law::diode: return "@d" + id + "[id]";
    default: return "@b" + id + "[i]";
  }
}

std::vector<DeviceAmps> devices_of(const Circuit& c, const Phase& phase, const std::string& deck) {
  std::vector<DeviceAmps> out;
  for (std::size_t p = 0; p < c.parts.size(); ++p)
    for (std::size_t e = 0; e < c.parts[p].elements.size(); ++e) {
      const Element& element = c.parts[p].elements[e];
      const std::string id = std::to_string(p) + "x" + std::to_string(e), name = device_of(element, id);
      const char letter = static_cast<char>(std::toupper(name[1]));
      if (deck.find("\n" + std::string(1, letter) + id + " ") == std::string::npos) continue;   // open in this phase
      out.push_back({name, phase.element_a[p][e] * (element.law == Law::source ? -1 : 1)});
    }
  for (std::size_t w = 0; w < c.wires.size(); ++w) out.push_back({"@rw" + std::to_string(w) + "[i]", phase.wire_a[w]});
  return out;
}

}  // namespace

TEST_CASE("currents are ngspice's within a ten-thousandth or a microampere") {
  REQUIRE_MESSAGE(ngspice::present(), "this test needs the ngspice command");
  int compared = 0, strong = 0;
  for (const char* job : {"plain-hatchback", "low-coupe", "led-wagon", "large-pickup", "compact-crossover"}) {
    CAPTURE(job);
    const auto s = oracle::solved_text(oracle::job_text(job));
    const Circuit& c = s.facts->circuit();
    std::vector<std::string> decks;
    std::vector<std::vector<DeviceAmps>> ours;
    for (std::size_t i = 0; i < s.facts->states.scenes.size(); ++i) {
      std::string deck = netlist(c, *s.job.catalogue, s.facts->states.scenes[i], 0);
      ours.push_back(devices_of(c, s.facts->states.solved[i].phase[0], deck));
      std::string save = "save all", print;
      for (const DeviceAmps& d : ours.back()) save += " " + d.name, print += "print " + d.name + "\n";
      deck.insert(deck.find("op\n", deck.find(".control")), save + "\n");
      decks.push_back(deck.insert(deck.find("quit\n"), print));
    }
    const auto theirs = ngspice::volts_of_batch(decks);   // as written: in the other form a resistance is no device
    for (std::size_t i = 0; i < decks.size(); ++i)
      for (const DeviceAmps& d : ours[i]) {
        CAPTURE(s.facts->states.scenes[i].name);
        CAPTURE(d.name);
        const auto his = theirs[i].find(d.name);
        REQUIRE(his != theirs[i].end());
        // A wire of 10 kS between points that are one: its current is lost in the last digits of the volts.
        const double off = std::fabs(d.ours - his->second);
        CHECK(off <= std::max(1e-6, 1e-4 * std::fabs(his->second)));
        ++compared;
        strong += std::fabs(his->second) > 0.1;
      }
  }
  CHECK(compared > 10000);
  CHECK(strong > 1500);
}
