#include "check/suit.hpp"

#include <algorithm>

namespace towloom {
namespace {

std::string survey_value(const std::string& key, const Spec& spec, const LampRow& lamp, const Catalogue& catalogue) {
  const auto yes = [](bool is) { return std::string(is ? "yes" : "no"); };
  if (key == "lamp.drive") return lamp.drive;
  if (key == "lamp.source") return lamp.led ? "led" : "filament";
  if (key == "car.monitoring") return spec.car.monitoring.value;
  if (key == "battery")
    return std::any_of(spec.extras.begin(), spec.extras.end(), [&](const ExtraRow& e) {
             const auto extra = catalogue.extras.find(e.name.value);
             return extra != catalogue.extras.end() && extra->second.opens_battery;
           }) ? "disconnected" : "connected";
  if (key == "lamp.shares")
    return yes(std::count_if(spec.car.lamps.begin(), spec.car.lamps.end(), [&](const LampRow& l) { return !l.added && l.node.value == lamp.node.value; }) > 1);
  return "";
}

}  // namespace

const SuitRow* find_suit(const Method& method, const Spec& spec, const LampRow& lamp, const Catalogue& catalogue) {
  for (const SuitRow& suit : method.suits) {
    const bool matches = std::all_of(suit.when.begin(), suit.when.end(), [&](const auto& row) {
      return std::find(row.second.begin(), row.second.end(), survey_value(row.first, spec, lamp, catalogue)) != row.second.end();
    });
    if (matches) return &suit;
  }
  return nullptr;
}

}  // namespace towloom
