// F, measure: the volts lost on the way of one lamp's current, piece by piece, by the arithmetic of a fitter.
#include <algorithm>
#include <cmath>
#include <memory>

#include "size/parts.hpp"
#include "sheets/worksheet.hpp"

namespace towloom::worksheet {
namespace {

constexpr double nothing_v = 0.0005;   // what is lost in less is not worth a line

// A number as it is printed: whoever reckons with it finds what the key says.
double printed(double value, int decimals) { return std::round(value * std::pow(10, decimals)) / std::pow(10, decimals); }
constexpr int milliohm_decimals = 2, metre_decimals = 2, amp_decimals = 2, volt_decimals = 3;

struct Step {
  std::string what, about;
  bool wire = false, back = false;     // back: behind the lamp
  std::string size;
  double mm2 = 0, milliohm_m = 0, metres = 0;   // of a wire
  double milliohm = 0;                 // of anything else; 0: its volts are given
  double amps = 0, lost_v = 0;         // lost_v: by the printed figures
  double solved_v = 0;
};
struct Chain {
  std::string scene, lamp;
  double begin_v = 0, lamp_v = 0;      // between the source's terminals; at the lamp
  std::vector<Step> steps;
  double temperature = 20;
  std::vector<const WireSeries*> series;   // as they are met
  bool pulsed = false;
};

Step step_of(const Job& job, const Phase& phase, const Current& a, bool back, Chain& chain) {
  const Circuit& c = job.circuit();
  const auto volts = [&](int point) { return phase.volts[static_cast<std::size_t>(point)]; };
  Step out;
  out.back = back;
  out.amps = printed(a.amps, amp_decimals);
  out.solved_v = volts(a.from) - volts(a.to);
  out.what = piece_text(c, a, job.style);
  if (a.wire) {
    const Wire& w = c.wires[static_cast<std::size_t>(a.wire.v)];
    out.about = w.id;
    const FoundSize row = w.size ? series_row(*w.size, c, job.catalogue) : FoundSize{};
    if (row.size != nullptr && w.fixed_ohm < 0 && w.length_m > 0) {
      out.wire = true;
      out.size = w.size->text();
      out.mm2 = row.size->area_mm2;
      out.metres = printed(w.length_m, metre_decimals);
      out.milliohm_m = printed(1000 * wire_ohm(w, c, job.catalogue) / w.length_m, milliohm_decimals);
      out.lost_v = printed(out.milliohm_m * out.metres * out.amps / 1000, volt_decimals);
      if (std::find(chain.series.begin(), chain.series.end(), row.series) == chain.series.end()) chain.series.push_back(row.series);
      return out;
    }
    out.milliohm = printed(1000 * wire_ohm(w, c, job.catalogue), milliohm_decimals);
  } else {
    out.about = c.part(a.part).id;
    if (a.element != nullptr && a.element->law == Law::resistor) out.milliohm = printed(1000 * a.element->ohm, milliohm_decimals);
  }
  out.lost_v = printed(out.milliohm > 0 ? out.milliohm * out.amps / 1000 : out.solved_v, volt_decimals);
  return out;
}

double metres_of(const Chain& chain) {
  double out = 0;
  for (const Step& s : chain.steps) out += s.metres;
  return out;
}

std::shared_ptr<const Chain> chain_of(const Job& job, std::size_t s, std::size_t l) {
  const Circuit& c = job.circuit();
  const PartId lamp = c.lamps[l].lamp;
  const Solved& solved = job.states().solved[s];
  const Traced t = trace_lamp(c, job.catalogue, job.states().scenes[s], solved, lamp);
  if (!t.way.closed || t.way.steps.size() < 3) return nullptr;
  const Phase& phase = solved.phase[static_cast<std::size_t>(t.phase)];
  const auto volts = [&](int point) { return phase.volts[static_cast<std::size_t>(point)]; };
  const auto out = std::make_shared<Chain>();
  out->scene = job.states().scenes[s].name;
  out->lamp = lamp_place(c.part(lamp), job.style);
  out->begin_v = volts(t.way.steps.front().from) - volts(t.way.steps.back().to);
  out->temperature = c.wire_celsius;
  out->pulsed = solved.pulsed;
  for (std::size_t i = 0; i < t.way.steps.size(); ++i) {
    const Current& a = t.way.steps[i];
    if (i == t.way.lamp) {
      out->lamp_v = volts(a.from) - volts(a.to);
      continue;
    }
    Step step = step_of(job, phase, a, i > t.way.lamp, *out);
    if (std::fabs(step.solved_v) >= nothing_v) out->steps.push_back(std::move(step));
  }
  return out;
}

// Of ways that a page holds the longest; else the one of the fewest pieces.
bool better(const Chain& a, const Chain& b) {
  constexpr std::size_t of_a_page = 15;
  const bool fits_a = a.steps.size() <= of_a_page, fits_b = b.steps.size() <= of_a_page;
  if (fits_a != fits_b) return fits_a;
  return fits_a ? metres_of(a) > metres_of(b) + 0.001 : a.steps.size() < b.steps.size();
}

// Of a lamp that is lit without flashing; else of one that flashes.
std::shared_ptr<const Chain> choose(const Job& job) {
  for (const Seen look : {Seen::lit, Seen::flash}) {
    std::shared_ptr<const Chain> best;
    for (std::size_t s = 0; s < job.states().scenes.size(); ++s) {
      if (job.states().scenes[s].kind != "towing" || !to_print(job.states(), s)) continue;
      for (std::size_t l = 0; l < job.circuit().lamps.size(); ++l) {
        if (job.states().lamps[s][l].seen != look || job.states().required[s][l] != look) continue;
        auto chain = chain_of(job, s, l);
        if (chain != nullptr && (best == nullptr || better(*chain, *best))) best = std::move(chain);
      }
    }
    if (best != nullptr) return best;
  }
  return nullptr;
}

std::string amps_text(double amps) { return format_fixed(amps, amp_decimals) + " A"; }
std::string lost_text(double volts) { return format_fixed(volts, volt_decimals) + " V"; }

std::string arithmetic(const Step& s, const Job& job) {
  if (s.wire) return format_fixed(s.milliohm_m, milliohm_decimals) + " mΩ/m × " + format_fixed(s.metres, metre_decimals) + " m × " + amps_text(s.amps);
  if (s.milliohm > 0) return format_fixed(s.milliohm, milliohm_decimals) + " mΩ × " + amps_text(s.amps);
  return job.say("worksheet-volts-given");
}
std::string given(const Step& s, const Job& job) {
  if (s.wire) return "";
  return s.milliohm > 0 ? format_fixed(s.milliohm, milliohm_decimals) + " mΩ" : job.say("worksheet-takes") + " " + lost_text(s.lost_v);
}

// The learner gets what is known and boxes; the key the same figures as arithmetic.
SheetTable chain_table(const Job& job, const Chain& chain, bool key) {
  const auto say = [&](const char* name) { return job.say(name); };
  SheetTable out{say("worksheet-chain") + ": " + chain.lamp + ", " + say("worksheet-in-state") + " '" + chain.scene + "'", {{say("worksheet-piece")}, {say("size")}}, {}, mm(4)};
  if (key) out.columns.insert(out.columns.end(), {{say("worksheet-arithmetic")}, {say("worksheet-lost"), Anchor::end}});
  else out.columns.insert(out.columns.end(), {{"mm²", Anchor::end}, {say("worksheet-length"), Anchor::end}, {say("worksheet-given"), Anchor::end}, {say("worksheet-amps"), Anchor::end}, {say("worksheet-lost"), Anchor::middle, false, mm(18)}});
  const auto head = [&](const char* name) { out.rows.push_back({{{say(name), Weight::semibold}}}); };
  const auto row = [&](const char* name, const std::string& known, const std::string& sum, const std::string& result) {
    if (key) out.rows.push_back({{{say(name)}, {""}, {sum, Weight::regular, "quiet"}, {result, Weight::semibold}}});
    else out.rows.push_back({{{say(name)}, {""}, {""}, {""}, {known}, {""}, known.empty() ? box_cell(mm(18)) : SheetCell{""}}});
  };
  double sum = 0;
  for (const bool back : {false, true}) {
    head(back ? "worksheet-way-back" : "worksheet-way-there");
    for (const Step& s : chain.steps) {
      if (s.back != back) continue;
      sum += s.lost_v;
      if (key) out.rows.push_back({{{s.what}, {s.size}, {arithmetic(s, job), Weight::regular, "quiet"}, {lost_text(s.lost_v)}}});
      else out.rows.push_back({{{s.what}, {s.size}, {s.wire ? format_fixed(s.mm2, 2) : ""}, {s.wire ? format_fixed(s.metres, metre_decimals) + " m" : ""}, {given(s, job)}, {amps_text(s.amps)}, box_cell(mm(18))}});
    }
  }
  head("worksheet-result");
  const std::string begin = format_fixed(chain.begin_v, volt_decimals) + " V";
  row("worksheet-begin", begin, job.say("worksheet-volts-given"), begin);
  row("worksheet-all-lost", "", say("worksheet-sum"), lost_text(sum));
  row("worksheet-at-lamp", "", begin + " – " + lost_text(sum), format_fixed(printed(chain.begin_v, volt_decimals) - sum, 2) + " V");
  if (key) out.notes = {say("worksheet-solved") + " " + format_fixed(chain.lamp_v, 2) + " V."};
  return out;
}

// Ohms per metre of the series that are met, at the temperature of the conductors.
SheetTable ohms_table(const Job& job, const Chain& chain) {
  const std::string at = format_plain(chain.temperature) + " °C";
  SheetTable out{job.say("worksheet-ohms"), {{job.say("size")}, {"mm²", Anchor::end}, {job.say("worksheet-ohm-per-m") + " " + at, Anchor::end}}, {}, mm(4)};
  constexpr double alpha = 0.00393;    // a kelvin: copper, IEC 60028
  for (const WireSeries* series : chain.series) {
    const auto used = [&](const WireSize& size) { return std::any_of(chain.steps.begin(), chain.steps.end(), [&](const Step& s) { return s.size == size.name.text(); }); };
    for (std::size_t i = 0; i < series->sizes.size(); ++i) {   // those that are met, and their neighbours
      const bool near = used(series->sizes[i]) || (i > 0 && used(series->sizes[i - 1])) || (i + 1 < series->sizes.size() && used(series->sizes[i + 1]));
      const WireSize& size = series->sizes[i];
      if (near) out.rows.push_back({{{size.name.text(), Weight::semibold}, {format_fixed(size.area_mm2, 2)}, {format_fixed(1000 * size.ohm_per_m * (1 + alpha * (chain.temperature - 20)), milliohm_decimals) + " mΩ"}}});
    }
    out.notes.push_back(series->name + ": " + series->resistance.source + ".");
  }
  if (chain.temperature != 20) out.notes.push_back(job.say("worksheet-warm"));
  return out;
}

}  // namespace

Worksheet measure_it(const Job& job) {
  Worksheet out{'F'};
  const auto chain = choose(job);
  if (chain == nullptr) return out.left_out = job.say("worksheet-none-f"), out;
  const auto drawn = [&job, chain](Numbering n, bool key) {
    const Sheet sheet{'F', key};
    const std::string pulse = chain->pulsed ? " " + job.say("worksheet-pulse") : "";
    const std::string text = (key ? job.say("worksheet-step-f") : task_of(job, 'F')) + pulse;
    const SheetTable pieces = chain_table(job, *chain, key);
    SheetTable ohms = ohms_table(job, *chain);
    Pages above = table_of(job, sheet, n, text, {{pieces, ohms}});
    if (above.size() == 1) return above;
    ohms.notes.push_back(text);     // a long way leaves no room above it
    Pages beside = table_of(job, sheet, n, "", {{pieces, ohms}});
    return beside.size() < above.size() ? beside : above;
  };
  out.sheet = [drawn](Numbering n) { return drawn(n, false); };
  out.key = [drawn](Numbering n) { return drawn(n, true); };
  return out;
}

}  // namespace towloom::worksheet
