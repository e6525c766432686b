// The chosen sizes against every assignment there is, tried one by one. Scenes, drops, heat and cost
// are worked out here anew: the drop by adding up what each wire and contact of a lamp's way loses.
#include <algorithm>
#include <cmath>

#include "circuit/fixture.hpp"
#include "size/size.hpp"

using namespace towloom;

namespace {

struct Lane {                        // a lamp's way, by hand: wires and contacts, feed and return
  std::string signal;
  std::vector<std::string> wires, parts;
};
// Survey S01. D1..D4 are not on it: the isolating element is apart. Return: stud of the lamp, white
// wire's stud, white wire, inlet contact, white core, outlet contact.
struct Plain {
  std::vector<Lane> lanes;
};

// The wire between two terminals of the circuit.
const Wire& wire(const Circuit& c, const std::string& a, const std::string& b) {
  for (const Wire& w : c.wires)
    if ((c.name(w.from) == a && c.name(w.to) == b) || (c.name(w.from) == b && c.name(w.to) == a)) return w;
  FAIL("no wire between " << a << " and " << b);
  return c.wires.front();
}

std::string splice_at(const Circuit& c, const std::string& terminal) {
  for (const Wire& w : c.wires)
    for (const auto& [near, far] : {std::pair{w.from, w.to}, {w.to, w.from}})
      if (c.name(near) == terminal && c.part(far.part).kind == "splice") return c.name(far);
  FAIL("no splice at " << terminal);
  return "";
}

std::string lamp_feed(const Circuit& c, const std::string& function, Side side) {
  for (const Part& p : c.parts)
    if (p.kind == "lamp" && p.function == function && p.side == side) return p.id + ".feed";
  FAIL("no lamp");
  return "";
}

// Where its return wire ends: joint inside the housing, then stud; or the stud at once.
void add_return(const Circuit& c, const std::string& feed, Lane& lane) {
  std::string at = feed.substr(0, feed.size() - 4) + "return";
  for (int hops = 0; hops < 2; ++hops)
    for (const Wire& w : c.wires)
      if (c.name(w.from) == at) {
        lane.wires.push_back(w.id);
        at = c.name(w.to);
        break;
      }
  lane.parts.push_back(at.substr(0, at.rfind('.')));
  for (const char* id : {"G-F", "J2.1", "J1.1"}) lane.parts.push_back(id);
  lane.wires.push_back(wire(c, "J2.1.car", "G-F.1").id);
  lane.wires.push_back("C1");
}

Lane lane(const Circuit& c, const std::string& signal, const std::string& contact, const std::string& block,
          const std::string& feed) {
  Lane out{signal, {"C" + contact}, {"J1." + contact, "J2." + contact}};
  const std::string car = "J2." + contact + ".car";
  if (signal == "tail") {
    const std::string splice = splice_at(c, car);
    out.wires.push_back(wire(c, car, splice).id);
    out.wires.push_back(wire(c, splice, block + ".A1").id);
  } else {
    out.wires.push_back(wire(c, car, block + ".A1").id);
  }
  if (block == "D3") {   // its lamp side holds the plate's splice
    const std::string splice = splice_at(c, "D3.K");
    out.wires.push_back(wire(c, "D3.K", splice).id);
    out.wires.push_back(wire(c, splice, feed).id);
  } else {
    out.wires.push_back(wire(c, block + ".K", feed).id);
  }
  add_return(c, feed, out);
  return out;
}

std::vector<Lane> lanes_of(const Circuit& c) {
  return {lane(c, "left", "3", "D1", lamp_feed(c, "stop-turn", Side::left)),
          lane(c, "right", "4", "D2", lamp_feed(c, "stop-turn", Side::right)),
          lane(c, "tail", "2", "D3", lamp_feed(c, "tail", Side::left)),
          lane(c, "tail", "2", "D4", lamp_feed(c, "tail", Side::right)),
          lane(c, "tail", "2", "D3", lamp_feed(c, "plate", Side::centre))};
}

const Wire& by_id(const Circuit& c, const std::string& id) {
  return *std::find_if(c.wires.begin(), c.wires.end(), [&](const Wire& w) { return w.id == id; });
}

double lost(const Circuit& c, const Points& points, const Phase& phase, const Lane& lane) {
  double volts = 0;
  for (const std::string& id : lane.wires) {
    const Wire& w = by_id(c, id);
    volts += std::abs(phase.volts[static_cast<size_t>(points.at(w.from))] - phase.volts[static_cast<size_t>(points.at(w.to))]);
  }
  for (const std::string& id : lane.parts) {
    const int p = points.at({c.find(id), 0});
    volts += std::abs(phase.volts[static_cast<size_t>(p)] - phase.volts[static_cast<size_t>(p) + 1]);
  }
  return volts;
}

// Steady, every combination of the three coach signals: a flashing lamp's bright phase is one of these.
std::vector<Scene> steady_scenes() {
  std::vector<Scene> out;
  for (int bits = 1; bits < 8; ++bits) {
    Scene s;
    s.kind = "towing";
    s.signals["coupled"] = Wave::on;
    int bit = 1;
    for (const char* signal : {"coach.tail", "coach.left", "coach.right"}) {
      if ((bits & bit) != 0) s.signals[signal] = Wave::on;
      bit *= 2;
    }
    out.push_back(s);
  }
  return out;
}

// AWG sizes: 33 CFR 183.425 Table 5, 80 °C column; three in a run x 0.7 (ABYC E-11); 30 °C.
const std::vector<std::pair<std::string, double>> ampacity = {
    {"18", 15 * 0.7}, {"16", 20 * 0.7}, {"14", 25 * 0.7}, {"12", 35 * 0.7}, {"10", 50 * 0.7}, {"8", 70 * 0.7}};

// What the wires and contacts of the plain job's lanes lose.
double worst_of_lanes(const Circuit& c, const Catalogue& catalogue) {
  const Points points = number_points(c);
  double worst = 0;
  for (const Scene& scene : steady_scenes()) {
    const Solved solved = solve(c, catalogue, scene);
    REQUIRE(solved.converged());
    for (const Lane& l : lanes_of(c))
      if (scene.signal("coach." + l.signal) == Wave::on) worst = std::max(worst, lost(c, points, solved.phase[0], l));
  }
  return worst;
}

// The same from its ends, for any job: volts at the outlet's contacts less those of the lamp, less what stands across the
// isolating part whose lamp side feeds it.
double worst_of_ends(const Circuit& c, const Catalogue& catalogue) {
  const Points points = number_points(c);
  const auto contact = [&](const std::string& function) {
    for (std::size_t p = 0; p < c.parts.size(); ++p)
      if (c.parts[p].kind == "contact" && c.parts[p].group == "J1" && c.parts[p].function == function) return TerminalRef{{static_cast<int>(p)}, 0};
    FAIL("no contact for " << function);
    return TerminalRef{};
  };
  double worst = 0;
  for (const Scene& scene : steady_scenes()) {
    const Solved solved = solve(c, catalogue, scene);
    REQUIRE(solved.converged());
    const auto volts = [&](TerminalRef t) { return solved.phase[0].volts[static_cast<size_t>(points.at(t))]; };
    for (const LampIntent& lamp : c.lamps) {
      if (lamp.tow_signal.empty() || scene.signal("coach." + lamp.tow_signal) != Wave::on) continue;
      double drop = volts(contact(lamp.tow_signal)) - volts(contact("ground")) - (volts({lamp.lamp, 0}) - volts({lamp.lamp, 1}));
      for (std::size_t p = 0; p < c.parts.size(); ++p) {
        const PartId id{static_cast<int>(p)};
        if (c.parts[p].kind == "ideal-pair" && c.net({id, 2}) == c.net({lamp.lamp, 0})) drop -= volts({id, 0}) - volts({id, 2});
      }
      worst = std::max(worst, drop);
    }
  }
  return worst;
}

using Drop = double (*)(const Circuit&, const Catalogue&);

struct Best {
  double cost = 1e9, second = 1e9;            // mm2 times m
  std::map<std::string, std::string> size;   // by group
  std::map<std::string, double> length;      // m, of the groups that were weighed
};

double area_mm2(const std::string& awg) {   // ASTM B258
  const double d = 0.127 * std::pow(92.0, (36.0 - std::stoi(awg)) / 39.0);
  return 3.14159265358979 / 4 * d * d;
}

// Groups of the fitted wires; every size of the series for each.
Best brute_force(Circuit c, const Catalogue& catalogue, double limit, const std::string& least, Drop worst_drop) {
  std::vector<std::string> groups;
  std::map<std::string, double> length;
  for (const Wire& w : c.wires)
    if (w.status == Status::fitted && !w.size) {
      if (std::find(groups.begin(), groups.end(), w.group) == groups.end()) groups.push_back(w.group);
      length[w.group] += w.length_m;
    }
  const std::vector<std::string> names = {"18", "16", "14", "12", "10", "8"};
  const size_t from = static_cast<size_t>(std::find(names.begin(), names.end(), least) - names.begin());
  const size_t choices = names.size() - from;
  size_t total = 1;
  for (size_t g = 0; g < groups.size(); ++g) total *= choices;
  const std::vector<size_t> free = [&] {
    std::vector<size_t> out;
    for (size_t w = 0; w < c.wires.size(); ++w)
      if (c.wires[w].status == Status::fitted && !c.wires[w].size) out.push_back(w);
    return out;
  }();
  Best best;
  best.length = length;
  for (size_t i = 0; i < total; ++i) {
    std::map<std::string, std::string> pick;
    double cost = 0;
    size_t rest = i;
    for (const std::string& g : groups) {
      pick[g] = names[from + rest % choices];
      rest /= choices;
      cost += length[g] * area_mm2(pick[g]);
    }
    if (pick["left"] != pick["right"] || pick["ground"] == "18") continue;   // the white contact asks for 16 AWG at least
    if (cost >= best.second) continue;
    for (const size_t w : free) c.wires[w].size = WireSizeName{pick[c.wires[w].group], WireSizeName::System::awg};
    if (worst_drop(c, catalogue) > limit) continue;
    if (cost < best.cost) {
      best.second = best.cost;
      best.cost = cost;
      best.size = pick;
    } else {
      best.second = cost;
    }
  }
  return best;
}

// Separate groups: the ribbon is taken apart so that there is something to weigh.
fixture::Job separate_job(const std::string& more) {
  std::string job =
      fixture::changed(fixture::plain_job(), "wire: {standard: AWG, lamps: auto ribbon of 4}",
                       "wire: {standard: AWG, ground: auto, tail: auto, left: auto, right: auto}");
  return fixture::built(job.erase(job.find("\nlimits:") + 1) + more);  // the job's own budget is its last line
}

void check_against_brute_force(const fixture::Job& job, double limit, Drop worst_drop = worst_of_lanes) {
  REQUIRE(job.circuit.has_value());
  Diagnostics diagnostics;
  const auto sized = size(*job.circuit, *job.catalogue, *job.spec, diagnostics);
  const Best best = brute_force(*job.circuit, *job.catalogue, limit, "18", worst_drop);
  REQUIRE(best.cost < 1e8);
  REQUIRE(sized.has_value());
  double second = 0;
  for (const SizeChoice& choice : sized->why) {
    CAPTURE(choice.group);
    CHECK(choice.proved_minimal);
    const auto expected = best.size.find(choice.group);
    if (expected == best.size.end()) continue;
    CHECK(choice.size.number == expected->second);
    second += best.length.at(choice.group) * area_mm2(choice.runner_up.number);
  }
  CHECK(second == doctest::Approx(best.second).epsilon(1e-9));   // of two that cost the same either will do
}

}  // namespace

TEST_CASE("separate wires: the least copper is what trying everything finds") {
  check_against_brute_force(separate_job("limits: {drop: 0.6 V}\n"), 0.6);
}

// The tighter the budget, the more choices are refused before one passes, by one lamp's way or another's.
TEST_CASE("tighter and wider budgets: the least copper is what trying everything finds") {
  for (const char* limit : {"0.46", "0.48", "0.5", "0.54", "0.7", "0.8"})
    check_against_brute_force(separate_job(std::string("limits: {drop: ") + limit + " V}\n"), std::stod(limit));
}

// Added bulbs with a return of their own: nothing isolates, and the white wire carries all.
TEST_CASE("added bulbs: the least copper is what trying everything finds") {
  for (const double limit : {0.7, 0.85}) {
    std::string text = fixture::changed(fixture::job_file("city-car"), "wire: {standard: AWG, lamps: auto ribbon of 4}", "wire: {standard: AWG, ground: auto, tail: auto, left: auto, right: auto}");
    text = fixture::changed(text, "limits: {drop: 0.7 V}", "limits: {drop: " + format_fixed(limit, 2) + " V}");
    check_against_brute_force(fixture::built(text), limit, worst_of_ends);
  }
}

// Field-effect parts: what they lose is theirs, and they take a little for themselves.
TEST_CASE("field-effect parts: the least copper is what trying everything finds") {
  std::string text = fixture::changed(fixture::plain_job(), "wire: {standard: AWG, lamps: auto ribbon of 4}", "wire: {standard: AWG, ground: auto, tail: auto, left: auto, right: auto, local-ground: 18 AWG}");
  text = fixture::changed(text, "method: two-way-diodes, diode: silicon", "method: field-effect");
  text.erase(text.find("\nlimits:") + 1);
  check_against_brute_force(fixture::built(text + "limits: {drop: 0.55 V}\n"), 0.55, worst_of_ends);
}

// The return of the charge line lies beside the white wire and carries a part of the lamps' return: copper in it may be
// cheaper than copper in the lamps' own way.
TEST_CASE("two returns side by side: no cheaper sizes pass") {
  const std::string text = fixture::job_file("off-roader");
  const fixture::Job own = fixture::built(text);
  REQUIRE(own.circuit.has_value());
  Diagnostics diagnostics;
  const auto sized = size(*own.circuit, *own.catalogue, *own.spec, diagnostics);
  REQUIRE(sized.has_value());
  std::map<std::string, double> length;
  for (const Wire& w : sized->circuit.wires)
    if (w.status == Status::fitted) length[w.group] += w.length_m;
  std::map<std::string, std::string> chosen;
  for (const SizeChoice& c : sized->why) {
    CHECK(c.proved_minimal);
    chosen[c.group] = c.size.number;
  }
  const auto cost_of = [&](const std::map<std::string, std::string>& sizes) {
    double cost = 0;
    for (const auto& [group, mm2] : sizes) cost += length[group] * std::stod(mm2);
    return cost;
  };
  int cheaper = 0;
  for (const char* ground : {"2.5", "4", "6"})
    for (const char* charge_return : {"1", "1.5", "2.5", "4"})
      for (const char* stop : {"1.5", "2.5", "4"})
        for (const char* side : {"1.5", "2.5"}) {
          std::map<std::string, std::string> sizes = chosen;
          sizes["ground"] = ground;
          sizes["charge-return"] = charge_return;
          sizes["stop"] = stop;
          sizes["left"] = sizes["right"] = side;
          if (!(cost_of(sizes) < cost_of(chosen) - 1e-9)) continue;
          ++cheaper;
          std::string wire = "wire: {standard: ISO";
          for (const auto& [group, mm2] : sizes)
            if (group.rfind("cord", 0) != 0) wire += ", " + group + ": " + mm2 + " mm2";
          const fixture::Job job = fixture::built(fixture::changed(text, "wire: {standard: ISO}", wire + "}"));
          REQUIRE(job.circuit.has_value());
          Diagnostics said;
          const auto given = size(*job.circuit, *job.catalogue, *job.spec, said);
          REQUIRE(given.has_value());
          const bool passes = std::all_of(given->why.begin(), given->why.end(), [](const SizeChoice& c) {
            return c.drop_v <= 0.7 + 1e-6 && c.amps <= c.ampacity_a + 1e-6 && c.fuse_a <= c.bears_a + 1e-6;   // limits: {drop: 0.7 V}
          });
          CAPTURE(wire);
          CHECK_FALSE(passes);
        }
  CHECK(cheaper > 5);
}

TEST_CASE("left and right are one size, unless the job gives one of them its own") {
  const auto sizes_of = [](const std::string& wire) {
    const fixture::Job job = fixture::built(fixture::changed(fixture::job_file("pulsed-hatchback"), "wire: {standard: AWG}", "wire: {standard: AWG" + wire + "}"));
    REQUIRE(job.circuit.has_value());
    Diagnostics diagnostics;
    const auto sized = size(*job.circuit, *job.catalogue, *job.spec, diagnostics);
    REQUIRE(sized.has_value());
    std::map<std::string, std::string> out;
    for (const SizeChoice& c : sized->why) out[c.group] = c.size.number;
    return out;
  };
  auto sizes = sizes_of("");   // the right wire is the longer by 1.35 m, and alone needs 14 AWG
  CHECK(sizes.at("left") == sizes.at("right"));
  sizes = sizes_of(", left: 12 AWG");
  CHECK(sizes.at("left") == "12");
  CHECK(sizes.at("right") != "12");
}
