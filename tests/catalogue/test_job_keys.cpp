// What `list keys` says a job file may hold, against the reader: asked about a key that it cannot know, the reader names
// those that it does, and of an empty block it names those that it needs.
#include <algorithm>
#include <set>

#include "catalogue/shipped.hpp"
#include "spec/job.hpp"

using namespace towloom;
using namespace towloom::testing;

namespace {

using Keys = std::set<std::string>;

Diagnostics read(const std::string& text) {
  Diagnostics out;
  Sources sources;
  const int file = sources.add("job.yaml", text);
  if (const auto root = read_yaml(file, sources, out)) (void)read_job(*root, file, out);
  return out;
}

struct Block {
  const char* name;
  const char* text;   // % stands for its rows
};
// Those whose reader refuses keys that it does not know; what others take a method's file or the catalogue says.
const Block blocks[] = {
    {"file", "%"},
    {"job", "job: {%}"},
    {"coach", "coach: {%}"},
    {"flasher", "coach: {flasher: {%}}"},
    {"contact", "coach: {found: {a: {%}}}"},
    {"connector", "coach: {outlet: {%}}"},
    {"cord", "cord: {%}"},
    {"second-plug", "second plugs: {a: {%}}"},
    {"car", "car: {%}"},
    {"battery", "car: {battery: {%}}"},
    {"towing", "car: {towing: {%}}"},
    {"stop-switch", "car: {stop switch: {%}}"},
    {"run", "runs: {a: {%}}"},
    {"ground", "grounds: {a: {%}}"},
    {"limits", "limits: {%}"},
    {"as-found", "as found: {a: {%}}"},
    {"reading", "measured: [{%}]"},
    {"sheets", "sheets: {%}"},
};

std::string filled(const Block& b, const std::string& rows) {
  std::string out = b.text;
  return out.replace(out.find('%'), 1, rows);
}

std::string joined(const Keys& keys) {
  std::string out;
  for (const std::string& k : keys) out += k + "; ";
  return out;
}

Keys split_list(const std::string& list) {
  Keys out;
  for (std::size_t at = 0; at < list.size();) {
    const std::size_t end = std::min(list.find(", ", at), list.size());
    out.insert(list.substr(at, end - at));
    at = end + 2;
  }
  return out;
}

}  // namespace

TEST_CASE("list keys names the keys that the reader knows, and those that it needs") {
  const Catalogue& catalogue = shipped();
  for (const Block& b : blocks) {
    const std::string name = b.name;
    CAPTURE(name);
    Keys listed, needed;
    for (const JobKey& k : catalogue.job_keys) {
      if (k.block != b.name) continue;
      listed.insert(k.key);
      if (k.needed) needed.insert(k.key);
    }
    Keys known, lacking;
    std::string block;
    const Diagnostics odd = read(filled(b, "qqqqqqqq: 1"));
    for (const Diagnostic& d : odd.all())
      if (d.code == "unknown-key") {
        known = split_list(d.hint.substr(d.hint.find(": ") + 2));
        block = d.message.substr(d.message.find(" in ") + 4);
      }
    for (const Diagnostic& d : odd.all())
      if (d.code == "missing-key" && d.message.rfind(block + " lacks '", 0) == 0) lacking.insert(d.message.substr(block.size() + 8, d.message.size() - block.size() - 9));
    CHECK(joined(known) == joined(listed));
    CHECK(joined(lacking) == joined(needed));
  }
}

TEST_CASE("the keys of a lamp are read as such, and no other block is listed") {
  std::set<std::string> all;
  for (const JobKey& k : shipped().job_keys) {
    all.insert(k.block);
    if (k.block != "lamp" || k.key == "FUNCTION") continue;
    const Diagnostics out = read("car: {lamps: {a: {tail: R5W, " + k.key + ": b}}}");
    CAPTURE(k.key);
    for (const Diagnostic& d : out.all()) CHECK(d.code != "two-functions");   // what the reader does not know is a function
  }
  for (const Block& b : blocks) CHECK(all.erase(b.name) == 1);
  CHECK(all == std::set<std::string>{"lamp", "added-lamp", "isolation", "wire"});
}
