#include <iostream>

#include "check/as_found.hpp"
#include "commands/commands.hpp"

namespace towloom {
namespace {

// One line a size group: what it is, what decided, and its size in the runner-up where that differs.
void print_sizes(const Facts& facts) {
  std::cout << "\nWire sizes\n";
  for (const SizeChoice& c : facts.sized.why) {
    std::cout << "  " << c.group << ": " << c.size.text() << ", decided by " << c.decided_by;
    if (c.drop_limit_v > 0)
      std::cout << "; loses " << format_fixed(c.drop_v, 2) << " V of " << format_fixed(c.drop_limit_v, 2)
                << " V" << (c.worst.empty() ? "" : " (" + c.worst + ")");
    if (c.ampacity_a > 0)
      std::cout << "; " << format_fixed(c.amps, 1) << " A of " << format_fixed(c.ampacity_a, 1) << " A";
    if (!c.runner_up.number.empty() && c.runner_up.text() != c.size.text()) std::cout << "; " << c.runner_up.text() << " in the next dearer choice";
    if (!c.proved_minimal) std::cout << "; not proved minimal";
    std::cout << "\n";
  }
}

void print_assumed(const Circuit& circuit) {
  std::cout << "\nAssumed\n";
  for (const Assumed& a : circuit.assumed) {
    std::cout << "  " << a.what << ": " << a.why;
    if (!a.provenance.source.empty()) std::cout << " [" << a.provenance.source << "]";
    std::cout << "\n";
  }
}

}  // namespace

int check_command(const Arguments& arguments) {
  if (!arguments.explain.empty()) return explain_rule(arguments);
  const auto loaded = load(arguments);
  if (!loaded) return bad_input;
  std::cout << matrix_text(loaded->facts);
  print_sizes(loaded->facts);
  print_assumed(loaded->facts.circuit());
  if (arguments.faults) {
    const Circuit& circuit = loaded->facts.circuit();
    const FaultTable table = solve_faults(circuit, loaded->catalogue, loaded->facts.states, list_faults(circuit, loaded->catalogue));
    std::cout << "\n" << faults_text(loaded->facts, loaded->catalogue, table);
  }
  Diagnostics recorded;
  if (const auto as_found = solve_as_found(loaded->facts, loaded->catalogue, recorded)) std::cout << "\n" << as_found_text(*as_found);
  print(recorded, loaded->sources);
  if (recorded.has_errors()) return bad_input;
  const Diagnostics found = as_diagnostics(loaded->facts.findings);
  print(found, loaded->sources);
  std::cout << "\nCheck local law; licensed practice decides.\n";
  return found.has_errors() ? faults : clean;
}

}  // namespace towloom
