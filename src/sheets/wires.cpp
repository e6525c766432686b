// Wire list, cut list and materials: what is made, cut and bought.
#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "catalogue/part_kinds.hpp"
#include "sheets/bench_flags.hpp"
#include "sheets/table.hpp"
#include "size/protect.hpp"

namespace towloom {
namespace {

// Up to a tenth of a metre: what the fitter cuts is never shorter than what is printed.
double cut_length(const Wire& w) { return std::ceil(w.length_m * 10 - 1e-6) / 10; }
std::string metres(double m) { return format_fixed(m, 1) + " m"; }

struct Words {
  const Facts& facts;
  const Catalogue& catalogue;
  const Style& style;
  std::string operator()(const std::string& key) const { return word(style, key); }
  const Circuit& circuit() const { return facts.circuit(); }

  std::string end(TerminalRef t) const { return end_text(circuit(), t, style); }
  double most_amps(std::size_t wire) const {
    double out = 0;
    for (const Solved& s : facts.states.solved)
      for (int p = 0; p < s.phases; ++p) out = std::max(out, std::fabs(s.phase[static_cast<std::size_t>(p)].wire_a[wire]));
    return out;
  }
};

SheetTable wire_list(const Words& say) {
  SheetTable out{say("wire-list"),
                 {{say("wire")}, {say("circuit")}, {say("colour")}, {say("size")}, {say("length"), Anchor::end}, {say("from"), Anchor::start, true}, {say("to"), Anchor::start, true},
                  {say("along"), Anchor::start, true}, {say("carries-most"), Anchor::end}, {say("fuse-before")}},
                 {}, mm(5), {say("wire-list-note")}};
  const std::vector<Protection> fuses = find_protection(say.circuit(), say.facts.spec);
  for (std::size_t w = 0; w < say.circuit().wires.size(); ++w) {
    const Wire& wire = say.circuit().wires[w];
    if (!is_new(wire)) continue;
    std::string runs;
    for (const std::string& r : wire.runs) runs += (runs.empty() ? "" : ", ") + r;
    const Protection& fuse = fuses[w];
    const std::string circuit = say("circuit-" + wire.circuit);
    const std::string letters = letters_at(say.facts, wire);
    out.rows.push_back({{{wire.id + (letters.empty() ? "" : " " + letters), Weight::semibold, letters.empty() ? "ink" : "cut", "", wire.id}, {circuit == "circuit-" + wire.circuit ? wire.circuit : circuit}, {colour_text(wire.colour, say.style), Weight::regular, "ink", wire.colour},
                         {wire.size->text()}, {metres(cut_length(wire))}, {say.end(wire.from)}, {say.end(wire.to)}, {runs.empty() ? "–" : runs, Weight::regular, "quiet"},
                         {format_fixed(say.most_amps(w), 1) + " A"}, {fuse.open ? say("no-fuse") : fuse.amps > 0 ? format_plain(fuse.amps) + " A" : "–", Weight::regular, fuse.open ? "cut" : "ink"}}});
  }
  return out;
}

SheetTable cut_list(const Words& say) {
  SheetTable out{say("cut-list"), {{say("size")}, {say("colour")}, {say("pieces"), Anchor::start, true}, {say("together"), Anchor::end}}, {}};
  struct Reel {
    std::string pieces;
    double metres = 0;
  };
  std::map<std::pair<std::string, std::string>, Reel> reels;
  for (const Wire& w : say.circuit().wires) {
    if (!is_new(w)) continue;
    Reel& reel = reels[{w.size->text(), w.colour}];
    reel.pieces += (reel.pieces.empty() ? "" : ", ") + w.id + " " + metres(cut_length(w));
    reel.metres += cut_length(w);
  }
  for (const auto& [key, reel] : reels)
    out.rows.push_back({{{key.first}, {colour_text(key.second, say.style), Weight::regular, "ink", key.second}, {reel.pieces}, {metres(reel.metres), Weight::semibold}}});
  return out;
}

struct Article {
  int count = 0;
  std::string designations;
};

SheetTable materials(const Words& say) {
  SheetTable out{say("materials"), {{say("count"), Anchor::end}, {say("article"), Anchor::start, true}, {say("designations"), Anchor::start, true}}, {}};
  std::vector<std::pair<std::string, Article>> articles;
  const auto add = [&](const std::string& what, const std::string& id) {
    auto at = std::find_if(articles.begin(), articles.end(), [&](const auto& a) { return a.first == what; });
    if (at == articles.end()) at = articles.insert(articles.end(), {what, {}});
    ++at->second.count;
    if (!id.empty()) at->second.designations += (at->second.designations.empty() ? "" : " ") + id;
  };
  const std::vector<Plug> all = plugs(say.facts.spec);
  const auto inlet = [&](const Part& contact) {
    const auto plug = std::find_if(all.begin(), all.end(), [&](const Plug& p) { return p.inlet_id() == contact.group; });
    const auto form = say.catalogue.connectors.find(contact.model);
    return say("car-inlet") + ", " + (form == say.catalogue.connectors.end() ? contact.model : form->second.title) +
           (plug->inlet->half ? ", " + plug->inlet->half->value + " half" : "");
  };
  std::set<std::string> inlets;
  std::map<std::string, int> landing;   // new wires at each part
  for (const Wire& w : say.circuit().wires)
    if (is_new(w))
      for (const TerminalRef t : {w.from, w.to}) ++landing[say.circuit().part(t.part).id];
  for (const Part& part : say.circuit().parts) {
    if (part.kind == "contact" && part.zone == Zone::inlet && inlets.insert(part.group).second) add(inlet(part), part.group);
    if (part.status != Status::fitted || part.kind == "contact" || part.kind == "cut" || part.kind == "joint") continue;
    if (part.kind == "stud") {
      for (int k = 0; k < landing[part.id]; ++k) add(say("ring-terminal"), k == 0 ? part.id : "");
    } else if (part.kind == "splice") {
      add(say("splice-sealed"), part.id);
    } else if (part.kind == "cap") {
      add(say("end-cap"), part.id);
    } else {
      const std::string kind = say("kind-" + part.kind);
      add((kind == "kind-" + part.kind ? part.kind : kind) + (part.value.empty() ? "" : ", " + part.value), part.id);
    }
  }
  for (const auto& [what, article] : articles) out.rows.push_back({{{std::to_string(article.count)}, {what}, {article.designations, Weight::regular, "quiet"}}});
  return out;
}

SheetTable cuts(const Words& say) {
  SheetTable out{say("factory-cuts"), {{say("factory-wire")}, {say("car-side-to"), Anchor::start, true}, {say("lamp-side-to"), Anchor::start, true}}, {}};
  const auto wire = [&](WireId id) -> const Wire& { return say.circuit().wires[static_cast<std::size_t>(id.v)]; };
  for (const CutPoint& cut : say.circuit().cuts)
    out.rows.push_back({{{cut.label + (cut.plug ? ", " + say("at-its-plug") : ""), Weight::semibold}, {cut.car_side ? say.end(wire(cut.car_side).to) : "–"}, {cut.lamp_side ? say.end(wire(cut.lamp_side).from) : "–"}}});
  return out;
}

SheetTable covers(const Words& say) {
  SheetTable out{say("run-list"), {{say("run")}, {say("from")}, {say("to")}, {say("length"), Anchor::end}, {say("wires"), Anchor::start, true}, {say("cover"), Anchor::start, true}}, {}};
  for (const RunRow& run : say.facts.spec.runs) {
    std::string wires;
    for (const Wire& w : say.circuit().wires)
      if (std::find(w.runs.begin(), w.runs.end(), run.name.value) != w.runs.end()) wires += (wires.empty() ? "" : " ") + w.id;
    out.rows.push_back({{{run.name.value, Weight::semibold}, {run.from.value}, {run.to.value}, {metres(run.length_m.value)}, {wires}, {run.cover, Weight::regular, "quiet"}}});
  }
  return out;
}

}  // namespace

std::vector<Drawing> wires_sheet(const Facts& facts, const Catalogue& catalogue, const Style& style, const TextMeasure& measure, int before, int after) {
  const Words say{facts, catalogue, style};
  const Drawing blank = table_blank(facts, style, "wires", word(style, "wires-sheet"), "Wire list, cut list, materials, factory wires that are cut, and runs.");
  StripRows strip;
  strip.document = word(style, "wires-sheet");
  std::vector<std::vector<SheetTable>> bands = {{wire_list(say)}, {cut_list(say), materials(say)}, {cuts(say), covers(say)}};
  if (!facts.flags.empty()) bands.insert(bands.begin() + 1, {found_table(facts, style)});
  return table_pages(bands, blank, strip, facts, catalogue, style, measure, before, after);
}

}  // namespace towloom
