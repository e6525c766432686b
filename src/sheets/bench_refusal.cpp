// What is said of a circuit that no division brings onto the paper, and what can be done.
#include <algorithm>
#include <map>
#include <tuple>

#include "sheets/bench_page.hpp"

namespace towloom {
namespace {

// The smallest paper that is larger both ways and has so many `times` what lacked, of the style's series where the one
// named is of it; else the largest; "" = none is larger.
std::string larger_paper(const Style& style, const std::string& name, const Problem& problem) {
  const auto [wide, high] = style.papers.at(name);
  const auto in_series = [&](const std::string& p) { return std::count(style.series.begin(), style.series.end(), p) > 0; };
  std::string best;
  std::tuple<bool, bool, double> most;   // holds, kin, how near in size
  for (const auto& [other, size] : style.papers) {
    if (size.first <= wide || size.second <= high) continue;
    const bool holds = problem.wide ? size.first >= wide * problem.times : size.second >= high * problem.times;
    const double area = size.first * size.second;
    const std::tuple its{holds, holds && in_series(other) == in_series(name), holds ? -area : area};
    if (best.empty() || its > most) best = other, most = its;
  }
  return best;
}

}  // namespace

Refusal refusal(const Style& style, const std::string& paper, const std::vector<PageCircuit>& pages, std::size_t tight, const Problem& problem) {
  const PageCircuit& page = pages[tight];
  const bool divided = pages.size() > 1;
  Refusal out{"the bench sheet does not fit " + paper + " paper" + (divided ? ", even as " + std::to_string(pages.size()) + " sheets; \"" + group_text(page, style) + "\": " : ": ") + problem.text, ""};
  const std::string larger = larger_paper(style, paper, problem);
  if (!larger.empty()) out.hint = "draw it on " + larger;
  std::map<int, int> wires;      // that end at each part
  for (const Wire& w : page.circuit.wires)
    for (const PartId p : {w.from.part, w.to.part})
      if (const std::string& kind = page.circuit.part(p).kind; kind != "stud" && kind != "reference" && kind != "coach-feed") ++wires[p.v];
  const auto most = std::max_element(wires.begin(), wires.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
  constexpr int many = 8;        // fewer make no part so high that a sheet cannot hold it
  if (!problem.wide && most != wires.end() && most->second >= many)
    out.hint += std::string(out.hint.empty() ? "" : ", or ") + "join fewer wires at " + page.circuit.parts[static_cast<std::size_t>(most->first)].id + ", where " + std::to_string(most->second) + " end";
  if (out.hint.empty()) out.hint = "no larger paper is known: divide the job, or leave out an extra";
  return out;
}

}  // namespace towloom
