#include "check/survey.hpp"

#include <algorithm>

namespace towloom {
namespace {

constexpr double assumed_run_m = 1.5;   // to a place that the survey does not reach yet; common practice, no source

// Places that methods and extras name and the survey does not reach yet.
void reach_places(Spec& spec) {
  for (const char* place : {"battery", "stop switch"}) {
    const bool known = std::any_of(spec.runs.begin(), spec.runs.end(), [&](const RunRow& r) { return r.from.value == place || r.to.value == place; });
    if (known) continue;
    RunRow run;
    run.name = {std::string("to ") + place, spec.isolation.place};
    run.from = {"inlet", spec.isolation.place};
    run.to = {place, spec.isolation.place};
    run.length_m = {assumed_run_m, spec.isolation.place};
    spec.runs.push_back(std::move(run));
  }
}

}  // namespace

bool has_function(const Spec& spec, const std::string& function) {
  return std::any_of(spec.car.lamps.begin(), spec.car.lamps.end(), [&](const LampRow& l) { return !l.added && l.function.value == function; });
}

void add_lamps(Spec& spec, const Method& method) {
  std::string places[2];
  for (const LampRow& l : spec.car.lamps)
    if (l.side != Side::centre && places[l.side == Side::right].empty()) places[l.side == Side::right] = l.unit;
  for (const auto& [function, source] : method.brings)
    for (const Side side : {Side::left, Side::right}) {
      if (function == "plate" && side == Side::right) continue;
      LampRow row;
      row.added = true;
      row.side = function == "plate" ? Side::centre : side;
      const std::string word = function == "plate" ? "" : side == Side::left ? "left " : "right ";
      row.name = {word + "added " + function, spec.isolation.place};
      row.unit = word + "added lamps";
      row.function = {function, spec.isolation.place};
      row.source = {source, spec.isolation.place};
      row.at = PlacedText{places[side == Side::right], spec.isolation.place};
      row.place = spec.isolation.place;
      Diagnostics checked_when_loaded;
      read_source(row, checked_when_loaded);
      spec.car.lamps.push_back(std::move(row));
    }
}

std::string tail_host(const Spec& spec) {
  for (const LampRow& l : spec.car.lamps)
    if (!l.added && l.function.value == "tail") return l.name.value;
  return "";
}

Spec without_isolation(const Spec& spec) {
  Spec out = spec;
  out.isolation = {};
  out.isolation.place = spec.isolation.place;
  out.wire.size.clear();   // sizes are the method's business
  out.wire.ribbon = false;
  std::vector<LampRow>& lamps = out.car.lamps;
  lamps.erase(std::remove_if(lamps.begin(), lamps.end(), [](const LampRow& l) { return l.added; }), lamps.end());
  reach_places(out);
  return out;
}

bool has_extra(const Spec& spec, const std::string& name) {
  return std::any_of(spec.extras.begin(), spec.extras.end(), [&](const ExtraRow& e) { return e.name.value == name; });
}

}  // namespace towloom
