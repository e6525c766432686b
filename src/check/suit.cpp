#include "check/suit.hpp"

#include <algorithm>
#include <cmath>

#include "circuit/circuit.hpp"

namespace towloom {
namespace {

bool has_extra(const Spec& spec, const Catalogue& catalogue, bool Method::* says) {
  return std::any_of(spec.extras.begin(), spec.extras.end(), [&](const ExtraRow& e) {
    const auto extra = catalogue.extras.find(e.name.value);
    return extra != catalogue.extras.end() && extra->second.*says;
  });
}

// Combined or separate: what arrives at the lamps, behind a converter.
std::string tow_kind(const Spec& spec, const Catalogue& catalogue) {
  std::string out = spec.coach.signals.value;
  for (const PlacedText* name : {&spec.isolation.method, spec.isolation.converter ? &*spec.isolation.converter : nullptr})
    if (const auto m = name == nullptr ? catalogue.methods.end() : catalogue.methods.find(name->value); m != catalogue.methods.end() && !m->second.gives_signals.empty())
      out = m->second.gives_signals;
  return out;
}

// In tow this lamp shows a side's wire that carries both.
bool shows_both(const Spec& spec, const LampRow& lamp, const Catalogue& catalogue) {
  const LampFunction* function = catalogue.function(lamp.function.value);
  if (function == nullptr || lamp.dark_in_tow || function->only == "separate" || tow_kind(spec, catalogue) != "combined") return false;
  return std::any_of(function->tow.begin(), function->tow.end(), [](const PlacedText& t) { return t.value == "SIDE"; });
}

std::string own_signal(std::string text, Side side) {
  if (const auto at = text.find("SIDE"); at != std::string::npos) text.replace(at, 4, side == Side::left ? "left" : "right");
  return text;
}

// A contact whose signal this lamp may show was found below the accepted volts under load.
bool weak_feed(const Spec& spec, const LampRow& lamp, const Catalogue& catalogue) {
  const LampFunction* function = catalogue.function(lamp.function.value);
  const double least = catalogue.rule("accept_outlet_v").value;
  return function != nullptr && std::any_of(spec.coach.found.begin(), spec.coach.found.end(), [&](const FoundContact& f) {
    const bool its = f.does && std::any_of(function->tow.begin(), function->tow.end(), [&](const PlacedText& t) { return own_signal(t.value, lamp.side) == f.does->value; });
    // A meter shows the mean of pulses; a lamp's light goes with their RMS.
    return its && f.loaded_v && f.loaded_v->value / std::sqrt(coach_duty(spec, catalogue)) < least;
  });
}

std::string survey_value(const std::string& key, const Spec& spec, const LampRow& lamp, const Catalogue& catalogue) {
  const auto either = [](bool is, const char* yes, const char* no) { return std::string(is ? yes : no); };
  if (key == "lamp.drive") return lamp.drive;
  if (key == "lamp.source") return either(lamp.led, "led", "filament");
  if (key == "lamp.shares")
    return either(std::count_if(spec.car.lamps.begin(), spec.car.lamps.end(), [&](const LampRow& l) { return !l.added && l.node.value == lamp.node.value; }) > 1, "yes", "no");
  if (key == "lamp.shows") return either(shows_both(spec, lamp, catalogue), "stop and turn", "one signal");
  if (key == "car.monitoring") return spec.car.monitoring.value;
  if (key == "car.stop lamps") return spec.car.stop_lamps ? spec.car.stop_lamps->value : "live";
  if (key == "coach.signals") return spec.coach.signals.value;
  if (key == "coach.feed") return either(weak_feed(spec, lamp, catalogue), "weak", "sound");
  if (key == "coach.outputs") return spec.coach.outputs ? spec.coach.outputs->value : "plain";
  if (key == "coach.detection") return spec.coach.detection ? spec.coach.detection->value : "none";
  if (key == "coach.limit") return either(spec.coach.limit_a && spec.coach.limit_a->value < catalogue.rule("load_a").value, "low", "none");
  if (key == "brake") return either(has_extra(spec, catalogue, &Method::presses_pedal), "presses pedal", "none");
  if (key == "battery") return either(has_extra(spec, catalogue, &Method::opens_battery), "disconnected", "connected");
  return "";
}

}  // namespace

std::vector<const SuitRow*> find_suits(const Method& method, const Spec& spec, const LampRow& lamp, const Catalogue& catalogue) {
  std::vector<const SuitRow*> out;
  for (const SuitRow& suit : method.suits) {
    const bool matches = std::all_of(suit.when.begin(), suit.when.end(), [&](const auto& row) {
      return std::find(row.second.begin(), row.second.end(), survey_value(row.first, spec, lamp, catalogue)) != row.second.end();
    });
    if (!matches) continue;
    out.push_back(&suit);
    if (suit.verdict == "suited" || suit.verdict == "unsuited") break;
  }
  return out;
}

}  // namespace towloom
