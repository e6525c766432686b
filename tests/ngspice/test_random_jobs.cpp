// 300 jobs made by chance of fixed seeds: each built, one scene and phase of it solved, and all handed to one
// process of ngspice. Gauge, lengths, lamps, diodes, outlet volts and the scene differ from job to job.
#include <cmath>
#include <random>

#include "circuit/fixture.hpp"
#include "ngspice/floating.hpp"
#include "ngspice/run_deck.hpp"
#include "solve/network.hpp"

using namespace towloom;

namespace {

constexpr unsigned jobs = 300;

struct Dice {
  std::mt19937 random;
  int pick(int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); }
  template <std::size_t n>
  const char* of(const char* const (&words)[n]) { return words[pick(static_cast<int>(n))]; }
  std::string between(double low, double high, const char* unit) {   // in steps of a tenth
    const int steps = static_cast<int>(std::lround((high - low) * 10));
    return format_plain(low + 0.1 * pick(steps + 1)) + " " + unit;
  }
};

std::string outlet(Dice& d, const char* does) {
  const double open = 12.4 + 0.1 * d.pick(20), lost = 0.2 + 0.1 * d.pick(8);
  return std::string("{does: ") + does + ", open: " + format_plain(open) + " V, loaded: " + format_plain(open - lost) + " V, load: 4.2 A}";
}

std::string make_job(Dice& d) {
  const char* pairs[] = {"P21/5W", "1157", "3157", "W21/5W", "7443"};
  const char* plates[] = {"2 x R5W", "W5W", "194", "2 x 194"};
  const char* high[] = {"LED 0.25 A", "LED 0.4 A", "P21W", "0.9 A"};
  const char* gauge[] = {"18 AWG", "16 AWG", "14 AWG", "12 AWG"};
  const char* factory[] = {"0.5 mm2", "0.75 mm2", "1 mm2"};
  const char* diode[] = {"silicon", "low-drop"};
  const std::string left = d.of(pairs), right = d.pick(4) == 0 ? d.of(pairs) : left.c_str();
  const std::string f = d.of(factory), wire = d.of(gauge);
  std::string out = "job: {title: by chance, number: R1, date: 2026-01-01, by: test}\n";
  out += "coach:\n  outlet: flat-4\n  signals: combined\n  found:\n";
  if (d.pick(4) != 0) out += "    \"2\": " + outlet(d, "tail") + "\n";
  out += "    \"3\": " + outlet(d, "left") + "\n    \"4\": " + outlet(d, "right") + "\n";
  out += "cord: {length: " + d.between(1.5, 4, "m") + ", wire: " + d.of(gauge) + ", kind: coiled}\n";
  out += "car:\n  inlet: {form: flat-4, half: trailer, at: bracket}\n  battery: engine bay\n  drive: left-hand\n"
         "  towing: {ignition: off, stop lamps: live}\n  monitoring: none\n  stop switch: {kind: switch, feeds: [turn switch, STOP_SW]}\n  lamps:\n";
  out += "    left rear: {stop-turn: " + left + " bright, feed: GY/VT " + f + ", node: ST_L, return: BK " + f + " to G-RL}\n";
  out += "    right rear: {stop-turn: " + right + " bright, feed: GY/OG " + f + ", node: ST_R, return: BK " + f + " to G-RR}\n";
  out += "    left tail: {in: left rear, tail: " + left + " dim, feed: PK/BK " + f + ", node: TAIL}\n";
  out += "    right tail: {in: right rear, tail: " + right + " dim, feed: PK/BK " + f + ", node: TAIL}\n";
  const bool plate = d.pick(3) != 0;
  if (plate) out += std::string("    plate: {plate: ") + d.of(plates) + ", feed: PK/BK " + f + ", node: TAIL, branch: upstream of left rear}\n";
  if (d.pick(3) != 0) out += std::string("    high stop: {chmsl: ") + d.of(high) + ", feed: WH/VT " + f + ", node: STOP_SW}\n";
  out += "isolation: {method: two-way-diodes, diode: " + std::string(d.of(diode)) + (plate ? ", plate: with left tail" : "") + "}\n";
  out += "runs:\n  front: {from: inlet, to: grommet, length: " + d.between(0.8, 2, "m") + "}\n  sill: {from: grommet, to: left rear, length: " +
         d.between(2.5, 6, "m") + "}\n  cross: {from: left rear, to: right rear, length: " + d.between(1, 2, "m") + "}\n";
  out += "grounds:\n  G-F: {at: front stud, takes: coach white}\n  G-RL: left stud\n  G-RR: right stud\n";
  out += "wire: {standard: AWG, lamps: " + wire + " ribbon of 4, ground: " + wire + "}\n";
  return out;
}

Scene make_scene(Dice& d) {
  const Wave waves[] = {Wave::off, Wave::on, Wave::flash};
  Scene s;
  s.name = "by chance";
  // Coupled: without the cord the coach floats, which test_plain_job.cpp holds.
  s.signals["coupled"] = Wave::on;
  for (const char* signal : {"coach.left", "coach.right"}) s.signals[signal] = waves[d.pick(3)];
  s.signals["coach.tail"] = waves[d.pick(2)];
  if (d.pick(3) == 0) s.signals["car.pedal"] = Wave::on;
  if (d.pick(4) == 0) s.signals["car.lamps"] = Wave::on;
  if (d.pick(4) == 0) s.signals["car.turn.left"] = Wave::flash;
  return s;
}

struct Case {
  Circuit circuit;
  Scene scene;
  int phase;
  Solved ours;
};

}  // namespace

TEST_CASE("300 jobs by chance are solved as ngspice does, in one process") {
  REQUIRE_MESSAGE(ngspice::present(), "this test needs the ngspice command");
  fixture::Job base = fixture::built(fixture::plain_job());
  const Catalogue& catalogue = *base.catalogue;
  std::vector<Case> cases;
  std::vector<std::string> decks;
  for (unsigned seed = 1; seed <= jobs; ++seed) {
    CAPTURE(seed);
    Dice d{std::mt19937(seed)};
    const std::string text = make_job(d);
    Sources sources;
    Diagnostics diagnostics;
    const int file = sources.add("job.yaml", text);
    const auto root = read_yaml(file, sources, diagnostics);
    const auto spec = root ? read_job(*root, file, diagnostics) : std::nullopt;
    auto circuit = spec ? build(*spec, catalogue, diagnostics) : std::nullopt;
    INFO(format_diagnostics(diagnostics, sources, false));
    REQUIRE(circuit.has_value());
    for (Wire& w : circuit->wires)   // every size is given but that of single jumpers
      if (!w.size && w.fixed_ohm < 0) w.size = parse_wire_size("16 AWG");
    const Scene scene = make_scene(d);
    Solved ours = solve(*circuit, catalogue, scene);
    REQUIRE(ours.converged());
    const int phase = d.pick(ours.phases);
    decks.push_back(netlist(*circuit, catalogue, scene, phase));
    cases.push_back({std::move(*circuit), scene, phase, std::move(ours)});
  }
  const auto theirs = ngspice::volts_of_all(decks);
  int points = 0, live = 0, floating = 0;
  for (std::size_t i = 0; i < cases.size(); ++i) {
    CAPTURE(i + 1);
    const Case& c = cases[i];
    REQUIRE_FALSE(theirs[i].empty());
    const Flat flat = flatten(c.circuit, catalogue, c.scene, c.phase);
    double worst = 0;
    for (std::size_t p = 0; p < flat.point.size(); ++p) {
      if (flat.point[p] < 0) continue;
      const auto at = theirs[i].find("p" + std::to_string(flat.point[p]));
      REQUIRE(at != theirs[i].end());
      const double mine = c.ours.phase[static_cast<std::size_t>(c.phase)].volts[p];
      double off = std::fabs(mine - at->second) / (10e-6 + 1e-6 * std::fabs(at->second));
      if (off > 1 && ngspice::floats(c.circuit, catalogue, c.scene, c.ours, c.phase, p)) {
        ++floating;
        off /= 10;
      }
      worst = std::max(worst, off);
      ++points;
      live += at->second > 10;
    }
    CHECK(worst <= 1);
  }
  CHECK(floating < 10);
  CHECK(points > 20000);
  CHECK(live > 3000);   // the decks were not dead
}
