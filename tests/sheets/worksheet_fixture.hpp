// The worksheets of a shown job, page by page, and what is printed on them.
#pragma once

#include <algorithm>
#include <map>

#include "layout/style_fixture.hpp"
#include "sheets/sheets.hpp"

namespace towloom::fixture {

struct Worksheets {
  Job job;
  Facts facts;
  std::vector<Drawing> pages;

  // Pages of one sheet: "Worksheet B", "Key F".
  std::vector<const Drawing*> of(const std::string& name) const {
    std::vector<const Drawing*> out;
    for (const Drawing& page : pages)
      if (page.title.rfind(name + ":", 0) == 0) out.push_back(&page);
    return out;
  }
};

inline std::vector<Drawing> worksheets_of(const Job& job, Facts& facts, const Looks& looks, const std::string& paper) {
  facts.spec.paper = paper;
  facts.spec.paper_named = true;
  Diagnostics diagnostics;
  const auto bench = bench_sheet(facts, *job.catalogue, *looks.style, looks.measure, 0, diagnostics);
  REQUIRE(!bench.empty());
  return worksheet_set(facts, *job.catalogue, *looks.style, looks.measure, bench);
}

inline Worksheets worksheets(const std::string& name, const Looks& looks, const std::string& paper = "a4") {
  Job job = built(job_file(name));
  REQUIRE(job.spec.has_value());
  Diagnostics diagnostics;
  auto facts = find_facts(*job.spec, *job.catalogue, diagnostics);
  REQUIRE(facts.has_value());
  auto pages = worksheets_of(job, *facts, looks, paper);
  return {std::move(job), std::move(*facts), std::move(pages)};
}

inline std::vector<std::string> texts(const Drawing& page) {
  std::vector<std::string> out;
  for (const Item& item : page.items)
    if (const auto* label = std::get_if<Label>(&item)) out.push_back(label->text);
  return out;
}

// One after the other: a sentence that was broken into lines is whole again.
inline std::string all_text(const Drawing& page) {
  std::string out;
  for (const std::string& text : texts(page)) out += text + " ";
  return out;
}

// All labels of a page line by line, from the left: as a reader sees them.
inline std::vector<std::vector<std::string>> rows(const Drawing& page) {
  std::map<Mm100, std::map<Mm100, std::string>> lines;
  for (const Item& item : page.items)
    if (const auto* label = std::get_if<Label>(&item); label && !label->decoration) lines[label->at.y][label->room.x] = label->text;
  std::vector<std::vector<std::string>> out;
  for (const auto& [y, line] : lines) {
    out.emplace_back();
    for (const auto& [x, text] : line) out.back().push_back(text);
  }
  return out;
}

// Words within one label.
inline bool prints(const Drawing& page, const std::string& words) {
  const auto all = texts(page);
  return std::any_of(all.begin(), all.end(), [&](const std::string& text) { return text.find(words) != std::string::npos; });
}
// A label that is this word or has it between blanks.
inline bool names(const Drawing& page, const std::string& word) {
  const auto all = texts(page);
  return std::any_of(all.begin(), all.end(), [&](const std::string& text) { return (" " + text + " ").find(" " + word + " ") != std::string::npos; });
}

}  // namespace towloom::fixture
