// Relays that hang on their own contacts, built into the plain job: what `check` says of them.
#include "check/fixture.hpp"
#include "circuit/builder.hpp"

using namespace towloom;
using fixture::spoilt;

namespace {

// A supply of `volts`, a cube relay's coil, and its contact between supply and coil.
Part self_feeding(double volts, Gate gate) {
  Part p;
  p.id = "K9";
  p.kind = "relay";
  p.joins = "body";
  p.terminals = {"supply", "coil", "body"};
  Element source, coil, contact;
  source.law = Law::source;
  source.a = 0;
  source.b = 2;
  source.volts = volts;
  source.ohm = 0.05;
  coil.a = 1;
  coil.b = 2;
  coil.ohm = 85;
  contact.a = 0;
  contact.b = 1;
  contact.ohm = 0.005;
  contact.gate = gate;
  contact.device = 0;
  p.elements = {source, coil, contact};
  p.devices = {{"coil", 1, 2, 8, 1.2, false, -1}};
  return p;
}

}  // namespace

TEST_CASE("a coil fed through its own rest contact is reported as a buzzer") {
  const auto c = spoilt([](Circuit& k) { k.parts.push_back(self_feeding(12.6, Gate::rest)); });
  REQUIRE(c.has("chatter"));
  CHECK(c.finding("chatter")->message.find("K9 never comes to rest") != std::string::npos);
  CHECK(c.finding("chatter")->message.find("K9.coil hangs on K9.coil") != std::string::npos);
  CHECK_FALSE(fixture::checked(fixture::plain_job()).has("chatter"));
}

namespace {

// A supply and a relay whose coil is fed from outside: terminals supply, coil, body, out; the rest contact gives out.
Part giving_on(const char* id) {
  Part p = self_feeding(12.6, Gate::rest);
  p.id = id;
  p.terminals.push_back("out");
  p.elements[2].b = 3;
  return p;
}

Wire from_out(const Circuit& c, const char* from, const char* to) {
  Wire w;
  w.id = std::string("X") + from;
  w.from = c.terminal(from);
  w.to = c.terminal(to);
  w.fixed_ohm = 0.001;
  return w;
}

}  // namespace

// Real relays never move at the same moment: the first to pull in takes the other's supply away and stays in.
TEST_CASE("two relays, each fed over the other's rest contact, race: the loop is named, not called a buzzer") {
  const auto c = spoilt([](Circuit& k) {
    k.parts.push_back(giving_on("K8"));
    k.parts.push_back(giving_on("K9"));
    k.wires.push_back(from_out(k, "K8.out", "K9.coil"));
    k.wires.push_back(from_out(k, "K9.out", "K8.coil"));
  });
  REQUIRE(c.has("chatter"));
  const std::string said = c.finding("chatter")->message;
  CHECK(said.find("K8, K9 race") == 0);
  CHECK(said.find("K8.coil hangs on K9.out, K9.coil on K8.out") != std::string::npos);
}

// Three in a ring, each fed over the rest contact of the one before: no order lets them rest.
TEST_CASE("three relays in a ring of rest contacts never come to rest, in whatever order they move") {
  const auto c = spoilt([](Circuit& k) {
    for (const char* id : {"K7", "K8", "K9"}) k.parts.push_back(giving_on(id));
    k.wires.push_back(from_out(k, "K7.out", "K8.coil"));
    k.wires.push_back(from_out(k, "K8.out", "K9.coil"));
    k.wires.push_back(from_out(k, "K9.out", "K7.coil"));
  });
  REQUIRE(c.has("chatter"));
  CHECK(c.finding("chatter")->message.find("K7, K8, K9 never come to rest") == 0);
}

// A line that the charging current pulls from 13.7 V to below 12.8 V, where a sensing relay lets go.
TEST_CASE("a relay that hunts in many scenes is one finding, which says how a charge line comes to rest") {
  const auto c = fixture::checked(fixture::changed(fixture::job_file("medium-wagon"), "{does: charge, open: 13.7 V, loaded: 13.3 V", "{does: charge, open: 13.7 V, loaded: 12.3 V"));
  int said = 0;
  for (const Finding& f : c.facts->findings) said += f.rule == "chatter";
  CHECK(said == 1);
  REQUIRE(c.has("chatter"));
  CHECK(c.finding("chatter")->message.find(" more") != std::string::npos);
  CHECK(c.finding("chatter")->action.find("charger") != std::string::npos);
}

TEST_CASE("a relay that holds itself is reported as depending on what was before") {
  const auto c = spoilt([](Circuit& k) { k.parts.push_back(self_feeding(12.6, Gate::pulled)); });
  REQUIRE(c.has("depends-on-before"));
  CHECK(c.finding("depends-on-before")->message.find("K9 may stay as it was: K9.coil hangs on K9.coil") != std::string::npos);
  CHECK_FALSE(c.has("chatter"));
  CHECK_FALSE(fixture::checked(fixture::plain_job()).has("depends-on-before"));
}
