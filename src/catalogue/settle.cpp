#include "catalogue/settle.hpp"

#include "catalogue/colours.hpp"
#include "catalogue/mating.hpp"
#include "catalogue/settle_parts.hpp"

namespace towloom {
namespace {

void settle_colours(Car& car, const Catalogue& catalogue, Diagnostics& diagnostics) {
  const auto& conventions = catalogue.colour_conventions;
  if (car.colours && conventions.count(car.colours->value) == 0)
    diagnostics.error("convention", car.colours->place, "no colour convention '" + car.colours->value + "' in the catalogue",
                      names_of(conventions));
  const auto settle = [&](SizedColour& wire) {
    if (wire.colour.value.empty()) return;
    if (const auto code = settle_code(wire.colour, car.colours, catalogue, diagnostics)) wire.colour.value = code->text();
  };
  for (LampRow& lamp : car.lamps) {
    settle(lamp.feed);
    if (lamp.return_wire) settle(*lamp.return_wire);
  }
}

// What a contact was found to do must be something that a contact can carry; where the row does not say, it does what
// its form has there.
void settle_found(Spec& spec, const Catalogue& catalogue, Diagnostics& diagnostics) {
  std::vector<std::string> forms;   // by plug
  for (const Plug& plug : plugs(spec)) forms.push_back(plug.outlet->form.value);
  for (FoundContact& f : spec.coach.found) {
    if (f.does && f.does->value != "nothing") check_function(*f.does, catalogue, diagnostics);
    const auto form = catalogue.connectors.find(forms[static_cast<std::size_t>(f.plug)]);
    const ConnectorContact* contact = f.does || form == catalogue.connectors.end() ? nullptr : form->second.contact(f.contact.value);
    if (contact != nullptr && !carries_nothing(contact->function)) f.does = PlacedText{contact->function, f.contact.place};
  }
}

void check_lamp_function(const PlacedText& function, const Catalogue& catalogue, Diagnostics& diagnostics) {
  if (catalogue.function(function.value) != nullptr) return;
  std::vector<std::string> known;
  std::string list;
  for (const LampFunction& f : catalogue.functions) {
    known.push_back(f.name);
    list += (list.empty() ? "one of: " : ", ") + f.name;
  }
  const std::string near = did_you_mean(function.value, known);
  diagnostics.error("lamp-function", function.place, "'" + function.value + "' is no lamp function", near.empty() ? list : "did you mean '" + near + "'?");
}

void check_lamp_functions(const Spec& spec, const Catalogue& catalogue, Diagnostics& diagnostics) {
  for (const LampRow& lamp : spec.car.lamps) check_lamp_function(lamp.function, catalogue, diagnostics);
  for (const PlacedText& function : spec.isolation.named) check_lamp_function(function, catalogue, diagnostics);
}

const Connector* find(const Catalogue& catalogue, const std::string& form) {
  const auto found = catalogue.connectors.find(form);
  return found == catalogue.connectors.end() ? nullptr : &found->second;
}

// "round-4-heavy plug" against the outlet's or inlet's own half.
void check_cord_end(const PlacedText& written, const Plug& plug, bool coach, const Catalogue& catalogue, Diagnostics& diagnostics) {
  const Outlet& outlet = coach ? *plug.outlet : *plug.inlet;
  const size_t space = written.value.rfind(' ');
  const std::string form = written.value.substr(0, space), half = space == std::string::npos ? "" : written.value.substr(space + 1);
  const Connector *end = find(catalogue, form), *vehicle = find(catalogue, outlet.form.value);
  if (end == nullptr || end->half(half) == nullptr) {
    diagnostics.error("cord-end", written.place, "'" + written.value + "' is no half of a connector in the catalogue",
                      "write form and half, like blade-7 plug");
    return;
  }
  if (vehicle == nullptr) return;
  const std::string own = outlet.half ? outlet.half->value : coach ? vehicle->outlet_half : vehicle->inlet_half;
  const Mating m = mating({end, half}, {vehicle, own});
  const std::string where = (coach ? "the coach's outlet" : "the car's inlet") + plug.of();
  if (!m.mates)
    diagnostics.error("cord-end", written.place, "this end of the cord does not mate " + where + ": " + m.why,
                      "take a cord whose end is the mate of a " + vehicle->title + ", " + own + " half");
  else if (!m.why.empty())
    diagnostics.warning("cord-end", written.place, "this end mates " + where + ", but: " + m.why, "meter every contact before use");
}

void check_cord(const Plug& plug, const Catalogue& catalogue, Diagnostics& diagnostics) {
  const Cord& cord = *plug.cord;
  if (cord.ends.size() == 2) {
    check_cord_end(cord.ends[0], plug, true, catalogue, diagnostics);
    check_cord_end(cord.ends[1], plug, false, catalogue, diagnostics);
  }
  const Connector *outlet = find(catalogue, plug.outlet->form.value), *inlet = find(catalogue, plug.inlet->form.value);
  if (cord.continuity.empty() || outlet == nullptr || inlet == nullptr) return;
  for (const auto& [from, to] : cord.continuity) {
    const Connector* ends[] = {outlet, inlet};
    const PlacedText* contacts[] = {&from, &to};
    for (int i = 0; i < 2; ++i)
      if (ends[i]->contact(contacts[i]->value) == nullptr && !(i == 1 && contacts[i]->value == "none"))
        diagnostics.error("unknown-contact", contacts[i]->place, "the " + ends[i]->title + " has no contact '" + contacts[i]->value + "'");
  }
}

}  // namespace

bool settle_job(Spec& spec, Catalogue& catalogue, Diagnostics& diagnostics) {
  Diagnostics own;
  settle_outlet(spec.coach.outlet, true, "outlet", catalogue, own);
  settle_outlet(spec.car.inlet, false, "inlet", catalogue, own);
  for (SecondPlug& second : spec.second_plugs) {
    settle_outlet(second.outlet, true, "outlet of the " + second.name.value, catalogue, own);
    settle_outlet(second.inlet, false, "inlet of the " + second.name.value, catalogue, own);
  }
  settle_found(spec, catalogue, own);
  check_lamp_functions(spec, catalogue, own);
  settle_colours(spec.car, catalogue, own);
  for (const Plug& plug : plugs(spec)) check_cord(plug, catalogue, own);
  for (const Diagnostic& d : own.all()) {
    if (d.severity == Severity::error)
      diagnostics.error(d.code, d.place, d.message, d.hint);
    else
      diagnostics.warning(d.code, d.place, d.message, d.hint);
  }
  return !own.has_errors();
}

}  // namespace towloom
