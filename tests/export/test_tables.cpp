// Tables as CSV: form, guard against formulas, and rows counted by hand.
#include <cmath>
#include <sstream>

#include "export/report_fixture.hpp"

using namespace towloom;
using towloom::testing::reported_job;

namespace {

// RFC 4180 read back by a reader of its own.
std::vector<std::vector<std::string>> parse(const std::string& text) {
  std::vector<std::vector<std::string>> out(1, std::vector<std::string>(1));
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted && c == '"' && i + 1 < text.size() && text[i + 1] == '"') out.back().back() += text[++i];
    else if (c == '"') quoted = !quoted;
    else if (!quoted && c == ',') out.back().emplace_back();
    else if (!quoted && c == '\r') CHECK(text[i + 1] == '\n');
    else if (!quoted && c == '\n') out.emplace_back(1);
    else out.back().back() += c;
  }
  CHECK_FALSE(quoted);
  CHECK(out.back() == std::vector<std::string>{""});   // the last line ends too
  out.pop_back();
  return out;
}

}  // namespace

TEST_CASE("cells: quotes where they must be, and no formula for a spreadsheet") {
  CHECK(csv_cell("GY/VT") == "GY/VT");
  CHECK(csv_cell("D1, left rear") == "\"D1, left rear\"");
  CHECK(csv_cell("say \"no\"") == "\"say \"\"no\"\"\"");
  for (const char* formula : {"=1+1", "+1", "-1", "@cmd", "\tx", "=cmd|' /C calc'!A0"}) {
    CAPTURE(formula);
    const auto rows = parse(csv_cell(formula) + "\r\n");
    REQUIRE(rows.size() == 1);
    CHECK(rows[0][0] == std::string("'") + formula);
  }
  CHECK(csv_cell("") == "");
}

TEST_CASE("every table has rows of one width, and no cell that begins a formula") {
  const std::string text = fixture::changed(fixture::plain_job(), "from: inlet, to: left grommet", "from: inlet, to: \"=left, grommet\"");
  const auto job = reported_job(fixture::changed(text, "from: left grommet,", "from: \"=left, grommet\","));
  for (const std::string& csv : {wires_csv(*job.facts, *job.job.catalogue), cuts_csv(*job.facts, *job.job.catalogue), materials_csv(*job.facts, *job.job.catalogue)}) {
    const auto rows = parse(csv);
    REQUIRE(rows.size() > 2);
    for (const auto& row : rows) {
      CHECK(row.size() == rows[0].size());
      for (const std::string& cell : row)
        if (!cell.empty()) CHECK(std::string("=+-@").find(cell[0]) == std::string::npos);
    }
  }
}

TEST_CASE("the plain job: each wire once; new wire is cut to whole tenths, never shorter than drawn") {
  const auto job = reported_job(fixture::plain_job());
  const Circuit& c = job.facts->circuit();
  const auto wires = parse(wires_csv(*job.facts, *job.job.catalogue)), cuts = parse(cuts_csv(*job.facts, *job.job.catalogue));
  CHECK(wires.size() == c.wires.size() + 1);
  std::size_t bought = 0;
  for (std::size_t i = 1; i < wires.size(); ++i) {
    const auto& row = wires[i];
    if (row[1] != "new") {
      CHECK(row[7].empty());
      continue;
    }
    ++bought;
    const double length = std::stod(row[6]), cut = std::stod(row[7]);
    CHECK(cut >= length - 0.0051);                       // printed to the centimetre
    CHECK(cut < length + 0.1051);
    CHECK(std::fabs(cut * 10 - std::round(cut * 10)) < 1e-6);
  }
  CHECK(cuts.size() == bought + 1);
  // Ground; left; right; tail to the left pocket, into its pair and on to the right; the plate lamp's.
  CHECK(bought == 7);
}

// Two-way diodes by the method's file: a pair at each towed lamp of the plain job, which are two stop/turn and two tail.
TEST_CASE("the plain job's materials: four diode pairs, one inlet, as much wire as is cut") {
  const auto job = reported_job(fixture::plain_job());
  double cut = 0, bought = 0;
  for (const auto& row : parse(cuts_csv(*job.facts, *job.job.catalogue)))
    if (row[2] != "cut_m") cut += std::stod(row[2]);
  int diodes = 0, inlets = 0;
  for (const auto& row : parse(materials_csv(*job.facts, *job.job.catalogue))) {
    if (row[0].rfind("diode-pair", 0) == 0) diodes += std::stoi(row[1]);
    if (row[0].rfind("inlet", 0) == 0) inlets += std::stoi(row[1]);
    if (row[0].rfind("wire", 0) == 0) bought += std::stod(row[2]);
  }
  CHECK(diodes == 4);
  CHECK(inlets == 1);
  CHECK(bought == doctest::Approx(cut));
}
