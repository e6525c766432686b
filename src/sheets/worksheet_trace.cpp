// A, read and trace: the way of the current in one state is coloured, and its parts listed in order.
#include <algorithm>

#include "sheets/highlight.hpp"
#include "sheets/worksheet.hpp"

namespace towloom::worksheet {
namespace {

// Two signals on one lamp first: who can read these can read the others.
const char* const states_to_trace[] = {"stop + left", "stop + right", "tail + left", "left", "right", "stop", "tail"};

struct Trace {
  std::size_t scene = 0;
  std::vector<std::size_t> lamps;      // whose way is looked for
  LivePath path;
  std::vector<const Drawing*> pages;   // on which it runs
};

bool is_on(const Drawing& page, const LivePath& path, const Circuit& c) {
  return std::any_of(page.items.begin(), page.items.end(), [&](const Item& item) {
    const auto* run = std::get_if<WireRun>(&item);
    if (run == nullptr) return false;
    for (std::size_t w = 0; w < c.wires.size(); ++w)
      if (path.wires[w] != 0 && c.wires[w].id == run->wire) return true;
    return false;
  });
}

std::vector<const Drawing*> pages_of(const Job& job, const LivePath& path) {
  std::vector<const Drawing*> out;
  for (const Drawing* page : job.bench)
    if (is_on(*page, path, job.circuit())) out.push_back(page);
  return out;
}

// All lit lamps where one page holds everything; else the one whose way runs over the fewest pages.
std::optional<Trace> choose(const Job& job) {
  for (const char* name : states_to_trace) {
    const auto scene = towing_scene(job.states(), name);
    if (!scene) continue;
    Trace all{*scene, {}, live_in_scene(job.facts, *scene), {}};
    std::optional<Trace> one;
    for (std::size_t l = 0; l < job.circuit().lamps.size(); ++l) {
      if (!gives_light(job.states().lamps[*scene][l].seen)) continue;
      all.lamps.push_back(l);
      LivePath path = live_of_lamp(job.facts, *scene, l);
      std::vector<const Drawing*> pages = pages_of(job, path);
      if (!pages.empty() && (!one || pages.size() < one->pages.size())) one = Trace{*scene, {l}, std::move(path), std::move(pages)};
    }
    if (!one) continue;
    all.pages = pages_of(job, all.path);
    return all.pages.size() == 1 ? all : one;
  }
  return std::nullopt;
}

std::string lamps_text(const Job& job, const Trace& t) {
  if (t.lamps.size() > 1) return job.say("worksheet-each-lamp");
  return lamp_place(job.circuit().part(job.circuit().lamps[t.lamps.front()].lamp), job.style);
}

SheetTable parts_in_order(const Job& job, const Trace& t) {
  SheetTable out{job.say("worksheet-parts-in-order") + ": " + job.states().scenes[t.scene].name, {{job.say("proof-lamp")}, {job.say("worksheet-volts-there"), Anchor::end}, {job.say("worksheet-its-way"), Anchor::start, true}}, {}};
  for (const std::size_t l : t.lamps) {
    const PartId lamp = job.circuit().lamps[l].lamp;
    const Traced traced = trace_lamp(job.circuit(), job.catalogue, job.states().scenes[t.scene], job.states().solved[t.scene], lamp);
    const LampState& state = job.states().lamps[t.scene][l];
    out.rows.push_back({{{lamp_place(job.circuit().part(lamp), job.style), Weight::semibold}, {format_fixed(state.meter_v, 1) + " V"},
                         {joined(in_order(job.circuit(), traced.way, job.style), " – ")}}});
  }
  return out;
}

}  // namespace

Worksheet trace_it(const Job& job) {
  Worksheet out{'A'};
  const auto chosen = choose(job);
  if (!chosen) return out.left_out = job.say("worksheet-none-a"), out;
  const auto drawn = [&job, t = *chosen](Numbering n, Sheet sheet, int more) {
    Pages pages;
    const int count = static_cast<int>(t.pages.size()) + more;
    for (const Drawing* bench : t.pages) {
      StripRows strip = strip_of(job, sheet, n, static_cast<int>(pages.size()) + 1, count);
      strip.scene = job.states().scenes[t.scene].name;
      strip.extra_head = job.say("worksheet-lamp-asked");
      strip.extra = lamps_text(job, t);
      pages.push_back(on_bench(job, *bench, sheet, strip, sheet.key ? std::vector{job.say("worksheet-step-a"), job.say("worksheet-step-brief-a")} : tasks(job, 'A')));
    }
    return pages;
  };
  out.sheet = [&job, drawn](Numbering n) {
    Pages pages = drawn(n, {'A', false}, 0);
    for (Drawing& page : pages) make_hollow(page, job.style), make_mute(page);
    return pages;
  };
  out.key = [&job, drawn, t = *chosen](Numbering n) {
    Numbering last = n;
    last.before += static_cast<int>(t.pages.size());
    Pages list = table_of(job, {'A', true}, last, job.say("worksheet-step-order"), {{parts_in_order(job, t)}});
    Pages pages = drawn(n, {'A', true}, static_cast<int>(list.size()));
    for (Drawing& page : pages) highlight(page, job.circuit(), t.path, job.style);
    for (Drawing& page : list) pages.push_back(std::move(page));
    return pages;
  };
  return out;
}

}  // namespace towloom::worksheet
