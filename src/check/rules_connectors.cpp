// Rules about the outlet, the inlet and the cord between them.
#include <algorithm>
#include <cmath>

#include "catalogue/cord.hpp"
#include "check/rules.hpp"

namespace towloom {
namespace {

constexpr double same_place = 0.1;   // of the circle of contacts: nobody reads a face more closely by eye

const Connector* find(const Catalogue& catalogue, const std::string& form) {
  const auto found = catalogue.connectors.find(form);
  return found == catalogue.connectors.end() ? nullptr : &found->second;
}

}  // namespace

// A contact that was found to carry something else than its form has there: with the reason, if noted.
void contact_differs(const Asked& q, const RuleRow& row, Findings& out) {
  const std::vector<Plug> all = plugs(q.spec);
  for (const FoundContact& found : q.spec.coach.found) {
    const Plug& plug = all[static_cast<std::size_t>(found.plug)];
    const Connector* outlet = find(q.catalogue, plug.outlet->form.value);
    if (outlet == nullptr) continue;
    const ConnectorContact* contact = outlet->contact(found.contact.value);
    if (contact == nullptr || !found.does || found.does->value == contact->function || contact->function == "aux") continue;   // an auxiliary one has no set use
    add(out, row, found.does->place,
        "contact " + contact->number + " of the outlet" + plug.of() + " was found to carry " + found.does->value + "; a " + outlet->title + " has " +
            contact->title + " there" + (found.note.empty() ? "" : ": " + found.note),
        found.note.empty() ? "meter it again, and write the reason into its note" : "label the outlet, so that the next fitter knows");
  }
}

namespace {

void cores_of(const Asked& q, const RuleRow& row, const Plug& plug, Findings& out) {
  const Connector *outlet = find(q.catalogue, plug.outlet->form.value), *inlet = find(q.catalogue, plug.inlet->form.value);
  if (outlet == nullptr || inlet == nullptr) return;
  const JobCord cord = job_cord(q.spec, *outlet, *inlet, Lies::as_metered, plug.index);
  for (const CordCore& core : cord.cores) {
    const std::string from = "contact " + core.from->number + " of the outlet" + plug.of() + " (" + cord.carries.at(core.from->number) + ")";
    if (core.to == nullptr && core.belongs != nullptr)
      add(out, row, core.place, "no core leads from " + from + " to contact " + core.belongs->number + " of the inlet" + plug.of(), "mend or replace the cord");
    if (!core.crossed) continue;
    add(out, row, core.place,
        "a core joins " + from + " to contact " + core.to->number + " of the inlet" + plug.of() + ", which is for " + cord.meant.at(core.to->number),
        core.belongs == nullptr || core.belongs == core.to ? "take it off, or state what the inlet's contact is for: use: or pins:"
                                                           : "move it to contact " + core.belongs->number + ", " + core.belongs->title);
  }
}

struct PlugEnd {
  bool coach;
  std::string name;            // "outlet", "inlet of the charge plug"
  const Outlet* end;
};

std::vector<PlugEnd> plug_ends(const Spec& spec) {
  std::vector<PlugEnd> out;
  for (const Plug& plug : plugs(spec)) {
    out.push_back({true, "outlet" + plug.of(), plug.outlet});
    out.push_back({false, "inlet" + plug.of(), plug.inlet});
  }
  return out;
}

}  // namespace

// A core that brings a contact of the inlet what belongs to another: solved as it lies.
void crossed_cores(const Asked& q, const RuleRow& row, Findings& out) {
  for (const Plug& plug : plugs(q.spec)) cores_of(q, row, plug, out);
}
// A contact of outlet or inlet that the job uses against its form, or that was found in another place.
void pins_differ(const Asked& q, const RuleRow& row, Findings& out) {
  for (const auto& [at_coach, name, end] : plug_ends(q.spec)) {
    const Connector* own = find(q.catalogue, end->form.value);
    const Connector* form = own == nullptr ? nullptr : find(q.catalogue, own->form);
    if (form == nullptr || form == own) continue;
    const std::string why = end->why ? ": " + end->why->value : "";
    for (const auto& [contact, function] : end->pins) {
      const ConnectorContact *is = own->contact(contact.value), *was = form->contact(contact.value);
      if (is == nullptr || was == nullptr || is->function == was->function) continue;
      add(out, row, contact.place,
          "contact " + is->number + " of the " + name + " carries " + is->title + " in this job; a " + form->title + " has " + was->title + " there" + why,
          "label the part, so that the next fitter knows");
    }
    for (const auto& [contact, position] : end->positions) {
      const ConnectorContact *is = own->contact(contact.value), *was = form->contact(contact.value);
      const bool moved = is != nullptr && was != nullptr && std::hypot(is->x - was->x, is->y - was->y) > same_place;
      if (moved && !was->position.weak())
        add(out, row, contact.place, "contact " + is->number + " of the " + name + " was found elsewhere on the face than a " + form->title + " has it" + why,
            "check that it was read from the mating face, and that it is this form");
    }
  }
}

// Outlet or inlet is the half that the other side usually has: the cord's ends are then as bought the other way round.
void half_unusual(const Asked& q, const RuleRow& row, Findings& out) {
  for (const auto& [at_coach, name, end] : plug_ends(q.spec)) {
    const Connector* form = find(q.catalogue, end->form.value);
    if (form == nullptr || !end->half || form->outlet_half.empty() || form->inlet_half.empty()) continue;
    const std::string& usual = at_coach ? form->outlet_half : form->inlet_half;
    if (end->half->value == usual) continue;
    // The live part of the parted pair: the outlet itself, or the cord's end, which is the mate of the inlet.
    const auto mate = std::find_if(form->halves.begin(), form->halves.end(), [&](const ConnectorHalf& h) { return h.name != end->half->value; });
    const std::string live = at_coach || mate == form->halves.end() ? end->half->value : mate->name;
    std::string bare;
    for (const ConnectorContact& c : form->contacts) {
      const auto gender = c.gender.find(live);
      if (c.function != "ground" && gender != c.gender.end() && (gender->second == "pin" || gender->second == "blade"))
        bare += (bare.empty() ? "" : ", ") + c.number;
    }
    add(out, row, end->half->place,
        "the " + name + " is the " + end->half->value + " half of a " + form->title + "; usual there is the " + usual + " half" +
            (bare.empty() ? "" : ": contacts " + bare + (at_coach ? " of the outlet" : " of the cord's end") + " stand bare, and live when the coach is"),
        "check which half it is; if it is so, cap the parted end");
  }
}

// The cord joins an end with a stop contact to one whose lamps share stop and turn.
void signals_apart(const Asked& q, const RuleRow& row, Findings& out) {
  const Connector *outlet = find(q.catalogue, q.spec.coach.outlet.form.value), *inlet = find(q.catalogue, q.spec.car.inlet.form.value);
  if (outlet == nullptr || inlet == nullptr || !cord_map(*outlet, *inlet).stop_apart_differs) return;
  const bool at_outlet = std::any_of(outlet->contacts.begin(), outlet->contacts.end(),
                                     [](const ConnectorContact& c) { return c.function == "stop"; });
  add(out, row, q.spec.car.inlet.form.place,
      "the " + (at_outlet ? outlet->title : inlet->title) + " has stop on a contact of its own, the other end of the cord has not",
      "a converter must stand between them: say where");
}

}  // namespace towloom
