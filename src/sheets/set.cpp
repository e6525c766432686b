// The whole set of a job: bench, as found and what explains it, faces, wires, map, states, proof, test, fault, customer.
#include <functional>

#include "sheets/sheets.hpp"

namespace towloom {

std::vector<Drawing> sheet_set(const Facts& facts, const Catalogue& catalogue, const Style& style, const TextMeasure& measure, Diagnostics& diagnostics,
                               int effort, const std::string& caption, const FoundPages& found) {
  using Sheet = std::function<std::vector<Drawing>(int before, int after)>;
  const auto plain = [&](auto sheet) -> Sheet { return [&, sheet](int before, int after) { return sheet(facts, catalogue, style, measure, before, after); }; };
  std::vector<Drawing> out;
  const Sheet states = [&](int before, int after) {   // shrinks the bench sheet, which comes later
    if (out.empty()) return std::vector<Drawing>(static_cast<std::size_t>(states_pages(facts, catalogue, style, measure)));
    return states_sheet(facts, catalogue, style, measure, out.front(), before, after);
  };
  const FaultTable table = solve_faults(facts.circuit(), catalogue, facts.states, list_faults(facts.circuit(), catalogue));
  const std::vector<FaultPicture> faults = fault_pictures(facts, catalogue, table);
  const Sheet as_found = [&](int before, int after) {
    if (found.drawn == nullptr) return std::vector<Drawing>{};
    Diagnostics own;             // what does not fit the paper is said in words on the bench sheet
    std::vector<Drawing> pages = bench_sheet(*found.drawn, catalogue, style, measure, after, own, effort, "", before);
    if (pages.empty() && before > 0) diagnostics.warning("as-found-sheet", facts.spec.as_found.front().what.place, "what was found does not fit the paper as a drawing of its own", own.all().empty() ? "" : own.all().front().hint);
    return pages;
  };
  const Sheet observed = [&](int before, int after) {
    return found.solved == nullptr ? std::vector<Drawing>{} : observed_sheet(*found.solved, catalogue, style, measure, before, after);
  };
  const PlanMap plan_map(facts, catalogue, style, measure);
  const Sheet others[] = {as_found, observed, plain(faces_sheet), plain(wires_sheet), [&](int before, int after) { return plan_map.pages(before, after); }, states, plain(proof_sheet), plain(test_sheet),
                          [&](int before, int after) { return fault_sheet(facts, catalogue, style, measure, faults, before, after); },
                          plain(customer_sheet)};
  std::vector<int> pages;      // how many each has: does not depend on their numbers
  int sum = 0;
  for (const Sheet& sheet : others) {
    pages.push_back(static_cast<int>(sheet(0, 0).size()));
    sum += pages.back();
  }
  out = bench_sheet(facts, catalogue, style, measure, sum, diagnostics, effort, caption);
  if (out.empty()) return {};
  for (std::size_t k = 0; k < std::size(others); ++k) {
    const int before = static_cast<int>(out.size());
    sum -= pages[k];
    for (Drawing& page : others[k](before, sum)) out.push_back(std::move(page));
  }
  add_index(out, style, measure);
  return out;
}

}  // namespace towloom
