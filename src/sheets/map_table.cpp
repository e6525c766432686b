// The plan map's table: one walk around the car from front to rear.
#include <algorithm>

#include "check/heat.hpp"
#include "size/parts.hpp"
#include "sheets/map_words.hpp"

namespace towloom::map {
namespace {

constexpr std::size_t one_page = 24;   // rows that fit one below the other

struct Words {
  const Facts& facts;
  const Catalogue& catalogue;
  const Style& style;
  std::string mounting = {};     // of what gets warm
  std::vector<int> warm = {};    // parts

  std::string operator()(const std::string& key) const { return word(style, key); }
  std::string maybe(const std::string& key) const {
    const std::string out = word(style, key);
    return out == key ? "" : out;
  }
  const Circuit& circuit() const { return facts.circuit(); }
  std::string metres(const char* rule) const { return format_plain(catalogue.rule(rule).value) + " m"; }
};

const std::string tie = "\u00a0";   // a wire and its letters stay on one line

std::string joined(const std::string& a, const std::string& b, const char* between) { return a.empty() ? b : b.empty() ? a : a + between + b; }

// "W2 BN", or the colour of a factory wire where its end lands.
std::string wire_text(const Words& say, const Wire& w) {
  const std::string colour = colour_text(w.colour, say.style);
  return is_new(w) ? w.id + (colour.empty() ? "" : tie + colour) : colour.empty() ? say("factory-wire") : colour + tie + say("map-factory");
}

// Wires that end at a part, by terminal where it has several.
std::string landing(const Words& say, PartId id) {
  const Part& part = say.circuit().part(id);
  std::string out;
  for (std::size_t t = 0; t < part.terminals.size(); ++t) {
    std::string here;
    for (const Wire& w : say.circuit().wires)
      for (const TerminalRef end : {w.from, w.to})
        if (end == TerminalRef{id, static_cast<int>(t)} && (is_new(w) || (w.status == Status::factory && part.kind == "splice")))   // ends of cuts have rows of their own
          here = joined(here, wire_text(say, w), ", ");
    if (here.empty()) continue;
    const bool named = part.terminals.size() > 1 && part.kind != "stud" && part.kind != "splice";
    out = joined(out, (named ? part.terminals[t] + ":" + tie : "") + here, named ? "; " : ", ");
  }
  return out;
}

std::string task(const Words& say, PartId id) {
  const Part& part = say.circuit().part(id);
  if (part.kind == "lamp") return lamp_text(say.circuit(), part, say.style) + ": " + say(part.status == Status::fitted ? "map-do-new-lamp" : "map-do-lamp");
  const std::string own = say.maybe("map-do-" + part.kind), kind = kind_name(part, false, say.style);
  if (part.kind == "battery") return kind;
  if (part.kind == "stud") {
    const auto row = std::find_if(say.facts.spec.grounds.begin(), say.facts.spec.grounds.end(), [&](const GroundRow& g) { return g.name.value == part.id; });
    const bool told = row != say.facts.spec.grounds.end() && row->on;
    return own + " " + (told ? row->on->value : say("map-surface-assumed"));
  }
  if (part.kind == "splice" || part.kind == "cap") return own;
  const bool short_value = part.kind == "fuse" || part.kind == "resistor" || part.value.empty();   // "15 A" says not what it is
  std::string out = joined(joined(short_value ? kind : "", part.value, " "), own, ", ");
  if (std::find(say.warm.begin(), say.warm.end(), id.v) != say.warm.end()) out = joined(out, say("map-mount-" + say.mounting), ", ");
  return out;
}

// The lamp whose leg is cut: behind its lamp side, over a splice that was put in.
const Part* lamp_of(const Circuit& c, const CutPoint& cut) {
  if (!cut.lamp_side) return nullptr;
  PartId at = c.wires[static_cast<std::size_t>(cut.lamp_side.v)].to.part;
  if (c.part(at).kind == "splice")
    for (const Wire& w : c.wires)
      if (w.from.part == at && w.status == Status::factory) at = w.to.part;
  return c.part(at).kind == "lamp" ? &c.part(at) : nullptr;
}

SheetRow cut_row(const Words& say, const CutPoint& cut) {
  const auto wire = [&](WireId id) -> const Wire& { return say.circuit().wires[static_cast<std::size_t>(id.v)]; };
  const auto end = [&](TerminalRef t) {
    const Part& part = say.circuit().part(t.part);
    return part.kind == "lamp" ? lamp_place(part, say.style) : part.id + (part.terminals.size() > 1 ? tie + part.terminals[static_cast<std::size_t>(t.index)] : "");
  };
  const Part* lamp = lamp_of(say.circuit(), cut);
  const std::string what = lamp == nullptr ? say("map-do-cut-wire") : say(cut.plug ? "map-do-plug" : "map-do-cut") + " " + lamp_text(say.circuit(), *lamp, say.style);
  std::string ends;
  if (cut.car_side) ends = say("map-car-side") + " " + end(wire(cut.car_side).to);
  if (cut.lamp_side) ends = joined(ends, say("map-lamp-side") + " " + end(wire(cut.lamp_side).from), "; ");
  return {{{cut.label.empty() ? say("map-wire-unnamed") : cut.label, Weight::semibold, "cut"}, {what}, {ends}}};
}

// Wires that end at the contacts of one inlet.
std::string at_inlet(const Words& say, const std::string& inlet) {
  std::string out;
  for (std::size_t p = 0; p < say.circuit().parts.size(); ++p)
    if (const Part& part = say.circuit().parts[p]; part.kind == "contact" && part.group == inlet)
      for (const Wire& w : say.circuit().wires)
        if (is_new(w) && !is_core(w) && (w.from.part.v == static_cast<int>(p) || w.to.part.v == static_cast<int>(p))) out = joined(out, part.contact + ":" + tie + wire_text(say, w), "; ");
  return out;
}

std::vector<SheetRow> rows_of(const Words& say, const Spot& spot) {
  std::vector<SheetRow> out;
  for (const std::string& inlet : spot.inlets) out.push_back({{{inlet, Weight::semibold, "ink", "", inlet}, {say("map-do-inlet")}, {at_inlet(say, inlet)}}});
  for (const int c : spot.cuts) out.push_back(cut_row(say, say.circuit().cuts[static_cast<std::size_t>(c)]));
  for (const PartId id : spot.parts) {
    const Part& part = say.circuit().part(id);
    const std::string wires = landing(say, id);
    if (part.status != Status::fitted && wires.empty()) continue;   // the car's own, left as it is
    out.push_back({{{part.kind == "lamp" ? say("map-lamp") : part.id, Weight::semibold, "ink", "", part.id}, {task(say, id)}, {wires}}});
  }
  if (spot.passing.empty() || !out.empty()) return out;   // a passage: grommet, pillar
  std::string passing;
  for (const WireId id : spot.passing) passing = joined(passing, wire_text(say, say.circuit().wires[static_cast<std::size_t>(id.v)]), ", ");
  out.push_back({{{"–"}, {say("map-passes")}, {passing, Weight::regular, "quiet"}}});
  return out;
}

}  // namespace

SheetTable where_table(const Plan& plan, const Facts& facts, const Catalogue& catalogue, const Style& style) {
  Words say{facts, catalogue, style};
  say.mounting = mounting_of(facts.spec, catalogue);
  for (const PartHeat& h : find_heat(facts.circuit(), catalogue, facts.states, say.mounting, ambient_c(catalogue, facts.spec))) say.warm.push_back(h.part.v);
  SheetTable out{say("map-table"), {{say("map-part")}, {say("map-do"), Anchor::start, true}, {say("map-landing"), Anchor::start, true}}, {}};
  out.gap = mm(4);
  for (std::size_t s = 0; s < plan.spots.size(); ++s) {
    const Spot& spot = plan.spots[s];
    std::vector<SheetRow> rows = rows_of(say, spot);
    if (rows.empty()) continue;
    const bool reached = std::any_of(plan.ways.begin(), plan.ways.end(), [&](const Way& w) { return w.run != nullptr && !w.wires.empty() && (w.from == static_cast<int>(s) || w.to == static_cast<int>(s)); });
    const bool pocket = reached && std::any_of(spot.parts.begin(), spot.parts.end(), [&](PartId id) { const Zone z = facts.circuit().part(id).zone; return z == Zone::pocket || z == Zone::lamp; });
    const std::string loop = !spot.inlets.empty() ? say.metres("inlet_loop_m") : pocket ? say.metres("lamp_loop_m") : "";
    out.rows.push_back({{{number_of(plan, static_cast<int>(s)) + "  " + spot.name + (loop.empty() ? "" : ", " + say("map-loop") + " " + loop)}}});
    for (SheetRow& row : rows) out.rows.push_back(std::move(row));
  }
  out.abreast = out.rows.size() > one_page ? 2 : 1;
  return out;
}

}  // namespace towloom::map
