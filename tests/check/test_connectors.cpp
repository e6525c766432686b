// Rules about outlet, inlet and cord: each speaks when its cause is given, and only then.
#include "check/fixture.hpp"

using namespace towloom;
using fixture::changed;
using fixture::checked;
using fixture::plain_job;

namespace {

// The plain job with a seven-way blade at the coach; the tail lamp's row stands on contact `tail`.
std::string blade_job(const std::string& tail, const std::string& more = "") {
  std::string text = changed(plain_job(), "outlet: flat-4, left of receiver", "outlet: blade-7");
  text = changed(text, "\"4\": {does: right", "\"6\": {does: right");
  text = changed(text, "\"3\": {does: left", "\"5\": {does: left");
  return changed(text, "\"2\": {does: tail, ", "\"" + tail + "\": {does: tail, " + more);
}

}  // namespace

TEST_CASE("a contact that carries what its form has there is not worth a word") {
  CHECK_FALSE(checked(plain_job()).has("contact-differs"));
  CHECK_FALSE(checked(blade_job("3")).has("contact-differs"));
  CHECK_FALSE(checked(blade_job("TAIL")).has("contact-differs"));
}

TEST_CASE("lamp colours swapped at the outlet: named with the contact, the catalogue's use and the reason") {
  const std::string text = changed(changed(plain_job(), "\"3\": {does: left,", "\"3\": {does: right, note: coach rewired,"),
                                   "\"4\": {does: right,", "\"4\": {does: left,");
  const auto c = checked(text);
  REQUIRE(c.has("contact-differs"));
  const Finding& first = *c.finding("contact-differs");
  CHECK(first.severity == Severity::warning);
  CHECK(first.place.known());
  for (const char* said : {"contact 3", "carry right", "left stop/turn", "coach rewired"})
    CHECK(first.message.find(said) != std::string::npos);
}

TEST_CASE("a cord between ends that both share stop and turn needs no converter") {
  CHECK_FALSE(checked(plain_job()).has("stop-apart"));
  CHECK_FALSE(checked(blade_job("3")).has("stop-apart"));
}

TEST_CASE("an inlet with stop on a contact of its own, fed from an outlet without, is said") {
  const auto c = checked(changed(plain_job(), "inlet: {form: flat-4, half: trailer,", "inlet: {form: au-flat-7,"));
  REQUIRE(c.has("stop-apart"));
  CHECK(c.finding("stop-apart")->message.find("seven-way flat, Australian") != std::string::npos);
  CHECK(c.finding("stop-apart")->place.known());
}
