// The whole set of a job: bench, faces, wires, proof, test, fault, customer.
#include <functional>

#include "sheets/sheets.hpp"

namespace towloom {

std::vector<Drawing> sheet_set(const Facts& facts, const Catalogue& catalogue, const Style& style, const TextMeasure& measure, Diagnostics& diagnostics) {
  using Sheet = std::function<std::vector<Drawing>(int before, int after)>;
  const auto plain = [&](auto sheet) { return Sheet([&, sheet](int before, int after) { return sheet(facts, catalogue, style, measure, before, after); }); };
  const FaultTable table = solve_faults(facts.circuit(), catalogue, facts.states, list_faults(facts.circuit(), catalogue));
  const std::vector<FaultPicture> faults = fault_pictures(facts, catalogue, table);
  const Sheet others[] = {plain(faces_sheet), plain(wires_sheet), plain(proof_sheet), plain(test_sheet),
                          [&](int before, int after) { return fault_sheet(facts, catalogue, style, measure, faults, before, after); },
                          plain(customer_sheet)};
  std::vector<int> pages;      // how many each has: does not depend on their numbers
  int sum = 0;
  for (const Sheet& sheet : others) {
    pages.push_back(static_cast<int>(sheet(0, 0).size()));
    sum += pages.back();
  }
  std::vector<Drawing> out = bench_sheet(facts, catalogue, style, measure, sum, diagnostics);
  if (out.empty()) return {};
  for (std::size_t k = 0; k < std::size(others); ++k) {
    const int before = static_cast<int>(out.size());
    sum -= pages[k];
    for (Drawing& page : others[k](before, sum)) out.push_back(std::move(page));
  }
  return out;
}

}  // namespace towloom
