#include "check/readings.hpp"

#include <algorithm>

namespace towloom {

Span volts_between(const Points& points, const Solved& solved, TerminalRef plus, TerminalRef minus) {
  Span out{1e9, -1e9};
  for (int flash = 0; flash < solved.flash_phases(); ++flash) {
    double v = 0;
    for (int p = flash; p < solved.phases; p += solved.flash_phases()) {
      const auto& volts = solved.phase[static_cast<std::size_t>(p)].volts;
      v += solved.weight(p) * solved.flash_phases() * (volts[static_cast<std::size_t>(points.at(plus))] - volts[static_cast<std::size_t>(points.at(minus))]);
    }
    out.least = std::min(out.least, v);
    out.most = std::max(out.most, v);
  }
  return out;
}

Span amps_of(const Solved& solved, PartId part, int element) {
  Span out{1e9, -1e9};
  for (int p = 0; p < solved.phases; ++p) {
    const double a = solved.phase[static_cast<std::size_t>(p)].element_a[static_cast<std::size_t>(part.v)][static_cast<std::size_t>(element)];
    out.least = std::min(out.least, a);
    out.most = std::max(out.most, a);
  }
  return out;
}

double mean_amps(const Solved& solved, PartId part, int element) {
  double sum = 0;
  for (int p = 0; p < solved.phases; ++p)
    sum += solved.weight(p) * solved.phase[static_cast<std::size_t>(p)].element_a[static_cast<std::size_t>(part.v)][static_cast<std::size_t>(element)];
  return sum;
}

bool on_the_road(const Scene& scene) { return scene.kind == "towing" && is_on(scene, "driver.engine") && is_on(scene, "towed"); }

bool is_on(const Scene& scene, const char* signal) { return scene.signal(signal) != Wave::off; }

bool only(const Scene& scene, const char* driver) {
  if (scene.kind != "towing" || is_on(scene, "car.pedal") || !is_on(scene, driver)) return false;
  const char* all[] = {"driver.left", "driver.right", "driver.stop", "driver.tail"};
  return std::none_of(std::begin(all), std::end(all), [&](const std::string& d) { return d != driver && is_on(scene, d.c_str()); });
}

const LampRow* survey_row(const Spec& spec, const Part& lamp) {
  const auto row = std::find_if(spec.car.lamps.begin(), spec.car.lamps.end(), [&](const LampRow& r) { return r.place == lamp.origin.job; });
  return row == spec.car.lamps.end() ? nullptr : &*row;
}
const LampRow* survey_row(const Asked& q, const LampIntent& lamp) { return survey_row(q.spec, q.circuit().part(lamp.lamp)); }

std::string lamp_name(const Part& lamp) {
  return lamp.group == lamp.function || lamp.group.empty() ? lamp.function : lamp.group + " " + lamp.function;
}

}  // namespace towloom
