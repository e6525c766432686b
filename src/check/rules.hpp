// The rules, one row each.
#pragma once

#include "check/check.hpp"

namespace towloom {

struct Asked {                   // what a rule may look at
  const Spec& spec;
  const Catalogue& catalogue;
  const Sized& sized;
  const States& states;
  const Circuit& circuit() const { return sized.circuit; }
};
struct RuleRow {
  const char* id;
  Severity severity;
  const char* reason;            // why it matters to the fitter
  void (*look)(const Asked&, const RuleRow&, std::vector<Finding>&);
};
const std::vector<RuleRow>& rule_table();

// ---- for the rules themselves -------------------------------------------------------------------
using Findings = std::vector<Finding>;
void add(Findings&, const RuleRow&, Place, std::string message, std::string action, std::vector<std::string> about = {});
void chatter(const Asked&, const RuleRow&, Findings&);
void depends_on_before(const Asked&, const RuleRow&, Findings&);
void method_unsuited(const Asked&, const RuleRow&, Findings&);
void extra_missing(const Asked&, const RuleRow&, Findings&);
void too_hot(const Asked&, const RuleRow&, Findings&);
void hot(const Asked&, const RuleRow&, Findings&);
void mounting_unknown(const Asked&, const RuleRow&, Findings&);
void fuse_over(const Asked&, const RuleRow&, Findings&);
void fuse_unknown(const Asked&, const RuleRow&, Findings&);
void fuse_slow(const Asked&, const RuleRow&, Findings&);
void fuse_small(const Asked&, const RuleRow&, Findings&);
void fuse_far(const Asked&, const RuleRow&, Findings&);
void coach_fuse_far(const Asked&, const RuleRow&, Findings&);
void run_unused(const Asked&, const RuleRow&, Findings&);
void contact_differs(const Asked&, const RuleRow&, Findings&);
void signals_apart(const Asked&, const RuleRow&, Findings&);

}  // namespace towloom
