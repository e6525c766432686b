// The blocks of words beside the car: what is at a place, what lies in a run.
#include "sheets/map_words.hpp"

#include <algorithm>

namespace towloom::map {
namespace {

constexpr Mm100 widest_spot = mm(50), widest_way = mm(36);
constexpr std::size_t most_numbers = 8;   // of wires; more are counted

struct Writer {
  const SheetPen& pen;
  Mm100 widest;
  TextBlock out = {};
  Mm100 x = 0;

  std::string say(const std::string& key) const { return word(pen.style, key); }
  void new_line() {
    out.lines.emplace_back();
    x = 0;
  }
  void put(Word w) {
    const Mm100 wide = pen.width(w.text, w.weight);
    if (x > 0 && x + word_gap + wide > widest) new_line();
    x += (x > 0 ? word_gap : 0) + wide;
    out.width = std::max(out.width, x);
    out.lines.back().push_back(std::move(w));
  }
  // Broken at its blanks.
  void text(const std::string& words, Weight weight = Weight::regular, const char* ink = "ink") {
    std::string all;
    for (const std::string& line : pen.wrap(words, std::max(mm(10), widest - x - word_gap), weight)) {
      if (!all.empty()) new_line();
      put({line, "", weight, ink});
      all = line;
    }
  }
};

std::string flag_of(const Facts& facts, const std::string& id) {
  for (const Flag& f : facts.flags)
    if (f.about == id) return " " + flag_letter(f.number);
  return "";
}

// Parts of one kind on one line, each with what tells it apart.
void put_parts(Writer& w, const std::vector<const Part*>& same, const Facts& facts) {
  const Part& first = *same.front();
  w.new_line();
  w.text(kind_name(first, same.size() > 1, w.pen.style), Weight::regular, "quiet");
  const bool rated = first.kind == "fuse" || first.kind == "breaker" || first.kind == "resistor";
  for (const Part* part : same) {
    const std::string letter = flag_of(facts, part->id);
    std::string value = rated ? " " + part->value : "";   // "15 A breaker" is said already
    const std::string again = " " + kind_name(*part, false, w.pen.style);
    if (value.size() > again.size() && value.compare(value.size() - again.size(), again.size(), again) == 0) value.resize(value.size() - again.size());
    for (const GroundRow& g : facts.spec.grounds)
      if (g.name.value == part->id && g.on) value = " " + w.say("map-on") + " " + g.on->value;
    w.put({part->id + value + letter + (part == same.back() ? "" : ","), part->id, Weight::semibold, letter.empty() ? "ink" : "cut"});
  }
}

void put_lamps(Writer& w, const std::vector<const Part*>& lamps, bool added) {
  if (lamps.empty()) return;
  w.new_line();
  w.text(w.say(added ? "map-added-lamps" : lamps.size() > 1 ? "map-lamps" : "map-lamp"), Weight::regular, "quiet");
  for (const Part* lamp : lamps) w.put({w.say("lamp-" + lamp->function) + (lamp == lamps.back() ? "" : ","), lamp->id, added ? Weight::semibold : Weight::regular, added ? "ink" : "quiet"});
}

}  // namespace

std::string number_of(const Plan&, int spot) { return std::to_string(spot + 1); }

std::string kind_name(const Part& part, bool several, const Style& style) {
  for (const std::string& key : {"map-" + part.kind + "-" + part.title, std::string(several ? "map-several-" : "map-one-") + part.kind})
    if (const std::string said = word(style, key); said != key) return said;
  return part.kind;
}

TextBlock spot_block(const Plan& plan, int index, const Facts& facts, const SheetPen& pen) {
  const Spot& spot = plan.spots[static_cast<std::size_t>(index)];
  Writer w{pen, widest_spot};
  w.new_line();
  w.text(number_of(plan, index) + "  " + spot.name + (spot.unsure ? " (" + w.say("map-unsure") + ")" : ""), Weight::semibold);
  for (const std::string& inlet : spot.inlets) {
    if (inlet == spot.inlets.front()) w.new_line(), w.text(w.say(spot.inlets.size() > 1 ? "map-inlets" : "map-inlet"), Weight::regular, "quiet");
    w.put({inlet, inlet, Weight::semibold});
  }
  std::vector<std::vector<const Part*>> groups;
  std::vector<const Part*> own_lamps, added_lamps;
  for (const PartId id : spot.parts) {
    const Part& part = facts.circuit().part(id);
    if (part.kind == "battery") continue;   // named in the head
    if (part.kind == "lamp") {
      (part.status == Status::fitted ? added_lamps : own_lamps).push_back(&part);
      continue;
    }
    const auto same = std::find_if(groups.begin(), groups.end(), [&](const auto& g) { return kind_name(*g.front(), false, pen.style) == kind_name(part, false, pen.style); });
    (same != groups.end() ? *same : groups.emplace_back()).push_back(&part);
  }
  if (!spot.cuts.empty()) {
    w.new_line();
    w.text(w.say("map-cut"), Weight::regular, "quiet");
    for (const int c : spot.cuts) {
      const CutPoint& cut = facts.circuit().cuts[static_cast<std::size_t>(c)];
      const std::string label = cut.label.empty() ? w.say("map-wire-unnamed") : cut.label;
      w.put({label + (c == spot.cuts.back() ? "" : ","), "", Weight::semibold, "cut"});
    }
  }
  for (const auto& group : groups) put_parts(w, group, facts);
  put_lamps(w, added_lamps, true);
  put_lamps(w, own_lamps, false);
  return w.out;
}

TextBlock way_block(const Way& way, const Facts& facts, const SheetPen& pen) {
  Writer w{pen, widest_way};
  w.new_line();
  if (way.run != nullptr) {
    w.put({way.run->name.value, "", Weight::semibold});
    w.put({format_fixed(way.run->length_m.value, 1) + " m", "", Weight::semibold});
    w.new_line();
  }
  if (way.wires.empty()) w.text(w.say("map-no-wire"), Weight::regular, "quiet");
  if (way.run != nullptr && way.wires.size() > most_numbers) {   // leads are in no list: all their numbers
    w.text(std::to_string(way.wires.size()) + " " + w.say("map-see-runs"));
  } else {
    for (const WireId id : way.wires) {
      const std::string& mark = facts.circuit().wires[static_cast<std::size_t>(id.v)].id;
      const std::string letter = flag_of(facts, mark);
      w.put({mark + letter, mark, Weight::regular, letter.empty() ? "ink" : "cut"});
    }
  }
  if (way.run == nullptr) return w.out;
  const auto further = [&](const std::string& text, const char* ink) {
    if (text.empty()) return;
    w.new_line();
    w.text(text, Weight::regular, ink);
  };
  further(way.run->cover, "quiet");
  further(way.run->through.empty() ? "" : w.say("map-through") + " " + way.run->through, "ink");
  further(way.run->keep_off.empty() ? "" : w.say("map-keep-off") + " " + way.run->keep_off, "cut");
  return w.out;
}

}  // namespace towloom::map
