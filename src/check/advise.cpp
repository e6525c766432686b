#include "check/advise.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "base/parallel.hpp"
#include "check/heat.hpp"
#include "check/suit.hpp"
#include "check/survey.hpp"

namespace towloom {
namespace {

constexpr double any_drop_v = 5;   // V: where the job's own budget cannot be met, a long car must not rule a method out

struct Tried {
  bool built = false;
  std::string fault;           // the first thing that is wrong
  std::string poor;            // the first thing that is poor, and that an extra may mend
  std::optional<Facts> facts;
  bool good() const { return built && fault.empty(); }
};

bool named(const Finding& f, std::initializer_list<const char*> rules) {
  return std::any_of(rules.begin(), rules.end(), [&](const char* rule) { return f.rule == rule; });
}

Tried try_job(Spec spec, const Catalogue& catalogue) {
  Tried out;
  Diagnostics diagnostics;
  out.facts = find_facts(spec, catalogue, diagnostics);
  if (!out.facts || std::any_of(out.facts->findings.begin(), out.facts->findings.end(), [](const Finding& f) { return f.rule == "drop-over"; })) {
    spec.limits.drop_v = PlacedNumber{any_drop_v, spec.isolation.place};
    diagnostics = {};
    out.facts = find_facts(spec, catalogue, diagnostics);
  }
  out.built = out.facts.has_value();
  if (!out.built) {
    for (const Diagnostic& d : diagnostics.all())
      if (d.severity == Severity::error && out.fault.empty()) out.fault = d.message;
    return out;
  }
  for (const Finding& f : out.facts->findings) {
    if (out.fault.empty() && named(f, {"lamp-differs", "brake-conflict", "back-feed", "chatter", "pulsed-coil", "not-solved", "too-hot", "not-detected", "outlet-overloaded", "load-dead"}))
      out.fault = f.message;
    if (out.poor.empty() && named(f, {"battery-flat"})) out.poor = f.message;
  }
  for (const Finding& f : out.facts->findings)   // what an extra of the job does to every method is the better reason
    if (!out.fault.empty() && named(f, {"live-unplugged"})) out.fault = f.message;
  return out;
}

// It gives signals and isolates no lamp.
bool is_converter(const Method& m) {
  return !m.gives_signals.empty() && std::none_of(m.fragments.begin(), m.fragments.end(), [](const Fragment& f) { return f.scope == "lamp" || f.scope == "added"; });
}

const Method* converter_to(const Catalogue& catalogue, const std::string& gives) {
  for (const auto& [name, m] : catalogue.methods)
    if (is_converter(m) && m.gives_signals == gives) return &m;
  return nullptr;
}

void measure(Candidate& out, const Facts& facts, const Catalogue& catalogue) {
  const States& states = facts.states;
  out.least_v = 1e9;
  for (std::size_t s = 0; s < states.scenes.size(); ++s)
    for (std::size_t l = 0; l < states.lamps[s].size(); ++l)
      if (states.scenes[s].kind == "towing" && (states.required[s][l] == Seen::lit || states.required[s][l] == Seen::flash))
        out.least_v = std::min(out.least_v, states.lamps[s][l].volts);
  if (out.least_v > 1e8) out.least_v = 0;
  const double ambient = facts.spec.limits.ambient_c ? facts.spec.limits.ambient_c->value : catalogue.rule("ambient_c").value;
  for (const PartHeat& h : find_heat(facts.circuit(), catalogue, states, mounting_of(facts.spec, catalogue), ambient)) out.watts = std::max(out.watts, h.watts);
  for (const Part& p : facts.circuit().parts)
    if (p.status == Status::fitted && p.kind != "splice" && p.kind != "stud" && p.kind != "cap") ++out.parts;
  for (const Wire& w : facts.circuit().wires) out.wires += w.status == Status::fitted;
  out.cuts = static_cast<int>(std::count_if(facts.circuit().cuts.begin(), facts.circuit().cuts.end(), [](const CutPoint& c) { return !c.plug; }));
  std::string said;   // one of each: the first lamp stands for the others
  for (const Finding& f : facts.findings) {
    out.dim = out.dim || f.rule == "low-volts";
    if (!named(f, {"low-volts", "monitor-current", "battery-flat"}) || said == f.rule) continue;
    out.doubts.push_back(f.message);
    said = f.rule;
  }
}

// Towed lamps by the rows of the method's file. An extra of the catalogue that brings its own remedies is left to the
// solution, which shows whether it is wanted; others are put into the job, or named where the catalogue has none.
void ask_file(Candidate& out, Spec& spec, const Method& method, const Catalogue& catalogue) {
  const auto note = [](std::vector<std::string>& list, const std::string& text) {
    if (!text.empty() && std::find(list.begin(), list.end(), text) == list.end()) list.push_back(text);
  };
  for (const LampRow& lamp : spec.car.lamps) {
    const LampFunction* function = catalogue.function(lamp.function.value);
    const bool towed = !lamp.added && !lamp.dark_in_tow && function != nullptr && !function->tow.empty() && !function->optional;
    if (!towed) continue;
    for (const SuitRow* suit : find_suits(method, spec, lamp, catalogue)) {
      if (suit->verdict == "unsuited") {
        out.advice = Advice::does_not;
        out.why = suit->why;
        return;
      }
      if (suit->verdict == "doubtful") note(out.doubts, suit->why);
      if (suit->verdict == "suited" && out.why.empty()) out.why = suit->why;
      const auto extra = catalogue.extras.find(suit->extra);
      if (extra != catalogue.extras.end() && !extra->second.remedies.empty()) continue;
      if (suit->verdict == "with-extra") out.why = suit->why;
      note(out.extras, suit->extra);
      if (extra != catalogue.extras.end() && !has_extra(spec, suit->extra)) spec.extras.push_back({{suit->extra, spec.isolation.place}, {}});
    }
  }
}

// Adds to the job what mends it, as long as something is wrong: choices of the method, then extras.
void mend(Spec& spec, Tried& tried, Candidate& out, const Catalogue& catalogue) {
  const auto better = [&](const Tried& again) { return again.good() && (!tried.good() || again.poor.empty()); };
  const auto take = [&](Spec with, const std::string& name) {
    Tried again = try_job(with, catalogue);
    if (!better(again)) return;
    out.why = tried.good() ? tried.poor : tried.fault;
    out.extras.push_back(name);
    spec = std::move(with);
    tried = std::move(again);
  };
  const auto sound = [&] { return tried.good() && tried.poor.empty(); };
  for (const auto& choices : out.method->remedies) {
    if (tried.good()) break;
    Spec with = spec;
    std::string says;
    for (const auto& [key, value] : choices) {
      with.isolation.choices[key] = {value.value, spec.isolation.place};
      says += (says.empty() ? "" : ", ") + key + ": " + value.value;
    }
    take(std::move(with), says);
  }
  for (const auto& [name, extra] : catalogue.extras)
    for (const auto& choices : extra.remedies) {
      if (sound() || has_extra(spec, name)) break;
      Spec with = spec;
      with.extras.push_back({{name, spec.isolation.place}, choices});
      take(std::move(with), name);
    }
}

void count_hours(Candidate& out, const Spec& spec, const Catalogue& catalogue) {
  const auto count = [&](const Method& m) {
    out.hours_from += m.hours_from;
    out.hours_to += m.hours_to;
  };
  count(*out.method);
  for (const std::string& name : out.extras) {
    if (const auto m = catalogue.methods.find(name); m != catalogue.methods.end()) count(m->second);
    if (const auto e = catalogue.extras.find(name); e != catalogue.extras.end()) count(e->second);
  }
  if (!spec.isolation.plate || out.hours_to == 0) return;
  out.hours_from += catalogue.rule("plate_hours").value;
  out.hours_to += catalogue.rule("plate_hours").value;
}

Candidate try_method(const Spec& survey, const Method& method, const Method* converter, const Catalogue& catalogue) {
  Candidate out;
  out.method = &method;
  out.advice = Advice::works;
  Spec spec = survey;
  spec.isolation.method = {method.name, survey.isolation.place};
  if (converter != nullptr) {
    spec.isolation.converter = PlacedText{converter->name, survey.isolation.place};
    out.extras.push_back(converter->name);
    out.why = survey.coach.signals.value == "separate" ? "the coach's signals are separate and the lamps want them combined" : "the turn lamps show too";
    ask_file(out, spec, *converter, catalogue);
  }
  ask_file(out, spec, method, catalogue);
  if (out.advice == Advice::does_not) return out;
  if (method.added_lamps) add_lamps(spec, method);
  const bool cuts = std::any_of(method.fragments.begin(), method.fragments.end(), [](const Fragment& f) { return f.cut == "leg" || f.cut == "plug"; });
  if (cuts && has_function(survey, "plate") && !tail_host(survey).empty()) spec.isolation.plate = PlacedText{"with " + tail_host(survey), survey.isolation.place};
  Tried tried = try_job(spec, catalogue);
  mend(spec, tried, out, catalogue);
  if (!tried.good()) {
    out.advice = Advice::does_not;
    out.why = tried.fault;
    return out;
  }
  if (!out.extras.empty()) out.advice = Advice::with_extras;
  measure(out, *tried.facts, catalogue);
  count_hours(out, spec, catalogue);
  return out;
}

bool before(const Candidate& a, const Candidate& b) {
  const auto last = [](const Candidate& c) { return c.advice == Advice::does_not; };
  if (last(a) != last(b)) return last(b);
  if (a.own_lamps() != b.own_lamps()) return b.own_lamps();
  if (a.doubts.empty() != b.doubts.empty()) return a.doubts.empty();
  if (a.dim != b.dim) return b.dim;
  if (a.method->each_journey != b.method->each_journey) return b.method->each_journey;
  const double hours = a.hours_from + a.hours_to - b.hours_from - b.hours_to;
  if (std::fabs(hours) > 0.01) return hours < 0;
  if (a.extras.size() != b.extras.size()) return a.extras.size() < b.extras.size();
  if (a.parts + a.wires != b.parts + b.wires) return a.parts + a.wires < b.parts + b.wires;
  return std::lround(10 * a.least_v) > std::lround(10 * b.least_v);   // to the tenth that is printed; the order stays one
}

}  // namespace

std::vector<Candidate> advise(const Spec& spec, const Catalogue& catalogue) {
  const Spec survey = without_isolation(spec);
  const bool separate = survey.coach.signals.value == "separate";
  const bool wants_combined = has_function(survey, "stop-turn") || has_function(survey, "tail-stop");
  const bool has_turn = std::any_of(survey.car.lamps.begin(), survey.car.lamps.end(), [&](const LampRow& l) {
    const LampFunction* f = catalogue.function(l.function.value);
    return f != nullptr && f->only == "separate" && !l.dark_in_tow;
  });
  std::vector<const Method*> methods;
  for (const auto& [name, method] : catalogue.methods)
    if (!is_converter(method)) methods.push_back(&method);
  std::vector<std::vector<Candidate>> tried(methods.size());
  in_parallel(std::min(most_threads(), methods.size()), methods.size(), [&](std::size_t, std::size_t m) {
    const Method& method = *methods[m];
    std::vector<Candidate>& out = tried[m];
    const bool gives = !method.gives_signals.empty();
    const bool combined = method.added_lamps ? method.brings.count("stop-turn") != 0 : wants_combined;
    out.push_back(try_method(survey, method, separate && combined && !gives ? converter_to(catalogue, "combined") : nullptr, catalogue));
    const Method* to_separate = !separate && has_turn && !method.added_lamps && !gives ? converter_to(catalogue, "separate") : nullptr;
    if (to_separate == nullptr || out.back().advice == Advice::does_not) return;
    Candidate all = try_method(survey, method, to_separate, catalogue);
    if (all.advice != Advice::does_not) out.push_back(std::move(all));
  });
  std::vector<Candidate> out;
  for (std::vector<Candidate>& of : tried) std::move(of.begin(), of.end(), std::back_inserter(out));
  std::stable_sort(out.begin(), out.end(), before);
  return out;
}

}  // namespace towloom
