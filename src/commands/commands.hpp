// The verbs of the command line. One file per verb, each thin: read, call the rooms, write.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "check/check.hpp"

namespace towloom {

// What a run ends with (shown by --help).
enum Exit : int { clean = 0, faults = 1, bad_input = 2, internal = 3, cannot_write = 4 };

struct Arguments {
  std::vector<std::string> files;
  std::string output;          // -o
  std::string catalogue;       // --catalogue: folder of the user's own catalogue files
  std::string data;            // --data: folder that holds specs/ and styles/
  std::string paper;           // --paper, empty = the job's
  std::string style;           // --style, empty = workshop
  std::string highlight;       // draw: one function's path in full, the rest quiet
  std::string effort;          // --effort, a number; empty = 0
  std::string coach, car;      // trace: signals joined by +
  std::string at, to, meter;   // trace: a reading between two terminals, with what
  std::string fault;           // trace: a single fault, in the words of check --faults
  std::string netlist;         // trace: file to write
  bool deck = false;           // draw: the same beside the sheets
  bool worksheets = false;     // draw: for the apprentice, with keys
  std::string outlet, signals, method;   // new
  std::string explain;         // check: id of a finding
  bool strict = false, stats = false;
  bool faults = false;         // check: solve every single fault
};

// A job read, with the catalogue that it was read against. Diagnostics go to stderr.
struct Survey {
  Sources sources;
  Catalogue catalogue;
  Spec spec;
  std::string data;
};
std::optional<Survey> load_survey(const Arguments&);
// Everything a verb starts from: the job read and solved. Diagnostics go to stderr.
struct Loaded {
  Sources sources;
  Catalogue catalogue;
  Facts facts;
  std::string data;
};
std::optional<Loaded> load(const Arguments&);
// The shipped catalogue, then that of --catalogue, then `folders` (named in a job). Says what is wrong itself.
std::optional<Catalogue> load_catalogue(const Arguments&, const std::vector<PlacedText>& folders, Sources&, std::string& data,
                                        const std::vector<Node>& definitions = {});
// Folder with specs/ and styles/: --data, TOWLOOM_DATA, beside or above the program, share/towloom, the current folder.
std::string find_data(const Arguments&);
void print(const Diagnostics&, const Sources&);
// Writes all files into the folder or none, and prints their names; how the run ends.
int save(const std::filesystem::path& folder, const std::vector<std::pair<std::filesystem::path, std::string>>& files);
// Findings as diagnostics, at their places in the job.
Diagnostics as_diagnostics(const std::vector<Finding>&);

int new_command(const Arguments&);
int draw_command(const Arguments&);
int advise_command(const Arguments&);
int explain_rule(const Arguments&);   // check --explain
int check_command(const Arguments&);
int trace_command(const Arguments&);
int list_command(const Arguments&);
int run(const std::vector<std::string>& words);   // parses the command line and calls the verb

}  // namespace towloom
