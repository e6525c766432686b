#include <iostream>

#include "base/diagnostics.hpp"
#include "commands/options.hpp"

namespace towloom {
namespace {

const std::vector<Verb> verbs = {
    {"new", "new NAME.yaml --outlet FORM --signals combined|separate --method NAME", "write a commented starting file that check accepts", new_command},
    {"draw", "draw JOB.yaml -o FOLDER", "draw every sheet of a job: one PDF, one SVG a sheet, tables as CSV, the report as JSON", draw_command},
    {"check", "check JOB.yaml", "solve every scene, size the wires, report what is wrong", check_command, 0, 1},
    {"advise", "advise JOB.yaml", "try every method of isolation on the survey and rank them", advise_command},
    {"list", "list KIND [NAME] [-o FOLDER]", "what the catalogue knows; -o draws connectors (one, or all on a poster) and symbols", list_command, 0, 2},
    {"trace", "trace JOB.yaml --coach left+tail", "one scene: volts and amps along the path of every lamp that is lit", trace_command},
};

const std::vector<Option> options = {
    {"-o", "FOLDER", "where draw (default: out) and list write", &Arguments::output, nullptr},
    {"--paper", "NAME", "paper of the style (a4, letter, a3, tabloid), instead of the job's", &Arguments::paper, nullptr},
    {"--style", "NAME", "workshop, or mono for a printer without colours, instead of the job's", &Arguments::style, nullptr},
    {"--highlight", "FUNCTION", "draw: this function's path in full, the rest quiet, like left, 'tail + stop', plate, charge", &Arguments::highlight, nullptr},
    {"--worksheets", nullptr, "draw: also the apprentice's worksheets with keys, as a PDF of their own", nullptr, &Arguments::worksheets},
    {"--effort", "N", "draw: try N other placements of each bench page, keep the best (default: 0)", &Arguments::effort, nullptr},
    {"--catalogue", "FOLDER", "folder of your own catalogue files, read beside the shipped ones", &Arguments::catalogue, nullptr},
    {"--data", "FOLDER", "folder that holds specs/ and styles/", &Arguments::data, nullptr},
    {"--coach", "SIGNALS", "trace: left right stop tail hazard, joined by +; the cord is in", &Arguments::coach, nullptr},
    {"--car", "SIGNALS", "trace: pedal lamps left right reverse, joined by +", &Arguments::car, nullptr},
    {"--at", "TERMINAL", "trace: the reading at a terminal like D1.K, with the meter attached", &Arguments::at, nullptr},
    {"--to", "TERMINAL", "trace: the meter's other lead (default: body)", &Arguments::to, nullptr},
    {"--meter", "NAME", "trace: meter, meter-1k or test-lamp (default: meter)", &Arguments::meter, nullptr},
    {"--fault", "TEXT", "trace: with one single fault, in the words of check --faults, like 'W5 open'", &Arguments::fault, nullptr},
    {"--netlist", "FILE", "trace: write the scene, flash on, as a netlist that ngspice runs; draw: without FILE, beside the sheets", &Arguments::netlist, &Arguments::deck, "draw"},
    {"--outlet", "FORM", "new: the coach's outlet; list connectors names them", &Arguments::outlet, nullptr},
    {"--signals", "KIND", "new: what the outlet carries, combined or separate", &Arguments::signals, nullptr},
    {"--method", "NAME", "new: the method of isolation; list methods names them", &Arguments::method, nullptr},
    {"--explain", "ID", "check: the long story of a finding, without a job", &Arguments::explain, nullptr},
    {"--faults", nullptr, "check: solve every single fault and say what the lamps show", nullptr, &Arguments::faults},
    {"--strict", nullptr, "draw nothing and end with 1 when check finds an error", nullptr, &Arguments::strict},
    {"--stats", nullptr, "print the measured quality of each drawing", nullptr, &Arguments::stats},
};

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
    if (found->text == nullptr || (found->bare != nullptr && words[0] == found->bare)) {
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
    std::cout << help_text(verbs, options);
    return bad_input;
  }
  for (const std::string& word : words) {
    if (word == "--help" || word == "-h") {
      std::cout << help_text(verbs, options);
      return clean;
    }
  }
  if (words[0] == "--version") {
    std::cout << "towloom " TOWLOOM_VERSION "\n";
    return clean;
  }
  if (words[0] == "--man") {
    std::cout << man_page(verbs, options, TOWLOOM_VERSION);
    return clean;
  }
  if (words[0] == "--completion") {
    std::cout << completion(verbs, options);
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
