// The proof: what each lamp must do against what the circuit does, volts and losses, back-feed, sizes, heat, and
// all that was assumed.
#include <algorithm>
#include <cmath>
#include <map>

#include "check/heat.hpp"
#include "size/parts.hpp"
#include "sheets/seen_mark.hpp"
#include "sheets/table.hpp"

namespace towloom {
namespace {

struct Words {
  const Facts& facts;
  const Catalogue& catalogue;
  const Style& style;

  const Circuit& circuit() const { return facts.circuit(); }
  std::string operator()(const char* key) const { return word(style, key); }
  std::string lamp(const LampIntent& intent) const { return lamp_text(circuit(), circuit().part(intent.lamp), style); }
};

// Where both differ: what must be, an arrow, what is, in a red frame.
void draw_difference(Seen required, Seen solved, Point at, SheetPen& pen) {
  const Pen red = pen.pen("strip", "cut");
  pen.add({box({at.x - mm(5.2), at.y - mm(2.3), mm(10.4), mm(4.6)}, red, mm(0.6))});
  draw_seen(required, {at.x - mm(3), at.y}, pen);
  draw_seen(solved, {at.x + mm(3), at.y}, pen);
  pen.add({polyline({{at.x - mm(0.9), at.y}, {at.x + mm(0.9), at.y}}, red),
           polyline({{at.x + mm(0.2), at.y - mm(0.7)}, {at.x + mm(0.9), at.y}, {at.x + mm(0.2), at.y + mm(0.7)}}, red)});
}

constexpr Mm100 lamp_width = mm(10.4), lamp_gap = mm(2.5);

// Of the lamps from `first` on, as many as there are before `end`.
SheetTable matrix(const Words& say, std::size_t first, std::size_t end) {
  const States& states = say.facts.states;
  SheetTable out{say("proof-matrix"), {{say("proof-state")}}, {}, lamp_gap, {say("proof-marks")}};
  for (std::size_t l = first; l < end; ++l) out.columns.push_back({say.lamp(say.circuit().lamps[l]), Anchor::middle, false, lamp_width});
  out.columns.push_back({say("proof-why"), Anchor::start, true, 0, true});
  std::string kind;
  for (std::size_t s = 0; s < states.scenes.size(); ++s) {
    const Scene& scene = states.scenes[s];
    if (!to_print(states, s)) continue;
    if (scene.kind != kind) out.rows.push_back({{{scene.kind, Weight::semibold}}});
    kind = scene.kind;
    SheetRow row{{{scene.name}}};
    for (std::size_t l = first; l < end; ++l) {
      const Seen required = states.required[s][l], solved = states.lamps[s][l].seen;
      SheetCell cell;
      const bool same = required == solved || required == Seen::may;
      cell.mark = [=](SheetPen& pen, Point at) { same ? draw_seen(solved, at, pen) : draw_difference(required, solved, at, pen); };
      row.cells.push_back(std::move(cell));
    }
    row.cells.push_back({scene.reason, Weight::regular, "quiet"});
    out.rows.push_back(std::move(row));
  }
  return out;
}

// One beside the other on a page as long as they have room, the rest in a table of its own.
std::vector<SheetTable> matrices(const Words& say, const SheetPen& pen, Mm100 room) {
  Mm100 states = 0;
  for (const Scene& scene : say.facts.states.scenes) states = std::max(states, pen.width(scene.name, Weight::regular, "small"));
  std::vector<SheetTable> out;
  const std::vector<LampIntent>& lamps = say.circuit().lamps;
  std::size_t first = 0;
  Mm100 taken = states;
  for (std::size_t l = 0; l <= lamps.size(); ++l) {
    Mm100 wide = lamp_width;
    if (l < lamps.size())
      for (const std::string& word : pen.wrap(say.lamp(lamps[l]), 1)) wide = std::max(wide, pen.width(word, Weight::regular, "small"));
    taken += wide + lamp_gap;
    if (l < lamps.size() && (taken <= room || l == first)) continue;
    out.push_back(matrix(say, first, l));
    first = l;
    taken = states + wide + lamp_gap;
  }
  return out;
}

bool counts(const States& states, std::size_t s, std::size_t l) {
  const Seen required = states.required[s][l], seen = states.lamps[s][l].seen;
  return states.scenes[s].kind == "towing" && (required == Seen::lit || required == Seen::flash || required == Seen::counterflash) && seen != Seen::dark;
}

// Lamps that the coach lights: volts at the dimmest and the brightest, and what is lost on the way.
SheetTable lamp_volts(const Words& say) {
  const States& states = say.facts.states;
  SheetTable out{say("proof-volts"),
                 {{say("proof-lamp")}, {say("proof-least"), Anchor::end}, {say("proof-most"), Anchor::end}, {say("proof-light"), Anchor::end}, {say("proof-lost"), Anchor::end}, {say("proof-where")}},
                 {}, mm(5), {say("proof-volts-note")}};
  std::vector<std::vector<double>> drops;
  for (std::size_t s = 0; s < states.scenes.size(); ++s)
    drops.push_back(states.scenes[s].kind == "towing" ? path_drop(say.circuit(), say.catalogue, states.scenes[s], states.solved[s]) : std::vector<double>(say.circuit().lamps.size()));
  for (std::size_t l = 0; l < say.circuit().lamps.size(); ++l) {
    double least = 1e9, most = 0, lost = 0, light = 0;
    std::string where;
    for (std::size_t s = 0; s < states.scenes.size(); ++s) {
      if (!counts(states, s, l)) continue;
      const LampState& lamp = states.lamps[s][l];
      if (lamp.volts < least) {
        least = lamp.volts;
        light = lamp.light;
      }
      most = std::max(most, lamp.volts);
      if (drops[s][l] > lost) {
        lost = drops[s][l];
        where = states.scenes[s].name;
      }
    }
    if (most <= 0) continue;
    const Part& part = say.circuit().part(say.circuit().lamps[l].lamp);
    const bool filament = std::any_of(part.elements.begin(), part.elements.end(), [](const Element& e) { return e.law == Law::filament; });
    out.rows.push_back({{{say.lamp(say.circuit().lamps[l]), Weight::semibold, "ink", "", part.id},
                         {format_fixed(least, 2) + " V"}, {format_fixed(most, 2) + " V"}, {filament ? format_fixed(100 * light, 0) + " %" : "–"},
                         {lost > 0 ? format_fixed(lost, 2) + " V" : "–"}, {where, Weight::regular, "quiet"}}});
  }
  return out;
}

std::string volts_text(double volts) { return std::fabs(volts) < 1 ? format_fixed(1000 * volts, 1) + " mV" : format_fixed(volts, 2) + " V"; }

// Of each probe the worst scene, whichever way the current would run.
SheetTable backfeed(const Words& say) {
  const States& states = say.facts.states;
  SheetTable out{say("proof-backfeed"), {{say("proof-probe")}, {say("proof-meter"), Anchor::end}, {say("proof-loaded"), Anchor::end}, {say("proof-where")}}, {}};
  std::map<int, States::Backfeed> worst;
  for (const States::Backfeed& b : states.backfeed) {
    auto [at, fresh] = worst.emplace(b.probe, b);
    if (!fresh && std::fabs(b.loaded_v) > std::fabs(at->second.loaded_v)) at->second = b;
  }
  for (const auto& [probe, b] : worst)
    out.rows.push_back({{{say.circuit().probes[static_cast<std::size_t>(probe)].name},
                         {volts_text(b.meter_v)}, {volts_text(b.loaded_v)},
                         {states.scenes[static_cast<std::size_t>(b.scene)].name, Weight::regular, "quiet"}}});
  return out;
}

SheetTable sizes(const Words& say) {
  SheetTable out{say("proof-sizes"),
                 {{say("proof-group")}, {say("proof-wires"), Anchor::start, true}, {say("size")}, {say("proof-decided"), Anchor::start, true}, {say("proof-lost"), Anchor::end}, {say("proof-budget"), Anchor::end},
                  {say("proof-carries"), Anchor::end}, {say("proof-bears"), Anchor::end}, {say("proof-fuse")}, {say("proof-next")}},
                 {}};
  const std::vector<Protection> fuses = find_protection(say.circuit(), say.facts.spec);
  for (const SizeChoice& c : say.facts.sized.why) {
    std::string wires;
    const bool open = std::any_of(c.wires.begin(), c.wires.end(), [&](WireId w) { return fuses[static_cast<std::size_t>(w.v)].open; });
    for (const WireId w : c.wires) wires += (wires.empty() ? "" : " ") + say.circuit().wires[static_cast<std::size_t>(w.v)].id;
    std::string decided = say(("decided-" + c.decided_by).c_str());
    if (!c.proved_minimal) decided += ", " + say("not-minimal");
    const std::string circuit_key = "circuit-" + c.group;
    out.rows.push_back({{{say(circuit_key.c_str()) == circuit_key ? c.group : say(circuit_key.c_str()), Weight::semibold}, {wires}, {c.size.text()}, {decided},
                         {c.drop_limit_v > 0 ? format_fixed(c.drop_v, 2) + " V" : "–"}, {c.drop_limit_v > 0 ? format_fixed(c.drop_limit_v, 2) + " V" : "–"},
                         {format_fixed(c.amps, 1) + " A"}, {c.ampacity_a > 0 ? format_fixed(c.ampacity_a, 1) + " A" : "–"},
                         {open ? say("no-fuse") : c.fuse_a > 0 ? format_plain(c.fuse_a) + " A" : "–", Weight::regular, open ? "cut" : "ink"}, {c.runner_up.number.empty() ? "–" : c.runner_up.text()}}});
  }
  return out;
}

SheetTable heat(const Words& say) {
  SheetTable out{say("proof-heat"),
                 {{say("proof-part")}, {say("proof-mounting")}, {say("proof-watts"), Anchor::end}, {say("proof-inside"), Anchor::end}, {say("proof-in-loom"), Anchor::end}, {say("proof-bears-c"), Anchor::end}, {say("proof-where")}},
                 {}};
  const Spec& spec = say.facts.spec;
  const double ambient = ambient_c(say.catalogue, spec);
  for (const PartHeat& h : find_heat(say.circuit(), say.catalogue, say.facts.states, mounting_of(spec, say.catalogue), ambient)) {
    const Part& part = say.circuit().part(h.part);
    out.rows.push_back({{{part.id, Weight::semibold, "ink", "", part.id}, {h.mounting}, {format_fixed(h.watts, 1) + " W"}, {format_fixed(h.celsius, 0) + " °C"},
                         {format_fixed(h.in_loom_c, 0) + " °C"}, {format_fixed(h.hottest_c, 0) + " °C"},
                         {say.facts.states.scenes[static_cast<std::size_t>(h.scene)].name, Weight::regular, "quiet"}}});
  }
  return out;
}

SheetTable findings(const Words& say) {
  SheetTable out{say("proof-findings"), {{say("proof-kind")}, {say("proof-finding"), Anchor::start, true}, {say("proof-do"), Anchor::start, true}}, {}};
  for (const Finding& f : say.facts.findings)
    out.rows.push_back({{{say(f.severity == Severity::error ? "fault" : f.severity == Severity::warning ? "warning" : "note"), Weight::semibold, f.severity == Severity::error ? "cut" : "ink"},
                         {f.message}, {f.action, Weight::regular, "quiet"}}});
  return out;
}

SheetTable assumed(const Words& say) {
  SheetTable out{say("proof-assumed"), {{say("proof-what")}, {say("proof-taken"), Anchor::start, true}, {say("proof-source"), Anchor::start, true}}, {}};
  out.columns[0].wraps = true;
  for (const Assumed& a : say.circuit().assumed)
    out.rows.push_back({{{a.what, Weight::semibold}, {a.why}, {a.provenance.source, Weight::regular, "quiet"}}});
  return out;
}

}  // namespace

std::vector<Drawing> proof_sheet(const Facts& facts, const Catalogue& catalogue, const Style& style, const TextMeasure& measure, int before, int after) {
  const Words say{facts, catalogue, style};
  const Drawing blank = table_blank(facts, style, "proof", word(style, "proof-sheet"),
                                    "Proof: function matrix, lamp volts, back-feed, wire sizes, heat, findings and what was assumed.");
  StripRows strip;
  strip.document = word(style, "proof-sheet");
  Drawing trial = blank;
  std::vector<std::vector<SheetTable>> bands;
  for (SheetTable& part : matrices(say, SheetPen{trial, style, measure}, table_room(blank, strip, facts, catalogue, style, measure).w)) bands.push_back({std::move(part)});
  for (auto& band : std::vector<std::vector<SheetTable>>{{lamp_volts(say), backfeed(say)}, {sizes(say)}, {heat(say)}, {findings(say)}, {assumed(say)}}) bands.push_back(band);
  return table_pages(bands, blank, strip, facts, catalogue, style, measure, before, after);
}

}  // namespace towloom
