#include <iostream>

#include "base/diagnostics.hpp"
#include "commands/commands.hpp"

namespace towloom {
namespace {

struct Verb {
  const char* name;
  const char* usage;
  const char* says;
  int (*call)(const Arguments&);
  size_t least = 1, most = 1;   // words besides options
};
const Verb verbs[] = {
    {"draw", "draw JOB.yaml -o FOLDER", "draw every sheet of a job: one PDF, one SVG a sheet", draw_command},
    {"check", "check JOB.yaml", "solve every scene, size the wires, report what is wrong", check_command, 0, 1},
    {"advise", "advise JOB.yaml", "try every method of isolation on the survey and rank them", advise_command},
    {"list", "list KIND [NAME] [-o FOLDER]", "what the catalogue knows; -o draws connectors (one, or all on a poster) and symbols", list_command, 0, 2},
    {"trace", "trace JOB.yaml --coach left+tail", "one scene: volts and amps along the path of every lamp that is lit", trace_command},
};

struct Option {
  const char* name;
  const char* value;  // nullptr: takes none
  const char* says;
  std::string Arguments::*text;
  bool Arguments::*flag;
};
const Option options[] = {
    {"-o", "FOLDER", "where draw (default: out) and list write", &Arguments::output, nullptr},
    {"--paper", "NAME", "a4, letter, a3 or tabloid, instead of the job's", &Arguments::paper, nullptr},
    {"--style", "NAME", "workshop, or mono for a printer without colours, instead of the job's", &Arguments::style, nullptr},
    {"--highlight", "FUNCTION", "draw: this function's path in full, the rest quiet, like left, 'tail + stop', plate, charge", &Arguments::highlight, nullptr},
    {"--effort", "N", "draw: try N other placements of each bench page, keep the best (default: 0)", &Arguments::effort, nullptr},
    {"--catalogue", "FOLDER", "folder of your own catalogue files, read beside the shipped ones", &Arguments::catalogue, nullptr},
    {"--data", "FOLDER", "folder that holds specs/ and styles/", &Arguments::data, nullptr},
    {"--coach", "SIGNALS", "trace: left right stop tail hazard, joined by +; the cord is in", &Arguments::coach, nullptr},
    {"--car", "SIGNALS", "trace: pedal lamps left right reverse, joined by +", &Arguments::car, nullptr},
    {"--at", "TERMINAL", "trace: the reading at a terminal like D1.K, with the meter attached", &Arguments::at, nullptr},
    {"--to", "TERMINAL", "trace: the meter's other lead (default: body)", &Arguments::to, nullptr},
    {"--meter", "NAME", "trace: meter, meter-1k or test-lamp (default: meter)", &Arguments::meter, nullptr},
    {"--fault", "TEXT", "trace: with one single fault, in the words of check --faults, like 'W5 open'", &Arguments::fault, nullptr},
    {"--netlist", "FILE", "trace: write the scene, flash on, as a netlist that ngspice runs", &Arguments::netlist, nullptr},
    {"--explain", "ID", "check: the long story of a finding, without a job", &Arguments::explain, nullptr},
    {"--faults", nullptr, "check: solve every single fault and say what the lamps show", nullptr, &Arguments::faults},
    {"--strict", nullptr, "draw nothing and end with 1 when check finds an error", nullptr, &Arguments::strict},
    {"--stats", nullptr, "print the measured quality of each drawing", nullptr, &Arguments::stats},
};

void print_help() {
  std::cout << "towloom: wiring sheets for a car that is flat-towed behind a motorhome\n\n";
  for (const Verb& v : verbs) std::cout << "  towloom " << v.usage << "\n      " << v.says << "\n";
  std::cout << "\n";
  for (const Option& o : options)
    std::cout << "  " << o.name << (o.value ? std::string(" ") + o.value : "") << "\n      " << o.says << "\n";
  std::cout << "\nEnds with: 0 clean, 1 the job has faults (check, draw --strict), 2 the job or the command\n"
               "cannot be used, 3 internal fault, 4 cannot write.\n"
               "Check local law; licensed practice decides.\n";
}

int refuse(const std::string& message, const std::string& hint) {
  std::cerr << "towloom: error: " << message << "\n";
  if (!hint.empty()) std::cerr << "  " << hint << "\n";
  return bad_input;
}

std::string suggestion(const std::string& word, const std::vector<std::string>& known) {
  const std::string near = did_you_mean(word, known);
  return near.empty() ? "towloom --help lists what there is" : "did you mean '" + near + "'?";
}

// Fills `out` from the words behind the verb. Returns an exit status only when they cannot be used.
std::optional<int> parse(const std::vector<std::string>& words, Arguments& out) {
  bool only_files = false;
  for (size_t i = 1; i < words.size(); ++i) {
    const std::string& word = words[i];
    if (only_files || word.empty() || word[0] != '-') {
      out.files.push_back(word);
      continue;
    }
    if (word == "--") {
      only_files = true;
      continue;
    }
    const Option* found = nullptr;
    std::vector<std::string> names;
    for (const Option& o : options) {
      names.push_back(o.name);
      if (word == o.name) found = &o;
    }
    if (found == nullptr) return refuse("unknown option '" + word + "'", suggestion(word, names));
    if (found->flag != nullptr) {
      out.*(found->flag) = true;
    } else if (++i < words.size()) {
      out.*(found->text) = words[i];
    } else {
      return refuse(std::string(found->name) + " needs " + found->value, found->says);
    }
  }
  return std::nullopt;
}

}  // namespace

int run(const std::vector<std::string>& words) {
  if (words.empty()) {
    print_help();
    return bad_input;
  }
  for (const std::string& word : words) {
    if (word == "--help" || word == "-h") {
      print_help();
      return clean;
    }
  }
  if (words[0] == "--version") {
    std::cout << "towloom " TOWLOOM_VERSION "\n";
    return clean;
  }
  std::vector<std::string> names;
  for (const Verb& v : verbs) {
    names.push_back(v.name);
    if (words[0] != v.name) continue;
    Arguments arguments;
    if (const auto refused = parse(words, arguments)) return *refused;
    const bool explained = words[0] == "check" && !arguments.explain.empty();   // asks for no job
    if ((words[0] == "check" && arguments.files.empty() && !explained) || arguments.files.size() < v.least || arguments.files.size() > v.most)
      return refuse(words[0] + (v.most == 1 ? " takes exactly one job file" : " takes a kind and a name"), v.usage);
    return v.call(arguments);
  }
  return refuse("unknown command '" + words[0] + "'", suggestion(words[0], names));
}

}  // namespace towloom
