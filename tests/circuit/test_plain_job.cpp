// The plain job against tables written by hand from the survey.
#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "circuit/fixture.hpp"
#include "oracles/wire_table_s01.hpp"

using namespace towloom;

namespace {

const fixture::Job& plain() {
  static const fixture::Job job = fixture::built(fixture::plain_job());
  return job;
}

const Circuit& circuit() {
  REQUIRE(plain().circuit.has_value());
  return *plain().circuit;
}

char letter(Side side) { return side == Side::left ? 'L' : side == Side::right ? 'R' : 'C'; }

PartId lamp(const std::string& function, char side) {
  for (size_t p = 0; p < circuit().parts.size(); ++p) {
    const Part& part = circuit().parts[p];
    if (part.kind == "lamp" && part.function == function && letter(part.side) == side) return {static_cast<int>(p)};
  }
  return {};
}

// Splices have no fixed id in the table: named by what they do.
std::string role(TerminalRef end) {
  const Part& part = circuit().part(end.part);
  if (part.kind == "lamp" && part.function == "plate" && end.index == 0) return "P";
  if (part.kind != "splice" || part.status != Status::fitted) return circuit().name(end);
  const auto block = circuit().terminal("D3.K");
  for (const Wire& w : circuit().wires)
    if ((w.from == block && w.to.part == end.part) || (w.to == block && w.from.part == end.part)) return "S-PLATE";
  return "S-TAIL";
}

// Parts reached from a terminal by wires, splices and joints only.
std::set<std::string> reach(TerminalRef start) {
  std::set<TerminalRef> seen{start};
  std::vector<TerminalRef> queue{start};
  while (!queue.empty()) {
    const TerminalRef at = queue.back();
    queue.pop_back();
    for (const Wire& w : circuit().wires)
      for (const auto& [a, b] : {std::pair{w.from, w.to}, {w.to, w.from}})
        if (a == at && seen.insert(b).second) queue.push_back(b);
  }
  std::set<std::string> names;
  for (const TerminalRef t : seen) names.insert(circuit().name(t));
  return names;
}

}  // namespace

TEST_CASE("the plain job builds without a word of complaint") {
  INFO(format_diagnostics(plain().diagnostics, plain().sources, false));
  CHECK(plain().diagnostics.all().empty());
  REQUIRE(plain().circuit.has_value());
}

TEST_CASE("fitted wires are those of the hand-written table") {
  std::vector<const Wire*> made;
  for (const Wire& w : circuit().wires)
    if (w.status == Status::fitted) made.push_back(&w);
  CHECK(made.size() == s01::fitted.size());
  for (const s01::WireRow& row : s01::fitted) {
    CAPTURE(row.from);
    CAPTURE(row.to);
    const auto at = std::find_if(made.begin(), made.end(), [&](const Wire* w) {
      const std::string a = role(w->from), b = role(w->to);
      return (a == row.from && b == row.to) || (row.circuit == "ground" && a == row.to && b == row.from);
    });
    REQUIRE(at != made.end());
    CHECK((*at)->circuit == row.circuit);
    CHECK((*at)->colour == row.colour);
    CHECK((*at)->length_m == doctest::Approx(row.length_m).epsilon(1e-9));
    CHECK((*at)->runs == row.runs);
    CHECK_FALSE((*at)->size.has_value());   // the job says auto
    made.erase(at);
  }
}

TEST_CASE("fitted wire numbers are W1 to W7, each once") {
  std::set<std::string> ids;
  for (const Wire& w : circuit().wires)
    if (w.status == Status::fitted) ids.insert(w.id);
  CHECK(ids == std::set<std::string>{"W1", "W2", "W3", "W4", "W5", "W6", "W7"});
}

TEST_CASE("a ribbon is one size: tail, left and right from the inlet share a size group") {
  std::set<std::string> groups;
  for (const Wire& w : circuit().wires)
    if (w.status == Status::fitted && circuit().part(w.from.part).group == "J2") groups.insert(w.group);
  CHECK(groups.size() == 1);
}

TEST_CASE("outlet, cord and inlet join function to function") {
  for (const s01::ContactRow& row : s01::contacts) {
    CAPTURE(row.contact);
    const PartId outlet = circuit().find("J1." + row.contact), inlet = circuit().find("J2." + row.contact);
    REQUIRE(outlet);
    REQUIRE(inlet);
    CHECK(circuit().part(outlet).function == row.signal);
    CHECK(circuit().part(inlet).function == row.signal);
    const auto core = std::find_if(circuit().wires.begin(), circuit().wires.end(),
                                   [&](const Wire& w) { return w.id == "C" + row.contact; });
    REQUIRE(core != circuit().wires.end());
    CHECK(std::set<TerminalRef>{core->from, core->to} ==
          std::set<TerminalRef>{circuit().terminal("J1." + row.contact + ".cord"),
                                circuit().terminal("J2." + row.contact + ".cord")});
    CHECK(core->colour == row.colour);
    CHECK(core->length_m == doctest::Approx(2.4));
    const Element& mated = circuit().part(inlet).elements.at(0);
    CHECK(mated.gate == Gate::selected);
    CHECK(mated.signal == "coupled");
  }
}

TEST_CASE("each block stands between coach, car and one lamp, never the wrong one") {
  for (const s01::BlockRow& row : s01::blocks) {
    CAPTURE(row.id);
    const PartId block = circuit().find(row.id);
    REQUIRE(block);
    CHECK(circuit().part(block).kind == "diode-pair");
    const PartId its_lamp = lamp(row.function, row.side);
    REQUIRE(its_lamp);
    // Coach side, car side and lamp side are three separate nets.
    const auto coach = reach(circuit().terminal(row.id + ".A1"));
    const auto car = reach(circuit().terminal(row.id + ".A2"));
    const auto lit = reach(circuit().terminal(row.id + ".K"));
    CHECK(lit.count(circuit().name({its_lamp, 0})) == 1);
    CHECK(coach.count("J2." + std::string(row.signal == "tail" ? "2" : row.signal == "left" ? "3" : "4") + ".car") == 1);
    for (const std::string& name : lit) {
      CHECK(coach.count(name) == 0);
      CHECK(car.count(name) == 0);
    }
    for (const std::string& name : coach) CHECK(car.count(name) == 0);
    const size_t lamps_here = static_cast<size_t>(std::count_if(lit.begin(), lit.end(), [](const std::string& n) {
      return n.size() > 5 && n.substr(n.size() - 5) == ".feed";
    }));
    CHECK(lamps_here == (row.id == "D3" ? 2u : 1u));   // the plate lamp hangs on the left tail's side
    CHECK(reach({its_lamp, 1}).count(row.stud + ".1") == 1);
  }
}

TEST_CASE("diodes point from coach and car to the lamp") {
  for (const s01::BlockRow& row : s01::blocks) {
    const Part& block = circuit().part(circuit().find(row.id));
    REQUIRE(block.elements.size() == 2);
    std::set<std::string> anodes;
    for (const Element& e : block.elements) {
      CHECK(e.law == Law::diode);
      anodes.insert(block.terminals[static_cast<size_t>(e.a)]);
      CHECK(block.terminals[static_cast<size_t>(e.b)] == "K");
    }
    CHECK(anodes == std::set<std::string>{"A1", "A2"});
  }
}

TEST_CASE("the factory wire is cut where its lamp takes over") {
  std::multiset<std::string> colours, expected;
  for (const CutPoint& cut : circuit().cuts) {
    const Wire& car = circuit().wires[static_cast<size_t>(cut.car_side.v)];
    CHECK(car.status == Status::factory);
    colours.insert(car.colour);
    if (!cut.lamp_side) {   // the plate's old branch: capped, leads to no lamp
      CHECK(circuit().part(car.to.part).kind == "cap");
      continue;
    }
    const Wire& lit = circuit().wires[static_cast<size_t>(cut.lamp_side.v)];
    CHECK(lit.status == Status::factory);
    CHECK(circuit().name(car.to).find(".A2") != std::string::npos);
    CHECK(circuit().name(lit.from).find(".K") != std::string::npos);
  }
  for (const s01::BlockRow& row : s01::blocks) expected.insert(row.factory_colour);
  expected.insert("PK/BK");   // the plate's own branch
  CHECK(colours == expected);
}

TEST_CASE("which lamp must show which signal is the survey's") {
  CHECK(circuit().lamps.size() == s01::intents.size());
  for (const s01::IntentRow& row : s01::intents) {
    CAPTURE(row.function);
    const PartId id = lamp(row.function, row.side);
    const auto at = std::find_if(circuit().lamps.begin(), circuit().lamps.end(),
                                 [&](const LampIntent& l) { return l.lamp == id; });
    REQUIRE(at != circuit().lamps.end());
    CHECK(at->tow_signal == row.signal);
    CHECK(at->car_function == row.function);
    CHECK(letter(at->side) == row.side);
  }
}

TEST_CASE("lamp currents are those of the bulbs named") {
  // UN R37: 26.5 W and 6.6 W at 13.5 V; two R5W of 5.5 W (electrical reference 3.2).
  const auto design = [](PartId id) { return circuit().part(id).elements.at(0); };
  CHECK(design(lamp("stop-turn", 'L')).amps == doctest::Approx(26.5 / 13.5));
  CHECK(design(lamp("tail", 'R')).amps == doctest::Approx(6.6 / 13.5));
  CHECK(design(lamp("plate", 'C')).amps == doctest::Approx(2 * 5.5 / 13.5));
  CHECK(design(lamp("chmsl", 'C')).law == Law::led);
  CHECK(design(lamp("chmsl", 'C')).amps == doctest::Approx(0.25));
}

TEST_CASE("the outlet's source gives the readings of the survey back") {
  // With the coach's own lamp lit: open E - Rs I(Vo) = Vo; loaded E - Rs (I(Vl) + 4.2 A) = Vl.
  const std::map<std::string, std::pair<double, double>> readings = {
      {"tail", {13.6, 13.1}}, {"left", {13.5, 12.9}}, {"right", {13.5, 12.9}}};
  int sources = 0;
  for (const Part& part : circuit().parts) {
    if (part.kind != "coach-feed") continue;
    for (const Element& source : part.elements) {
      if (source.law != Law::source) continue;
      ++sources;
      const std::string signal = source.signal.substr(std::string("coach.").size());
      CAPTURE(signal);
      const auto own = std::find_if(part.elements.begin(), part.elements.end(), [&](const Element& e) {
        return e.law == Law::filament && e.a == source.a && e.b == source.b;
      });
      REQUIRE(own != part.elements.end());
      const auto lamp_a = [&](double v) { return own->amps * std::pow(v / own->volts, 0.55); };
      const auto [open, loaded] = readings.at(signal);
      CHECK(source.volts - source.ohm * lamp_a(open) == doctest::Approx(open).epsilon(1e-4));
      CHECK(source.volts - source.ohm * (lamp_a(loaded) + 4.2) == doctest::Approx(loaded).epsilon(1e-4));
      CHECK(source.gate == Gate::lit);
    }
  }
  CHECK(sources == 3);
}

TEST_CASE("nets are what wires and splices join") {
  const Circuit& c = circuit();
  CHECK(c.net(c.terminal("D3.A1")) == c.net(c.terminal("D4.A1")));
  CHECK(c.net(c.terminal("D3.A1")) == c.net(c.terminal("J2.2.car")));
  CHECK(c.net(c.terminal("J2.2.car")) != c.net(c.terminal("J2.2.cord")));
  CHECK(c.net(c.terminal("D1.A1")) != c.net(c.terminal("D2.A1")));
  CHECK(c.net(c.terminal("D1.A2")) != c.net(c.terminal("D1.A1")));
  CHECK(c.net(c.terminal("G-F.body")) == c.net(c.terminal("G-RL.body")));
  CHECK(c.net(c.terminal("G-F.1")) != c.net(c.terminal("G-RL.1")));
}

TEST_CASE("wire resistance follows IEC 60028") {
  Wire wire;
  wire.size = WireSizeName{"16", WireSizeName::System::awg};
  wire.length_m = 10;
  Circuit c;
  c.wire_series = "AWG";
  c.wire_celsius = 20;
  // 16 AWG: 13.175 mohm/m solid at 20 °C, x 1.04 stranded; 75 °C: x (1 + 0.00393 x 55).
  CHECK(wire_ohm(wire, c, *plain().catalogue) == doctest::Approx(0.13175 * 1.04).epsilon(1e-4));
  c.wire_celsius = 75;
  CHECK(wire_ohm(wire, c, *plain().catalogue) == doctest::Approx(0.13175 * 1.04 * 1.21615).epsilon(1e-4));
  wire.fixed_ohm = 0.002;
  CHECK(wire_ohm(wire, c, *plain().catalogue) == doctest::Approx(0.002));
}
