// Rules about the outlet, the inlet and the cord between them.
#include <algorithm>

#include "catalogue/mating.hpp"
#include "check/rules.hpp"

namespace towloom {
namespace {

const Connector* find(const Catalogue& catalogue, const std::string& form) {
  const auto found = catalogue.connectors.find(form);
  return found == catalogue.connectors.end() ? nullptr : &found->second;
}

}  // namespace

// A contact that was found to carry something else than its form has there: with the reason, if noted.
void contact_differs(const Asked& q, const RuleRow& row, Findings& out) {
  const Connector* outlet = find(q.catalogue, q.spec.coach.outlet.form.value);
  if (outlet == nullptr) return;
  for (const FoundContact& found : q.spec.coach.found) {
    const ConnectorContact* contact = outlet->contact(found.contact.value);
    if (contact == nullptr || !found.does || found.does->value == contact->function) continue;
    add(out, row, found.does->place,
        "contact " + contact->number + " of the outlet was found to carry " + found.does->value + "; a " + outlet->title + " has " +
            contact->title + " there" + (found.note.empty() ? "" : ": " + found.note),
        found.note.empty() ? "meter it again, and write the reason into its note" : "label the outlet, so that the next fitter knows");
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
