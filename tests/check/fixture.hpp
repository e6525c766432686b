// The plain job solved and checked, with one thing changed: in its text or in its circuit.
#pragma once

#include <functional>

#include "check/rules.hpp"
#include "circuit/fixture.hpp"

namespace towloom::fixture {

struct Checked {
  Job job;
  std::optional<Facts> facts;

  const Finding* finding(const std::string& rule) const {
    for (const Finding& f : facts->findings)
      if (f.rule == rule) return &f;
    return nullptr;
  }
  bool has(const std::string& rule) const { return finding(rule) != nullptr; }
};

inline Checked checked(const std::string& text) {
  Checked out{built(text), {}};
  out.facts = find_facts(*out.job.spec, *out.job.catalogue, out.job.diagnostics);
  INFO(format_diagnostics(out.job.diagnostics, out.job.sources, false));
  REQUIRE(out.facts.has_value());
  return out;
}

// The circuit as a mishap would leave it: solved and checked again with the same sizes.
inline Checked spoilt(const std::function<void(Circuit&)>& mishap) {
  Checked out = checked(plain_job());
  Facts& f = *out.facts;
  mishap(f.sized.circuit);
  number_nets(f.sized.circuit);   // the mishap may have added parts
  f.states = solve_all(f.sized.circuit, *out.job.catalogue, f.spec);
  f.findings = check(f.spec, *out.job.catalogue, f.sized, f.states);
  return out;
}

inline Part& part(Circuit& c, const std::string& id) {
  const PartId at = c.find(id);
  REQUIRE(static_cast<bool>(at));
  return c.parts[static_cast<std::size_t>(at.v)];
}

}  // namespace towloom::fixture
