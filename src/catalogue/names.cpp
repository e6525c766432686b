#include "catalogue/names.hpp"

#include <algorithm>

#include "catalogue/settle_parts.hpp"

namespace towloom {
namespace {

struct Check {
  const Spec& spec;
  const Catalogue& catalogue;
  Diagnostics& diagnostics;

  // An error unless the map holds the name; the nearest of its names, or all of them, as advice.
  template <class Map>
  const typename Map::mapped_type* need(const Map& map, const PlacedText& name, const char* code, const std::string& what) {
    const auto found = map.find(name.value);
    if (found != map.end()) return &found->second;
    if (name.value.empty()) return nullptr;   // it lacks, or could not be read: said before
    std::vector<std::string> known;
    std::string list;
    for (const auto& [key, value] : map) {
      known.push_back(key);
      list += (list.empty() ? "" : ", ") + key;
    }
    const std::string near = did_you_mean(name.value, known);
    diagnostics.error(code, name.place, "no " + what + " '" + name.value + "' in the catalogue",
                      near.empty() ? "known: " + list : "did you mean '" + near + "'?");
    return nullptr;
  }
  void outlet(const Outlet&);
  void found_contacts();
  void size(const PlacedSize&);
  void sizes();
  void lamp(const LampRow&);
  void recipes();
};

void Check::outlet(const Outlet& outlet) {
  const Connector* c = need(catalogue.connectors, outlet.form, "unknown-connector", "connector");
  if (c == nullptr || !outlet.half || c->half(outlet.half->value) != nullptr) return;
  std::string list;
  for (const ConnectorHalf& half : c->halves) list += (list.empty() ? "" : ", ") + half.name;
  diagnostics.error("half", outlet.half->place, "'" + outlet.half->value + "' is no half of a " + c->title, "one of: " + list);
}

void Check::found_contacts() {
  const std::vector<Plug> all = plugs(spec);
  for (const FoundContact& f : spec.coach.found) {
    const auto outlet = catalogue.connectors.find(all[static_cast<std::size_t>(f.plug)].outlet->form.value);
    if (outlet != catalogue.connectors.end() && outlet->second.contact(f.contact.value) == nullptr)
      diagnostics.error("unknown-contact", f.contact.place, "the " + outlet->second.title + " has no contact '" + f.contact.value + "'", designation_says(f.contact.value, catalogue));
  }
}

void Check::size(const PlacedSize& named) {
  if (find_size(named.value, spec.wire.standard.value, catalogue) != nullptr) return;
  std::string list;
  const bool metric = named.value.system == WireSizeName::System::mm2;
  const auto series = catalogue.wires.find(metric ? "ISO" : "AWG");
  if (series != catalogue.wires.end())
    for (const WireSize& s : series->second.sizes) list += (list.empty() ? "" : ", ") + s.name.text();
  diagnostics.error("wire-size", named.place, "no wire of size " + named.value.text() + " in the catalogue", "there are: " + list);
}

void Check::sizes() {
  need(catalogue.wires, spec.wire.standard, "wire-standard", "wire series");
  if (spec.wire.basis) need(catalogue.ampacity, *spec.wire.basis, "ampacity-basis", "ampacity basis");
  for (const Plug& plug : plugs(spec)) {
    if (plug.cord->wire) size(*plug.cord->wire);
    for (const auto& [carries, named] : plug.cord->cores) {
      need(catalogue.tow_signals, carries, "unknown-signal", "signal of the tow line");
      size(named);
    }
  }
  for (const auto& [group, named] : spec.wire.size)
    if (named) size(*named);
  for (const LampRow& row : spec.car.lamps) {
    if (row.feed.size) size(*row.feed.size);
    if (row.return_wire && row.return_wire->size) size(*row.return_wire->size);
  }
}

void Check::lamp(const LampRow& row) {
  const auto bulb = catalogue.bulbs.find(row.bulb);
  if (row.bulb.empty() || find_filament(row, catalogue) != nullptr) return;
  if (bulb == catalogue.bulbs.end()) {
    std::vector<std::string> known;
    for (const auto& [name, b] : catalogue.bulbs) known.push_back(name);
    const std::string near = did_you_mean(row.bulb, known);
    diagnostics.error("unknown-lamp", row.source.place, "no lamp '" + row.bulb + "' in the catalogue",
                      near.empty() ? "or give its measured current: 1.86 A" : "did you mean '" + near + "'?");
    return;
  }
  std::string list;
  for (const Filament& f : bulb->second.filaments)
    if (!f.name.empty()) list += (list.empty() ? "" : ", ") + f.name;
  diagnostics.error("filament", row.source.place,
                    row.filament.empty() ? "say which filament of the " + row.bulb + " it is" : "the " + row.bulb + " has no filament '" + row.filament + "'",
                    list.empty() ? "it has one only: write " + row.bulb : "one of: " + list);
}

void Check::recipes() {
  const Isolation& isolation = spec.isolation;
  need(catalogue.methods, isolation.method, "unknown-method", "method");
  if (isolation.converter) need(catalogue.methods, *isolation.converter, "unknown-method", "method");
  for (const auto& [function, method] : isolation.by_function) need(catalogue.methods, method, "unknown-method", "method");
  for (const ExtraRow& row : spec.extras) need(catalogue.extras, row.name, "unknown-extra", "extra");
}

}  // namespace

const WireSize* find_size(const WireSizeName& name, const std::string& series, const Catalogue& catalogue) {
  // Metric names belong to the metric series, gauge numbers to the job's own or to AWG.
  for (const std::string& candidate : {series, std::string(name.system == WireSizeName::System::mm2 ? "ISO" : "AWG")}) {
    const auto found = catalogue.wires.find(candidate);
    if (found == catalogue.wires.end()) continue;
    if (const WireSize* size = found->second.find(name)) return size;
  }
  return nullptr;
}

const Filament* find_filament(const LampRow& row, const Catalogue& catalogue) {
  const auto bulb = catalogue.bulbs.find(row.bulb);
  if (bulb == catalogue.bulbs.end()) return nullptr;
  for (const Filament& f : bulb->second.filaments)
    if (f.name == row.filament) return &f;
  return nullptr;
}

bool check_names(const Spec& spec, const Catalogue& catalogue, Diagnostics& diagnostics) {
  Diagnostics own;
  Check check{spec, catalogue, own};
  for (const Plug& plug : plugs(spec))
    for (const Outlet* end : {plug.outlet, plug.inlet}) check.outlet(*end);
  check.found_contacts();
  if (spec.coach.lamp) check.need(catalogue.bulbs, *spec.coach.lamp, "unknown-lamp", "lamp");
  for (const LampRow& row : spec.car.lamps) check.lamp(row);
  check.sizes();
  check.recipes();
  for (const Diagnostic& d : own.all()) diagnostics.error(d.code, d.place, d.message, d.hint);
  return !own.has_errors();
}

}  // namespace towloom
