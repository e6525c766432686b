// Readings that tell faults of one class apart.
#include <algorithm>
#include <cmath>

#include "check/all_faults.hpp"
#include "solve/meter.hpp"
#include "solve/split.hpp"

using namespace towloom;
using namespace towloom::fixture;

namespace {

const FaultClass& class_of(const AllFaults& b, const std::string& kind, const std::string& at) {
  for (const FaultClass& c : b.table.classes)
    for (const int f : c.faults)
      if (b.table.rows[static_cast<std::size_t>(f)].fault.kind == kind && b.table.rows[static_cast<std::size_t>(f)].fault.at == at) return c;
  FAIL("no such fault");
  return b.table.classes.front();
}

void gather(const Split& s, std::vector<int>& leaves) {
  if (s.next.empty()) leaves.insert(leaves.end(), s.faults.begin(), s.faults.end());
  for (const Split& n : s.next) gather(n, leaves);
}

// The leaf that a fault's own readings lead to, each taken anew.
const Split& follow(const AllFaults& b, const Split& top, const FaultClass& c, int row) {
  const auto scene = static_cast<std::size_t>(c.symptoms.front().scene);
  const Circuit faulty = after_fuses(with_fault(b.circuit, b.table.rows[static_cast<std::size_t>(row)].fault, b.catalogue), b.catalogue,
                                     b.states.scenes[scene], b.states.solved[scene]);
  const Split* at = &top;
  while (!at->next.empty()) {
    const auto read = read_between(faulty, b.catalogue, b.states.scenes[scene],
                                   attach(b.catalogue.instruments.at("meter"), b.catalogue, at->at, TerminalRef{}));
    REQUIRE_FALSE(read.empty());
    at = &*std::min_element(at->next.begin(), at->next.end(), [&](const Split& x, const Split& y) {
      return std::fabs(x.volts - read[0].volts) < std::fabs(y.volts - read[0].volts);
    });
  }
  return *at;
}

}  // namespace

// The split test of the trade (reference T4 row 41): which side of the plug? Volts at the inlet's car side say so.
TEST_CASE("an open core and an open wire behind the inlet look the same at the lamps, not at the inlet") {
  const AllFaults& b = bench();
  const FaultClass& c = class_of(b, "wire-open", "C3");
  CHECK(&class_of(b, "wire-open", "W5") == &c);
  const Split split = split_class(b.circuit, b.catalogue, b.states, b.table, c);
  REQUIRE_FALSE(split.next.empty());
  const auto row = [&](const char* kind, const char* at) {
    for (const int f : c.faults)
      if (b.table.rows[static_cast<std::size_t>(f)].fault.kind == kind && b.table.rows[static_cast<std::size_t>(f)].fault.at == at) return f;
    return -1;
  };
  const Split &core = follow(b, split, c, row("wire-open", "C3")), &wire = follow(b, split, c, row("wire-open", "W5"));
  CHECK(&core != &wire);
}

TEST_CASE("a split keeps every fault once, and each fault's own readings lead to it") {
  const AllFaults& b = bench();
  int splits = 0;
  for (std::size_t i = 0; i < b.table.classes.size(); ++i) {
    const FaultClass& c = b.table.classes[i];
    if (c.symptoms.empty() || c.faults.size() < 2) continue;
    CAPTURE(i);
    const Split split = split_class(b.circuit, b.catalogue, b.states, b.table, c);
    std::vector<int> leaves, all = c.faults;
    gather(split, leaves);
    std::sort(leaves.begin(), leaves.end());
    std::sort(all.begin(), all.end());
    CHECK(leaves == all);
    splits += !split.next.empty();
    for (const int f : c.faults) {
      const Split& leaf = follow(b, split, c, f);
      CHECK(std::count(leaf.faults.begin(), leaf.faults.end(), f) == 1);
    }
  }
  CHECK(splits > 10);
}
