// The recipes of the job in order: converters, what each lamp is to show, trunks, lamps, added lamps. Knows no
// method by name.
#include <algorithm>

#include "catalogue/part_kinds.hpp"
#include "circuit/builder.hpp"

namespace towloom {
namespace {

// Fragments that are laid once in the job: those of converters before all others, since they give the signals.
void lay_once(Builder& b, bool giving) {
  for (const Recipe& recipe : b.recipes) {
    const std::vector<Fragment>& all = recipe.method->fragments;
    if (std::any_of(all.begin(), all.end(), [&](const Fragment& f) { return counts(recipe, f) && !f.gives.empty(); }) != giving) continue;
    for (const Fragment& fragment : all)
      if (fragment.scope == "job" && counts(recipe, fragment) && !b.diagnostics.has_errors()) lay_fragment(b, {recipe, fragment});
  }
}

void lay_trunks(Builder& b) {
  for (const Recipe& recipe : b.recipes)
    for (const Fragment& fragment : recipe.method->fragments) {
      if (fragment.scope != "trunk" || !counts(recipe, fragment)) continue;
      bool any = false;
      for (std::size_t t = 0; t < b.trunks.size() && !b.diagnostics.has_errors(); ++t) {
        const std::vector<std::string>& drives = b.trunks[t].drives;
        const bool meant = std::any_of(fragment.of.begin(), fragment.of.end(), [&](const std::string& function) {
          return std::find(drives.begin(), drives.end(), function) != drives.end();
        });
        if (!meant) continue;
        any = true;
        lay_fragment(b, {recipe, fragment, -1, -1, static_cast<int>(t)});
      }
      if (!any) b.diagnostics.error("no-trunk", recipe.place, recipe.method->title + ": this car has no such feed to part");
    }
}

const Recipe* recipe_of(const Builder& b, const std::string& function) {
  const auto own = b.method_of.find(function);
  const int index = own != b.method_of.end() ? own->second : b.method_of.at("");
  return index < 0 ? nullptr : &b.recipes[static_cast<std::size_t>(index)];
}

// The first signal of its function that the tow line has; functions made for the other kind of coach stay dark.
void choose_signal(Builder& b, std::size_t lamp) {
  LampIntent& intent = b.circuit.lamps[lamp];
  const LampRow& row = b.spec.car.lamps[static_cast<std::size_t>(b.lamp_rows[lamp])];
  const LampFunction* function = b.catalogue.function(row.function.value);
  const Recipe* recipe = recipe_of(b, row.function.value);
  const bool for_other = function != nullptr && !function->only.empty() && function->only != b.tow_kind;
  if (row.dark_in_tow || function == nullptr || function->tow.empty() || recipe == nullptr) return;
  if (for_other && !row.added) return;
  if (recipe->method->added_lamps && !row.added) return;
  for (const PlacedText& text : function->tow) {
    const std::string signal = sided(text.value, row.side);
    if (b.signal_net.count(signal) == 0) continue;
    intent.tow_signal = signal;
    const ContactFunction& tow = b.catalogue.tow_signals.at(signal);
    intent.drivers = {"driver." + tow.with.value};
    if (b.tow_kind == "combined" && !tow.beside.empty()) intent.drivers.push_back("driver." + tow.beside);
    if (const auto given = b.given_by.find(signal); given != b.given_by.end()) intent.converter = given->second;
    return;
  }
  if (function->optional) return;
  std::string why;
  for (const PlacedText& text : function->tow)
    if (const auto lost = b.lost.find(sided(text.value, row.side)); lost != b.lost.end()) why = lost->second;
  b.diagnostics.error("no-signal", row.place,
                      why.empty() ? "the coach has no " + sided(function->tow.back().value, row.side) + " signal for this lamp" : why + ", which this lamp needs",
                      "test the outlet again, or write in tow: dark");
}

// plate: with left tail. The plate's own branch is cut and capped; it hangs on that lamp's side of its cut.
void refeed(Builder& b, const Leg& leg, const std::string& host_name) {
  for (std::size_t i = 0; i < b.circuit.lamps.size(); ++i) {
    const LampRow& row = b.spec.car.lamps[static_cast<std::size_t>(b.lamp_rows[i])];
    if (row.name.value != host_name) continue;
    if (b.circuit.lamps[i].tow_signal.find("tail") == std::string::npos)
      b.diagnostics.error("refeed", b.spec.isolation.plate->place, "'" + host_name + "' carries no tail signal in tow");
    b.lamp_side_users[static_cast<int>(i)].push_back(leg.to);
    LampIntent& plate = b.circuit.lamps[static_cast<std::size_t>(leg.lamp)];
    plate.tow_signal = b.circuit.lamps[i].tow_signal;
    plate.drivers = b.circuit.lamps[i].drivers;
    Part cap;
    cap.id = "CAP-" + b.circuit.part(plate.lamp).id;
    cap.kind = "cap";
    cap.title = "cap";
    cap.place = leg.place;
    cap.zone = Zone::pocket;
    cap.side = Side::centre;
    cap.terminals = {"1"};
    cap.origin = {b.spec.isolation.place, {}};
    const PartId id = b.add(std::move(cap));
    CutPoint cut;
    cut.label = leg.feed.colour.value;
    cut.origin = {leg.job, {}};
    cut.car_side = b.factory_wire(b.leg_from(leg), {id, 0}, leg.feed, b.leg_length(leg), cut.origin);
    b.circuit.cuts.push_back(cut);
    return;
  }
  std::vector<std::string> known;
  for (const LampRow& row : b.spec.car.lamps) known.push_back(row.name.value);
  const std::string near = did_you_mean(host_name, known);
  b.diagnostics.error("refeed", b.spec.isolation.plate->place, "no lamp '" + host_name + "' to feed the plate lamp with",
                      near.empty() ? "" : "did you mean 'with " + near + "'?");
}

std::string plate_host(Builder& b) {
  if (!b.spec.isolation.plate) return "";
  const std::string& with = b.spec.isolation.plate->value;
  if (with.rfind("with ", 0) == 0 && with.size() > 5) return with.substr(5);
  b.diagnostics.error("refeed", b.spec.isolation.plate->place, "'" + with + "' does not say with which lamp",
                      "write it like: plate: with left tail");
  return "";
}

// A fragment for one side leaves the lamps of the other, and those in the middle, alone.
bool on_side(const Builder& b, const Recipe& recipe, const Fragment& fragment, int lamp) {
  const std::string side = filled(fragment.side.value, recipe);
  if (side.empty()) return true;
  return b.circuit.part(b.circuit.lamps[static_cast<std::size_t>(lamp)].lamp).side == (side == "left" ? Side::left : Side::right);
}

// True if a fragment of this scope was laid.
bool lay_lamp(Builder& b, const char* scope, int leg, int lamp) {
  const Recipe* recipe = recipe_of(b, b.circuit.lamps[static_cast<std::size_t>(lamp)].car_function);
  bool any = false;
  for (const Fragment& fragment : recipe->method->fragments) {
    if (fragment.scope != scope || !counts(*recipe, fragment) || !on_side(b, *recipe, fragment, lamp) || b.diagnostics.has_errors()) continue;
    lay_fragment(b, {*recipe, fragment, leg, lamp});
    any = true;
  }
  return any;
}

void lay_lamps(Builder& b) {
  const std::string host = plate_host(b);
  for (std::size_t l = 0; l < b.legs.size(); ++l) {
    const Leg leg = b.legs[l];
    const LampIntent& lamp = b.circuit.lamps[static_cast<std::size_t>(leg.lamp)];
    if (!lamp.tow_signal.empty() && lamp.car_function == "plate" && !host.empty()) {
      refeed(b, leg, host);
      continue;
    }
    if (lamp.tow_signal.empty() || !lay_lamp(b, "lamp", static_cast<int>(l), leg.lamp))
      b.factory_wire(b.leg_from(leg), leg.to, leg.feed, b.leg_length(leg), {leg.job, {}});
  }
  for (std::size_t i = 0; i < b.circuit.lamps.size(); ++i) {
    const LampRow& row = b.spec.car.lamps[static_cast<std::size_t>(b.lamp_rows[i])];
    if (!row.added || b.circuit.lamps[i].tow_signal.empty()) continue;
    if (!lay_lamp(b, "added", -1, static_cast<int>(i)))
      b.diagnostics.error("added-lamp", row.place, "the method has no place for added lamps", "choose a method that brings lamps of its own");
  }
}

// Extras that put something beside each lamp.
void lay_beside_lamps(Builder& b) {
  for (const Recipe& recipe : b.recipes)
    for (const Fragment& fragment : recipe.method->fragments) {
      if (!recipe.method->extra || fragment.scope != "lamp" || !counts(recipe, fragment)) continue;
      for (std::size_t i = 0; i < b.circuit.lamps.size() && !b.diagnostics.has_errors(); ++i) {
        const LampIntent& lamp = b.circuit.lamps[i];
        const bool meant = fragment.of.empty() || std::find(fragment.of.begin(), fragment.of.end(), lamp.car_function) != fragment.of.end();
        if (meant && !lamp.tow_signal.empty() && on_side(b, recipe, fragment, static_cast<int>(i))) lay_fragment(b, {recipe, fragment, -1, static_cast<int>(i)});
      }
    }
}

// What no recipe parted stays as the factory made it.
void finish_trunks(Builder& b) {
  for (const Trunk& trunk : b.trunks)
    if (!trunk.cut && trunk.joint != trunk.driver)
      b.factory_wire(trunk.driver, trunk.joint, trunk.colour, b.rule("factory_front_m"), {trunk.job, {}});
}

void finish_switch_legs(Builder& b) {
  for (const Leg& leg : b.legs)
    if (leg.lamp < 0) b.factory_wire(b.leg_from(leg), leg.to, leg.feed, b.rule("factory_front_m"), {leg.job, {}});
  b.legs.erase(std::remove_if(b.legs.begin(), b.legs.end(), [](const Leg& leg) { return leg.lamp < 0; }), b.legs.end());
}

// Designations in reading order: what stands at the lamps first, then the rest as it was laid.
void number_parts(Builder& b) {
  std::map<std::string, int> numbers;
  std::vector<Part*> fitted;
  for (Part& p : b.circuit.parts)
    if (const PartKind* kind = find_kind(p.kind); kind != nullptr && p.status == Status::fitted) {
      fitted.push_back(&p);
      p.id.clear();
    }
  std::stable_sort(fitted.begin(), fitted.end(), [](const Part* a, const Part* c) { return (a->zone == Zone::pocket) > (c->zone == Zone::pocket); });
  for (Part* p : fitted) {
    const std::string prefix = find_kind(p->kind)->prefix;
    std::string id;
    do id = prefix + std::to_string(++numbers[prefix]);   // FU1 may be the car's own
    while (b.circuit.find(id));
    p->id = id;
  }
}

}  // namespace

void build_isolation(Builder& b) {
  lay_once(b, true);
  for (std::size_t i = 0; i < b.circuit.lamps.size(); ++i) choose_signal(b, i);
  if (b.diagnostics.has_errors()) return;
  lay_once(b, false);
  lay_trunks(b);
  if (b.diagnostics.has_errors()) return;
  finish_trunks(b);
  finish_switch_legs(b);
  lay_lamps(b);
  lay_beside_lamps(b);
  number_parts(b);
}

}  // namespace towloom
