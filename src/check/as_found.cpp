#include "check/as_found.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "check/readings.hpp"
#include "solve/meter.hpp"
#include "solve/required.hpp"

namespace towloom {
namespace {

constexpr std::size_t most_shown = 3, most_suspects = 5;

// All of them, or all but one.
Circuit with_all(Circuit circuit, const std::vector<Observed>& all, const Catalogue& catalogue, std::size_t but) {
  for (std::size_t i = 0; i < all.size(); ++i)
    if (i != but) circuit = with_observed(std::move(circuit), all[i], catalogue);
  return circuit;
}

// Scenes that the survey says nothing of are not held against anybody.
// Lamps that do something else in two solutions of the same scenes; lit ones also when the volts leave the band.
std::vector<std::string> differences(const Spec& spec, const Circuit& c, const States& a, const States& b, double band) {
  std::vector<std::string> out;
  for (std::size_t s = 0; s < a.scenes.size(); ++s)
    for (std::size_t l = 0; l < a.lamps[s].size() && !engine_unsurveyed(spec, a.scenes[s]); ++l) {
      const LampState &x = a.lamps[s][l], &y = b.lamps[s][l];
      if (x.seen == y.seen && (x.seen == Seen::dark || std::fabs(x.volts - y.volts) <= band)) continue;
      const std::string how = x.seen == y.seen ? format_fixed(x.volts, 1) + " V, mended " + format_fixed(y.volts, 1) + " V"
                                               : std::string(to_text(x.seen)) + ", mended " + to_text(y.seen);
      out.push_back(lamp_name(c.part(c.lamps[l].lamp)) + " " + how + " in '" + a.scenes[s].name + "'");
    }
  return out;
}

std::set<std::string> rules_of(const std::vector<Finding>& findings) {
  std::set<std::string> out;
  for (const Finding& f : findings) out.insert(f.rule);
  return out;
}

struct Points2 { TerminalRef plus, minus; };
std::optional<Points2> find_reading(const Spec& spec, const Circuit& c, const MeasuredRow& row, Diagnostics& diagnostics) {
  for (const LampIntent& lamp : c.lamps) {
    const Part& part = c.part(lamp.lamp);
    const auto survey = std::find_if(spec.car.lamps.begin(), spec.car.lamps.end(), [&](const LampRow& r) { return r.place == part.origin.job; });
    if (part.id == row.at.value || (survey != spec.car.lamps.end() && survey->name.value == row.at.value)) return Points2{{lamp.lamp, 0}, {lamp.lamp, 1}};
  }
  const TerminalRef plus = c.terminal(row.at.value), minus = row.against ? c.terminal(row.against->value) : TerminalRef{};
  if (plus.part && (!row.against || minus.part)) return Points2{plus, minus};
  diagnostics.error("measured", plus.part ? row.against->place : row.at.place, "'" + (plus.part ? row.against->value : row.at.value) + "' is no lamp or terminal of this job",
                    "a lamp's name, or part and terminal like J2.3.car");
  return std::nullopt;
}

std::optional<double> read_volts(const Circuit& c, const Catalogue& catalogue, const Scene& scene, const Points2& at) {
  const auto readings = read_between(c, catalogue, scene, attach(catalogue.instruments.at("meter"), catalogue, at.plus, at.minus));
  if (readings.empty()) return std::nullopt;
  double most = 0;
  for (const Reading& r : readings)
    if (std::fabs(r.volts) > std::fabs(most)) most = r.volts;
  return most;
}

void compare_readings(AsFound& out, const Facts& sound, const std::vector<Observed>& all, const Catalogue& catalogue, Diagnostics& diagnostics) {
  const double band = catalogue.rule("reading_band_v").value;
  for (const MeasuredRow& row : sound.spec.measured) {
    const auto scene = std::find_if(sound.states.scenes.begin(), sound.states.scenes.end(), [&](const Scene& s) { return s.name == row.scene.value; });
    if (scene == sound.states.scenes.end()) {
      std::vector<std::string> names;
      for (const Scene& s : sound.states.scenes) names.push_back(s.name);
      const std::string near = did_you_mean(row.scene.value, names);
      diagnostics.error("measured", row.scene.place, "no scene is called '" + row.scene.value + "'", near.empty() ? "towloom check lists them" : "did you mean '" + near + "'?");
      continue;
    }
    const auto at = find_reading(sound.spec, sound.circuit(), row, diagnostics);
    if (!at) continue;
    AsFound::Reading r{row.at.value, row.scene.value, 0, 0, row.volts.value, false, {}, {}};
    const auto near = [&](const Circuit& c) {
      const auto v = read_volts(c, catalogue, *scene, *at);
      return v && std::fabs(*v - r.measured_v) <= band;
    };
    const Circuit& found = out.facts.circuit();
    r.sound_v = read_volts(sound.circuit(), catalogue, *scene, *at).value_or(0);
    r.found_v = read_volts(found, catalogue, *scene, *at).value_or(0);
    r.explained = near(found);
    for (std::size_t i = 0; r.explained && i < all.size(); ++i)
      if (!near(with_all(sound.circuit(), all, catalogue, i))) r.by.push_back(static_cast<int>(i));
    if (!r.explained)
      for (const Fault& fault : list_faults(found, catalogue))
        if (r.suspects.size() < most_suspects && near(with_fault(found, fault, catalogue))) r.suspects.push_back(describe(fault, catalogue));
    out.readings.push_back(std::move(r));
  }
}

}  // namespace

std::optional<AsFound> solve_as_found(const Facts& facts, const Catalogue& catalogue, Diagnostics& diagnostics) {
  if (facts.spec.as_found.empty() && facts.spec.measured.empty()) return std::nullopt;
  const std::vector<Observed> all = read_observations(facts.spec, facts.circuit(), catalogue, diagnostics);
  if (all.size() != facts.spec.as_found.size()) return std::nullopt;
  const double band = catalogue.rule("reading_band_v").value;
  AsFound out{facts, {}, {}};
  out.facts.found = !all.empty();
  out.facts.sized.circuit = with_all(facts.circuit(), all, catalogue, all.size());
  out.facts.states = solve_all(out.facts.sized.circuit, catalogue, facts.spec);
  out.facts.findings = check(facts.spec, catalogue, out.facts.sized, out.facts.states);
  const std::set<std::string> found = rules_of(out.facts.findings);
  for (std::size_t i = 0; i < all.size(); ++i) {
    AsFound::Row row;
    row.words = all[i].row->what.value + (all[i].seen == all[i].row->what.value ? "" : ": " + all[i].seen);
    if (!all[i].fault.kind.empty()) row.fault = describe(all[i].fault, catalogue);
    Sized mended = facts.sized;
    mended.circuit = with_all(facts.circuit(), all, catalogue, i);
    const States states = solve_all(mended.circuit, catalogue, facts.spec);
    row.shows = differences(facts.spec, facts.circuit(), out.facts.states, states, band);
    row.mends = !row.shows.empty();
    const States lone = solve_all(with_observed(facts.circuit(), all[i], catalogue), catalogue, facts.spec);
    row.alone = !differences(facts.spec, facts.circuit(), facts.states, lone, band).empty();
    const std::set<std::string> left = rules_of(check(facts.spec, catalogue, mended, states));
    std::set_difference(found.begin(), found.end(), left.begin(), left.end(), std::back_inserter(row.findings));
    out.rows.push_back(std::move(row));
  }
  compare_readings(out, facts, all, catalogue, diagnostics);
  if (diagnostics.has_errors()) return std::nullopt;
  return out;
}

std::string as_found_text(const AsFound& found) {
  std::string out = "As found\n" + matrix_text(found.facts) + "\nObserved\n";
  for (std::size_t i = 0; i < found.rows.size(); ++i) {
    const AsFoundRow& said = found.facts.spec.as_found[i];
    const AsFound::Row& row = found.rows[i];
    out += "  " + std::to_string(i + 1) + " " + row.words + " (" + said.why.value + ", " + said.date.value + ")\n";
    if (!row.fault.empty() && row.fault != row.words) out += "      fault: " + row.fault + "\n";
    for (std::size_t s = 0; s < std::min(most_shown, row.shows.size()); ++s) out += "      shows: " + row.shows[s] + "\n";
    if (row.shows.size() > most_shown) out += "      and in " + std::to_string(row.shows.size() - most_shown) + " more places\n";
    if (row.masked()) out += "      hidden by the others: mending it alone changes no lamp\n";
    if (!row.alone && !row.mends) out += "      shows at no lamp, alone or with the others\n";
    for (const std::string& rule : row.findings) out += "      found by: " + rule + "\n";
  }
  if (!found.readings.empty()) out += "\nReadings\n";
  for (const AsFound::Reading& r : found.readings) {
    out += "  " + r.at + " in '" + r.scene + "': " + format_fixed(r.measured_v, 1) + " V; sound " + format_fixed(r.sound_v, 1) + " V, as found " + format_fixed(r.found_v, 1) + " V";
    if (r.explained && std::fabs(r.sound_v - r.measured_v) < std::fabs(r.found_v - r.measured_v) + 1e-9 && r.by.empty()) {
      out += "; as it should be\n";
      continue;
    }
    std::string by;
    for (const int i : r.by) by += (by.empty() ? "" : ", ") + std::to_string(i + 1);
    out += r.explained ? (by.empty() ? "; explained, by no single observation alone\n" : "; explained by " + by + "\n") : "; not explained by what is recorded\n";
    for (const std::string& s : r.suspects) out += "      would be explained by: " + s + "\n";
  }
  out += "\nFindings as found\n";
  for (const Finding& f : found.facts.findings) out += "  " + f.rule + ": " + f.message + "\n";
  return out;
}

}  // namespace towloom
