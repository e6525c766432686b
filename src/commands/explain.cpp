// The long story of one finding.
#include <filesystem>
#include <iostream>

#include "check/rules.hpp"
#include "commands/commands.hpp"
#include "drawing/style.hpp"

namespace towloom {

int explain_rule(const Arguments& arguments) {
  const RuleRow* found = nullptr;
  std::vector<std::string> known;
  std::string list;
  for (const RuleRow& row : rule_table()) {
    known.push_back(row.id);
    list += (list.empty() ? "" : ", ") + known.back();
    if (row.id == arguments.explain) found = &row;
  }
  if (found == nullptr) {
    const std::string near = did_you_mean(arguments.explain, known);
    std::cerr << "towloom: error: --explain: no finding is called '" << arguments.explain << "'\n  "
              << (near.empty() ? "known: " + list : "did you mean '" + near + "'?") << "\n";
    return bad_input;
  }
  const std::string data = find_data(arguments);
  Sources sources;
  Diagnostics diagnostics;
  const auto style = read_style(std::filesystem::path(data) / "styles", "workshop", sources, diagnostics);
  print(diagnostics, sources);
  if (!style) return bad_input;
  std::cout << found->id << " (" << (found->severity == Severity::error ? "error" : "warning") << "): " << found->reason << ".\n\n"
            << word(*style, "explain-" + std::string(found->id)) << "\n";
  return clean;
}

}  // namespace towloom
