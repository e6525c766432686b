#include "check/as_found.hpp"

#include "solve/required.hpp"

namespace towloom {
namespace {

// Scenes that the survey says nothing of are not held against anybody.
std::vector<std::vector<Seen>> picture(const States& states, const Spec& spec) {
  std::vector<std::vector<Seen>> out;
  for (std::size_t s = 0; s < states.scenes.size(); ++s) {
    if (engine_unsurveyed(spec, states.scenes[s])) continue;
    std::vector<Seen> row;
    for (const LampState& lamp : states.lamps[s]) row.push_back(lamp.seen);
    out.push_back(std::move(row));
  }
  return out;
}

// All of them, or all but one.
Circuit with_all(Circuit circuit, const std::vector<Fault>& faults, const Catalogue& catalogue, std::size_t but) {
  for (std::size_t i = 0; i < faults.size(); ++i)
    if (i != but) circuit = with_fault(std::move(circuit), faults[i], catalogue);
  return circuit;
}

// The fault that bears these words in the sound circuit.
std::optional<Fault> find_fault(const PlacedText& words, const std::vector<Fault>& all, const Catalogue& catalogue, Diagnostics& diagnostics) {
  std::vector<std::string> known;
  for (const Fault& fault : all) {
    known.push_back(describe(fault, catalogue));
    if (known.back() == words.value) return fault;
  }
  const std::string near = did_you_mean(words.value, known);
  diagnostics.error("as-found", words.place, "this circuit has no fault '" + words.value + "'",
                    near.empty() ? "towloom check --faults lists them" : "did you mean '" + near + "'?");
  return std::nullopt;
}

}  // namespace

std::optional<AsFound> solve_as_found(const Facts& facts, const Catalogue& catalogue, Diagnostics& diagnostics) {
  if (facts.spec.as_found.empty()) return std::nullopt;
  const std::vector<Fault> all = list_faults(facts.circuit(), catalogue);
  std::vector<Fault> faults;
  AsFound out{facts, {}, {}};
  for (const AsFoundRow& row : facts.spec.as_found) {
    const auto fault = find_fault(row.what, all, catalogue, diagnostics);
    if (!fault) continue;
    faults.push_back(*fault);
    out.words.push_back(row.what.value);
  }
  if (faults.size() != facts.spec.as_found.size()) return std::nullopt;
  out.facts.sized.circuit = with_all(facts.circuit(), faults, catalogue, faults.size());
  out.facts.states = solve_all(out.facts.sized.circuit, catalogue, facts.spec);
  for (std::size_t i = 0; i < faults.size(); ++i) {
    const States mended = solve_all(with_all(facts.circuit(), faults, catalogue, i), catalogue, facts.spec);
    out.masked.push_back(picture(mended, facts.spec) == picture(out.facts.states, facts.spec));
  }
  return out;
}

std::string as_found_text(const AsFound& found) {
  std::string out = "As found\n" + matrix_text(found.facts) + "\nFaults recorded\n";
  for (std::size_t i = 0; i < found.words.size(); ++i) {
    const AsFoundRow& row = found.facts.spec.as_found[i];
    out += "  " + found.words[i] + ": " + row.why.value + " (" + row.date.value + ")";
    out += found.masked[i] ? "; hidden by the others: mending it alone changes no lamp\n" : "\n";
  }
  return out;
}

}  // namespace towloom
