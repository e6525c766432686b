// D, choose it: the survey of coach and car only; the key has the method that suits, and one that tempts and does not.
#include <algorithm>
#include <memory>

#include "check/advise.hpp"
#include "check/survey.hpp"
#include "sheets/worksheet.hpp"

namespace towloom::worksheet {
namespace {

constexpr std::size_t most_shown = 4;

struct Choosing {
  Facts blind;                   // the job without its title and its method, which would tell
  std::vector<Candidate> suit;   // best first
  const Candidate* tempting = nullptr;
  std::string symptom;           // of that one, solved
  std::vector<Candidate> all;
};

// What it takes, without splices and wires: what tempts is the least of them.
long parts_of(const Facts& facts) {
  return std::count_if(facts.circuit().parts.begin(), facts.circuit().parts.end(), [](const Part& p) {
    return p.status == Status::fitted && p.kind != "splice" && p.kind != "joint" && p.kind != "stud" && p.kind != "contact" && p.kind != "cap";
  });
}

std::string seen_text(Seen seen, const Job& job) {
  if (seen == Seen::dark) return job.say("state-dark");
  return seen == Seen::lit ? job.say("is-lit") : seen == Seen::flash ? job.say("is-flashing") : seen == Seen::counterflash ? job.say("is-counterflashing") : to_text(seen);
}

// The survey with this method, whatever its drop; a plate lamp that it cannot feed hangs on a tail lamp, or stays dark.
std::optional<Facts> with_method(const Job& job, const Method& method) {
  constexpr double any_drop_v = 5;   // what the lamps show is asked, not how bright
  const Place place = job.facts.spec.isolation.place;
  Spec plain = without_isolation(job.facts.spec);
  plain.isolation.method = {method.name, place};
  plain.limits.drop_v = PlacedNumber{any_drop_v, place};
  Spec hosted = plain, dark = plain;
  if (!tail_host(plain).empty()) hosted.isolation.plate = PlacedText{"with " + tail_host(plain), place};
  for (LampRow& lamp : dark.car.lamps) lamp.dark_in_tow = lamp.dark_in_tow || lamp.function.value == "plate";
  for (const Spec* trial : {&plain, &hosted, &dark}) {
    Diagnostics own;
    if (auto facts = find_facts(*trial, job.catalogue, own)) return facts;
  }
  return std::nullopt;
}

// What the first lamp would do wrong with this method, and in which state.
std::string symptom_of(const Job& job, const Facts& facts) {
  const States& states = facts.states;
  for (std::size_t s = 0; s < states.scenes.size(); ++s)
    for (std::size_t l = 0; l < facts.circuit().lamps.size() && to_print(states, s); ++l) {
      const Seen required = states.required[s][l], seen = states.lamps[s][l].seen;
      if (required == seen || required == Seen::may || facts.circuit().part(facts.circuit().lamps[l].lamp).function == "plate") continue;
      return job.say("worksheet-in-state") + " '" + states.scenes[s].name + "': " + lamp_place(facts.circuit().part(facts.circuit().lamps[l].lamp), job.style) + " " + job.say("worksheet-would-be") + " " + seen_text(seen, job) + ", " +
             job.say("worksheet-must-be") + " " + seen_text(required, job);
    }
  return "";
}

// The least of those that fail and still isolate somehow, by what the lamps then show; else wires joined without anything.
void find_tempting(const Job& job, Choosing& out) {
  long least = 0;
  for (const Candidate& c : out.all) {
    if (c.advice != Advice::does_not || c.why.empty()) continue;
    if (out.tempting == nullptr) out.tempting = &c;
    const auto facts = with_method(job, *c.method);
    const std::string symptom = facts ? symptom_of(job, *facts) : "";
    if (symptom.empty()) continue;
    const long parts = parts_of(*facts);
    if (!out.symptom.empty() && (parts == 0 || (least > 0 && parts >= least))) continue;
    least = parts;
    out.tempting = &c;
    out.symptom = symptom;
  }
}

std::shared_ptr<const Choosing> choose(const Job& job) {
  const auto out = std::make_shared<Choosing>();
  out->blind.spec = job.facts.spec;
  out->blind.findings = job.facts.findings;
  out->blind.spec.job.title.value.clear();
  out->blind.spec.isolation.method.value.clear();
  out->all = advise(job.facts.spec, job.catalogue);
  for (const Candidate& c : out->all)
    if (c.advice != Advice::does_not) out->suit.push_back(c);
  if (out->suit.empty()) return nullptr;
  find_tempting(job, *out);
  return out;
}

std::string text_of(const std::optional<PlacedText>& t, const Job& job) { return t ? t->value : job.say("worksheet-not-surveyed"); }

SheetTable facts_table(const Job& job) {
  const Spec& spec = job.facts.spec;
  SheetTable out{job.say("worksheet-survey"), {{job.say("worksheet-asked")}, {job.say("worksheet-found")}}, {}};
  const auto row = [&](const char* key, const std::string& value) {
    if (!value.empty()) out.rows.push_back({{{job.say(key), Weight::regular, "quiet"}, {value}}});
  };
  const auto form = job.catalogue.connectors.find(spec.coach.outlet.form.value);
  row("worksheet-outlet", form == job.catalogue.connectors.end() ? spec.coach.outlet.form.value : form->second.title);
  row("worksheet-signals", spec.coach.signals.value);
  std::string carries;
  for (const FoundContact& f : spec.coach.found)
    if (f.plug == 0 && f.does) carries += (carries.empty() ? "" : ", ") + f.does->value;
  row("worksheet-carries", carries);
  row("worksheet-outputs", spec.coach.outputs ? spec.coach.outputs->value : "");
  row("worksheet-ignition", text_of(spec.car.ignition, job));
  row("worksheet-stop-lamps", text_of(spec.car.stop_lamps, job));
  row("worksheet-monitoring", spec.car.monitoring.value);
  return out;
}

SheetTable lamps_table(const Job& job) {
  SheetTable out{job.say("worksheet-lamps"), {{job.say("proof-lamp")}, {job.say("worksheet-source")}, {job.say("worksheet-node")}, {job.say("worksheet-driven")}}, {}};
  for (const LampRow& lamp : job.facts.spec.car.lamps) {
    if (lamp.added) continue;
    const std::string function = job.say("lamp-" + lamp.function.value);
    out.rows.push_back({{{lamp.name.value == function ? function : lamp.name.value + ", " + function}, {lamp.source.value}, {lamp.node.value}, {lamp.drive}}});
  }
  return out;
}

SheetTable boxes(const Job& job) {
  SheetTable out{job.say("worksheet-your-choice"), {{job.say("worksheet-your-method"), Anchor::middle, false, mm(56)}, {job.say("worksheet-your-extras"), Anchor::middle, false, mm(56)}, {job.say("worksheet-your-reason"), Anchor::middle, false, mm(100)}}, {}};
  for (int i = 0; i < 2; ++i) out.rows.push_back({{box_cell(mm(54)), box_cell(mm(54)), box_cell(mm(98))}});
  out.notes = {job.say("worksheet-second-row")};
  return out;
}

// Extras and converters by what they are called in words.
std::string needs(const Candidate& c, const Job& job) {
  std::vector<std::string> out;
  for (const std::string& name : c.extras) {
    const auto extra = job.catalogue.extras.find(name), method = job.catalogue.methods.find(name);
    out.push_back(extra != job.catalogue.extras.end() ? extra->second.title : method != job.catalogue.methods.end() ? method->second.title : name);
  }
  return joined(out);
}

std::string reason(const Candidate& c, const Job& job) {
  std::string out = c.why;
  if (c.advice != Advice::does_not) {
    out += (out.empty() ? "" : "; ") + job.say("worksheet-dimmest") + " " + format_fixed(c.least_v, 1) + " V, " + std::to_string(c.cuts) + " " + job.say("worksheet-cuts");
    if (!c.doubts.empty()) out += "; " + job.say("worksheet-doubt") + " " + c.doubts.front();
  }
  return out;
}

SheetTable answers(const Job& job, const Choosing& choice) {
  SheetTable out{job.say("worksheet-suits"), {{job.say("test-number"), Anchor::end}, {job.say("worksheet-your-method"), Anchor::start, true}, {job.say("worksheet-your-extras"), Anchor::start, true}, {job.say("worksheet-your-reason"), Anchor::start, true}}, {}};
  for (std::size_t i = 0; i < std::min(most_shown, choice.suit.size()); ++i)
    out.rows.push_back({{{std::to_string(i + 1)}, {choice.suit[i].method->title, Weight::semibold}, {needs(choice.suit[i], job)}, {reason(choice.suit[i], job)}}});
  const auto own = job.catalogue.methods.find(job.facts.spec.isolation.method.value);
  if (own != job.catalogue.methods.end()) out.notes = {job.say("worksheet-job-took") + " " + own->second.title + "."};
  return out;
}

SheetTable temptation(const Job& job, const Choosing& choice) {
  SheetTable out{job.say("worksheet-tempting"), {{job.say("worksheet-your-method"), Anchor::start, true}, {job.say("worksheet-why-not"), Anchor::start, true}, {job.say("worksheet-symptom"), Anchor::start, true}}, {}};
  if (choice.tempting != nullptr) out.rows.push_back({{{choice.tempting->method->title, Weight::semibold}, {choice.tempting->why}, {choice.symptom.empty() ? job.say("worksheet-not-solved") : choice.symptom}}});
  return out;
}

}  // namespace

Worksheet choose_it(const Job& job) {
  Worksheet out{'D'};
  const auto choice = choose(job);
  if (choice == nullptr) return out.left_out = job.say("worksheet-none-d"), out;
  out.sheet = [&job, choice](Numbering n) {
    const Job blind{choice->blind, job.catalogue, job.style, job.measure, {}};
    return table_of(blind, {'D', false}, n, task_of(job, 'D'), {{facts_table(job), lamps_table(job)}, {boxes(job)}});
  };
  out.key = [&job, choice](Numbering n) { return table_of(job, {'D', true}, n, job.say("worksheet-step-d"), {{answers(job, *choice)}, {temptation(job, *choice)}}); };
  return out;
}

}  // namespace towloom::worksheet
