// What a job says of one outlet or inlet, settled against its form.
#include <algorithm>
#include <charconv>
#include <cmath>
#include <tuple>

#include "catalogue/cord.hpp"
#include "catalogue/settle_parts.hpp"

namespace towloom {
namespace {

// The row that a job names, or nothing and an error.
template <class Map>
const typename Map::mapped_type* named(const Map& map, const PlacedText& name, const char* what, const Connector& c,
                                       Diagnostics& diagnostics) {
  const auto found = map.find(name.value);
  if (found != map.end()) return &found->second;
  diagnostics.error(what, name.place, "the " + c.title + " has no " + what + " '" + name.value + "'", names_of(map));
  return nullptr;
}

// "3 o'clock", "1:30 o'clock", "centre"; of a flat face "2 from left". As seen on the mating face of the part.
std::optional<FacePoint> read_position(const std::string& text, const Connector& c) {
  if (c.shell == "round" && text == "centre") return FacePoint{0, 0};
  const std::string_view ending = c.shell == "round" ? " o'clock" : " from left";
  if (text.size() <= ending.size() || text.substr(text.size() - ending.size()) != ending) return std::nullopt;
  const std::string head = text.substr(0, text.size() - ending.size());
  int whole = 0, minutes = 0;
  auto read = std::from_chars(head.data(), head.data() + head.size(), whole);
  if (read.ec == std::errc{} && c.shell == "round" && *read.ptr == ':') read = std::from_chars(read.ptr + 1, head.data() + head.size(), minutes);
  if (read.ec != std::errc{} || read.ptr != head.data() + head.size() || whole < 1 || minutes < 0 || minutes > 59) return std::nullopt;
  if (c.shell == "round") {
    if (whole > 12) return std::nullopt;
    const double angle = (whole + minutes / 60.0) * std::acos(-1.0) / 6;
    return FacePoint{std::sin(angle), std::cos(angle)};
  }
  std::vector<FacePoint> row;   // the places of the face, left to right; rows from the top
  for (const ConnectorContact& k : c.contacts) row.emplace_back(k.x, k.y);
  std::sort(row.begin(), row.end(), [](const FacePoint& a, const FacePoint& b) { return a.second != b.second ? a.second > b.second : a.first < b.first; });
  if (whole > static_cast<int>(row.size())) return std::nullopt;
  return row[static_cast<std::size_t>(whole - 1)];
}

Provenance as_found(const Outlet& outlet) { return {"as found: " + outlet.why->value, Confidence::agreed, outlet.why->place}; }

ConnectorContact* contact_of(Connector& c, const PlacedText& name, Diagnostics& diagnostics) {
  if (const ConnectorContact* k = c.contact(name.value)) return &c.contacts[static_cast<std::size_t>(k - c.contacts.data())];
  diagnostics.error("unknown-contact", name.place, "the " + c.title + " has no contact '" + name.value + "'");
  return nullptr;
}

void settle_pins(const Outlet& outlet, Connector& c, const Catalogue& catalogue, Diagnostics& diagnostics) {
  for (const auto& [name, function] : outlet.pins) {
    ConnectorContact* k = contact_of(c, name, diagnostics);
    if (k == nullptr || !check_function(function, catalogue, diagnostics)) continue;
    k->stated = true;
    k->provenance = as_found(outlet);
    if (k->function == function.value) continue;
    c.allocations[as_made_key].contacts[k->number] = {k->function, k->title, name.place};
    k->function = function.value;
    k->title = catalogue.contact_functions.at(function.value).title;
  }
}

// Positions are read on the part's own half; the catalogue gives those of its view half.
void settle_positions(const Outlet& outlet, const std::string& half, Connector& c, Diagnostics& diagnostics) {
  const double sign = half == c.view_half ? 1 : -1;
  Connector seen = c;
  for (ConnectorContact& k : seen.contacts) k.x *= sign;
  for (const auto& [name, text] : outlet.positions) {
    ConnectorContact* k = contact_of(c, name, diagnostics);
    if (k == nullptr) continue;
    if (const auto at = read_position(text.value, seen)) {
      k->x = at->first == 0 ? 0 : sign * at->first;
      k->y = at->second;
      k->position = as_found(outlet);
    } else {
      diagnostics.error("position", text.place, "'" + text.value + "' is no position on the face of a " + c.title,
                        c.shell == "round" ? "write it as you see it on the mating face: 3 o'clock, 1:30 o'clock or centre"
                                           : "write it as you see it on the mating face: 2 from left");
    }
  }
  constexpr double nearest = 0.2;   // units, as the catalogue's own places
  for (const auto& [name, text] : outlet.positions)
    for (const ConnectorContact& other : c.contacts) {
      const ConnectorContact* k = c.contact(name.value);
      if (k != nullptr && k != &other && std::hypot(k->x - other.x, k->y - other.y) < nearest)
        return diagnostics.error("position", text.place, "contacts " + k->number + " and " + other.number + " would stand in one place",
                                 "give the position of each contact that is not where the catalogue has it");
    }
}

}  // namespace

std::string designation_says(const std::string& mark, const Catalogue& catalogue) {
  const auto found = catalogue.designations.find(mark);
  if (found == catalogue.designations.end()) return "";
  const std::string& older = found->second.older;
  return mark + (older.empty() ? " is " + found->second.meaning : " can be " + found->second.meaning + ", or in older lists " + older) +
         ": write the contact's number";
}

bool check_function(const PlacedText& function, const Catalogue& catalogue, Diagnostics& diagnostics) {
  if (catalogue.contact_functions.count(function.value) != 0) return true;
  std::vector<std::string> known;
  for (const auto& [name, f] : catalogue.contact_functions) known.push_back(name);
  const std::string near = did_you_mean(function.value, known);
  diagnostics.error("function", function.place, "no contact function '" + function.value + "' in the catalogue",
                    near.empty() ? names_of(catalogue.contact_functions) : "did you mean '" + near + "'?");
  return false;
}

void settle_outlet(Outlet& outlet, bool coach, const std::string& where, Catalogue& catalogue, Diagnostics& diagnostics) {
  const auto found = catalogue.connectors.find(outlet.form.value);
  if (found == catalogue.connectors.end()) return;  // said when the circuit is built
  if (!outlet.layout && !outlet.use && !outlet.colours && outlet.pins.empty() && outlet.positions.empty()) return;
  Connector c = found->second;
  const std::string usual_half = coach ? c.outlet_half : c.inlet_half;
  if (outlet.layout) {
    if (const auto* layout = named(c.layouts, *outlet.layout, "layout", c, diagnostics)) {
      for (ConnectorContact& k : c.contacts) {
        std::tie(k.x, k.y) = layout->at.at(k.number);
        k.position = layout->provenance;
      }
      c.title += ", " + layout->title;
    }
    c.name += ", " + outlet.layout->value;
  }
  if (outlet.use) {
    if (const auto* use = named(c.allocations, *outlet.use, "use", c, diagnostics)) {
      for (ConnectorContact& k : c.contacts) {
        const auto other = use->contacts.find(k.number);
        if (other == use->contacts.end()) continue;
        k.function = other->second.function;
        k.title = other->second.title;
        k.provenance = use->provenance;
      }
      c.title += ", " + use->title;
    }
    c.name += ", " + outlet.use->value;
  }
  if (outlet.colours) {
    if (named(c.colour_sets, *outlet.colours, "colours", c, diagnostics) != nullptr) c.default_colours = outlet.colours->value;
    c.name += ", " + outlet.colours->value;
  }
  if (!outlet.pins.empty() || !outlet.positions.empty()) {
    if (!outlet.why) return;   // said when the job was read
    settle_pins(outlet, c, catalogue, diagnostics);
    settle_positions(outlet, outlet.half ? outlet.half->value : usual_half, c, diagnostics);
    c.name += ", as found at the " + where;
    c.title += ", as found";
  }
  outlet.form.value = c.name;
  catalogue.connectors.emplace(c.name, std::move(c));
}

}  // namespace towloom
