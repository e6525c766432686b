// Rows of a job that name each other: each name must be one that the job has.
#include <algorithm>
#include <set>

#include "spec/parts.hpp"

namespace towloom {
namespace {

using Names = std::vector<std::string>;

bool has(const Names& names, const std::string& name) { return std::find(names.begin(), names.end(), name) != names.end(); }

std::string meant(const std::string& near, const std::string& otherwise) {
  return near.empty() ? otherwise : "did you mean '" + near + "'?";
}

Names lamp_names(const Spec& spec) {
  Names out;
  for (const LampRow& row : spec.car.lamps) out.push_back(row.name.value);
  return out;
}

// A stop switch also feeds what is no lamp: only a name that is nearly a known one is a slip of the pen.
// A module's name begins the names of its outputs: BCM of BCM_A3.
void check_feeds(const Spec& spec, Diagnostics& diagnostics) {
  Names known = {"turn switch"};
  for (const LampRow& row : spec.car.lamps)
    if (!row.node.value.empty()) known.push_back(row.node.value);
  const bool module = spec.car.stop_switch.kind.value == "module";
  for (const PlacedText& feed : spec.car.stop_switch.feeds) {
    if (has(known, feed.value)) continue;
    const bool begins = module && std::any_of(known.begin(), known.end(), [&](const std::string& k) { return k.rfind(feed.value, 0) == 0; });
    const std::string near = did_you_mean(feed.value, known);
    if (!begins && !near.empty())
      diagnostics.error("stop-feed", feed.place, "the stop switch feeds '" + feed.value + "', which is no node of a lamp", meant(near, ""));
  }
}

void check_branches(const Spec& spec, Diagnostics& diagnostics) {
  const Names lamps = lamp_names(spec);
  for (const LampRow& row : spec.car.lamps) {
    if (!row.branch) continue;
    auto host = behind(row.branch->value, "upstream of ");
    if (!host) host = behind(row.branch->value, "downstream of ");
    if (!host) {
      const std::string first = row.branch->value.substr(0, row.branch->value.find(' '));
      const std::string near = did_you_mean(first, {"upstream", "downstream"});
      diagnostics.error("branch", row.branch->place, "'" + row.branch->value + "' does not say where the branch leaves",
                        near.empty() || near == first ? "write it like upstream of left rear" : "did you mean '" + near + " of'?");
    } else if (!has(lamps, *host)) {
      diagnostics.error("branch", row.branch->place, "no lamp '" + *host + "' for the branch to leave beside",
                        meant(did_you_mean(*host, lamps), "name a row of lamps:"));
    }
  }
}

void check_returns(const Spec& spec, Diagnostics& diagnostics) {
  if (spec.grounds.empty() && diagnostics.has_errors()) return;   // grounds: could not be read, which has been said
  Names grounds;
  for (const GroundRow& g : spec.grounds) grounds.push_back(g.name.value);
  for (const LampRow& row : spec.car.lamps)
    if (row.return_stud && !has(grounds, row.return_stud->value))
      diagnostics.error("unknown-ground", row.return_stud->place, "no ground '" + row.return_stud->value + "'",
                        meant(did_you_mean(row.return_stud->value, grounds), "add it under grounds:"));
}

void check_beside(const Spec& spec, const Names& places, Diagnostics& diagnostics) {
  for (const GroundRow& g : spec.grounds)
    if (g.beside && !has(places, g.beside->value))
      diagnostics.error("unknown-place", g.beside->place, "ground " + g.name.value + " stands beside '" + g.beside->value + "', which no run reaches",
                        meant(did_you_mean(g.beside->value, places), "name an end of a run"));
}

void check_plate(const Spec& spec, Diagnostics& diagnostics) {
  if (!spec.isolation.plate) return;
  const PlacedText& plate = *spec.isolation.plate;
  const Names lamps = lamp_names(spec);
  const auto host = behind(plate.value, "with ");
  const auto row = std::find_if(spec.car.lamps.begin(), spec.car.lamps.end(), [](const LampRow& r) { return r.function.value == "plate" && !r.added; });
  const auto own = spec.isolation.by_function.find("plate");
  if (row == spec.car.lamps.end())
    diagnostics.error("no-plate", plate.place, "the survey lists no plate lamp to feed", "add its row under lamps:, or take plate: out");
  else if (row->dark_in_tow)
    diagnostics.error("dark-and-fed", row->place, "lamp '" + row->name.value + "' is to stay dark in tow, and isolation: plate: feeds it",
                      "take out in tow: dark, or plate: on line " + std::to_string(plate.place.line));
  if (own != spec.isolation.by_function.end())
    diagnostics.error("cut-twice", own->second.place, "the plate lamp's wire would be cut twice: for '" + own->second.value + "', and to be fed " + plate.value,
                      "take out plate: on line " + std::to_string(plate.place.line) + ", or this method");
  if (!host)
    diagnostics.error("refeed", plate.place, "'" + plate.value + "' does not say with which lamp", "write it like: plate: with left tail");
  else if (!has(lamps, *host)) {
    const std::string near = did_you_mean(*host, lamps);
    diagnostics.error("refeed", plate.place, "no lamp '" + *host + "' to feed the plate lamp with", near.empty() ? "" : "did you mean 'with " + near + "'?");
  }
}

// One word of the place is misspelt, the others are the same: "left gromet", but not "right door" for "right rear".
bool nearly(const std::string& place, const std::string& other) {
  const Names a = split(place, " "), b = split(other, " ");
  if (a.size() != b.size() || a == b) return false;
  for (std::size_t i = 0; i < a.size(); ++i)
    if (a[i] != b[i] && did_you_mean(a[i], {b[i]}).empty()) return false;
  return true;
}

// The end of one run only, that is nearly a place of others and itself nothing: misspelt, it would lead nowhere.
void check_runs(const Spec& spec, const Names& places, Diagnostics& diagnostics) {
  std::set<std::string> ends = {"inlet", "battery", "stop switch"};
  for (const LampRow& row : spec.car.lamps) {
    ends.insert(row.unit);
    if (row.at) ends.insert(row.at->value);
  }
  for (const GroundRow& g : spec.grounds)
    if (g.beside) ends.insert(g.beside->value);
  for (const auto& [key, value] : spec.isolation.choices) ends.insert(value.value);
  for (const ExtraRow& row : spec.extras)
    for (const auto& [key, value] : row.choices) ends.insert(value.value);
  for (const RunRow& run : spec.runs)
    for (const PlacedText* end : {&run.from, &run.to}) {
      if (end->value.empty() || ends.count(end->value) != 0 || std::count(places.begin(), places.end(), end->value) > 1) continue;
      Names others(ends.begin(), ends.end());
      others.insert(others.end(), places.begin(), places.end());
      const auto near = std::find_if(others.begin(), others.end(), [&](const std::string& other) { return nearly(end->value, other); });
      if (near != others.end())
        diagnostics.error("run-end", end->place, "run '" + run.name.value + "' leads nowhere: '" + end->value + "' is the end of no other run and no lamp",
                          meant(*near, ""));
    }
}

}  // namespace

void check_references(const Spec& spec, Diagnostics& diagnostics) {
  Names places = {"inlet"};
  for (const RunRow& run : spec.runs)
    for (const PlacedText* end : {&run.from, &run.to}) places.push_back(end->value);
  check_feeds(spec, diagnostics);
  check_branches(spec, diagnostics);
  check_returns(spec, diagnostics);
  check_beside(spec, places, diagnostics);
  check_plate(spec, diagnostics);
  check_runs(spec, places, diagnostics);
}

}  // namespace towloom
