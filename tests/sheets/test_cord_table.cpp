// The continuity table of whole jobs: the cores of the solved circuit, no others, and what is wrong with them.
// Expected rows are typed from connectors.md 1.7, 2.1 and 2.3.
#include "check/fixture.hpp"
#include "sheets/faces_fixture.hpp"

using namespace towloom;
using namespace towloom::testing;
using fixture::changed;
using fixture::plain_job;

namespace {

std::string behind_blade(const std::string& inlet) {
  std::string text = changed(plain_job(), "outlet: flat-4, left of receiver", "outlet: blade-7");
  text = changed(text, "inlet: {form: flat-4, half: trailer,", "inlet: {" + inlet + ",");
  text = changed(text, "\"2\": {does: tail,", "TAIL: {does: tail,");
  text = changed(text, "\"3\": {does: left,", "LT: {does: left,");
  return changed(text, "\"4\": {does: right,", "RT: {does: right,");
}

// "C3 3 TAIL>1 TM" a used core; (…) one that the job leaves unused; then what is wrong or to be minded.
std::string table(const std::string& text, std::size_t plug = 0) {
  const auto c = fixture::checked(text);
  std::string out;
  for (const CoreRow& r : cord_rows(*c.facts, *c.job.catalogue, plugs(c.facts->spec)[plug])) {
    if (r.core.empty()) continue;
    std::string row = r.core + " " + r.outlet + ">" + r.inlet;
    if (!r.used) row = "(" + row + ")";
    if (r.crossed) row += " crossed";
    if (r.open) row += " open";
    if (!r.found.empty()) row += " found: " + r.found;
    if (!r.note.empty()) row += " " + r.note;
    out += (out.empty() ? "" : "; ") + row;
  }
  return out;
}

}  // namespace

TEST_CASE("seven-way blade to six-way round: used cores and unused ones by name") {
  CHECK(table(behind_blade("form: round-6")) == "C1 1 GND>2 GD; (C2 2 EBR>5 S); C3 3 TAIL>1 TM; (C4 4 BAT>6 A); C5 5 LT>3 LT; C6 6 RT>4 RT");
}

TEST_CASE("thirteen contacts to seven") {
  CHECK(table(fixture::bare(changed(fixture::job_file("medium-wagon"), "inlet: {form: iso-13,", "inlet: {form: iso-12n,"))) ==
        "C1 1>1; C2 2>2; C3 3>3; C4 4>4; C5 5>5; C6 6>6; C7 7>7");
}

TEST_CASE("one tail core to the contacts of both sides") {
  CHECK(table(behind_blade("form: iso-12n")) ==
        "C1 1 GND>3; C3 3 TAIL>7 one tail lead feeds both sides; C3 3 TAIL>5 one tail lead feeds both sides; C5 5 LT>1; C6 6 RT>4");
}

TEST_CASE("crossed and open cores are marked where they lie") {
  const auto cord = [](const std::string& rows) { return table(changed(plain_job(), "cord: {length: 2.4 m,", "cord: {length: 2.4 m, continuity: {" + rows + "},")); };
  CHECK(cord("\"3\": \"4\", \"4\": \"3\"") == "C1 1>1; C2 2>2; C3 3>4 crossed; C4 4>3 crossed");
  CHECK(cord("\"3\": none") == "C1 1>1; C2 2>2; (C3 3>) open; C4 4>4");
}

TEST_CASE("pins and positions as found stand on both sides of the inlet, and the sheet says why") {
  const Knowledge k = knowledge();
  const auto c = fixture::checked(behind_blade(
      "form: round-6, pins: {S: aux}, positions: {GD: \"2:24 o'clock\", S: \"9:36 o'clock\"}, why: letters read on the part"));
  const auto views = face_views(*c.facts, *c.job.catalogue, k.style);
  REQUIRE(views.size() == 8);
  const auto at = [](const FaceView& v, const std::string& mark) {
    for (const FaceContact& f : v.contacts)
      if (f.contact->mark == mark) return f.x;
    return 0.0;
  };
  // 2:24 o'clock is 72 degrees: GD stands at the right of the socket's face, at the left of its wire side.
  CHECK(at(views[6], "GD") > 0.9);
  CHECK(at(views[7], "GD") < -0.9);
  CHECK(at(views[6], "S") < -0.9);
  CHECK(views[6].site == Site::inlet);
  for (const FaceContact& f : views[6].contacts)
    if (f.contact->mark == "S") {
      CHECK(f.title == "auxiliary");
      CHECK(f.as_found);
    }
}

// The inherited hatchback's cord as it was metered on the day; each core should go by its function.
TEST_CASE("what the cord was found to do stands beside what it should do") {
  const std::string rows = table(fixture::job_file("inherited-hatchback"));
  for (const char* row : {"C1 1 GND>2 GD found: S", "C3 3 TAIL>1 TM found: A", "C4 4 BAT>6 A found: TM", "C5 5 LT>3 LT found: RT", "C6 6 RT>4 RT found: LT"})
    CHECK_MESSAGE(rows.find(row) != std::string::npos, rows);
}

TEST_CASE("each second plug has a cord of its own, marked by its outlet") {
  CHECK(table(fixture::job_file("touring-sedan"), 1) == "C3.1 1 +>1 +; C3.2 2 ->2 -");
  CHECK(table(fixture::job_file("touring-sedan"), 2) == "C5.1 1>1");
}
