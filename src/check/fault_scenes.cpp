#include "check/fault_scenes.hpp"

#include <algorithm>

#include "solve/lamps.hpp"

namespace towloom {
namespace {

constexpr std::size_t most_scenes = 3;   // named on one line

std::string named(const States& states, const std::vector<int>& where) {
  std::string out;
  for (std::size_t i = 0; i < where.size() && i < most_scenes; ++i) out += (i > 0 ? "; " : "") + states.scenes[static_cast<std::size_t>(where[i])].name;
  if (where.size() > most_scenes) out += "; and " + std::to_string(where.size() - most_scenes) + " more";
  return out;
}

struct Share {   // of the scenes of one kind in which the lamp should be lit
  int should = 0, shows = 0;
  bool all() const { return shows == should; }
  bool none() const { return shows == 0; }
};

}  // namespace

std::string where_it_shows(const States& states, int lamp, bool should_be_lit, const std::vector<int>& where) {
  if (!should_be_lit || static_cast<std::size_t>(lamp) >= states.lamps.front().size()) return named(states, where);
  Share towed, pedal, alone;
  for (std::size_t s = 0; s < states.scenes.size(); ++s) {
    const Scene& scene = states.scenes[s];
    if (!gives_light(states.lamps[s][static_cast<std::size_t>(lamp)].seen)) continue;
    Share& kind = scene.kind != "towing" ? alone : scene.signal("car.pedal") != Wave::off ? pedal : towed;
    ++kind.should;
    kind.shows += std::find(where.begin(), where.end(), static_cast<int>(s)) != where.end();
  }
  if (towed.all() && pedal.all() && alone.all()) return "always";
  if (towed.should > 0 && towed.all() && alone.none()) return pedal.all() ? "in tow, always" : "in tow, by the motorhome's signals";
  if (towed.none() && alone.should > 0 && alone.all()) return pedal.none() ? "driven alone, always" : "by the car's own signals";
  return named(states, where);
}

}  // namespace towloom
