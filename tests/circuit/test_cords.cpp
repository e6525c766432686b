// Cords between unlike ends: which core joins which contacts, typed from connectors.md 1.4, 1.6, 1.7, 2.1, 2.3, 6.1.
#include <algorithm>

#include "circuit/fixture.hpp"

using namespace towloom;
using namespace towloom::fixture;

namespace {

// Thirteen contacts at the coach, separate signals; the charge line is left out.
std::string wagon(const std::string& inlet) {
  return bare(changed(job_file("medium-wagon"), "inlet: {form: iso-13, use: coding,", "inlet: {" + inlet + ","));
}

// The plain job behind another outlet: the rows of its survey stand on these contacts.
std::string behind(const std::string& outlet, const std::string& inlet, const std::string& tail, const std::string& left, const std::string& right) {
  std::string text = changed(plain_job(), "outlet: flat-4, left of receiver", "outlet: {" + outlet + "}");
  text = changed(text, "inlet: {form: flat-4, half: trailer,", "inlet: {" + inlet + ",");
  text = changed(text, "\"2\": {does: tail,", tail + ": {does: tail,");
  text = changed(text, "\"3\": {does: left,", left + ": {does: left,");
  return changed(text, "\"4\": {does: right,", right + ": {does: right,");
}
std::string behind_blade(const std::string& inlet) { return behind("form: blade-7", inlet, "TAIL", "LT", "RT"); }

// "1>2" for a core from contact 1 of the outlet to contact 2 of the inlet, in the order of the outlet's contacts.
std::string cores(const Circuit& c) {
  std::string out;
  for (const Part& part : c.parts) {
    if (part.group != "J1") continue;
    std::vector<const Part*> at{&part};
    for (std::size_t i = 0; i < at.size(); ++i)
      for (const Wire& w : c.wires) {
        if (w.group.rfind("cord", 0) != 0) continue;   // "cord", or a core with a size of its own
        const Part &a = c.part(w.from.part), &b = c.part(w.to.part);
        const Part* far = &a == at[i] ? &b : &b == at[i] ? &a : nullptr;
        if (far == nullptr || std::find(at.begin(), at.end(), far) != at.end()) continue;
        if (far->group == "J2") out += (out.empty() ? "" : " ") + part.contact + ">" + far->contact;
        if (far->group != "J2") at.push_back(far);
      }
  }
  return out;
}

std::string joined(const std::string& text) {
  const Job job = built(text);
  INFO(format_diagnostics(job.diagnostics, job.sources, false));
  REQUIRE(job.circuit.has_value());
  return cores(*job.circuit);
}

}  // namespace

TEST_CASE("thirteen contacts to seven (12N): 1 to 7 go straight; reverse, which seven have not, stays out") {
  CHECK(joined(wagon("form: iso-12n")) == "1>1 2>2 3>3 4>4 5>5 6>6 7>7");
}

TEST_CASE("a charge line through a cord that has no core for it is refused, and the contact is named") {
  const Job job = built(changed(job_file("medium-wagon"), "inlet: {form: iso-13, use: coding,", "inlet: {form: iso-12n,"));
  CHECK_FALSE(job.circuit.has_value());
  CHECK(reported(job, "no-signal", "contact 9 of the outlet carries charge, but no core of the cord takes it to the seven-way ISO 1724"));
}

TEST_CASE("1.7: seven-way blade to six-way round and to four-way flat, function by function") {
  CHECK(joined(behind_blade("form: round-6")) == "1>2 3>1 5>3 6>4");
  CHECK(joined(behind_blade("form: flat-4, half: trailer")) == "1>1 3>2 5>3 6>4");
}

TEST_CASE("six-way round to four-way flat and back") {
  CHECK(joined(behind("form: round-6", "form: flat-4, half: trailer", "TM", "LT", "RT")) == "1>2 2>1 3>3 4>4");
  CHECK(joined(behind("form: flat-4", "form: round-6", "\"2\"", "\"3\"", "\"4\"")) == "1>2 2>1 3>3 4>4");
}

TEST_CASE("a centre pin that carries reverse takes the blade's reverse core, and the charge core stays out") {
  std::string text = changed(behind_blade("form: round-6, use: reverse"), ", node: REV, in tow: dark}", ", node: REV}");
  text = changed(text, "    TAIL: {does: tail,", "    REV: {does: reverse, open: 13.5 V, loaded: 12.9 V, load: 4.2 A}\n    TAIL: {does: tail,");
  CHECK(joined(text) == "1>2 3>1 5>3 6>4 7>6");
}

TEST_CASE("J560 to a six-way round whose S is stated to carry stop: five wires arrive") {
  const std::string text = changed(job_file("delivery-van"), "inlet: {form: j560,", "inlet: {form: round-6, use: coach-stop,");
  CHECK(joined(text) == "1>2 3>3 4>5 5>4 6>1");
}

TEST_CASE("J560 to a six-way round without that: the stop contact that the converter wants is named") {
  const Job job = built(changed(job_file("delivery-van"), "inlet: {form: j560,", "inlet: {form: round-6,"));
  CHECK_FALSE(job.circuit.has_value());
  CHECK(reported(job, "no-signal", "contact 4 of the outlet carries stop, but no core of the cord takes it to the six-way round"));
}

TEST_CASE("one tail lead for both sides of a 12N inlet: parted in the plug, each side on its own contact") {
  const std::string text = behind_blade("form: iso-12n");
  CHECK(joined(text) == "1>3 3>7 3>5 5>1 6>4");
  const Job job = built(text);
  REQUIRE(job.circuit);
  CHECK(job.circuit->part(job.circuit->find("J2.5")).function == "right-tail");
  CHECK(job.circuit->part(job.circuit->find("J2.7")).function == "left-tail");
  for (const LampIntent& lamp : job.circuit->lamps)
    if (job.circuit->part(lamp.lamp).title == "tail")
      CHECK(lamp.tow_signal == (lamp.side == Side::left ? "left-tail" : "right-tail"));
}

TEST_CASE("6.1: the tail leads of the sides are never tied together: the left one alone feeds a common lead") {
  const std::string text = behind("form: iso-12n", "form: flat-4, half: trailer", "58L", "L", "R");
  const Job job = built(changed(text, "58L: {does: tail,", "58L: {does: left-tail,"));
  INFO(format_diagnostics(job.diagnostics, job.sources, false));
  REQUIRE(job.circuit.has_value());
  CHECK(cores(*job.circuit) == "1>3 3>1 4>4 7>2");
}

TEST_CASE("ends of one form go straight, also where one of them is put to another use") {
  std::string text = changed(job_file("mixed-hatchback"), "inlet: {form: round-6,", "inlet: {form: round-6, use: reverse,");
  const Job job = built(text);   // the charge line finds no contact for charge at the inlet
  CHECK_FALSE(job.circuit.has_value());
  CHECK(reported(job, "no-signal", "charge"));
}

TEST_CASE("what a contact was found to do travels with its core, and the car's harness follows") {
  std::string text = behind_blade("form: round-6");
  text = changed(text, "LT: {does: left,", "LT: {does: right,");
  text = changed(text, "RT: {does: right,", "RT: {does: left,");
  const Job job = built(text);
  REQUIRE(job.circuit);
  CHECK(cores(*job.circuit) == "1>2 3>1 5>3 6>4");
  CHECK(job.circuit->part(job.circuit->find("J2.3")).function == "right");
}

TEST_CASE("cores have the outlet's number and colour") {
  const Job job = built(behind_blade("form: round-6"));
  REQUIRE(job.circuit);
  std::string said;
  for (const Wire& w : job.circuit->wires)
    if (w.group == "cord") said += w.id + " " + w.colour + "; ";
  CHECK(said == "C1 WH; C3 BN; C5 YE; C6 GN; ");
}

TEST_CASE("a cord is metered at contacts that its ends have") {
  const auto cord = [](const std::string& rows) { return built(changed(plain_job(), "cord: {length: 2.4 m,", "cord: {length: 2.4 m, continuity: {" + rows + "},")); };
  CHECK(reported(cord("\"9\": \"1\""), "unknown-contact", "no contact '9'"));
  CHECK(reported(cord("\"3\": \"7\""), "unknown-contact", "no contact '7'"));
  CHECK(cord("\"3\": none").circuit.has_value());
}
