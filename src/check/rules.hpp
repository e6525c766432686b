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
void engine_off(const Asked&, const RuleRow&, Findings&);
void hot_leak(const Asked&, const RuleRow&, Findings&);
void method_unsuited(const Asked&, const RuleRow&, Findings&);
void extra_missing(const Asked&, const RuleRow&, Findings&);
void method_doubtful(const Asked&, const RuleRow&, Findings&);
void outlet_overloaded(const Asked&, const RuleRow&, Findings&);
void sensor_bypassed(const Asked&, const RuleRow&, Findings&);
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
void crossed_cores(const Asked&, const RuleRow&, Findings&);
void flash_rate_off(const Asked&, const RuleRow&, Findings&);
void pins_differ(const Asked&, const RuleRow&, Findings&);
void half_unusual(const Asked&, const RuleRow&, Findings&);
void lamp_differs(const Asked&, const RuleRow&, Findings&);
void brake_conflict(const Asked&, const RuleRow&, Findings&);
void signal_lost(const Asked&, const RuleRow&, Findings&);
void lamp_colour(const Asked&, const RuleRow&, Findings&);
void sides_joined(const Asked&, const RuleRow&, Findings&);
void load_dead(const Asked&, const RuleRow&, Findings&);
void pulsed_coil(const Asked&, const RuleRow&, Findings&);
void pulsed_isolator(const Asked&, const RuleRow&, Findings&);
void brake_pulsed(const Asked&, const RuleRow&, Findings&);
void no_fuse(const Asked&, const RuleRow&, Findings&);
void live_unplugged(const Asked&, const RuleRow&, Findings&);
void charge_none(const Asked&, const RuleRow&, Findings&);
void battery_flat(const Asked&, const RuleRow&, Findings&);
void stop_asleep(const Asked&, const RuleRow&, Findings&);
void converter_limit(const Asked&, const RuleRow&, Findings&);
void monitor_current(const Asked&, const RuleRow&, Findings&);
void output_loaded(const Asked&, const RuleRow&, Findings&);
void not_detected(const Asked&, const RuleRow&, Findings&);
void resistor_hot(const Asked&, const RuleRow&, Findings&);
void rests_open(const Asked&, const RuleRow&, Findings&);
void coil_spike(const Asked&, const RuleRow&, Findings&);
void diode_idle(const Asked&, const RuleRow&, Findings&);
void ground_surface(const Asked&, const RuleRow&, Findings&);
void splice_full(const Asked&, const RuleRow&, Findings&);

}  // namespace towloom
