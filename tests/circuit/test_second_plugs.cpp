// What comes over a plug of its own beside the main one: what a job need not say, and what it cannot say.
#include <algorithm>

#include "circuit/fixture.hpp"

using namespace towloom;
using namespace towloom::fixture;

namespace {

const std::string charge = "extras:\n  charge line: {limiter: diode, diode: low-drop, fuse: 15 A}\n";

// The plain job, whose flat four has no contact for it, with a charge line.
std::string with_plug(const std::string& plug, const std::string& extras = charge) {
  return changed(changed(plain_job(), "\ncar:\n", "\nsecond plugs:\n" + plug + "\ncar:\n"), "\nruns:\n", "\n" + extras + "runs:\n  battery: {from: inlet, to: battery, length: 1 m}\n");
}
const Wire* wire(const Circuit& c, const std::string& id) {
  const auto at = std::find_if(c.wires.begin(), c.wires.end(), [&](const Wire& w) { return w.id == id; });
  return at == c.wires.end() ? nullptr : &*at;
}
bool warned(const Job& job, const std::string& code, const std::string& words) { return reported(job, code, words); }

}  // namespace

// Two-way charge plug: + is 1, - is 2 (an encyclopedia's article). The cord is as long and as thick as the main one.
TEST_CASE("a second plug that only says its form takes functions from the catalogue, cord and inlet from the main one") {
  const Job job = built(with_plug("  charge plug: {outlet: \"charge-2, right of the receiver\"}\n"));
  INFO(format_diagnostics(job.diagnostics, job.sources, false));
  REQUIRE(job.circuit.has_value());
  const Circuit& c = *job.circuit;
  for (const char* part : {"J3.1", "J3.2", "J4.1", "J4.2"}) CHECK(c.find(part));
  const Wire *plus = wire(c, "C3.1"), *minus = wire(c, "C3.2");
  REQUIRE(plus != nullptr);
  REQUIRE(minus != nullptr);
  CHECK(plus->length_m == doctest::Approx(2.4));
  CHECK(plus->size->text() == "16 AWG");
  CHECK(plus->colour == "RD");
  CHECK(minus->colour == "BK");
  CHECK(c.net(c.terminal("J4.1.car")) == c.net(c.terminal("D5.A")));
  CHECK(c.net(c.terminal("J4.2.car")) == c.net(c.terminal("G-F.1")));
  // The main plug stays as it was.
  for (const char* core : {"C1", "C2", "C3", "C4"}) CHECK(wire(c, core) != nullptr);
}

TEST_CASE("a signal that two outlets carry is refused, with both named") {
  std::string text = with_plug("  charge plug: {outlet: charge-2}\n  other plug: {outlet: charge-2}\n");
  const Job job = built(text);
  CHECK_FALSE(job.circuit.has_value());
  CHECK(reported(job, "signal-twice", "contacts 1 of the charge plug and 1 of the other plug both carry charge"));
  // The main outlet's tail, and the auxiliary plug's as a careless row has it.
  CHECK(reported(built(with_plug("  aux plug: {outlet: j560-aux, found: {\"2\": {does: tail}, \"4\": {does: charge}}}\n")), "signal-twice",
                 "contacts 2 of the main outlet and 2 of the aux plug both carry tail"));
  // Where the other one was found dead, all is said.
  CHECK(built(with_plug("  charge plug: {outlet: charge-2}\n  other plug: {outlet: charge-2, found: {\"1\": {does: nothing}}}\n")).circuit.has_value());
}

TEST_CASE("a contact that the second outlet has not, a cord end that does not mate it, a plug that brings nothing") {
  CHECK(reported(built(with_plug("  charge plug: {outlet: charge-2, found: {\"3\": {does: charge}}}\n")), "unknown-contact", "two-way flat, charge line has no contact '3'"));
  CHECK(reported(built(with_plug("  charge plug: {outlet: charge-2, cord: {length: 2 m, ends: [flat-4 trailer, charge-2 source]}}\n")), "cord-end", "the coach's outlet of the charge plug"));
  const Job idle = built(changed(with_plug("  spare plug: {outlet: charge-2}\n"), charge, ""));
  CHECK(idle.circuit.has_value());
  CHECK_FALSE(idle.circuit->find("J3.1"));
  CHECK(warned(idle, "plug-unused", "nothing of this job comes over the spare plug"));
}

// The auxiliary heavy seven-way: its own white wire lands on the same stud, beside that of the main plug.
TEST_CASE("a second plug brings its own ground, and what its contacts were found to do") {
  const Job job = built(with_plug("  aux plug: {outlet: j560-aux, found: {\"4\": {does: charge, open: 13.6 V, loaded: 13.4 V, fuse: 15 A}}}\n"));
  INFO(format_diagnostics(job.diagnostics, job.sources, false));
  REQUIRE(job.circuit.has_value());
  const Circuit& c = *job.circuit;
  CHECK(c.net(c.terminal("J4.1.car")) == c.net(c.terminal("G-F.1")));
  CHECK(c.net(c.terminal("J2.1.car")) == c.net(c.terminal("G-F.1")));
  CHECK(c.net(c.terminal("J4.4.car")) == c.net(c.terminal("D5.A")));
  CHECK_FALSE(c.find("J3.2"));
}

// Metered: + and - of the charge plug's cord are exchanged.
TEST_CASE("the cord of a second plug is laid as it was metered") {
  Job job = built(with_plug("  charge plug: {outlet: charge-2, cord: {length: 2 m, wire: 12 AWG, continuity: {\"+\": \"-\", \"-\": \"+\"}}}\n"));
  INFO(format_diagnostics(job.diagnostics, job.sources, false));
  REQUIRE(job.circuit.has_value());
  Circuit c = *job.circuit;
  CHECK(c.net(c.terminal("J3.1.cord")) == c.net(c.terminal("J4.1.cord")));
  lay_as_metered(c, *job.spec, *job.catalogue);
  CHECK(c.net(c.terminal("J3.1.cord")) == c.net(c.terminal("J4.2.cord")));
}
