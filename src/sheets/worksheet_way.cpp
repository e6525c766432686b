// The way of a lamp's current in the words of the bench sheet.
#include <algorithm>
#include <cmath>

#include "sheets/worksheet.hpp"
#include "solve/network.hpp"

namespace towloom::worksheet {
namespace {

constexpr double least_a = 0.001;   // below this a branch only leaks, as in trace

// Terminal of its part at a point; -1 for an inner one.
int terminal_at(const Circuit& c, const Points& points, PartId part, int point) {
  const int t = point - points.first[static_cast<std::size_t>(part.v)];
  return t >= 0 && t < static_cast<int>(c.part(part).terminals.size()) ? t : -1;
}

// Stubs of the coach, and what a housing has inside, bear no name on the drawing.
bool has_name(const Wire& w) { return w.group != "coach" && w.group != "inside" && (w.status != Status::factory || !w.colour.empty()); }

std::string wire_text(const Wire& w, const Style& style) {
  const std::string colour = colour_text(w.colour, style);
  if (!has_name(w)) return "";
  return w.status == Status::factory ? colour : w.id + (colour.empty() ? "" : " " + colour);
}

std::string part_text(const Circuit& c, const Points& points, const Current& a, const Style& style) {
  const Part& part = c.part(a.part);
  if (part.kind == "contact") return contact_text(part, style);
  if (part.kind == "lamp") return lamp_place(part, style);
  if (part.kind == "splice" || part.kind == "joint") return "";
  const int from = terminal_at(c, points, a.part, a.from), to = terminal_at(c, points, a.part, a.to);
  const bool crossing = a.element != nullptr && a.element->law == Law::diode && from >= 0 && to >= 0;
  return crossing ? part.id + " (" + part.terminals[static_cast<std::size_t>(from)] + " " + word(style, "to") + " " + part.terminals[static_cast<std::size_t>(to)] + ")" : part.id;
}

}  // namespace

Traced trace_lamp(const Circuit& c, const Catalogue& catalogue, const Scene& scene, const Solved& solved, PartId lamp) {
  Traced out;
  const auto amps = [&](int p) { return std::fabs(solved.phase[static_cast<std::size_t>(p)].element_a[static_cast<std::size_t>(lamp.v)][0]); };
  for (int p = 1; p < solved.phases; ++p)
    if (amps(p) > amps(out.phase)) out.phase = p;
  const Points points = number_points(c);
  const std::vector<Current> currents = find_currents(c, points, solved.phase[static_cast<std::size_t>(out.phase)], least_a);
  const auto through = std::find_if(currents.begin(), currents.end(), [&](const Current& a) { return a.part == lamp && a.element == &c.part(lamp).elements[0]; });
  if (through != currents.end()) out.way = find_way(flatten(c, catalogue, scene, out.phase).point, currents, *through);
  return out;
}

std::vector<std::string> in_order(const Circuit& c, const Way& way, const Style& style) {
  const Points points = number_points(c);
  std::vector<std::string> out;
  int last = -1;
  for (const Current& a : way.steps) {
    if (last >= 0 && a.from != last) out.push_back(word(style, "worksheet-body"));   // one place without a drawn wire
    const std::string text = a.wire ? wire_text(c.wires[static_cast<std::size_t>(a.wire.v)], style) : part_text(c, points, a, style);
    if (!text.empty() && (out.empty() || out.back() != text)) out.push_back(text);
    last = a.to;
  }
  return out;
}

std::string piece_text(const Circuit& c, const Current& a, const Style& style) {
  const std::string name = joined(in_order(c, Way{{a}, 0, false}, style));
  if (!name.empty() || !a.wire) return name.empty() ? c.part(a.part).id : name;
  const Wire& w = c.wires[static_cast<std::size_t>(a.wire.v)];
  return word(style, w.group == "coach" ? "worksheet-coach-stub" : w.group == "inside" ? "worksheet-in-housing" : "worksheet-car-wire");
}

std::string joined(const std::vector<std::string>& texts, const char* between) {
  std::string out;
  for (const std::string& text : texts) out += (out.empty() ? "" : between) + text;
  return out;
}

bool gives_light(Seen seen) { return seen == Seen::lit || seen == Seen::flash || seen == Seen::counterflash; }

std::optional<std::size_t> towing_scene(const States& states, const std::string& name) {
  for (std::size_t s = 0; s < states.scenes.size(); ++s)
    if (states.scenes[s].kind == "towing" && states.scenes[s].name == name) return s;
  return std::nullopt;
}

}  // namespace towloom::worksheet
