// The whole set of a job: bench, faces, wires, proof, test, customer.
#include "sheets/sheets.hpp"

namespace towloom {

std::vector<Drawing> sheet_set(const Facts& facts, const Catalogue& catalogue, const Style& style, const TextMeasure& measure, Diagnostics& diagnostics) {
  using Sheet = std::vector<Drawing> (*)(const Facts&, const Catalogue&, const Style&, const TextMeasure&, int, int);
  const Sheet others[] = {faces_sheet, wires_sheet, proof_sheet, test_sheet, customer_sheet};
  std::vector<int> pages;      // how many each has: does not depend on their numbers
  int sum = 0;
  for (const Sheet sheet : others) {
    pages.push_back(static_cast<int>(sheet(facts, catalogue, style, measure, 0, 0).size()));
    sum += pages.back();
  }
  std::vector<Drawing> out = bench_sheet(facts, catalogue, style, measure, sum, diagnostics);
  if (out.empty()) return {};
  for (std::size_t k = 0; k < std::size(others); ++k) {
    const int before = static_cast<int>(out.size());
    sum -= pages[k];
    for (Drawing& page : others[k](facts, catalogue, style, measure, before, sum)) out.push_back(std::move(page));
  }
  return out;
}

}  // namespace towloom
