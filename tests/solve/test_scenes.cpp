// Which scenes a job has, which of them stand for others, and why: by the rules of trade and survey.
#include <algorithm>

#include "circuit/fixture.hpp"
#include "solve/required.hpp"
#include "solve/solve.hpp"

using namespace towloom;

namespace {

std::string job_text(const char* name) {
  std::ifstream in(std::filesystem::path(TOWLOOM_ROOT) / "specs" / "jobs" / (std::string(name) + ".yaml"));
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

struct Listed {
  fixture::Job job;
  std::vector<Scene> scenes;
  explicit Listed(const std::string& text) : job(fixture::built(text)) {
    REQUIRE(job.circuit);
    scenes = list_scenes(*job.circuit, *job.catalogue, *job.spec);
  }
  const Scene* find(const std::string& name) const {
    const auto at = std::find_if(scenes.begin(), scenes.end(), [&](const Scene& s) { return s.name == name; });
    return at == scenes.end() ? nullptr : &*at;
  }
  int with(const std::string& words) const {
    return static_cast<int>(std::count_if(scenes.begin(), scenes.end(), [&](const Scene& s) { return s.name.find(words) != std::string::npos; }));
  }
};

bool stands_for(const Scene& scene, const std::string& name) { return std::find(scene.also.begin(), scene.also.end(), name) != scene.also.end(); }

}  // namespace

// Plug of four: no charge contact, no disconnect. On combined wires braking hides behind both sides flashing.
TEST_CASE("the plain job: tail x stop x turn x pedal, each with its reason") {
  const Listed l(fixture::plain_job());
  int towing = 0;
  for (const Scene& s : l.scenes) {
    CAPTURE(s.name);
    CHECK_FALSE(s.reason.empty());
    towing += s.kind == "towing";
  }
  CHECK(towing == 28);   // (2 tail x 2 stop x 4 turns less hazard's two twins) x 2 pedal
  REQUIRE(l.find("hazard") != nullptr);
  CHECK(stands_for(*l.find("hazard"), "stop + hazard"));
  CHECK(stands_for(*l.find("tail + hazard, pedal pressed"), "tail + stop + hazard, pedal pressed"));
  CHECK(l.with("engine") == 0);
  CHECK(l.with("disconnect") == 0);
  CHECK(l.with("steady") == 0);   // the lit half of the flash: no part looks at whole flashes
}

// Sheets cannot hold every state: those that the trade asks for by name, and what is wrong.
TEST_CASE("of the scenes in another state few are printed") {
  const Listed l(fixture::plain_job());
  CHECK(l.find("tail + stop + left")->printed);
  CHECK(l.find("stop + left, pedal pressed")->printed);
  CHECK_FALSE(l.find("tail + stop + left, pedal pressed")->printed);
  CHECK(l.find("car: pedal + left")->printed);
  CHECK_FALSE(l.find("coach: hazard")->printed);
}

TEST_CASE("separate wires: braking shows beside both sides flashing") {
  const Listed l(job_text("medium-wagon"));
  REQUIRE(l.find("stop + hazard") != nullptr);
  CHECK_FALSE(stands_for(*l.find("hazard"), "stop + hazard"));
  CHECK(l.with(", pedal pressed") == 0);   // surveyed: dead with the key out
}

TEST_CASE("stop lamps that sleep are solved awake; asleep they stand with the pedal up") {
  const Listed l(job_text("compact-crossover"));
  REQUIRE(l.find("stop, pedal pressed") != nullptr);
  CHECK(l.with("asleep") == 0);
  CHECK(stands_for(*l.find("stop"), "stop, pedal pressed, stop lamps asleep"));
  CHECK(stands_for(*l.find("all off"), "pedal pressed, stop lamps asleep"));
}

TEST_CASE("the engine is a state where the charge contact may follow it") {
  const std::string text = job_text("small-sedan"), row = "A: {does: charge,";
  const Listed unknown(text), always(fixture::changed(text, row, row + " live: always,")), engine(fixture::changed(text, row, row + " live: engine,"));
  const auto required = [](const Listed& l, const char* name) { return required_lamps(*l.job.circuit, *l.job.spec, *l.find(name)); };
  REQUIRE(unknown.find("hazard, engine off") != nullptr);
  CHECK(unknown.find("hazard, engine off")->signal("coach.charge") == Wave::off);
  CHECK(unknown.find("hazard")->signal("coach.charge") == Wave::on);
  for (const Seen seen : required(unknown, "hazard, engine off")) CHECK(seen == Seen::may);   // nobody asked
  CHECK(always.with("engine off") == 0);
  CHECK(always.find("hazard")->signal("coach.charge") == Wave::on);
  REQUIRE(engine.find("hazard, engine off") != nullptr);
  CHECK(required(engine, "hazard, engine off") == required(engine, "hazard"));
}

TEST_CASE("a battery disconnect is solved open and left closed") {
  const Listed l(job_text("large-pickup"));
  REQUIRE(l.find("tail") != nullptr);
  REQUIRE(l.find("tail, not switched to tow") != nullptr);
  CHECK(l.find("tail")->signal("towed") == Wave::on);
  CHECK(l.find("tail, not switched to tow")->signal("towed") == Wave::off);
  CHECK(l.find("tail, not switched to tow")->reason.find("disconnect closed") != std::string::npos);
}

TEST_CASE("a side held on is a scene of its own where a converter looks at whole flashes") {
  const Listed l(job_text("compact-sedan"));
  REQUIRE(l.find("left-steady") != nullptr);
  CHECK(l.find("left-steady")->signal("coach.left") == Wave::on);
}

TEST_CASE("what the coach's driver does reaches the outlet as its wires carry it") {
  const Listed combined(fixture::plain_job()), separate(job_text("medium-wagon"));
  const Scene& a = *combined.find("stop + left");   // turn before stop on one wire
  CHECK(a.signal("coach.left") == Wave::flash);
  CHECK(a.signal("coach.right") == Wave::on);
  const Scene& b = *separate.find("stop + left");
  CHECK(b.signal("coach.left") == Wave::flash);
  CHECK(b.signal("coach.right") == Wave::off);
  CHECK(b.signal("coach.stop") == Wave::on);
}
