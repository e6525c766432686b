// Many decks as one script for one process of ngspice.
#pragma once

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace towloom::ngspice {

// Writes the decks and a script into `folder`; the script loads, solves and prints one after the other, with
// "deck N" before each. Returns the script's path.
inline std::filesystem::path write_batch(const std::vector<std::string>& decks, const std::filesystem::path& folder) {
  std::filesystem::create_directories(folder);
  const auto path = folder / "all.cir";
  std::ofstream script(path);
  // Where iteration, gmin and source stepping fail, ngspice would answer with the end of a transient run that is no
  // operating point: "optran" without a step of time forbids that.
  script << "* many decks\nR1 1 0 1\n.control\nset numdgt=12\noptran 1 1 1 0 10m 0\n";
  for (std::size_t d = 0; d < decks.size(); ++d) {
    const std::string name = (folder / ("d" + std::to_string(d) + ".cir")).string();
    const auto control = decks[d].find(".control");
    std::ofstream(name) << decks[d].substr(0, control) << ".end\n";
    script << "echo deck " << d << "\nsource " << name << "\n";
    std::string prints;
    std::istringstream lines(control == std::string::npos ? "" : decks[d].substr(control));
    for (std::string line; std::getline(lines, line);) {
      if (line.rfind("print ", 0) == 0) prints += line + "\n";
      if (line.rfind("save ", 0) == 0) script << line << "\n";   // devices' currents are kept only if asked for before
    }
    script << "op\n" << prints;
    script << "destroy all\nremcirc\n";   // an answer of one deck must not stand for the next's
  }
  script << "quit\n.endc\n.end\n";
  return path;
}

}  // namespace towloom::ngspice
