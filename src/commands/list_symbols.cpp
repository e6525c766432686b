// towloom list symbols [NAME]: the symbols of a style, as text or drawn.
#include <filesystem>
#include <iostream>

#include "commands/commands.hpp"
#include "commands/list.hpp"
#include "sheets/sheets.hpp"

namespace towloom {

int list_symbols(const Arguments& arguments, const std::string& name) {
  const auto refuse = [](const std::string& message, const std::string& hint) {
    std::cerr << "towloom: error: " << message << "\n  " << hint << "\n";
    return bad_input;
  };
  const std::string data = find_data(arguments);
  if (data.empty()) return refuse("the folders specs/ and styles/ were not found", "say where they are with --data FOLDER or the variable TOWLOOM_DATA");
  Sources sources;
  Diagnostics diagnostics;
  auto style = read_style(std::filesystem::path(data) / "styles", arguments.style.empty() ? "workshop" : arguments.style, sources, diagnostics);
  print(diagnostics, sources);
  if (!style) return bad_input;
  if (!name.empty()) {
    std::vector<std::string> names;
    for (const auto& [key, symbol] : style->symbols) names.push_back(key);
    if (style->symbols.count(name) == 0) {
      const std::string near = did_you_mean(name, names);
      return refuse("no '" + name + "' among the symbols", near.empty() ? "towloom list symbols shows them all" : "did you mean '" + near + "'?");
    }
    style->symbols = {{name, style->symbols.at(name)}};
  }
  if (arguments.output.empty()) {
    TextRows rows{{"name", "title", "stands for", "terminals", "form"}};
    for (const auto& [key, symbol] : style->symbols) {
      std::string pins;
      for (const auto& pin : symbol.pins) pins += (pins.empty() ? "" : " ") + pin.name;
      rows.push_back({key, symbol.title, symbol.stands_for, pins, symbol.form});
    }
    std::cout << text_table(rows, "") << "\nSet: " << style->symbol_source << ".\n";
    return clean;
  }
  const TextMeasure text;
  if (!text.ok()) return refuse(text.error(), "towloom draws with the faces of fonts-inter and fonts-dejavu-core");
  const std::string paper = arguments.paper.empty() ? "a4" : arguments.paper;
  if (style->papers.count(paper) == 0) return refuse("no paper is called '" + paper + "'", papers_of(*style, paper));
  return save_pages(symbol_sheet(*style, paper, text), arguments.output, "symbols");
}

}  // namespace towloom
