// new: a commented starting file that `check` accepts, from what the catalogue knows of outlet and method.
#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <iostream>

#include "base/file.hpp"
#include "catalogue/names.hpp"
#include "catalogue/settle.hpp"
#include "commands/commands.hpp"

namespace towloom {
namespace fs = std::filesystem;
namespace {

int refuse(const std::string& message, const std::string& hint) {
  std::cerr << "towloom: error: " << message << "\n";
  if (!hint.empty()) std::cerr << "  " << hint << "\n";
  return bad_input;
}

template <class Map>
std::string choices_of(const Map& map, const std::string& word) {
  std::vector<std::string> known;
  std::string list;
  for (const auto& [name, value] : map) {
    known.push_back(name);
    list += (list.empty() ? "" : ", ") + name;
  }
  const std::string near = did_you_mean(word, known);
  return word.empty() || near.empty() ? "one of: " + list : "did you mean '" + near + "'?";
}

// Today, or SOURCE_DATE_EPOCH where the same bytes are wanted on any day.
std::string today() {
  using namespace std::chrono;
  const char* fixed = std::getenv("SOURCE_DATE_EPOCH");
  long long seconds = fixed == nullptr ? 0 : std::strtoll(fixed, nullptr, 10);
  if (fixed == nullptr) seconds = duration_cast<std::chrono::seconds>(system_clock::now().time_since_epoch()).count();
  const year_month_day day{sys_days{days{seconds / 86400}}};
  const auto two = [](unsigned n) { return (n < 10 ? "0" : "") + std::to_string(n); };
  return std::to_string(static_cast<int>(day.year())) + "-" + two(static_cast<unsigned>(day.month())) + "-" + two(static_cast<unsigned>(day.day()));
}

// The rows of found: that the outlet asks for, as remarks to be filled in.
std::string found_rows(const Connector& outlet, const Catalogue& catalogue) {
  std::string out = "  # found:\n";
  for (const ConnectorContact& c : outlet.contacts) {
    const auto tow = catalogue.tow_signals.find(c.function);
    if (tow == catalogue.tow_signals.end() || tow->second.kind == "ground") continue;
    out += "  #   \"" + c.number + "\": {does: " + c.function + ", open: 13.6 V, loaded: 13.1 V, load: 4.2 A, fuse: 15 A, fuse at: 0.15 m}\n";
  }
  return out;
}

// The value that a choice begins with; "" where the method's own default does.
std::string first_value(const Choice& choice, const Catalogue& catalogue) {
  if (!choice.fallback.empty()) return choice.fallback;
  if (!choice.words.empty()) return choice.words.front();
  if (choice.of == "diodes" && !catalogue.diodes.empty()) return catalogue.diodes.begin()->first;
  if (choice.of == "modules" && !catalogue.modules.empty()) return catalogue.modules.begin()->first;
  if (choice.of == "places") return "inlet";
  if (choice.of == "amps") return "10 A";
  return choice.of == "ohms" ? "1 kohm" : "charge";
}

// Rows of lamps that the method brings, left and right where they have a side.
std::string added_rows(const Method& m) {
  std::string out = "  lamps:\n";
  for (const auto& [function, source] : m.brings) {
    if (function == "plate") {
      out += "    added plate: {at: left rear, plate: " + source + "}\n";
      continue;
    }
    for (const char* side : {"left", "right"})
      out += "    added " + std::string(side) + " " + function + ": {at: " + side + " rear, " + function + ": " + source + "}\n";
  }
  return out;
}

std::string isolation_rows(const Method& m, const Catalogue& catalogue) {
  std::string out = "# " + m.says + "\nisolation:\n  method: " + m.name + "\n";
  for (const Choice& c : m.choices) out += "  " + c.key + ": " + first_value(c, catalogue) + "\n";
  bool cuts = false;
  for (const Fragment& f : m.fragments) cuts = cuts || (f.scope == "lamp" && (f.cut == "leg" || f.cut == "plug"));
  if (cuts) out += "  plate: with left tail                  # the plate lamp's branch mostly leaves before the cut\n";
  if (m.added_lamps) out += added_rows(m);
  return out;
}

// The extras that the method asks for on such a car, each with its defaults.
std::string extra_rows(const std::vector<std::string>& extras) {
  std::string out = extras.empty() ? "" : "extras:\n";
  for (const std::string& extra : extras) out += "  " + extra + ": yes\n";
  return out + (extras.empty() ? "" : "\n");
}

std::string replaced(std::string text, const std::vector<std::pair<std::string, std::string>>& values) {
  for (const auto& [key, value] : values)
    for (std::size_t at = text.find(key); at != std::string::npos; at = text.find(key, at + value.size())) text.replace(at, key.size(), value);
  return text;
}

// What check would find wrong with this text: nothing, or the diagnostics and their file.
struct Verdict {
  Sources sources;
  Diagnostics diagnostics;
  std::vector<Finding> findings;
  bool accepted = false;
};
Verdict judge(const std::string& name, const std::string& text, Catalogue catalogue) {
  Verdict out;
  const int file = out.sources.add(name, text);
  const auto root = read_yaml(file, out.sources, out.diagnostics);
  auto spec = root ? read_job(*root, file, out.diagnostics) : std::nullopt;
  if (!spec || !settle_job(*spec, catalogue, out.diagnostics)) return out;
  const auto facts = find_facts(*spec, catalogue, out.diagnostics);
  if (!facts) return out;
  out.findings = facts->findings;
  out.accepted = !out.diagnostics.has_errors() && !as_diagnostics(out.findings).has_errors();
  return out;
}

}  // namespace

int new_command(const Arguments& arguments) {
  const std::string& name = arguments.files.front();
  Sources sources;
  std::string data;
  const auto catalogue = load_catalogue(arguments, {}, sources, data);
  if (!catalogue) return bad_input;
  const auto outlet = catalogue->connectors.find(arguments.outlet);
  if (outlet == catalogue->connectors.end())
    return refuse("--outlet: no connector '" + arguments.outlet + "' in the catalogue", choices_of(catalogue->connectors, arguments.outlet));
  const auto method = catalogue->methods.find(arguments.method);
  if (method == catalogue->methods.end())
    return refuse("--method: no method '" + arguments.method + "' in the catalogue", choices_of(catalogue->methods, arguments.method));
  if (!method->second.gives_signals.empty())
    return refuse("--method: " + arguments.method + " only converts signals", "name a method that feeds lamps; the converter is written beside it: converter: " + arguments.method);
  const std::map<std::string, int> kinds = {{"combined", 0}, {"separate", 0}};
  if (kinds.count(arguments.signals) == 0) return refuse("--signals: '" + arguments.signals + "' is no kind of signals", choices_of(kinds, arguments.signals));
  // With separate signals only a wire of its own brings the stop signal to the car.
  const auto& contacts = outlet->second.contacts;
  if (arguments.signals == "separate" && std::none_of(contacts.begin(), contacts.end(), [](const ConnectorContact& c) { return c.function == "stop"; }))
    return refuse("--signals: separate signals want a stop contact, and the " + outlet->second.title + " has none", "take combined, or another outlet");
  std::error_code ignored;
  if (fs::exists(name, ignored)) return refuse(name + " exists already", "take another name, or move it away");
  std::string problem;
  const auto start = read_file(fs::path(data) / "specs" / "jobs" / "start" / (arguments.signals + ".yaml"), 1 << 20, problem);
  if (!start) return refuse("the starting file for " + arguments.signals + " signals " + problem, "");

  const Connector& form = outlet->second;
  const std::string half = form.inlet_half == form.outlet_half || form.inlet_half.empty() ? "" : ", half: " + form.inlet_half;
  const bool metric = form.contacts.empty() || form.contacts.front().minimum_size.find("AWG") == std::string::npos;
  std::vector<std::string> extras;
  std::string text;
  Verdict verdict;
  // A method may ask for an extra, like the charge line that its relays hang on: laid in as it is asked for.
  for (int round = 0; round < 4; ++round) {
    text = replaced(*start, {{"$date", today()}, {"$outlet", form.name}, {"$inlet-half", half}, {"$inlet", form.name}, {"$found", found_rows(form, *catalogue)},
                             {"$cord-size", metric ? "2.5 mm2" : form.contacts.size() > 6 ? "12 AWG" : "14 AWG"}, {"$standard", metric ? "ISO" : "AWG"},
                             {"$isolation", isolation_rows(method->second, *catalogue)}, {"$extras", extra_rows(extras)}});
    verdict = judge(name, text, *catalogue);
    const std::string add = "add: ";   // what such a finding advises
    const auto asked = std::find_if(verdict.findings.begin(), verdict.findings.end(),
                                    [&](const Finding& f) { return f.rule == "extra-missing" && f.action.rfind(add, 0) == 0; });
    if (asked == verdict.findings.end() || std::find(extras.begin(), extras.end(), asked->action.substr(add.size())) != extras.end()) break;
    extras.push_back(asked->action.substr(add.size()));
  }
  if (!verdict.accepted) {
    print(verdict.diagnostics, verdict.sources);
    print(as_diagnostics(verdict.findings), verdict.sources);
    return refuse("no job can begin with " + form.name + ", " + arguments.signals + " signals and " + arguments.method, "see the lines above, which show the file as it would be");
  }
  problem = write_files({{name, text}});
  if (!problem.empty()) {
    std::cerr << "towloom: error: cannot write: " << problem << "\n";
    return cannot_write;
  }
  std::cout << name << "\n";
  return clean;
}

}  // namespace towloom
