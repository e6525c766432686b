// E, predict: what the lamps do in a few states, with every isolating element whole and with one of them shorted or open.
#include <algorithm>
#include <map>
#include <memory>
#include <set>

#include "sheets/seen_mark.hpp"
#include "sheets/worksheet.hpp"
#include "solve/faults.hpp"

namespace towloom::worksheet {
namespace {

// Faults of what isolates, the plainest first: a diode left out and bridged, a contact that no longer opens.
const char* const kinds[] = {"diode-shorted", "contact-welded", "diode-open", "contact-stuck", "coil-open", "supply-lost"};
constexpr std::size_t most_changed = 4, most_rows = 6;

PartId part_of(const Change& change) {
  return std::visit([](const auto& c) {
    if constexpr (requires { c.part; }) return c.part;
    else return PartId{};
  }, change);
}

struct Prediction {
  Fault fault;
  std::vector<std::size_t> scenes;
  std::map<std::pair<std::size_t, std::size_t>, Seen> changed;   // by scene and lamp intent
  std::vector<std::string> coach;      // its own lamps that light with it
  std::string way;                     // of one lamp that lights with it
  bool opens = false;                  // a fuse
};

// Fitted parts through which a lamp's current runs in some state: a coil's diode isolates no lamp.
std::set<PartId> in_the_way(const Job& job) {
  std::set<PartId> out;
  const Circuit& c = job.circuit();
  for (std::size_t s = 0; s < job.states().scenes.size(); ++s)
    for (std::size_t l = 0; l < c.lamps.size() && to_print(job.states(), s); ++l) {
      if (!gives_light(job.states().lamps[s][l].seen)) continue;
      for (const Current& a : trace_lamp(c, job.catalogue, job.states().scenes[s], job.states().solved[s], c.lamps[l].lamp).way.steps)
        if (a.part && c.part(a.part).status == Status::fitted) out.insert(a.part);
    }
  return out;
}

std::vector<Fault> faults_of_kind(const std::vector<Fault>& all, const std::string& kind, const std::set<PartId>& parts) {
  std::vector<Fault> out;
  for (const Fault& f : all)
    if (f.kind == kind && parts.count(part_of(f.changes.front())) == 1) out.push_back(f);
  return out;
}

// States in which it shows, and some in which it does not.
std::vector<std::size_t> scenes_to_print(const Job& job, const Prediction& p) {
  std::vector<std::size_t> out;
  const auto shows = [&](std::size_t s) { return std::any_of(p.changed.begin(), p.changed.end(), [&](const auto& c) { return c.first.first == s; }); };
  for (const bool changed : {true, false})
    for (std::size_t s = 0; s < job.states().scenes.size() && out.size() < (changed ? most_changed : most_rows); ++s) {
      const bool dark = std::all_of(job.states().lamps[s].begin(), job.states().lamps[s].end(), [](const LampState& l) { return l.seen == Seen::dark; });
      if (to_print(job.states(), s) && shows(s) == changed && (changed || !dark)) out.push_back(s);
    }
  std::sort(out.begin(), out.end());
  return out;
}

// How the current then reaches the first lamp that lights and should not.
std::string way_with(const Job& job, const Prediction& p) {
  for (const auto& [at, seen] : p.changed) {
    const auto [s, l] = at;
    if (!gives_light(seen) || gives_light(job.states().lamps[s][l].seen)) continue;
    const Scene& scene = job.states().scenes[s];
    const Circuit c = after_fuses(with_fault(job.circuit(), p.fault, job.catalogue), job.catalogue, scene, job.states().solved[s]);
    const PartId lamp = c.lamps[l].lamp;
    const Solved solved = solve(c, job.catalogue, scene);
    if (!solved.converged()) continue;
    const std::vector<std::string> way = in_order(c, trace_lamp(c, job.catalogue, scene, solved, lamp).way, job.style);
    if (!way.empty()) return lamp_place(c.part(lamp), job.style) + " " + job.say("worksheet-in-state") + " '" + scene.name + "': " + joined(way, " – ");
  }
  return "";
}

std::shared_ptr<const Prediction> predict(const Job& job) {
  const Circuit& c = job.circuit();
  const std::vector<WatchedLamp> watched = watched_lamps(c);
  const std::vector<Fault> all = list_faults(c, job.catalogue);
  const std::set<PartId> parts = in_the_way(job);
  for (const char* kind : kinds) {
    const FaultTable table = solve_faults(c, job.catalogue, job.states(), faults_of_kind(all, kind, parts));
    const FaultRow* best = nullptr;
    const auto weight = [&](const FaultRow& row) {
      return std::count_if(row.symptoms.begin(), row.symptoms.end(), [&](const Symptom& s) { return s.light == LightChange::none && to_print(job.states(), static_cast<std::size_t>(s.scene)); });
    };
    for (const FaultRow& row : table.rows)
      if (row.unsolved == 0 && weight(row) > (best == nullptr ? 0 : weight(*best))) best = &row;
    if (best == nullptr) continue;
    const auto out = std::make_shared<Prediction>();
    out->fault = best->fault;
    out->opens = !best->blown.empty();
    for (const Symptom& s : best->symptoms) {
      if (s.light != LightChange::none || !to_print(job.states(), static_cast<std::size_t>(s.scene))) continue;
      const WatchedLamp& lamp = watched[static_cast<std::size_t>(s.lamp)];
      bool own = false;
      for (std::size_t l = 0; l < c.lamps.size(); ++l)
        if (c.lamps[l].lamp == lamp.part && lamp.element == 0) out->changed[{static_cast<std::size_t>(s.scene), l}] = s.seen, own = true;
      const std::string text = c.part(lamp.part).title + " " + job.say("worksheet-in-state") + " '" + job.states().scenes[static_cast<std::size_t>(s.scene)].name + "'";
      if (!own && out->coach.size() < 3) out->coach.push_back(text);
    }
    if (out->changed.empty()) continue;
    out->scenes = scenes_to_print(job, *out);
    out->way = way_with(job, *out);
    return out;
  }
  return nullptr;
}

SheetTable matrix(const Job& job, const Prediction& p, bool faulty, bool key) {
  const Circuit& c = job.circuit();
  const std::string fault = in_words(describe(p.fault, job.catalogue), c, job.style);
  SheetTable out{job.say(faulty ? "worksheet-matrix-with" : "worksheet-matrix-sound") + (faulty ? ": " + fault : ""), {{job.say("proof-state")}}, {}, mm(2.5), {}};
  for (const LampIntent& lamp : c.lamps) out.columns.push_back({lamp_text(c, c.part(lamp.lamp), job.style), Anchor::middle, false, mm(10.4)});
  for (const std::size_t s : p.scenes) {
    SheetRow row{{{job.states().scenes[s].name}}};
    for (std::size_t l = 0; l < c.lamps.size(); ++l) {
      const auto other = p.changed.find({s, l});
      const bool differs = faulty && other != p.changed.end();
      const Seen seen = differs ? other->second : job.states().lamps[s][l].seen;
      SheetCell cell = box_cell(mm(8));
      if (key)
        cell.mark = [=](SheetPen& pen, Point at) {
          draw_seen(seen, at, pen);
          if (differs) pen.add({box({at.x - mm(4), at.y - mm(2.1), mm(8), mm(4.2)}, pen.pen("strip", "cut"), mm(0.6))});
        };
      row.cells.push_back(std::move(cell));
    }
    out.rows.push_back(std::move(row));
  }
  if (key && faulty) out.notes = {job.say("worksheet-marks")};
  return out;
}

std::string reasons(const Job& job, const Prediction& p) {
  std::string out = job.say("worksheet-step-e");
  if (!p.way.empty()) out += " " + job.say("worksheet-then-reaches") + " " + p.way + ".";
  if (!p.coach.empty()) out += " " + job.say("worksheet-coach-lamps") + " " + joined(p.coach, "; ") + ".";
  if (p.opens) out += " " + job.say("worksheet-fuse-opens");
  return out;
}

}  // namespace

Worksheet predict_it(const Job& job) {
  Worksheet out{'E'};
  const auto p = predict(job);
  if (p == nullptr) return out.left_out = job.say("worksheet-none-e"), out;
  out.sheet = [&job, p](Numbering n) { return table_of(job, {'E', false}, n, task_of(job, 'E'), {{matrix(job, *p, false, false), matrix(job, *p, true, false)}}); };
  out.key = [&job, p](Numbering n) { return table_of(job, {'E', true}, n, reasons(job, *p), {{matrix(job, *p, false, true), matrix(job, *p, true, true)}}); };
  return out;
}

}  // namespace towloom::worksheet
