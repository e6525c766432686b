// What no copper can mend is no matter of sizes: it is left to the rules, which say why.
#include "check/mistakes.hpp"

using namespace towloom;
using namespace towloom::fixture;

// The battery's negative is open in tow: a signal input that returns to its post has no common return with the coach,
// and a little current finds its way through lamps that are dark.
TEST_CASE("a brake signal returned to the post of an open battery is named, not the sizes of wires") {
  const Checked c = checked(edited(shown_job("large-pickup"), {{"  brake signal: {from: brake, unit-at: left rail}", "  brake signal: {from: brake, unit-at: left rail, returns-to: battery negative}"}}));
  const Finding* dead = find_finding(*c.facts, "load-dead");
  REQUIRE(dead != nullptr);
  CHECK(dead->message.find("brake unit's signal input") != std::string::npos);
  CHECK(find_finding(*checked(shown_job("large-pickup")).facts, "load-dead") == nullptr);
}
