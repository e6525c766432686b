// Jobs that contradict themselves: each error at its place, no circuit.
#include <algorithm>
#include <sstream>

#include "circuit/fixture.hpp"

using namespace towloom;
using fixture::Job;
using fixture::built;
using fixture::changed;
using fixture::plain_job;
using fixture::reported;

namespace {

// The plain job with one change: refused with this code, the message naming `words`.
void check_refused(const std::string& old, const std::string& now, const std::string& code, const std::string& words) {
  CAPTURE(now);
  const fixture::Job job = built(changed(plain_job(), old, now));
  INFO(format_diagnostics(job.diagnostics, job.sources, false));
  CHECK_FALSE(job.circuit.has_value());
  CHECK(reported(job, code, words));
}

}  // namespace

TEST_CASE("names that the catalogue or the job does not know are refused") {
  check_refused("outlet: flat-4, left", "outlet: flat-5x, left", "unknown-connector", "flat-5x");
  check_refused("half: trailer", "half: middle", "half", "middle");
  check_refused("method: two-way-diodes", "method: two-way-diode", "unknown-method", "two-way-diode");
  check_refused("diode: silicon", "diode: selenium", "unknown-diode", "selenium");
  check_refused("2 x R5W", "2 x R7W", "unknown-lamp", "R7W");
  check_refused("standard: AWG", "standard: AGW", "wire-standard", "AGW");
  check_refused("lamps: auto ribbon of 4", "lamsp: auto ribbon of 4", "wire-circuit", "lamsp");
}

TEST_CASE("figures and sizes that no table holds are refused") {
  check_refused("wire: 16 AWG", "wire: 99 AWG", "wire-size", "99 AWG");
  check_refused("feed: GY/VT 0.75 mm2", "feed: GY/VT 0.77 mm2", "wire-size", "0.77 mm²");
  check_refused("BK/WH 0.75 mm2 to G-RL", "BK/WH 7.5 mm2 to G-RL", "wire-size", "7.5 mm²");
  check_refused("lamps: auto ribbon of 4", "lamps: 17 AWG ribbon of 4", "wire-size", "17 AWG");
  check_refused("wire: {standard: AWG,", "wire: {standard: AWG, ampacity: DIN,", "ampacity-basis", "DIN");
  check_refused("P21/5W bright", "P21/5W brihgt", "filament", "brihgt");
  check_refused("method: two-way-diodes, diode: silicon", "method: battery-fed-relays, fuse: -3 A", "choice-value", "-3 A");
  check_refused("method: two-way-diodes, diode: silicon", "method: battery-fed-relays, fuse: 1e400 A", "choice-value", "1e400 A");
}

TEST_CASE("a lamp that no run reaches is refused with its place") {
  check_refused("from: left rear, to: right rear", "from: left rear, to: right door", "unreachable", "right rear");
}

TEST_CASE("a coach signal that the outlet lacks is refused at the lamp") {
  check_refused("\"2\": {does: tail", "\"2\": {does: nothing", "no-signal", "tail");
}

TEST_CASE("a white wire without a ground is refused") {
  check_refused("{at: front frame stud, takes: coach white}", "{at: front frame stud}", "no-ground", "white");
}

TEST_CASE("every lamp function and every found function of the plain job, misspelt once, is refused on its place") {
  const std::string plain = plain_job();
  for (const char* key : {"stop-turn: ", "tail: P21/5W", "plate: 2 x", "chmsl: ", "reverse: P21W"}) {
    const std::string wrong = std::string(key).insert(std::string(key).find(':'), "q");
    CAPTURE(wrong);
    const Job job = built(changed(plain, key, wrong));
    CHECK_FALSE(job.circuit.has_value());
    CHECK(reported(job, "lamp-function", "is no lamp function"));
  }
  for (const char* does : {"does: tail", "does: left", "does: right"})
    CHECK(reported(built(changed(plain, does, std::string(does) + "q")), "function", "no contact function"));
}

namespace {

// Refused, and once for this reason, at the row that begins with `row`; what follows from it may be said too.
void check_refused(const std::string& text, const std::string& code, const std::string& row) {
  const fixture::Job job = built(text);
  INFO(format_diagnostics(job.diagnostics, job.sources, false));
  CHECK_FALSE(job.circuit.has_value());
  const auto& all = job.diagnostics.all();
  const auto has_code = [&](const Diagnostic& e) { return e.code == code; };
  REQUIRE(std::count_if(all.begin(), all.end(), has_code) == 1);
  const Diagnostic& d = *std::find_if(all.begin(), all.end(), has_code);
  std::istringstream in(text);
  std::string line;
  for (int n = 0; n < d.place.line; ++n) std::getline(in, line);
  CAPTURE(line);
  const std::size_t first = line.find_first_not_of(' ');
  CHECK(line.compare(first, row.size(), row) == 0);
}

std::string with_found(const std::string& rows) {
  std::string text = plain_job();
  const std::size_t from = text.find("    \"2\": {does: tail"), to = text.find("cord:");
  return text.replace(from, to - from, rows);
}

}  // namespace

TEST_CASE("a coach without ground, or without any signal: one such error each") {
  check_refused(with_found("    \"1\": {does: nothing}\n"), "no-ground", "outlet:");
  check_refused(with_found("    \"2\": {does: nothing}\n    \"3\": {does: nothing}\n    \"4\": {does: nothing}\n"), "no-source", "outlet:");
}

TEST_CASE("a signal that two contacts carry") {
  check_refused(with_found("    \"2\": {does: left}\n    \"3\": {does: left}\n    \"4\": {does: right}\n"), "signal-twice", "\"3\":");
}

TEST_CASE("one node fed in two ways") {
  check_refused(changed(plain_job(), "node: REV", "node: TAIL"), "node-drivers", "reverse:");
}
