#include "check/survey.hpp"

#include <algorithm>

namespace towloom {
namespace {

constexpr double assumed_run_m = 1.5;   // to a place that the survey does not reach yet; common practice, no source

bool reached(const Spec& spec, const std::string& place) {
  return std::any_of(spec.runs.begin(), spec.runs.end(), [&](const RunRow& r) { return r.from.value == place || r.to.value == place; });
}

// Where the survey's runs end on the side of a lamp: "left of tailgate"; the inlet where none ends there.
std::string last_place(const Spec& spec, Side side) {
  const std::string word = side == Side::left ? "left" : "right";
  std::string out = "inlet";
  for (const RunRow& r : spec.runs)
    if ((" " + r.to.value + " ").find(" " + word + " ") != std::string::npos) out = r.to.value;
  return out;
}

}  // namespace

std::vector<RunRow> assumed_runs(const Spec& spec) {
  std::vector<RunRow> out;
  const auto assume = [&](const std::string& from, const std::string& to) {
    if (reached(spec, to) || std::any_of(out.begin(), out.end(), [&](const RunRow& r) { return r.to.value == to; })) return;
    RunRow run;
    run.name = {"to " + to, spec.isolation.place};
    run.from = {from, spec.isolation.place};
    run.to = {to, spec.isolation.place};
    run.length_m = {assumed_run_m, spec.isolation.place};
    out.push_back(std::move(run));
  };
  for (const char* place : {"battery", "stop switch"}) assume("inlet", place);
  for (const LampRow& lamp : spec.car.lamps)
    if (!lamp.added && lamp.side != Side::centre && !lamp.dark_in_tow) assume(last_place(spec, lamp.side), lamp.unit);
  return out;
}

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
  for (RunRow& run : assumed_runs(out)) out.runs.push_back(std::move(run));
  return out;
}

bool has_extra(const Spec& spec, const std::string& name) {
  return std::any_of(spec.extras.begin(), spec.extras.end(), [&](const ExtraRow& e) { return e.name.value == name; });
}

}  // namespace towloom
