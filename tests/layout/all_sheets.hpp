// Every sheet of a set, laid out as the set has them.
#pragma once

#include "layout/style_fixture.hpp"
#include "prove/prove.hpp"
#include "sheets/sheets.hpp"

namespace towloom::fixture {

// Behind the bench pages; `faults`: of these facts, on any paper.
inline void add_other_sheets(const Facts& facts, const Catalogue& catalogue, const Looks& looks, const std::vector<FaultPicture>& faults, std::vector<Drawing>& pages) {
  const auto add = [&](const std::vector<Drawing>& more) { pages.insert(pages.end(), more.begin(), more.end()); };
  const int before = static_cast<int>(pages.size());
  const Drawing bench = pages.front();
  add(faces_sheet(facts, catalogue, *looks.style, looks.measure, before, 30));
  add(wires_sheet(facts, catalogue, *looks.style, looks.measure, before, 30));
  add(PlanMap(facts, catalogue, *looks.style, looks.measure).pages(before, 30));
  add(states_sheet(facts, catalogue, *looks.style, looks.measure, bench, before, 30));
  add(proof_sheet(facts, catalogue, *looks.style, looks.measure, before, 30));
  add(test_sheet(facts, catalogue, *looks.style, looks.measure, before, 30));
  add(fault_sheet(facts, catalogue, *looks.style, looks.measure, faults, before, 30));
  add(customer_sheet(facts, catalogue, *looks.style, looks.measure, before, 30));
  add_index(pages, *looks.style, looks.measure);
}

inline std::vector<FaultPicture> faults_of(const Facts& facts, const Catalogue& catalogue) {
  return fault_pictures(facts, catalogue, solve_faults(facts.circuit(), catalogue, facts.states, list_faults(facts.circuit(), catalogue)));
}

}  // namespace towloom::fixture
