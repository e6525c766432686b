#include "check/advise.hpp"

#include <algorithm>

#include "check/heat.hpp"
#include "check/suit.hpp"

namespace towloom {
namespace {

constexpr double assumed_run_m = 1.5;   // to a place that the survey does not reach yet; common practice, no source

bool has_function(const Spec& spec, const char* function) {
  return std::any_of(spec.car.lamps.begin(), spec.car.lamps.end(), [&](const LampRow& l) { return !l.added && l.function.value == function; });
}

// Lamps that the method brings, one set a side where the car's towed lamps sit, and one for the plate.
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
  out.limits.drop_v.reset();
  std::vector<LampRow>& lamps = out.car.lamps;
  lamps.erase(std::remove_if(lamps.begin(), lamps.end(), [](const LampRow& l) { return l.added; }), lamps.end());
  reach_places(out);
  return out;
}

struct Tried {
  bool built = false;
  std::string fault;           // the first thing that is wrong
  std::optional<Facts> facts;
};

// Faults of the method itself: a lamp that does not do what it must, back-feed, chatter.
bool counts_against(const Finding& f) {
  return f.rule == "lamp-differs" || f.rule == "brake-conflict" || f.rule == "back-feed" || f.rule == "chatter" || f.rule == "not-solved" || f.rule == "too-hot" ||
         f.rule == "not-detected";
}

Tried try_job(Spec spec, const Catalogue& catalogue) {
  Tried out;
  // The budget is not the question here: a long car must not rule a method out.
  spec.limits.drop_v = PlacedNumber{5, spec.isolation.place};
  Diagnostics diagnostics;
  out.facts = find_facts(spec, catalogue, diagnostics);
  out.built = out.facts.has_value();
  if (!out.built) {
    for (const Diagnostic& d : diagnostics.all())
      if (d.severity == Severity::error && out.fault.empty()) out.fault = d.message;
    return out;
  }
  for (const Finding& f : out.facts->findings)
    if (counts_against(f) && out.fault.empty()) out.fault = f.message;
  return out;
}

// It gives signals and isolates no lamp.
bool is_converter(const Method& m) {
  return !m.gives_signals.empty() && std::none_of(m.fragments.begin(), m.fragments.end(), [](const Fragment& f) { return f.scope == "lamp" || f.scope == "added"; });
}

// Converters that turn the coach's signals into what the lamps want.
std::vector<const Method*> converters(const Catalogue& catalogue, const std::string& gives) {
  std::vector<const Method*> out;
  for (const auto& [name, m] : catalogue.methods)
    if (is_converter(m) && m.gives_signals == gives) out.push_back(&m);
  return out;
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
  out.cuts = static_cast<int>(facts.circuit().cuts.size());
}

// Towed lamps by the rows of the method's file: the first reason against it, or what it asks for besides.
void ask_file(Candidate& out, const Spec& spec, const Catalogue& catalogue) {
  for (const LampRow& lamp : spec.car.lamps) {
    const LampFunction* function = catalogue.function(lamp.function.value);
    const bool towed = !lamp.dark_in_tow && function != nullptr && !function->tow.empty() && !function->optional;
    const SuitRow* suit = towed ? find_suit(*out.method, spec, lamp, catalogue) : nullptr;
    if (suit == nullptr || suit->verdict == "suited") continue;
    if (suit->verdict == "unsuited") {
      out.advice = Advice::does_not;
      out.why = suit->why;
      return;
    }
    if (std::find(out.extras.begin(), out.extras.end(), suit->extra) == out.extras.end()) out.extras.push_back(suit->extra);
    if (out.why.empty()) out.why = suit->why;
  }
}

// Adds to the job what mends it, as long as something is wrong.
void mend(Spec& spec, Tried& tried, Candidate& out, const Catalogue& catalogue) {
  for (const auto& [name, extra] : catalogue.extras)
    for (const auto& choices : extra.remedies) {
      if (tried.built && tried.fault.empty()) return;
      const bool there = std::any_of(spec.extras.begin(), spec.extras.end(), [&, &wanted = name](const ExtraRow& e) { return e.name.value == wanted; });
      if (there) continue;
      Spec with = spec;
      with.extras.push_back({{name, spec.isolation.place}, choices});
      Tried again = try_job(with, catalogue);
      if (!again.built || !again.fault.empty()) continue;
      if (out.why.empty()) out.why = tried.fault;
      out.extras.push_back(name);
      spec = std::move(with);
      tried = std::move(again);
    }
}

Candidate try_method(const Spec& survey, const Method& method, const Catalogue& catalogue) {
  Candidate out;
  out.method = &method;
  out.advice = Advice::works;
  ask_file(out, survey, catalogue);
  if (out.advice == Advice::does_not) return out;
  Spec spec = survey;
  spec.isolation.method = {method.name, survey.isolation.place};
  if (method.added_lamps) add_lamps(spec, method);
  const bool combined = method.added_lamps ? method.brings.count("stop-turn") != 0 : has_function(survey, "stop-turn") || has_function(survey, "tail-stop");
  if (combined && spec.coach.signals.value == "separate" && method.gives_signals.empty())
    for (const Method* converter : converters(catalogue, "combined")) {
      spec.isolation.converter = PlacedText{converter->name, survey.isolation.place};
      out.extras.push_back(converter->name);
      out.why = "the coach's signals are separate and the lamps want them combined";
      break;
    }
  const bool cuts = std::any_of(method.fragments.begin(), method.fragments.end(), [](const Fragment& f) { return f.cut == "leg"; });
  if (cuts && has_function(survey, "plate") && !tail_host(survey).empty()) spec.isolation.plate = PlacedText{"with " + tail_host(survey), survey.isolation.place};
  Tried tried = try_job(spec, catalogue);
  mend(spec, tried, out, catalogue);
  if (!tried.built || !tried.fault.empty()) {
    out.advice = Advice::does_not;
    out.why = tried.fault;
    return out;
  }
  if (!out.extras.empty()) out.advice = Advice::with_extras;
  measure(out, *tried.facts, catalogue);
  return out;
}

}  // namespace

std::vector<Candidate> advise(const Spec& spec, const Catalogue& catalogue) {
  const Spec survey = without_isolation(spec);
  std::vector<Candidate> out;
  for (const auto& [name, method] : catalogue.methods)
    if (!is_converter(method)) out.push_back(try_method(survey, method, catalogue));
  std::stable_sort(out.begin(), out.end(), [](const Candidate& a, const Candidate& b) {
    if (a.advice != b.advice) return a.advice < b.advice;
    if (a.extras.size() != b.extras.size()) return a.extras.size() < b.extras.size();
    if (std::abs(a.least_v - b.least_v) > 0.1) return a.least_v > b.least_v;
    return a.parts < b.parts;
  });
  return out;
}

}  // namespace towloom
