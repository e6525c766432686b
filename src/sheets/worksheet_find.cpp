// H, find it: one fault of the table, what it shows, and readings to uncover one by one; the key splits them in halves.
#include <algorithm>
#include <cstdint>
#include <memory>
#include <set>

#include "check/fault_pictures.hpp"
#include "sheets/worksheet.hpp"
#include "solve/meter.hpp"

namespace towloom::worksheet {
namespace {

constexpr std::size_t most_points = 12, least_readings = 2, least_faults = 4;

struct Halving {                 // one reading on the way to the fault
  std::string at;
  double volts = 0;
  std::size_t left = 0;          // faults that are possible after it
};
struct Spotted {
  std::string at;
  double sound = 0, faulty = 0;
};
struct Search {
  Fault fault;
  std::string scene, opens;
  std::vector<std::string> shows;
  std::size_t possible = 0;      // before the first reading
  std::vector<Halving> way;
  std::vector<Spotted> points;
};

// The same job gives the same fault, another job another one.
std::uint32_t seed_of(const Job& job) {
  std::uint32_t out = 2166136261u;   // FNV-1a, 32 bit
  for (const char c : job.facts.spec.job.number.value + job.facts.spec.job.title.value) out = (out ^ static_cast<unsigned char>(c)) * 16777619u;
  return out;
}

// Faults below a reading: its own, and those of what follows it.
std::size_t faults_below(const std::vector<FaultReading>& all, std::size_t from) {
  std::size_t out = all[from].faults.size();
  for (std::size_t i = from + 1; i < all.size() && all[i].depth > all[from].depth; ++i) out += all[i].faults.size();
  return out;
}

// Readings that lead to this one, itself last.
std::vector<std::size_t> way_to(const std::vector<FaultReading>& all, std::size_t leaf) {
  std::vector<std::size_t> out{leaf};
  for (std::size_t i = leaf; i-- > 0;)
    if (all[i].depth < all[out.back()].depth) out.push_back(i);
  std::reverse(out.begin(), out.end());
  return out;
}

struct Chosen { std::size_t picture, leaf; };

// Not the car's own: what was fitted, the cord and the coach.
bool is_ours(const Circuit& c, const Fault& fault) {
  return std::visit([&](const auto& change) {
    if constexpr (requires { change.wire; }) return c.wires[static_cast<std::size_t>(change.wire.v)].status != Status::factory;
    else if constexpr (requires { change.part; }) return c.part(change.part).status != Status::factory;
    else return false;
  }, fault.changes.front());
}

const Fault* named(const FaultTable& table, const std::string& name, const Catalogue& catalogue) {
  for (const FaultRow& row : table.rows)
    if (describe(row.fault, catalogue) == name) return &row.fault;
  return nullptr;
}

// Faults that readings part from all others of their picture; on what the job brought where there are such.
std::vector<Chosen> candidates(const Job& job, const FaultTable& table, const std::vector<FaultPicture>& pictures) {
  std::vector<Chosen> all, ours;
  for (std::size_t p = 0; p < pictures.size(); ++p)
    for (std::size_t r = 0; r < pictures[p].readings.size(); ++r) {
      const FaultReading& leaf = pictures[p].readings[r];
      if (pictures[p].shows.empty() || pictures[p].faults.size() < least_faults || leaf.faults.size() != 1 || way_to(pictures[p].readings, r).size() < least_readings) continue;
      const Fault* fault = named(table, leaf.faults.front(), job.catalogue);
      if (fault == nullptr) continue;
      all.push_back({p, r});
      if (is_ours(job.circuit(), *fault)) ours.push_back({p, r});
    }
  return ours.empty() ? all : ours;
}

double reading(const Job& job, const Circuit& c, const Scene& scene, TerminalRef at) {
  const std::vector<Reading> all = read_between(c, job.catalogue, scene, attach(job.catalogue.instruments.at("meter"), job.catalogue, at, {}));
  return all.empty() ? 0 : all.front().volts;
}

// A contact's other side is inside its mated plug; splices are sealed; body is what the meter's other lead is at.
bool can_be_reached(const Circuit& c, TerminalRef t) {
  const Part& part = c.part(t.part);
  const std::string& terminal = part.terminals[static_cast<std::size_t>(t.index)];
  if (part.kind == "splice" || part.kind == "joint" || part.kind == "coach-feed" || terminal == part.joins) return false;
  return part.kind != "contact" || terminal == "car";
}

// The terminal at a point; without part for an inner one.
TerminalRef terminal_at(const Circuit& c, const Points& points, int point) {
  for (std::size_t p = 0; p < c.parts.size(); ++p)
    if (const int t = point - points.first[p]; t >= 0 && t < static_cast<int>(c.parts[p].terminals.size())) return {{static_cast<int>(p)}, t};
  return {};
}

// In the order in which the current of the lamp that shows it would meet them, then what else the splits read.
std::vector<TerminalRef> places(const Job& job, const FaultPicture& picture, std::size_t scene, std::size_t lamp) {
  const Circuit& c = job.circuit();
  std::set<TerminalRef> split;
  for (const FaultReading& r : picture.readings)
    if (split.size() < most_points) split.insert(c.terminal(r.at));
  std::vector<TerminalRef> out;
  const auto add = [&](TerminalRef t) {
    if (t.part && (split.count(t) == 1 || can_be_reached(c, t)) && std::find(out.begin(), out.end(), t) == out.end()) out.push_back(t);
  };
  const Points points = number_points(c);
  if (lamp < c.lamps.size())
    for (const Current& a : trace_lamp(c, job.catalogue, job.states().scenes[scene], job.states().solved[scene], c.lamps[lamp].lamp).way.steps) {
      add(terminal_at(c, points, a.from));
      add(terminal_at(c, points, a.to));
    }
  const auto more = [&] { return static_cast<std::size_t>(std::count_if(split.begin(), split.end(), [&](TerminalRef t) { return std::find(out.begin(), out.end(), t) == out.end(); })); };
  for (std::size_t i = out.size(); i-- > 0 && out.size() + more() > most_points;)   // a long way: what no split asks for gives room
    if (split.count(out[i]) == 0) out.erase(out.begin() + static_cast<std::ptrdiff_t>(i));
  for (const TerminalRef t : split) add(t);
  return out;
}

std::shared_ptr<const Search> search(const Job& job) {
  const Circuit& c = job.circuit();
  const std::vector<Fault> faults = list_faults(c, job.catalogue);
  const FaultTable table = solve_faults(c, job.catalogue, job.states(), faults);
  const std::vector<FaultPicture> pictures = fault_pictures(job.facts, job.catalogue, table);
  const std::vector<Chosen> all = candidates(job, table, pictures);
  if (all.empty()) return nullptr;
  const Chosen chosen = all[seed_of(job) % all.size()];
  const FaultPicture& picture = pictures[chosen.picture];
  const std::string name = picture.readings[chosen.leaf].faults.front();
  const auto out = std::make_shared<Search>();
  out->fault = *named(table, name, job.catalogue);
  for (const FaultCause& cause : picture.faults)
    if (cause.fault == name) out->opens = cause.opens;
  out->scene = picture.scene;
  out->shows = picture.shows;
  out->possible = picture.faults.size();
  for (const std::size_t r : way_to(picture.readings, chosen.leaf)) out->way.push_back({picture.readings[r].at, 0, faults_below(picture.readings, r)});
  const Symptom& first = table.classes[chosen.picture].symptoms.front();
  const std::size_t at_scene = static_cast<std::size_t>(first.scene);
  const Scene* scene = &job.states().scenes[at_scene];
  const Solved& near = job.states().solved[at_scene];
  const Circuit faulty = after_fuses(with_fault(c, out->fault, job.catalogue), job.catalogue, *scene, near);
  for (Halving& h : out->way) h.volts = reading(job, faulty, *scene, c.terminal(h.at));
  for (const TerminalRef at : places(job, picture, at_scene, static_cast<std::size_t>(first.lamp))) out->points.push_back({c.name(at), reading(job, c, *scene, at), reading(job, faulty, *scene, at)});
  return out;
}

std::string volts(double v) { return format_fixed(v, 1) + " V"; }

SheetTable complaint(const Job& job, const Search& s) {
  SheetTable out{job.say("worksheet-complaint"), {{"", Anchor::start, true}, {""}}, {}};
  constexpr std::size_t most = 5;
  for (std::size_t i = 0; i < std::min(most, s.shows.size()); ++i) out.rows.push_back({{{s.shows[i], Weight::semibold}, {""}}});
  if (s.shows.size() > most) out.rows.push_back({{{job.say("worksheet-more-shows")}, {""}}});
  return out;
}

// To be covered, and uncovered line by line.
SheetTable readings(const Job& job, const Search& s) {
  SheetTable out{job.say("worksheet-readings") + ": " + s.scene, {{job.say("worksheet-read-at")}, {job.say("worksheet-should-read"), Anchor::end}, {job.say("worksheet-reads"), Anchor::end}}, {}, mm(5), {job.say("worksheet-cover")}};
  for (const Spotted& p : s.points) out.rows.push_back({{{in_words(p.at, job.circuit(), job.style)}, {volts(p.sound), Weight::regular, "quiet"}, {volts(p.faulty), Weight::semibold}}});
  return out;
}

SheetTable protocol(const Job& job) {
  SheetTable out{job.say("worksheet-protocol"), {{job.say("worksheet-i-think"), Anchor::middle, false, mm(50)}, {job.say("worksheet-i-read"), Anchor::middle, false, mm(34)}, {job.say("worksheet-so"), Anchor::middle, false, mm(40)}}, {}, mm(2)};
  for (int i = 0; i < 5; ++i) out.rows.push_back({{box_cell(mm(50)), box_cell(mm(34)), box_cell(mm(40))}});
  return out;
}

SheetTable solution(const Job& job, const Search& s) {
  const std::string name = in_words(describe(s.fault, job.catalogue), job.circuit(), job.style);
  SheetTable out{job.say("worksheet-halves"), {{job.say("test-number"), Anchor::end}, {job.say("worksheet-read-at")}, {job.say("worksheet-reads"), Anchor::end}, {job.say("worksheet-left-over"), Anchor::end}}, {}};
  out.rows.push_back({{{"0"}, {job.say("worksheet-before-reading")}, {""}, {std::to_string(s.possible)}}});
  int number = 0;
  for (const Halving& h : s.way) out.rows.push_back({{{std::to_string(++number)}, {in_words(h.at, job.circuit(), job.style)}, {volts(h.volts)}, {std::to_string(h.left)}}});
  const std::string key = "worksheet-mend-" + s.fault.kind, mend = job.say(key);
  out.notes = {job.say("worksheet-fault-is") + " " + name + (s.opens.empty() ? "" : ", " + s.opens) + ".", job.say("worksheet-mend") + " " + (mend == key ? job.say("worksheet-mend-any") : mend)};
  return out;
}

}  // namespace

Worksheet find_it(const Job& job) {
  Worksheet out{'H'};
  const auto s = search(job);
  if (s == nullptr) return out.left_out = job.say("worksheet-none-h"), out;
  out.sheet = [&job, s](Numbering n) { return table_of(job, {'H', false}, n, task_of(job, 'H'), {{complaint(job, *s)}, {protocol(job), readings(job, *s)}}); };
  out.key = [&job, s](Numbering n) { return table_of(job, {'H', true}, n, job.say("worksheet-step-h"), {{complaint(job, *s)}, {solution(job, *s)}}); };
  return out;
}

}  // namespace towloom::worksheet
