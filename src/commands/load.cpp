#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <iostream>

#include "base/file.hpp"
#include "catalogue/names.hpp"
#include "catalogue/settle.hpp"
#include "commands/commands.hpp"
#include "yaml/node.hpp"

namespace towloom {
namespace fs = std::filesystem;
namespace {

constexpr std::size_t largest_job = 1 << 20;  // bytes; a plain job has 3 000

bool holds_data(const fs::path& folder) {
  return fs::is_directory(folder / "specs" / "methods") && fs::is_directory(folder / "styles");
}

bool colour_wanted() {
  const char* no = std::getenv("NO_COLOR");
  const char* term = std::getenv("TERM");
  const bool dumb = term == nullptr || std::string(term) == "dumb";
  return !(no != nullptr && *no != 0) && !dumb && isatty(STDERR_FILENO) != 0;
}

}  // namespace

void print(const Diagnostics& diagnostics, const Sources& sources) {
  std::cerr << format_diagnostics(diagnostics, sources, colour_wanted());
}

std::string find_data(const Arguments& arguments) {
  if (!arguments.data.empty()) return holds_data(arguments.data) ? arguments.data : "";
  if (const char* named = std::getenv("TOWLOOM_DATA")) return holds_data(named) ? named : "";
  std::error_code ignored;
  const fs::path program = fs::read_symlink("/proc/self/exe", ignored).parent_path();
  // A root without /proc (a bare chroot) cannot name the program: the current folder is tried last.
  for (const fs::path& folder : {program, program / "..", program / "../..", program / "../share/towloom", fs::path(".")})
    if (!folder.empty() && holds_data(folder)) return folder.lexically_normal().string();
  return "";
}

Diagnostics as_diagnostics(const std::vector<Finding>& findings) {
  Diagnostics out;
  for (const Finding& f : findings) {
    if (f.severity == Severity::error)
      out.error(f.rule, f.place, f.message, f.action);
    else
      out.warning(f.rule, f.place, f.message, f.action);
  }
  return out;
}

std::optional<Catalogue> load_catalogue(const Arguments& arguments, const std::vector<PlacedText>& folders,
                                        Sources& sources, std::string& data, const std::vector<Node>& definitions) {
  data = find_data(arguments);
  if (data.empty()) {
    std::cerr << "towloom: error: the folders specs/ and styles/ were not found\n"
                 "  say where they are with --data FOLDER or the variable TOWLOOM_DATA\n";
    return std::nullopt;
  }
  std::vector<PlacedText> own;
  if (!arguments.catalogue.empty()) own.push_back({arguments.catalogue, {}});
  own.insert(own.end(), folders.begin(), folders.end());
  Diagnostics diagnostics;
  auto catalogue = read_catalogue(fs::path(data) / "specs", sources, diagnostics, own, definitions);
  print(diagnostics, sources);
  return catalogue;
}

std::optional<Survey> load_survey(const Arguments& arguments) {
  Survey out;
  Diagnostics diagnostics;
  std::string problem;
  const std::string& name = arguments.files.front();
  const auto text = read_file(name, largest_job, problem);
  if (!text) {
    std::cerr << "towloom: error: " << name << ": " << problem << "\n";
    return std::nullopt;
  }
  const int file = out.sources.add(name, *text);
  const auto root = read_yaml(file, out.sources, diagnostics);
  auto spec = root ? std::optional<Spec>(read_rows(*root, file, diagnostics)) : std::nullopt;
  std::vector<PlacedText> folders;  // a job names them as seen from its own place
  if (spec)
    for (const PlacedText& folder : spec->catalogues)
      folders.push_back({(fs::path(name).parent_path() / folder.value).string(), folder.place});
  auto catalogue = load_catalogue(arguments, folders, out.sources, out.data, spec ? spec->definitions : std::vector<Node>{});
  // Names are checked although rows could not be read, so that one run says all that is wrong with a file.
  if (catalogue && spec) {
    settle_job(*spec, *catalogue, diagnostics);
    if (diagnostics.has_errors()) check_names(*spec, *catalogue, diagnostics);
  }
  print(diagnostics, out.sources);
  if (!catalogue || !spec || diagnostics.has_errors()) return std::nullopt;
  out.catalogue = std::move(*catalogue);
  out.spec = std::move(*spec);
  return out;
}

std::optional<Loaded> load(const Arguments& arguments) {
  auto survey = load_survey(arguments);
  if (!survey) return std::nullopt;
  Diagnostics diagnostics;
  auto facts = find_facts(survey->spec, survey->catalogue, diagnostics);
  print(diagnostics, survey->sources);
  if (!facts || diagnostics.has_errors()) return std::nullopt;
  return Loaded{std::move(survey->sources), std::move(survey->catalogue), std::move(*facts), std::move(survey->data)};
}

}  // namespace towloom
