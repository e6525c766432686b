// Rules about relays and modules.
#include <algorithm>
#include <map>

#include "check/loop.hpp"
#include "check/readings.hpp"
#include "solve/required.hpp"
#include "solve/rests.hpp"

namespace towloom {

namespace {

// "scene 'stop' and 24 more".
std::string first_of(const std::vector<std::string>& scenes) {
  return "scene '" + scenes.front() + "'" + (scenes.size() > 1 ? " and " + std::to_string(scenes.size() - 1) + " more" : "");
}

}  // namespace

// Relays and modules that find no rest, or that rest where the scene before left them.
void chatter(const Asked& q, const RuleRow& row, Findings& out) {
  struct Hunting {
    std::vector<std::string> scenes;
    std::size_t first = 0;
  };
  std::map<std::vector<int>, Hunting> found;   // by the parts that hunt together
  for (std::size_t s = 0; s < q.states.solved.size(); ++s) {
    std::vector<int> parts;
    for (const PartId id : q.states.solved[s].chatter) parts.push_back(id.v);
    if (parts.empty()) continue;
    Hunting& hunting = found[parts];
    if (hunting.scenes.empty()) hunting.first = s;
    hunting.scenes.push_back(q.states.scenes[s].name);
  }
  for (const auto& [parts, hunting] : found) {
    std::string names;
    std::vector<std::string> about;
    bool senses = false;
    for (const int v : parts) {
      const Part& part = q.circuit().part({v});
      names += (names.empty() ? "" : ", ") + part.id;
      about.push_back(part.id);
      senses = senses || part.kind == "sensing-relay";
    }
    const Place at = q.circuit().part({parts[0]}).origin.job;
    const std::string loop = senses ? "" : coil_loop(q.circuit(), parts), in = first_of(hunting.scenes) + (loop.empty() ? "" : ": " + loop);
    if (parts.size() > 1 && rests_in_turn(q.circuit(), q.catalogue, q.states.scenes[hunting.first]))
      add(out, row, at, names + " race in " + in, "which pulls in first decides what the circuit does: let one signal alone work each coil", std::move(about));
    else
      add(out, row, at, names + (parts.size() > 1 ? " never come" : " never comes") + " to rest in " + in,
          senses ? "while it is in, its line falls below the volts at which it lets go: give the line thicker wire, or take a charger, which takes less as its input falls"
                 : "something feeds its own coil or input through its own contact: break that loop",
          std::move(about));
  }
}

void depends_on_before(const Asked& q, const RuleRow& row, Findings& out) {
  std::vector<std::string> scenes;
  const Scene* first = nullptr;
  for (std::size_t s = 0; s < q.states.solved.size(); ++s) {
    if (!q.states.solved[s].depends_on_before) continue;
    if (first == nullptr) first = &q.states.scenes[s];
    scenes.push_back(q.states.scenes[s].name);
  }
  if (first == nullptr) return;
  std::vector<int> parts;
  std::string names;
  std::vector<std::string> about;
  for (const PartId id : parts_held(q.circuit(), q.catalogue, *first)) {
    parts.push_back(id.v);
    about.push_back(q.circuit().part(id).id);
    names += (names.empty() ? "" : ", ") + about.back();
  }
  const std::string loop = coil_loop(q.circuit(), parts);
  const Place own = parts.empty() ? Place{} : q.circuit().part({parts.front()}).origin.job;
  add(out, row, own.known() ? own : q.spec.isolation.place,
      first_of(scenes) + " can end in two ways: " + (names.empty() ? "a relay" : names) + " may stay as it was" + (loop.empty() ? "" : ": " + loop),
      "look whether a relay can hold itself, for one through a charge line without a blocking part", std::move(about));
}

namespace {

// What the device works passes one way only: nothing is switched under load when it lets go.
bool only_isolates(const Part& part, std::size_t device) {
  bool one_way = false;
  for (const Element& e : part.elements) {
    if (e.device != static_cast<int>(device) || (e.gate != Gate::pulled && e.gate != Gate::rest)) continue;
    if (e.law != Law::led && e.law != Law::diode) return false;
    one_way = true;
  }
  return one_way;
}

// Scenes in which a device of the part, isolating or not, is in with the pulse and out between.
std::vector<std::string> follows_pulses(const Asked& q, std::size_t p, bool isolating) {
  const Part& part = q.circuit().parts[p];
  std::vector<std::string> scenes;
  for (std::size_t s = 0; s < q.states.solved.size(); ++s) {
    const Solved& solved = q.states.solved[s];
    if (!solved.pulsed || !solved.chatter.empty()) continue;
    bool follows = false;
    for (int flash = 0; flash < solved.flash_phases(); ++flash)
      for (std::size_t d = 0; d < part.devices.size(); ++d) {
        const auto in = [&](int phase) { return solved.phase[static_cast<std::size_t>(phase)].pulled[p][d]; };
        const bool asked = part.devices[d].output < 0 && only_isolates(part, d) == isolating;
        follows = follows || (asked && in(flash) != in(flash + solved.flash_phases()));
      }
    if (follows) scenes.push_back(q.states.scenes[s].name);
  }
  return scenes;
}

}  // namespace

// Coils and modules' supplies that let go between the pulses of a pulse-modulated feed.
void pulsed_coil(const Asked& q, const RuleRow& row, Findings& out) {
  for (std::size_t p = 0; p < q.circuit().parts.size(); ++p)
    if (const auto scenes = follows_pulses(q, p, false); !scenes.empty()) {
      const Part& part = q.circuit().parts[p];
      add(out, row, part.origin.job, part.id + " lets go between the pulses of its feed in " + first_of(scenes),
          "work it from a contact without pulses, or take a method whose coach side is no coil", {part.id});
    }
}

// Isolating modules fed by the pulses that they pass: one finding for all.
void pulsed_isolator(const Asked& q, const RuleRow& row, Findings& out) {
  std::vector<std::string> about, scenes;
  Place at;
  std::string names;
  for (std::size_t p = 0; p < q.circuit().parts.size(); ++p) {
    auto in = follows_pulses(q, p, true);
    if (in.empty()) continue;
    const Part& part = q.circuit().parts[p];
    if (about.empty()) at = part.origin.job, scenes = std::move(in);
    names += (names.empty() ? "" : ", ") + part.id;
    about.push_back(part.id);
  }
  if (!about.empty())
    add(out, row, at, names + ": without supply between the pulses of its own feed in " + first_of(scenes),
        "ask its maker how soon it passes current after its supply comes; until then its body diode carries the lamps and warms", std::move(about));
}

namespace {

// The same scene with the engine running: what the coach's own contacts carry follows from the driver.
std::map<std::string, Wave> without_engine(const Scene& scene) {
  std::map<std::string, Wave> out;
  for (const auto& [signal, wave] : scene.signals)
    if (signal != "driver.engine" && signal.rfind("coach.", 0) != 0) out[signal] = wave;
  return out;
}

}  // namespace

// Lamps that do something else if the charge contact goes dead with the engine, while nobody tested whether it does.
void engine_off(const Asked& q, const RuleRow& row, Findings& out) {
  std::string names, scene;
  std::vector<std::string> about;
  for (std::size_t lamp = 0; lamp < q.circuit().lamps.size(); ++lamp) {
    const Part& part = q.circuit().part(q.circuit().lamps[lamp].lamp);
    for (std::size_t s = 0; s < q.states.scenes.size(); ++s) {
      const bool pedal = q.states.scenes[s].signal("car.pedal") != Wave::off;   // nobody brakes a coach that stands
      if (pedal || !engine_unsurveyed(q.spec, q.states.scenes[s])) continue;
      const auto running = std::find_if(q.states.scenes.begin(), q.states.scenes.end(), [&](const Scene& other) {
        return &other != &q.states.scenes[s] && other.kind == q.states.scenes[s].kind && without_engine(other) == without_engine(q.states.scenes[s]);
      });
      if (running == q.states.scenes.end()) continue;
      const auto r = static_cast<std::size_t>(running - q.states.scenes.begin());
      if (q.states.required[r][lamp] == Seen::may || q.states.lamps[r][lamp].seen == q.states.lamps[s][lamp].seen) continue;
      if (scene.empty()) scene = q.states.scenes[s].name;
      names += (names.empty() ? "" : ", ") + lamp_name(part);
      about.push_back(part.id);
      break;
    }
  }
  if (!names.empty())
    add(out, row, q.spec.coach.outlet.form.place, names + ": other than required with the coach's engine off, if its charge contact goes dead then ('" + scene + "')",
        "test the contact with the engine off and write live: always, or live: engine", std::move(about));
}

}  // namespace towloom
