#include <iostream>

#include "check/advise.hpp"
#include "check/survey.hpp"
#include "commands/commands.hpp"

namespace towloom {
namespace {

void print_candidate(const Candidate& c, int rank) {
  const char* words[] = {"works", "works with extras", "does not"};
  std::cout << "\n" << (c.advice == Advice::does_not ? "-" : std::to_string(rank)) << "  " << c.method->title << " (" << c.method->name
            << "): " << words[static_cast<int>(c.advice)] << "\n";
  for (const std::string& extra : c.extras) std::cout << "     needs: " << extra << "\n";
  if (!c.why.empty()) std::cout << "     " << c.why << "\n";
  for (const std::string& doubt : c.doubts) std::cout << "     doubt: " << doubt << "\n";
  if (c.advice == Advice::does_not) return;
  std::cout << "     dimmest lamp " << format_fixed(c.least_v, 1) << " V" << (c.dim ? " (dim)" : "") << "; hottest part " << format_fixed(c.watts, 1) << " W; " << c.parts
            << " parts, " << c.wires << " wires, " << c.cuts << " factory wires cut\n";
  if (c.hours_to > 0) {
    const std::string from = format_plain(c.hours_from), to = format_plain(c.hours_to);
    std::cout << "     " << (from == to ? from : from + " to " + to) << " hours" << (c.method->each_journey ? " before each journey" : "") << ", reversible "
              << c.method->reversible << " (" << c.method->effort.source << ")\n";
  }
}

}  // namespace

int advise_command(const Arguments& arguments) {
  const auto survey = load_survey(arguments);
  if (!survey) return bad_input;
  std::cout << "Methods of isolation for this survey, each built, sized and solved; best first\n";
  for (const RunRow& run : assumed_runs(survey->spec))
    std::cout << "  not surveyed: a run from the " << run.from.value << " to '" << run.to.value << "'; " << format_plain(run.length_m.value) << " m are assumed (common practice, no source)\n";
  int rank = 0;
  for (const Candidate& c : advise(survey->spec, survey->catalogue)) print_candidate(c, ++rank);
  std::cout << "\nCheck local law; licensed practice decides.\n";
  return clean;
}

}  // namespace towloom
