// towloom list KIND [NAME]: what the catalogue knows; with -o, its connectors drawn.
#include "commands/list.hpp"

#include <algorithm>
#include <filesystem>
#include <iostream>

#include "commands/commands.hpp"
#include "prove/prove.hpp"
#include "render/render.hpp"
#include "render/web_font.hpp"
#include "sheets/sheets.hpp"

namespace towloom {
namespace fs = std::filesystem;
namespace {

int refuse(const std::string& message, const std::string& hint) {
  std::cerr << "towloom: error: " << message << "\n  " << hint << "\n";
  return bad_input;
}

template <class Names>
std::string nearest(const std::string& word, const Names& names) {
  const std::string near = did_you_mean(word, names);
  std::string list;
  for (const std::string& n : names) list += (list.empty() ? "" : ", ") + n;
  return near.empty() ? "known: " + list : "did you mean '" + near + "'?";
}

int print_kinds() {
  TextRows rows;
  for (const ListKind& k : list_kinds()) rows.push_back({k.name, k.says});
  rows.push_back({"symbols", "what stands for what on the bench sheet; -o draws them"});
  std::cout << "towloom list KIND [NAME]\n\n" << text_table(rows);
  return clean;
}

}  // namespace

std::string papers_of(const Style& style, const std::string& wanted) {
  std::vector<std::string> names;
  for (const auto& [name, size] : style.papers) names.push_back(name);
  return nearest(wanted, names);
}

int save_pages(const std::vector<Drawing>& pages, const std::string& output, const std::string& stem) {
  const fs::path folder = output;
  for (const Drawing& page : pages)
    for (const Defect& d : prove_geometry(page)) {
      std::cerr << "towloom: internal fault: " << page.job << ": " << d.kind << ": " << d.message << "\n";
      return internal;
    }
  std::string problem;
  const std::string pdf = to_pdf(pages, {pages.front().title, "towloom", pages.front().description, ""}, problem);
  if (!problem.empty()) {
    std::cerr << "towloom: internal fault: PDF: " << problem << "\n";
    return internal;
  }
  const std::string faces = embedded_faces(pages, problem);
  if (!problem.empty()) {
    std::cerr << "towloom: internal fault: SVG: " << problem << "\n";
    return internal;
  }
  std::vector<std::pair<fs::path, std::string>> files{{folder / (stem + ".pdf"), pdf}};
  for (size_t i = 0; i < pages.size(); ++i)
    files.emplace_back(folder / (stem + (stem == pages[i].sheet ? "" : "-faces") + (i > 0 ? "-" + std::to_string(i + 1) : "") + ".svg"), to_svg(pages[i], faces));
  return save(folder, files);
}

namespace {

int draw(const Arguments& arguments, const Catalogue& catalogue, const std::string& data, const std::string& form) {
  const TextMeasure text;
  if (!text.ok()) return refuse(text.error(), "towloom draws with the faces of fonts-inter, fonts-liberation2 and fonts-dejavu-core");
  Sources sources;
  Diagnostics diagnostics;
  const auto style = read_style(fs::path(data) / "styles", arguments.style.empty() ? "workshop" : arguments.style, sources, diagnostics);
  print(diagnostics, sources);
  if (!style) return bad_input;
  if (form.empty()) return save_pages({connector_poster(catalogue, *style, text)}, arguments.output, "connectors");
  const std::string paper = arguments.paper.empty() ? "a4" : arguments.paper;
  if (style->papers.count(paper) == 0) return refuse("no paper is called '" + paper + "'", papers_of(*style, paper));
  return save_pages(form_sheet(catalogue.connectors.at(form), paper, catalogue, *style, text), arguments.output, form);
}

}  // namespace

int list_command(const Arguments& arguments) {
  if (arguments.files.empty()) return print_kinds();
  const std::string& wanted = arguments.files.front();
  const std::string name = arguments.files.size() > 1 ? arguments.files[1] : "";
  if (wanted == "symbols") return list_symbols(arguments, name);
  std::vector<std::string> names{"symbols"};
  const ListKind* kind = nullptr;
  for (const ListKind& k : list_kinds()) {
    names.push_back(k.name);
    if (wanted == k.name) kind = &k;
  }
  if (kind == nullptr) return refuse("the catalogue has no '" + wanted + "'", nearest(wanted, names));
  const bool connectors = wanted == "connectors";
  if (!arguments.output.empty() && !connectors)
    return refuse("only connectors and symbols can be drawn", "leave out -o, or list connectors -o FOLDER");
  Sources sources;
  std::string data;
  const auto catalogue = load_catalogue(arguments, {}, sources, data);
  if (!catalogue) return bad_input;
  TextRows rows = kind->rows(*catalogue);
  if (!name.empty()) {
    std::vector<std::string> known;
    for (size_t i = 1; i < rows.size(); ++i) known.push_back(rows[i][0]);
    if (std::find(known.begin(), known.end(), name) == known.end())
      return refuse("no '" + name + "' among the " + wanted, nearest(name, known));
    rows.erase(std::remove_if(rows.begin() + 1, rows.end(), [&](const auto& row) { return row[0] != name; }), rows.end());
  }
  if (!arguments.output.empty()) return draw(arguments, *catalogue, data, name);
  std::cout << (connectors && !name.empty() ? connector_text(catalogue->connectors.at(name), *catalogue) : text_table(rows, ""));
  return clean;
}

}  // namespace towloom
