// The bench sheet: the schematic that a fitter wires the car from. Taken apart into as few pages as the paper allows.
#include <algorithm>
#include <map>
#include <set>

#include "sheets/bench_page.hpp"

namespace towloom {
namespace {

// "3, 5–8": runs of three and more by their ends.
std::string sheets_text(const std::vector<std::size_t>& pages, int before) {
  const std::size_t first = static_cast<std::size_t>(before) + 1;
  std::string out;
  for (std::size_t i = 0, end = 0; i < pages.size(); i = end + 1) {
    end = i;
    while (end + 1 < pages.size() && pages[end + 1] == pages[end] + 1) ++end;
    if (end == i + 1) end = i;
    out += (i > 0 ? ", " : "") + std::to_string(pages[i] + first) + (end > i ? "–" + std::to_string(pages[end] + first) : "");
  }
  return out;
}

// A joint of many wires stands on the sheets of them all; on each it names the others.
void name_joints(std::vector<PageCircuit>& pages, int before, const Style& style) {
  std::map<std::string, std::vector<std::size_t>> on;
  const auto dot = [](const Part& part) { return part.kind == "splice" || part.kind == "joint"; };
  for (std::size_t p = 0; p < pages.size(); ++p)
    for (const Part& part : pages[p].circuit.parts)
      if (dot(part)) on[part.id].push_back(p);
  for (std::size_t p = 0; p < pages.size(); ++p)
    for (Part& part : pages[p].circuit.parts) {
      if (!dot(part) || on.at(part.id).size() < 2) continue;
      std::vector<std::size_t> others = on.at(part.id);
      others.erase(std::find(others.begin(), others.end(), p));
      part.value = word(style, "joint-also-on") + " " + sheets_text(others, before);
    }
}

// The references of a page name the sheet and the zone where their wires go on.
void name_references(std::vector<PageCircuit>& pages, int before, const Style& style) {
  for (PageCircuit& page : pages)
    for (std::size_t p = 0; p < page.circuit.parts.size(); ++p) {
      Part& part = page.circuit.parts[p];
      if (part.kind == "reference") part.value = std::to_string(before + page.leads_to[p] + 1) + " " + word(style, part.place);
    }
}

// What stands on the other pages: pages of one group together.
std::string index_of(const std::vector<PageCircuit>& pages, int before, const Style& style) {
  std::string out;
  for (std::size_t p = 1, end = 1; p < pages.size(); p = end) {
    std::vector<std::size_t> same;
    for (end = p; end < pages.size() && pages[end].group == pages[p].group; ++end) same.push_back(end);
    const bool one = same.size() == 1;
    out += (p > 1 ? ", " : "") + word(style, one ? "sheet" : "sheets") + " " + sheets_text(same, before) + ": " + (one ? group_text(pages[p], style) : word(style, pages[p].group));
  }
  return out.empty() ? out : out + ".";
}

// On the first paper that holds the page with all its labels; else on the one where it is best.
std::optional<BenchPage> on_smallest(const BenchSet& set, const PageCircuit& page, PageHead head, const std::vector<std::string>& papers, KnownOrders& known, Problem& problem) {
  std::optional<BenchPage> best;
  for (const std::string& paper : papers) {
    head.paper = paper;
    Problem why;
    auto found = draw_page(set, page, head, known, why);
    if (!found) problem = why;
    else if (!best || found->label_faults < best->label_faults) best = std::move(found);
    if (best && best->label_faults == 0) break;
  }
  return best;
}

struct Lack {                    // of the pages of one group that did not fit
  double times = 1;              // the most room that one needs, times what it finds
  bool wide = false;             // one lacks width
  void note(const Problem& p) { times = std::max(times, p.times), wide = wide || p.wide; }
};

// One step further for each group that has a page too large.
std::optional<Apart> divided_further(Apart apart, const std::map<std::string, Lack>& lacking) {
  // What hangs on joints of many wires is lighter once the lamps go over several pages: the rest is then looked at anew.
  const bool lamps_first = lacking.count("group-lamps") != 0 && apart.level >= Apart::lamps && apart.lamp_pages == 1;
  for (const auto& [group, lack] : lacking) {
    if (lamps_first && group != "group-lamps") continue;
    const auto next = further(apart, group, lack.times, lack.wide);
    if (!next) return std::nullopt;
    const bool whole = apart.level < Apart::lamps;
    apart = *next;
    if (whole) break;            // the circuit as a whole was divided
  }
  return apart;
}

constexpr std::size_t little = 8;   // wires of a page that does not stand alone

// Whether a page holds one part with what belongs to it: no division makes it smaller.
bool is_whole(const PageCircuit& page) {
  return std::count_if(page.part_of.begin(), page.part_of.end(), [&](int p) { return p >= 0; }) == 1;
}

}  // namespace

std::string group_text(const PageCircuit& page, const Style& style) {
  const std::string part = page.parts > 1 ? " " + std::to_string(page.part) + " " + word(style, "of") + " " + std::to_string(page.parts) : "";
  return page.group == "group-all" ? "" : word(style, page.group) + part;
}

bool BenchDraft::write(const std::string& text, double x, double y, Anchor anchor, const char* size, Weight weight,
                       const char* ink_name, const std::string& about, double room, bool decoration) const {
  if (text.empty()) return false;
  Label label;
  label.text = text;
  label.at = at(x, y);
  label.anchor = anchor;
  label.size = text_size(style, size);
  label.weight = weight;
  label.colour = ink(style, ink_name);
  label.about = about;
  label.decoration = decoration;
  measure.place(label);
  if (label.room.w > mm(room * module)) return false;
  drawing.items.emplace_back(std::move(label));
  return true;
}

std::vector<Drawing> bench_sheet(const Facts& facts, const Catalogue& catalogue, const Style& style, const TextMeasure& measure,
                                 int other_pages, Diagnostics& diagnostics, int effort, const std::string& caption, int before) {
  const Spec& spec = facts.spec;
  const bool chosen = spec.paper_named || style.series.empty() || spec.paper != style.series.front();
  const std::vector<std::string> papers = chosen ? std::vector<std::string>{spec.paper} : style.series;
  Problem problem;
  std::size_t tight = 0;         // the page that has it
  // Taken apart step by step: what fits no paper is divided further.
  std::vector<PageCircuit> taken;
  const auto refuse = [&] {
    const auto [message, hint] = refusal(style, papers.back(), taken, tight, problem);
    diagnostics.error("bench-sheet", spec.job.title.place, message, hint);
    return std::vector<Drawing>{};
  };
  std::map<std::string, Lack> lacking;   // by group
  struct KnownPage {
    KnownOrders orders;
    bool held = false;           // the paper can hold it
  };
  std::map<std::pair<std::vector<int>, std::vector<int>>, KnownPage> known;   // by parts and wires of a page
  for (std::optional<Apart> apart = Apart{}; apart; apart = divided_further(*apart, lacking)) {
    std::vector<PageCircuit> pages = split(facts.circuit(), *apart);
    const bool divided = !std::equal(taken.begin(), taken.end(), pages.begin(), pages.end(), [](const PageCircuit& a, const PageCircuit& b) { return a.part_of == b.part_of; });
    taken = pages;
    if (!divided) continue;
    lacking.clear();
    const auto named = [&](std::vector<PageCircuit> of) {
      name_references(of, before, style);
      name_joints(of, before, style);
      return of;
    };
    const auto set_of = [&](const std::vector<PageCircuit>& of) {
      const int last = before + static_cast<int>(of.size());
      return BenchSet{facts, catalogue, style, measure, last + other_pages, last + 1, effort, caption};
    };
    const auto known_of = [&](const PageCircuit& page) -> KnownPage& { return known[{page.part_of, page.wire_of}]; };
    const auto head_of = [&](const std::vector<PageCircuit>& of, std::size_t p) { return PageHead{before + static_cast<int>(p) + 1, papers.back(), p == 0 ? index_of(of, before, style) : "", {}}; };
    const auto holds = [&](const std::vector<PageCircuit>& of, std::size_t p, Problem& why) {
      KnownPage& page = known_of(of[p]);
      page.held = page.held || can_hold(set_of(of), of[p], head_of(of, p), page.orders, why);
      return page.held;
    };
    pages = named(std::move(pages));
    for (std::size_t p = 0; p < pages.size() && pages.size() > 1; ++p) {
      Problem why;
      if (lacking.count(pages[p].group) != 0 || holds(pages, p, why)) continue;   // one of a group that is too large: the group is divided anyway
      problem = why;
      tight = p;
      lacking[pages[p].group].note(why);
      if (is_whole(pages[p])) return refuse();
    }
    if (!lacking.empty()) continue;
    const auto draw = [&](const std::vector<PageCircuit>& of) {   // as far as the paper holds them
      std::vector<Drawing> out;
      std::set<std::string> shown;
      for (std::size_t p = 0; p < of.size(); ++p) {
        PageHead head = head_of(of, p);
        head.shown = shown;
        auto page = on_smallest(set_of(of), of[p], head, papers, known_of(of[p]).orders, problem);
        if (!page) break;
        out.push_back(std::move(page->drawing));
        for (const Part& part : of[p].circuit.parts) shown.insert(part.id);
      }
      return out;
    };
    // Pages that hold little stand together where the paper holds them both.
    std::vector<bool> joined(pages.size(), false);
    std::vector<PageCircuit> together;
    for (std::size_t p = 1; p < pages.size(); ++p) {
      if (pages[p].group != pages[p - 1].group || pages[p].circuit.wires.size() > little) continue;
      joined[p] = true;
      auto trial = named(split(facts.circuit(), *apart, joined));
      const std::size_t with = p - static_cast<std::size_t>(std::count(joined.begin(), joined.begin() + static_cast<std::ptrdiff_t>(p) + 1, true));
      Problem why;
      joined[p] = trial[with].circuit.wires.size() <= 2 * little && holds(trial, with, why);
      if (joined[p]) together = std::move(trial);
    }
    if (!together.empty())
      if (auto out = draw(together); out.size() == together.size()) return out;
    auto out = draw(pages);
    if (out.size() == pages.size()) return out;
    tight = out.size();
    lacking[pages[tight].group].note(problem);
  }
  return refuse();
}

}  // namespace towloom
