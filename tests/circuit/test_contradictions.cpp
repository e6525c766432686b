// Jobs that contradict themselves: each error at its place, no circuit.
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
  check_refused("0.75 mm2 to G-RL}", "0.75 mm2 to G-XX}", "unknown-ground", "G-XX");
  check_refused("standard: AWG", "standard: AGW", "wire-standard", "AGW");
  check_refused("plate: with left tail", "plate: with left tale", "refeed", "left tale");
  check_refused("lamps: auto ribbon of 4", "lamsp: auto ribbon of 4", "wire-circuit", "lamsp");
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
