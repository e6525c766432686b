// One page of the bench sheet, and what all its pages share.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "sheets/bench_draft.hpp"

namespace towloom {

struct BenchSet {                // what all pages share
  const Facts& facts;
  const Catalogue& catalogue;
  const Style& style;
  const TextMeasure& measure;
  int pages, faces;              // of the whole set; the first of the pin faces
  int effort = 0;                // other placements tried for each page; -1: nor is one drawn again for its labels
  std::string caption = {};      // what is highlighted; "" = nothing
};
struct PageHead {
  int number = 1;
  std::string paper, index;      // index: what stands on the other pages
  std::set<std::string> shown;   // parts that stand on a page before this
  std::set<int> far = {};        // lamps of the page whose volts found no room at them: the notes say them
};
struct BenchPage {
  Drawing drawing;
  int cost = 0;                  // to compare drawings of one page; less is better
  int label_faults = 0;          // weight of words that could not be printed at wires
};
// What the sheet says of itself, in as many lines as the width asks for.
std::vector<std::string> notes_of(const BenchSet&, const PageCircuit&, const PageHead&, Mm100 width);
// Crossings, bends and detours of its wires, and what could not be printed beside them; less is better.
int cost_of(const Circuit&, const Placement&, const std::vector<Routed>&, const std::vector<LabelFault>&);
constexpr int label_cost = 8;    // of each unit of weight of a label fault, in it
// Nothing, and what is in the way, where the paper cannot hold it. `known`: orders of the same parts and wires that
// other tries found, on another paper or in another division.
std::optional<BenchPage> draw_page(const BenchSet&, const PageCircuit&, const PageHead&, KnownOrders& known, Problem& problem);
// Whether it can be placed at all: what is too large is found out before anything is drawn.
bool can_hold(const BenchSet&, const PageCircuit&, const PageHead&, KnownOrders& known, Problem& problem);
// Of pages that do not all fit the paper: what is said of the one that is too large, and what to do about it.
struct Refusal { std::string message, hint; };
Refusal refusal(const Style&, const std::string& paper, const std::vector<PageCircuit>& pages, std::size_t tight, const Problem&);

}  // namespace towloom
